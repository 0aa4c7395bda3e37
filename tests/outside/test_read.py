"""The document of a piece that was read, as a program sees it; pitches by music21, places by eye."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from music21.pitch import Pitch

from tests.outside.strings import open_strings
from tests.outside.told import items
from tests.trainer.typing_learner import ROOT, environment

SONG = """\
A song of mine
Tuning: drop D
Capo: 2nd fret

      1   &   2   &   3   &   4   &
e|----0-----------0-------5h7p5---------|--7b9r7----------x--|
B|----1-------1-------------------------|--------------------|
G|----2---------------------------------|-----<12>-----------|
D|--------------------------------------|----------5/7-------|
A|----0---------------------------------|--------------------|
D|----------------------------------10--|-----------------7~-|
"""
# Frets by string as they stand in SONG, bar by bar and from left to right.
FRETS = [
    [{1: 0, 2: 1, 3: 2, 5: 0}, {2: 1}, {1: 0}, {1: 5}, {1: 7}, {1: 5}, {6: 10}],
    [{1: 7}, {3: 12}, {4: 5}, {4: 7}, {1: None, 6: 7}],
]
KINDS = {
    "hammer-on", "pull-off", "slide-up", "slide-down", "slide-in-up", "slide-in-down", "slide-out-up",
    "slide-out-down", "bend", "pre-bend", "release", "vibrato", "palm-mute", "mute", "harmonic", "tap", "trill",
    "ghost", "let-ring", "tie", "grace", "accent", "staccato", "repeat",
}  # fmt: skip
CERTAINTIES = {"sure", "likely", "guess"}


def told(folder: Path, text: str, *argv: str) -> tuple[int, dict[str, Any]]:
    """What the command says of a text, in a process of its own."""
    file = folder / "piece.txt"
    file.write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "trainer.cli", "read", str(file), "--json", *argv],
        capture_output=True, text=True, timeout=60, check=False, env=environment(folder / "home"), cwd=ROOT,
    )  # fmt: skip
    assert done.stderr == ""
    return done.returncode, json.loads(done.stdout)


@pytest.fixture(scope="module")
def song(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    code, found = told(tmp_path_factory.mktemp("read"), SONG)
    assert code == 0
    return found


def is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def test_every_key_is_there_with_its_type(song: dict[str, Any]) -> None:
    check_shape(song)


def check_shape(found: dict[str, Any]) -> None:
    assert set(found) == {"title", "capo", "tuning", "counts", "bars", "marks", "problems", "reading"}
    assert isinstance(found["title"], str)
    assert is_whole(found["capo"])
    assert set(found["tuning"]) == {"name", "from", "strings"}
    assert found["tuning"]["from"] in {"given", "text", "labels", "rows", "unknown"}
    for n, string in enumerate(found["tuning"]["strings"], start=1):
        assert set(string) == {"string", "midi", "name"}
        assert string["string"] == n
    assert set(found["counts"]) == {"systems", "bars", "onsets", "notes", "marks"}
    onsets = [onset for bar in found["bars"] for onset in bar["onsets"]]
    notes = [note for onset in onsets for note in onset["notes"]]
    counts = found["counts"]
    assert (counts["bars"], counts["onsets"], counts["notes"]) == (len(found["bars"]), len(onsets), len(notes))
    kinds = [mark["kind"] for mark in found["marks"]]
    assert counts["marks"] == {kind: kinds.count(kind) for kind in kinds}
    assert set(kinds) <= KINDS
    for bar in found["bars"]:
        assert set(bar) == {"number", "system", "onsets"}
        assert 1 <= bar["system"] <= counts["systems"]
    for onset in onsets:
        assert set(onset) == {"line", "column", "notes"}
        assert onset["line"] >= 1
        assert onset["column"] >= 1
        assert onset["notes"]
    for note in notes:
        assert set(note) == {"string", "fret", "midi", "name", "certainty", "marks"}
        assert note["certainty"] in CERTAINTIES
        assert set(note["marks"]) <= KINDS
        assert (note["midi"] is None) == (note["name"] is None)
    numbers = {bar["number"] for bar in found["bars"]}
    for mark in found["marks"]:
        assert set(mark) == {"kind", "bar", "string", "from", "to", "amount", "certainty"}
        assert mark["bar"] in numbers
        assert mark["certainty"] in CERTAINTIES
        assert mark["amount"] is None or mark["amount"] > 0
    for problem in found["problems"]:
        assert set(problem) == {"line", "column", "severity", "message", "mend"}
        assert problem["severity"] in {"error", "warning", "note"}
        assert problem["line"] >= 1
        assert problem["column"] >= 1
        assert problem["message"].isprintable()
        assert problem["mend"].isprintable()
    reading = found["reading"]
    assert set(reading) == {"fluent", "known", "to_learn", "left_out"}
    assert is_whole(reading["left_out"])
    for share in (reading["fluent"], reading["known"]):
        assert share is None or 0 <= share <= 1


def test_title_tuning_and_capo_are_those_of_the_text(song: dict[str, Any]) -> None:
    assert song["title"] == "A song of mine"
    assert song["capo"] == 2
    assert song["tuning"]["name"] == "drop-d"
    assert song["tuning"]["from"] == "text"
    assert {each["string"]: each["midi"] for each in song["tuning"]["strings"]} == open_strings("drop-d")


def test_every_note_is_where_it_stands_in_the_text(song: dict[str, Any]) -> None:
    found = [[{note["string"]: note["fret"] for note in onset["notes"]} for onset in bar["onsets"]]
             for bar in song["bars"]]
    assert found == FRETS
    rows = SONG.splitlines()
    for bar in song["bars"]:
        for onset in bar["onsets"]:
            first = min(onset["notes"], key=lambda note: int(note["string"]))
            written = "x" if first["fret"] is None else str(first["fret"])
            assert rows[onset["line"] - 1][onset["column"] - 1 :].startswith(written)


def test_pitches_are_those_of_the_strings_with_the_capo(song: dict[str, Any]) -> None:
    strings = open_strings("drop-d")
    for bar in song["bars"]:
        for onset in bar["onsets"]:
            for note in onset["notes"]:
                if note["fret"] is None:
                    assert note["midi"] is None
                    continue
                # a harmonic at fret 12 sounds the octave of its open string, which is what the fret sounds too
                assert note["midi"] == strings[note["string"]] + 2 + note["fret"]
                assert int(Pitch(note["name"].replace("b", "-")).midi) == note["midi"]


def test_marks_say_from_where_to_where(song: dict[str, Any]) -> None:
    marks = [(mark["kind"], mark["bar"], mark["string"], mark["from"], mark["to"], mark["amount"])
             for mark in song["marks"]]
    assert set(marks) == {
        ("hammer-on", 1, 1, 5, 7, None), ("pull-off", 1, 1, 7, 5, None), ("bend", 2, 1, 7, None, 1.0),
        ("release", 2, 1, 7, None, None), ("harmonic", 2, 3, 12, None, None), ("slide-up", 2, 4, 5, 7, None),
        ("mute", 2, 1, None, None, None), ("vibrato", 2, 6, 7, None, None),
    }  # fmt: skip
    assert len(marks) == 8


def test_what_is_to_be_learned_are_items_in_teaching_order(song: dict[str, Any]) -> None:
    order = {item["id"]: n for n, item in enumerate(items("drop-d"))}
    ids = song["reading"]["to_learn"]
    places = [order[id] for id in ids]
    assert places == sorted(places)
    assert {"fret-to-note/drop-d/6/10", "mark-name/hammer-on-text", "tab-to-place/drop-d/1/7"} <= set(ids)
    assert (song["reading"]["fluent"], song["reading"]["known"]) == (0, 0)


def test_notes_that_are_not_sure_are_left_out_and_counted(song: dict[str, Any]) -> None:
    unsure = [note for bar in song["bars"] for onset in bar["onsets"] for note in onset["notes"]
              if note["certainty"] != "sure"]
    assert song["reading"]["left_out"] == len(unsure)


def test_strings_that_labels_cannot_tell_have_no_pitches_until_told(tmp_path: Path) -> None:
    text = "G|--0--2--|\nD|--------|\nA|--3-----|\nE|--------|\n"
    code, found = told(tmp_path, text)
    check_shape(found)
    assert code == 0
    assert found["tuning"]["from"] == "unknown"
    notes = [note for bar in found["bars"] for onset in bar["onsets"] for note in onset["notes"]]
    assert [note["midi"] for note in notes] == [None, None, None]
    assert found["reading"] == {"fluent": None, "known": None, "to_learn": [], "left_out": 3}
    _, found = told(tmp_path, text, "--tuning", "bass")
    check_shape(found)
    assert {each["string"]: each["midi"] for each in found["tuning"]["strings"]} == open_strings("bass")


def test_without_tab_every_key_is_still_there(tmp_path: Path) -> None:
    code, found = told(tmp_path, "nothing but words\n")
    assert code == 1
    check_shape(found)
    assert [problem["severity"] for problem in found["problems"]] == ["error"]
    assert not (tmp_path / "home").exists()
