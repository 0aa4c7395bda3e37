"""Which machine this is."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from trainer.profile.device import known_device, own_device
from trainer.profile.files import Disk


def test_an_id_is_drawn_once_and_kept(tmp_path: Path) -> None:
    assert known_device(tmp_path, Disk(), "laptop") is None
    drawn = own_device(tmp_path / "home", Disk(), "laptop")
    assert re.fullmatch("[a-z0-9]{6}", drawn)
    assert own_device(tmp_path / "home", Disk(), "laptop") == known_device(tmp_path / "home", Disk(), "laptop") == drawn
    table = tomllib.loads((tmp_path / "home" / "device.toml").read_text(encoding="utf-8"))
    assert (table["id"], table["host"]) == (drawn, "laptop")


def test_a_copy_on_another_machine_draws_a_new_id(tmp_path: Path) -> None:
    first = own_device(tmp_path, Disk(), "laptop")
    second = own_device(tmp_path, Disk(), "desktop")
    assert first != second
    assert [path.name for path in tmp_path.iterdir()] == ["device.toml"]


@pytest.mark.parametrize("text", ["", "id = 3", "[", 'format = 2\nid = "abcdef"\nhost = "laptop"'])
def test_a_file_that_is_not_understood_is_kept(tmp_path: Path, text: str) -> None:
    (tmp_path / "device.toml").write_text(text)
    own_device(tmp_path, Disk(), "laptop")
    kept = [path for path in tmp_path.iterdir() if path.name != "device.toml"]
    assert [path.read_text() for path in kept] == [text]


def test_an_id_that_is_no_id_is_drawn_again(tmp_path: Path) -> None:
    (tmp_path / "device.toml").write_text('id = "../../x"\nhost = "laptop"\n')
    assert known_device(tmp_path, Disk(), "laptop") is None
    assert re.fullmatch("[a-z0-9]{6}", own_device(tmp_path, Disk(), "laptop"))
