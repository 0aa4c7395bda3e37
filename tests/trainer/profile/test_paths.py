"""Where files are, and which names a profile may have."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from trainer.profile.files import Disk
from trainer.profile.paths import check_name, home_folder, profile_folder, profile_names


def test_the_given_home_wins_over_the_environment(tmp_path: Path) -> None:
    environ = {"SIXLINE_HOME": str(tmp_path / "b"), "XDG_DATA_HOME": str(tmp_path / "c")}
    assert home_folder(str(tmp_path / "a"), environ) == tmp_path / "a"
    assert home_folder(None, environ) == tmp_path / "b"


@pytest.mark.skipif(sys.platform == "win32", reason="XDG is for Unix")
def test_xdg_counts_on_every_unix_if_it_is_absolute(tmp_path: Path) -> None:
    assert home_folder(None, {"XDG_DATA_HOME": str(tmp_path)}) == tmp_path / "sixline"
    # XDG Base Directory Specification 0.8: relative paths are invalid and to be ignored.
    assert home_folder(None, {"XDG_DATA_HOME": "relative"}).is_absolute()


def test_the_platforms_own_folder_is_used_last() -> None:
    import platformdirs

    assert home_folder(None, {}) == Path(platformdirs.user_data_dir("sixline", appauthor=False))


@pytest.mark.parametrize("name", ["me", "A", "a b", "Ann-Lee_2", "-", "_x", "x" * 40, "com", "com10", "console"])
def test_names_that_may_be(name: str) -> None:
    assert check_name(name) == name


@pytest.mark.parametrize(
    "name",
    ["", " ", " a", "a ", "x" * 41, "a.b", "a/b", "a\\b", "..", "é", "a\n", "a\tb", "\x1b[2J", "[b]", "a:b", "١"],
)
def test_names_that_may_not_be(name: str) -> None:
    with pytest.raises(ValueError, match="1 to 40 letters") as caught:
        check_name(name)
    assert str(caught.value).isprintable()


@pytest.mark.parametrize("name", ["con", "NUL", "Aux", "prn", "com0", "COM1", "com9", "lpt1", "LPT9"])
def test_device_names_of_any_platform_may_not_be(name: str) -> None:
    with pytest.raises(ValueError, match="device"):
        check_name(name)


def test_an_existing_folder_is_found_without_case(tmp_path: Path) -> None:
    (tmp_path / "profiles" / "Anna").mkdir(parents=True)
    assert profile_folder(tmp_path, "aNNa", Disk()).name == "Anna"
    assert profile_folder(tmp_path, "Bob", Disk()) == tmp_path / "profiles" / "Bob"
    assert not (tmp_path / "profiles" / "Bob").exists()


def test_profiles_are_listed_and_strangers_left_out(tmp_path: Path) -> None:
    for name in ("zoe", "Anna", ".git", "a.b"):
        (tmp_path / "profiles" / name).mkdir(parents=True)
    (tmp_path / "profiles" / "file").write_text("")
    assert profile_names(tmp_path, Disk()) == ["Anna", "zoe"]
    assert profile_names(tmp_path / "missing", Disk()) == []


def test_opening_a_profile_imports_nothing_that_can_come_later() -> None:
    late = ["pydantic", "filelock", "tomlkit", "tomli_w", "platformdirs", "fsrs", "textual"]
    script = (
        "import sys, tempfile, pathlib\nfrom trainer.profile.store import Profile\n"
        "Profile.open(pathlib.Path(tempfile.gettempdir()) / 'no-such-home', 'me', write=True)\n"
        f"print([name for name in {late} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
