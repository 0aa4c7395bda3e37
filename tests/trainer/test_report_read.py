"""``sixline read`` as somebody types it: what it draws, says, refuses, and leaves alone."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.trainer.tabs import SONG, read
from tests.trainer.typing_learner import Terminal
from trainer.profile.store import Profile
from trainer.reports import tab_file
from trainer.schedule.event import Event


@pytest.fixture
def song(tmp_path: Path) -> Path:
    path = tmp_path / "song.txt"
    path.write_text(SONG, encoding="utf-8")
    return path


def learned(home: Path, wanted: list[str], days: int) -> None:
    """A profile that has answered items right and fast on so many days, three days apart."""
    profile = Profile.open(home, "me", write=True)
    for n in range(days):
        at = datetime(2026, 10, 1, 8, tzinfo=UTC) + timedelta(days=3 * n)
        for number, id in enumerate(wanted):
            moment = at + timedelta(seconds=5 * number)
            profile.keep(Event(20727 + 3 * n, id, True, "x", 0.9, 0.5, 1.7), moment)
    profile.close(datetime(2026, 11, 1, 8, tzinfo=UTC))


def test_the_piece_its_tuning_and_its_doubts_are_told(terminal: Terminal, song: Path) -> None:
    code, out = terminal.run("read", str(song))
    rows = out.splitlines()
    assert (code, terminal.errors) == (0, "")
    assert rows[0] == "My own song"
    assert rows[1].startswith("Tuning: Guitar, standard (E4 B3 G3 D3 A2 E2 from string 1)")
    assert rows[2] == "Capo at fret 2: frets are counted from it"
    assert rows[3] == "1 system, 2 bars, 17 notes"
    assert any(re.match(r"  2:1: note: .*; give --capo", row) for row in rows)
    assert "Of 17 notes you read 0 (0%) fluently and know 0 (0%)." in rows
    assert not terminal.home.exists()


def test_it_says_in_which_bars_notes_are_left_out(terminal: Terminal) -> None:
    rows = ["--5--|--29--|--7--|"] + ["-----|------|-----|"] * 5
    code, out = read(terminal, "\n".join(f"{label}|{row}" for label, row in zip("eBGDAE", rows, strict=True)))
    assert code == 0
    assert re.search(r"^2 notes left out: .* \(bar 2\)\.$", out, re.M)  # no neck has fret 29: two numbers, maybe


def test_standard_input_is_read(terminal: Terminal, song: Path) -> None:
    by_name = terminal.json("read", str(song))
    code, out = terminal.run("read", "-", "--json", lines=SONG.splitlines())
    assert code == 0
    assert json.loads(out) == by_name


def test_tuning_and_capo_can_be_told(terminal: Terminal) -> None:
    text = "G|--0--2--|\nD|--------|\nA|--3-----|\nE|--------|\n"
    code, out = read(terminal, text)
    assert code == 0
    assert "Tuning: unknown" in out
    assert "cannot be said" in out
    code, out = read(terminal, text, "--tuning", "bass", "--capo", "2", "--json")
    found = json.loads(out)
    assert found["tuning"]["from"] == "given"
    assert found["capo"] == 2
    low = [note for onset in found["bars"][0]["onsets"] for note in onset["notes"] if note["string"] == 3]
    assert low[0]["midi"] == 33 + 3 + 2  # A1, three frets, the capo


def test_without_any_tab_it_says_so_and_ends_with_1(terminal: Terminal) -> None:
    code, out = read(terminal, "A letter to a friend.\nNo tab in here.\n")
    assert code == 1
    assert re.search(r"^  1:1: error: no tab was found; ", out, re.M)
    assert "Of " not in out
    code, out = read(terminal, b"", "--json")
    assert code == 1
    assert json.loads(out)["bars"] == []


@pytest.mark.parametrize(
    ("argv", "says"),
    [
        (("read", "no-such-file.txt"), "cannot be read"),
        (("read", "."), "cannot be read"),
        (("read", "a\0b"), "cannot be read"),
        (("read", "-", "--tuning", "standrad"), "did you mean standard?"),
        (("read", "-", "--capo", "13"), "no fret from 0 to 12"),
        (("read", "-", "--capo", "two"), "no fret from 0 to 12"),
        (("read",), "FILE"),
    ],
)
def test_what_cannot_be_done_is_told_in_one_line(terminal: Terminal, argv: tuple[str, ...], says: str) -> None:
    code, out = terminal.run(*argv)
    assert (code, out) == (2, "")
    (line,) = terminal.errors.splitlines()
    assert line.startswith("sixline: ")
    assert says in line
    assert line.isprintable()


def test_what_is_too_large_is_refused_unread(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, song: Path
) -> None:
    monkeypatch.setattr(tab_file, "MOST_BYTES", 100)
    for argv in (("read", str(song)), ("read", "-", "--json")):
        code, out = terminal.run(*argv, lines=SONG.splitlines())
        assert (code, out) == (2, "")
        assert len(terminal.errors.splitlines()) == 1
        assert "larger than" in terminal.errors


HOSTILE = (
    "\x1b]0;owned\x07 \u202etitle\u202c [bold red]x[/]\n"
    "Tuning: \x1b[31mE A D G B E\n"
    "e|--0--\x1b[2J--3--|\u202e\nB|--[red]1[/]--|\nG|-------|\nD|--\u00853--|\nA|-------|\nE|--\x00--|\n"
)


def test_nothing_in_the_file_steers_the_terminal(terminal: Terminal) -> None:
    code, out = read(terminal, HOSTILE)
    assert code in (0, 1)
    assert all(line.isprintable() for line in out.splitlines())
    found = json.loads(read(terminal, HOSTILE, "--json")[1])
    assert set(found) == {"title", "capo", "tuning", "counts", "bars", "marks", "problems", "reading"}


@pytest.mark.parametrize(
    "data", [b"\xff\xfe\x00\xd8", b"\x00" * 500, bytes(range(256)) * 20, b"|" * 5000, b"-\n" * 999]
)
def test_any_bytes_give_a_document(terminal: Terminal, data: bytes) -> None:
    code, out = read(terminal, data, "--json")
    assert code in (0, 1)
    assert isinstance(json.loads(out)["bars"], list)
    code, out = read(terminal, data)
    assert code in (0, 1)
    assert all(line.isprintable() for line in out.splitlines())


def test_how_much_is_read_follows_from_the_record(terminal: Terminal) -> None:
    text = "\n".join(f"{label}|{'--3--3--1--' if label == 'A' else '-' * 11}|" for label in "eBGDAE")
    three = ["tab-to-place/standard/5/3", "fret-to-note/standard/5/3"]
    learned(terminal.home, three, days=5)
    reading = json.loads(read(terminal, text, "--json")[1])["reading"]
    assert reading["fluent"] == pytest.approx(2 / 3, abs=1e-4)
    assert reading["known"] == reading["fluent"]
    assert not set(three) & set(reading["to_learn"])
    assert "fret-to-note/standard/5/1" in reading["to_learn"]
    out = read(terminal, text)[1]
    assert "Of 3 notes you read 2 (67%) fluently and know 2 (67%)." in out


def test_what_is_to_be_learned_is_counted_stage_by_stage(terminal: Terminal, song: Path) -> None:
    out = terminal.run("read", str(song))[1]
    _, head, tail = out.partition("To learn, with what has to come before: ")
    assert head
    counts = [int(count) for count in re.findall(r"^  .*?  (\d+) +first ", tail, re.M)]
    assert sum(counts) == int(tail.split()[0]) == len(terminal.json("read", str(song))["reading"]["to_learn"])


def test_known_is_not_fluent_and_is_still_to_be_learned(terminal: Terminal) -> None:
    text = "\n".join(f"{label}|{'--3--' if label == 'A' else '-' * 5}|" for label in "eBGDAE")
    three = ["tab-to-place/standard/5/3", "fret-to-note/standard/5/3"]
    learned(terminal.home, three, days=3)
    reading = json.loads(read(terminal, text, "--json")[1])["reading"]
    assert (reading["fluent"], reading["known"]) == (0, 1)
    assert set(three) <= set(reading["to_learn"])


def test_reading_changes_nothing_of_the_profile(terminal: Terminal, song: Path) -> None:
    learned(terminal.home, ["tab-to-place/standard/5/3"], days=2)
    before = {path: path.read_bytes() for path in terminal.home.rglob("*") if path.is_file()}
    terminal.run("read", str(song))
    terminal.run("read", str(song), "--json")
    assert {path: path.read_bytes() for path in terminal.home.rglob("*") if path.is_file()} == before
