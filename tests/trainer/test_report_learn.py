"""``sixline learn``: what it keeps, what it says, what comes first after it, and what it refuses. Our own rules."""

from __future__ import annotations

import errno
import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.trainer.profile.faults import START, everything
from tests.trainer.typing_learner import Terminal
from trainer.profile.files import Disk
from trainer.profile.lock import ProfileLock
from trainer.profile.store import Profile

SONG = """\
My own song
Capo 2

 1   &   2   &   3   &   4   &
e|--------------------------------|
B|----------1h3-------------------|
G|------0---------0---------------|
D|--2---------------------2-------|
A|--3-----------------------------|
E|--------------------------------|
some words to sing
e|--------------------------------|
B|------0---------3p1-------------|
G|--------------------------------|
D|--2---------------------5/7-----|
A|--------------------------------|
E|--------------------------------|
"""
UNKNOWN = "G|--0--3-|\nD|--2---|\nA|--2---|\nE|-0----|\n"
"""Four strings that are those of a bass or the last four of a guitar with one left out: labels cannot tell."""
KEYS = {"profile", "title", "kept", "replaced", "capo", "tuning", "reading", "first", "problems"}


@pytest.fixture
def song(tmp_path: Path) -> Path:
    path = tmp_path / "song.txt"
    path.write_text(SONG, encoding="utf-8", newline="")
    return path


def asked_first(terminal: Terminal, count: int = 40) -> list[str]:
    """The items that a sitting brings new, in their order, to somebody who answers right and fast."""
    answers = {item["id"]: next(iter(item["answers"]), "") for item in terminal.json("items")}

    def right(ask: dict[str, Any]) -> dict[str, Any]:
        return {"answer": answers[ask["id"]], "seconds": 0.9}

    lines = terminal.learn(right, "--answers", str(count))
    return [line["ask"]["id"] for line in lines if "ask" in line and line["ask"]["why"] == "new"]


def test_a_piece_is_kept_and_the_next_sitting_brings_what_it_needs(terminal: Terminal, song: Path) -> None:
    code, out = terminal.run("learn", str(song))
    assert (code, terminal.errors) == (0, "")
    rows = out.splitlines()
    assert rows[0] == "Kept: My own song (Guitar, standard, capo at fret 2)"
    kept = terminal.home / "profiles" / "me" / "pieces" / "my-own-song.txt"
    assert rows[1] == f"Its text is in {kept}"
    assert kept.read_bytes() == song.read_bytes()
    assert any("you read 0 (0%) fluently" in row for row in rows)
    found = terminal.json("learn", str(song))
    first = set(found["first"])
    assert f"on {len(first)} items that you have not met come first" in rows[-1]
    new = asked_first(terminal)
    assert len(new) >= 10
    assert set(new) <= first
    assert {id.split("/")[0] for id in new} >= {"line-to-string", "mark-name"}
    left = len(first - set(new))
    out = terminal.run("today")[1]
    assert f"First among the new: what My own song needs, {left} items not met yet." in out.splitlines()


def test_without_a_piece_other_items_come_new(terminal: Terminal, song: Path) -> None:
    """So that the test above can fail."""
    new = asked_first(terminal)
    assert not set(new) <= set(terminal.json("learn", str(song))["first"])
    assert "First among the new" not in terminal.run("today", "--profile", "other")[1]


def test_the_document_is_the_same_every_time(terminal: Terminal, song: Path) -> None:
    found, again = (terminal.json("learn", str(song)) for _ in range(2))
    assert set(found) == KEYS
    assert (found["replaced"], again["replaced"]) == (False, True)
    assert {**found, "replaced": True} == again
    assert (found["title"], found["capo"], found["tuning"]["name"]) == ("My own song", 2, "standard")
    assert set(found["reading"]["to_learn"]) == set(found["first"])  # of somebody who has met nothing
    assert len(Profile.open(terminal.home, "me").pieces) == 1


def test_a_piece_from_standard_input_without_a_title(terminal: Terminal) -> None:
    rows = SONG.splitlines()[4:10]
    code, out = terminal.run("learn", "-", lines=rows)
    assert (code, terminal.errors) == (0, "")
    assert out.startswith("Kept: Untitled (Guitar, standard)")
    (piece,) = Profile.open(terminal.home, "me").pieces
    text = (terminal.home / "profiles" / "me" / "pieces" / piece.file).read_text(encoding="utf-8")
    assert text.splitlines() == rows


def test_a_name_is_no_path_and_steers_no_terminal(terminal: Terminal, tmp_path: Path) -> None:
    path = tmp_path / "\u202etab.txt"
    path.write_text("Title: ../../\x1b[2Jevil\n" + "\n".join(SONG.splitlines()[4:10]), encoding="utf-8")
    code, out = terminal.run("learn", str(path))
    assert code == 0
    assert out.replace("\n", "").isprintable()
    files = [path.name for path in (terminal.home / "profiles" / "me" / "pieces").iterdir()]
    assert len(files) == 1
    assert set(files[0]) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.")


