"""profile list, show, check and rebuild."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.trainer.profile.faults import DAY, START, everything, practise, record_files
from trainer.profile.care import check_profile, list_profiles, rebuild_profile, show_profile
from trainer.profile.lock import HeldError
from trainer.profile.store import Profile


def test_the_list_says_where_files_are_and_what_is_in_them(tmp_path: Path) -> None:
    assert list_profiles(tmp_path / "none") == []
    practise(tmp_path, 4)
    (tmp_path / "profiles" / "Empty one").mkdir()
    before = everything(tmp_path)
    empty, mine = list_profiles(tmp_path)
    assert (empty.name, empty.answers, empty.last_day) == ("Empty one", 0, None)
    assert (mine.name, mine.answers, mine.days, mine.last_day) == ("me", 4, 1, DAY)
    assert mine.folder == tmp_path / "profiles" / "me"
    assert dict(mine.files)[record_files(tmp_path)[0]] == record_files(tmp_path)[0].stat().st_size
    assert mine.devices == (record_files(tmp_path)[0].name[8:14],)
    assert everything(tmp_path) == before


@pytest.mark.parametrize("name", ["nobody", "con", "../x"])
def test_a_profile_that_is_not_there_is_told_and_not_made(tmp_path: Path, name: str) -> None:
    for ask in (show_profile, check_profile):
        with pytest.raises(ValueError, match="no profile"):
            ask(tmp_path, name)
    with pytest.raises(ValueError, match="no profile"):
        rebuild_profile(tmp_path, name, START)
    assert list(tmp_path.iterdir()) == []


def test_a_sound_profile_has_no_problems(tmp_path: Path) -> None:
    practise(tmp_path, 4)
    assert check_profile(tmp_path, "me") == []


def test_what_is_told_of_a_strange_file_can_go_to_a_terminal(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    (record_files(tmp_path)[0].parent / "a\x1b[2J\u202e").write_text("")
    (problem,) = check_profile(tmp_path, "me")
    assert str(problem).isprintable()


def test_check_finds_everything_and_changes_nothing(tmp_path: Path) -> None:
    practise(tmp_path, 4)
    folder = tmp_path / "profiles" / "me"
    (path,) = record_files(tmp_path)
    path.write_bytes(path.read_bytes().replace(b"day", b"dya", 2) + b"torn")
    (folder / "profile.toml").write_text("capo = 99\n")
    (folder / "memory.toml").write_text("what?")
    before = everything(tmp_path)
    found = [(problem.severity, Path(problem.file).name, problem.line) for problem in check_profile(tmp_path, "me")]
    assert sorted(found, key=str) == sorted(
        [
            ("warning", "profile.toml", 1),
            ("error", path.name, 3),
            ("error", path.name, 4),
            ("note", path.name, None),
            ("warning", "me", None),
        ],
        key=str,
    )
    assert everything(tmp_path) == before


@pytest.mark.parametrize("name", ["profile.toml", "memory.toml", "history.toml", "lock", "holder.toml", "the record"])
@pytest.mark.parametrize("kind", ["a folder", *(["no ordinary file"] if hasattr(os, "mkfifo") else [])])
def test_what_is_no_file_is_told_once_and_waits_for_nobody(tmp_path: Path, name: str, kind: str) -> None:
    practise(tmp_path, 1)
    (record,) = record_files(tmp_path)
    path = record if name == "the record" else tmp_path / "profiles" / "me" / name
    path.unlink(missing_ok=True)
    if kind == "a folder":
        path.mkdir()
    else:
        os.mkfifo(path)  # opening it to read would wait for a writer
    (problem,) = [each for each in check_profile(tmp_path, "me") if each.severity != "note"]
    assert (problem.severity, problem.file) == ("error", str(path))
    assert problem.message == f"{kind} stands in its place"
    assert Profile.open(tmp_path, "me").name == "me"


def test_rebuild_makes_memory_again_and_touches_nothing_else(tmp_path: Path) -> None:
    practise(tmp_path, 9)
    folder = tmp_path / "profiles" / "me"
    sound = everything(folder)
    for name in ("memory.toml", "history.toml"):
        (folder / name).write_bytes(b"")
    assert rebuild_profile(tmp_path, "me", START).answers == 9
    after = everything(folder)
    for name, data in sound.items():
        assert after[name] == data


def test_rebuild_waits_for_no_other_process(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    writer = Profile.open(tmp_path, "me", write=True)
    writer.acquire(START)
    with pytest.raises(HeldError):
        rebuild_profile(tmp_path, "me", START)
    writer.close(START)
