"""Items that were kept are those that the drills work out, and nothing else is ever taken for them."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from drills import kept_items, resources
from drills.catalogue import worked_out
from drills.notation.tuning import shipped
from drills.question import Item
from tests.drills.samples import EVERY

STANDARD = shipped()["standard"]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where items are kept, empty, with bytecode wanted."""
    monkeypatch.setattr(kept_items, "FOLDER", tmp_path)
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    return tmp_path


@pytest.fixture
def items() -> tuple[Item, ...]:
    return worked_out(STANDARD)


@pytest.mark.parametrize("tuning", EVERY)
def test_kept_items_come_back_as_they_were(folder: Path, tuning: str) -> None:
    made = worked_out(shipped()[tuning])
    assert kept_items.read(shipped()[tuning]) is None
    kept_items.write(shipped()[tuning], made)
    assert kept_items.read(shipped()[tuning]) == made


def test_a_change_of_code_or_data_makes_them_anew(
    folder: Path, items: tuple[Item, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    data = folder / "shapes"
    data.mkdir()
    (data / "tunings.toml").write_text("")
    monkeypatch.setattr(resources, "data_folder", lambda: data)
    kept_items.write(STANDARD, items)
    assert kept_items.read(STANDARD) == items
    (data / "tunings.toml").write_text("#")
    assert kept_items.read(STANDARD) is None
    kept_items.write(STANDARD, items)
    (data / "more.txt").write_text("")
    assert kept_items.read(STANDARD) is None


@pytest.mark.parametrize(
    "harm",
    [
        lambda text: text[: len(text) // 2],
        lambda text: "",
        lambda text: text.replace("\tline\t", "\tlime\t", 1),
        lambda text: text.replace("\t1.2", "\tsoon", 1),
        lambda text: text.replace("\t", " ", 1),
        lambda text: text.replace("line-to-string", "line-to-strinG"),
        lambda text: text.replace("\t1.2", "\t9.9", 1),
    ],
)
def test_a_broken_file_is_not_believed(folder: Path, items: tuple[Item, ...], harm: object) -> None:
    kept_items.write(STANDARD, items)
    [file] = folder.iterdir()
    assert callable(harm)
    broken = harm(file.read_text(encoding="utf-8"))
    assert broken != file.read_text(encoding="utf-8")
    file.write_text(broken, encoding="utf-8")
    assert kept_items.read(STANDARD) is None


def test_bytes_that_are_no_text_are_not_believed(folder: Path, items: tuple[Item, ...]) -> None:
    kept_items.write(STANDARD, items)
    [file] = folder.iterdir()
    file.write_bytes(b"\xff\xfe" + file.read_bytes())
    assert kept_items.read(STANDARD) is None


def test_where_no_bytecode_is_kept_nothing_is(
    folder: Path, items: tuple[Item, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    kept_items.write(STANDARD, items)
    assert list(folder.iterdir()) == []


def test_a_folder_that_cannot_be_written_to_is_no_trouble(
    folder: Path, items: tuple[Item, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept_items, "FOLDER", folder / "missing")
    kept_items.write(STANDARD, items)
    assert kept_items.read(STANDARD) is None
    assert list(folder.iterdir()) == []