@pytest.mark.parametrize(
    ("text", "says", "mend"),
    [("hello\n", "no tab was found", "three or more rows"), (UNKNOWN, "its tuning is unknown", "--tuning NAME")],
)
def test_what_cannot_be_learned_is_refused_in_one_line(terminal: Terminal, text: str, says: str, mend: str) -> None:
    code, out = terminal.run("learn", "-", lines=text.splitlines())
    assert (code, out) == (1, "")
    (line,) = terminal.errors.splitlines()
    assert line.startswith(f"sixline: {says} (standard input")
    assert mend in line
    code, out = terminal.run("learn", "-", "--json", lines=text.splitlines())
    assert (code, terminal.errors) == (1, "")
    found = json.loads(out)
    assert (set(found), found["kept"], found["first"]) == (KEYS, None, [])
    assert not terminal.home.exists()


def test_the_tuning_that_was_given_is_kept(terminal: Terminal) -> None:
    code, out = terminal.run("learn", "-", "--tuning", "bass", "--capo", "3", lines=UNKNOWN.splitlines())
    assert code == 0
    (piece,) = Profile.open(terminal.home, "me").pieces
    assert (piece.tuning, piece.capo) == ("bass", 3)
    assert any(item.startswith("tab-to-place/bass/") for item in piece.items)
    assert "its places and notes are asked once your tuning is bass" in out


@pytest.mark.parametrize(
    ("argv", "says"),
    [
        (["/no/such/file"], "(/no/such/file)"), (["-", "--tuning", "standrd"], "did you mean standard?"),
        (["-", "--capo", "99"], "is no fret"), ([], "sixline learn --help"),
    ],
)  # fmt: skip
def test_wrong_usage_is_one_line(terminal: Terminal, argv: list[str], says: str) -> None:
    code, out = terminal.run("learn", *argv)
    assert (code, out) == (2, "")
    (line,) = terminal.errors.splitlines()
    assert line.startswith("sixline: ")
    assert says in line
    assert not terminal.home.exists()


def failing(point: str, number: int) -> Callable[[Disk, str, Path], None]:
    def reach(disk: Disk, at: str, path: Path) -> None:
        if at == point and "piece" in str(path):
            raise OSError(number, os.strerror(number), str(path))

    return reach


@pytest.mark.parametrize("point", ["make_folder", "create", "write", "fsync", "rename"])
def test_a_full_disk_is_told_in_one_line_and_leaves_all_as_it_was(
    terminal: Terminal, song: Path, point: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert terminal.run("learn", str(song))[0] == 0
    before = everything(terminal.home)
    song.write_text(SONG.replace("1h3", "3p1"), encoding="utf-8")
    monkeypatch.setattr(Disk, "reach", failing(point, errno.ENOSPC))
    code, out = terminal.run("learn", str(song))
    assert (code, out) == (2, "")
    (line,) = terminal.errors.splitlines()
    assert line.startswith("sixline: the piece is not kept, the disk is full (")
    assert line.endswith(": free some space on that disk")
    assert everything(terminal.home) == before


def test_a_broken_list_of_pieces_is_told_and_kept(terminal: Terminal, song: Path) -> None:
    terminal.run("learn", str(song))
    path = terminal.home / "profiles" / "me" / "pieces.toml"
    path.write_text("what?", encoding="utf-8")
    code, out = terminal.run("learn", str(song))
    assert (code, out) == (2, "")
    (line,) = terminal.errors.splitlines()
    assert line.startswith("sixline: the piece is not kept, it cannot be understood")
    assert str(path) in line
    assert path.read_text(encoding="utf-8") == "what?"
    assert terminal.run("today")[0] == 0
    assert "no piece comes first" in terminal.errors


def test_a_profile_in_use_is_not_written(terminal: Terminal, song: Path) -> None:
    folder = terminal.home / "profiles" / "me"
    folder.mkdir(parents=True)
    profile = Profile.open(terminal.home, "me")
    lock = ProfileLock(profile.folder, Disk())
    lock.acquire("me", START)
    try:
        code, out = terminal.run("learn", str(song))
    finally:
        lock.release()
    assert (code, out) == (2, "")
    assert "profile me is in use" in terminal.errors
    assert not (folder / "pieces.toml").exists()


def test_a_piece_with_errors_is_kept_and_they_are_listed(terminal: Terminal, tmp_path: Path) -> None:
    rows = SONG.splitlines()
    number, column = 9, 20
    rows[number - 1] = rows[number - 1][: column - 1] + "\N{CURRENCY SIGN}" + rows[number - 1][column:]
    path = tmp_path / "slip.txt"
    path.write_text("\n".join(rows), encoding="utf-8")
    code, out = terminal.run("learn", str(path))
    assert code == 1
    (line,) = terminal.errors.splitlines()
    assert line.startswith("sixline: ")
    assert f"({path}, line {number}, column {column}): " in line
    assert out.startswith("Kept: My own song")
    code, out = terminal.run("learn", str(path), "--json")
    found = json.loads(out)
    assert (code, terminal.errors, found["replaced"]) == (1, "", True)
    (problem,) = found["problems"]
    assert set(problem) == {"line", "column", "severity", "message", "mend"}
    assert (problem["line"], problem["column"], problem["severity"]) == (number, column, "error")


def test_it_tells_the_same_of_a_piece_as_reading_it(terminal: Terminal, song: Path) -> None:
    read, learned = terminal.json("read", str(song)), terminal.json("learn", str(song))
    assert learned["reading"] == read["reading"]
    assert learned["capo"] == read["capo"]
    assert learned["tuning"].items() <= read["tuning"].items()
