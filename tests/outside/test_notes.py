"""Strings, notes, places and the capo, from a table of open strings and arithmetic."""

from __future__ import annotations

import re

import pytest

from tests.outside.rows import columns, labels_of, strings_of
from tests.outside.strings import EVERY, NAMES, OPEN, OWN, class_of, hertz, open_strings
from tests.outside.told import Told, items, of

LINES = ("line-to-string", "string-to-line", "neck-to-line")
ONE_NUMBER = ("tab-to-place", "fret-to-note", "same-pitch", "octave")
# The banjo's short string begins at the neck's fret 5, and tabs differ in how they count it: only 0 is sure (common
# practice, no source).
SHORT = {("banjo", 5)}
SHAPES = {"C": 0, "D": 2, "E": 4, "G": 7, "A": 9}

every_tuning = pytest.mark.parametrize("tuning", EVERY)


def sounding(item: Told, tuning: str) -> int:
    """Its MIDI number from the handbook: the open string, a semitone a fret (MusicXML 4.0, ``fret``), and the capo,
    which "changes the open tuning by the specified number of half-steps" (MusicXML 4.0, ``capo``)."""
    facts = item["facts"]
    return open_strings(tuning)[facts["string"]] + int(facts.get("fret", 0)) + int(facts.get("capo", 0))


@every_tuning
def test_every_pitch_its_names_and_its_frequency(tuning: str) -> None:
    pitched = [item for item in items(tuning) if {"string", "midi"} <= set(item["facts"])]
    assert len(pitched) >= 300
    for item in pitched:
        facts, midi = item["facts"], sounding(item, tuning)
        assert facts["midi"] == midi, item["id"]
        assert facts["names"] == NAMES[midi % 12], item["id"]
        assert {class_of(name) for name in facts["names"]} == {midi % 12}
        if "hz" in facts:
            assert facts["hz"] == pytest.approx(hertz(midi), abs=0.0006), item["id"]
    assert all("hz" in item["facts"] for item in of(tuning, ["fret-to-note", "note-to-fret", *ONE_NUMBER]))


@every_tuning
def test_the_name_of_a_tuning_and_the_letters_beside_its_lines(tuning: str) -> None:
    strings = open_strings(tuning)
    lettered = 0
    for item in items(tuning):
        assert item["tuning"] == OWN.get(tuning, tuning)
        rows = strings_of(item["staff"])
        assert len(rows) in (0, len(strings)), item["id"]
        letters = labels_of(item["staff"])
        if letters:
            lettered += 1
            assert [class_of(letter.capitalize()) for letter in letters] == [
                strings[string] % 12 for string in sorted(strings)
            ]
    assert lettered >= 100


@every_tuning
def test_lines_are_counted_from_the_top(tuning: str) -> None:
    # String 1 is the top line (H. Wright 1995), and number 1 is its label in MusicXML too, banjo's short string last.
    for item in of(tuning, LINES):
        facts = item["facts"]
        assert facts["line"] == facts["string"]
        assert item["answers"] == [str(facts["string"])]
        assert class_of(facts["name"].split()[-1]) == open_strings(tuning)[facts["string"]] % 12
    found = {item["facts"]["string"] for item in of(tuning, ["line-to-string"])}
    assert found == set(open_strings(tuning))


@every_tuning
def test_the_number_that_is_drawn_is_the_place(tuning: str) -> None:
    for item in [*of(tuning, ONE_NUMBER), *(i for i in of(tuning, ["capo"]) if "fret" in i["facts"])]:
        assert columns(item["staff"]) == [{item["facts"]["string"]: item["facts"]["fret"]}], item["id"]
    for item in of(tuning, ["fret-to-note"]):
        assert item["answers"] == item["facts"]["names"]
    for item in of(tuning, ["tab-to-place", "place-to-tab"]):
        assert item["answers"] == [f"{item['facts']['string']}/{item['facts']['fret']}"]
        assert item["id"].endswith(f"/{item['answers'][0]}")
    for item in of(tuning, ["place-to-tab"]):
        drawn = columns(item["staff"])
        assert drawn.count({item["facts"]["string"]: item["facts"]["fret"]}) == 1
        assert len(drawn) == len({str(column) for column in drawn}) >= 4


@every_tuning
def test_every_fret_of_the_range_that_sounds_the_note(tuning: str) -> None:
    for item in of(tuning, ["note-to-fret"]):
        facts = item["facts"]
        low, high = facts["range"]
        there = open_strings(tuning)[facts["string"]]
        frets = [fret for fret in range(low, high + 1) if NAMES[(there + fret) % 12] == facts["names"]]
        assert facts["frets"] == frets, item["id"]
        assert item["answers"] == [str(fret) for fret in frets]
        assert facts["fret"] == frets[0]
        assert f"string {facts['string']}: which fret, from {low} to {high}?" in item["prompt"]
        assert item["prompt"].startswith(" or ".join(facts["names"]))


@every_tuning
def test_the_same_pitch_and_the_octave_wherever_they_lie(tuning: str) -> None:
    for item in of(tuning, ["same-pitch", "octave"]):
        facts = item["facts"]
        low, high = facts["range"]
        # An octave is twelve semitones.
        sought = facts["midi"] + 12 * ("octave higher" in item["prompt"]) - 12 * ("octave lower" in item["prompt"])
        assert (facts["sought"] == facts["midi"]) == (item["drill"] == "same-pitch")
        assert facts["sought"] == sought
        on = re.search(r"on string (\d)", item["prompt"])
        places = {
            f"{string}/{fret}"
            for string, there in open_strings(tuning).items()
            for fret in range(low, high + 1)
            if (tuning, string) not in SHORT or fret == 0
            if there + fret == sought and (string, fret) != (facts["string"], facts["fret"])
            if on is None or string == int(on[1])
        }
        assert set(facts["places"]) == places != set(), item["id"]
        said = {f"{on[1]}/{answer}" for answer in item["answers"]} if on else set(item["answers"])
        assert said == places, item["id"]
        assert f"from {low} to {high}" in item["prompt"] or f"from fret {low} to {high}" in item["prompt"]


def test_a_short_string_is_asked_open_alone() -> None:
    facts = [item["facts"] for item in items("banjo") if "fret" in item["facts"]]
    assert {each["fret"] for each in facts if each.get("string") == 5} == {0}


@every_tuning
def test_a_capo_lifts_every_shape_by_its_fret(tuning: str) -> None:
    asked = list(of(tuning, ["capo"]))
    assert asked
    for item in asked:
        facts = item["facts"]
        if "fret" in facts:
            assert item["answers"] == NAMES[sounding(item, tuning) % 12]
            assert f"a capo at fret {facts['capo']}" in item["prompt"]
            continue
        minor = facts["shape"].endswith("m")
        root = SHAPES[facts["shape"].removesuffix("m")]
        names = NAMES[(root + facts["capo"]) % 12]
        assert facts["sounds"] == [name + "m" * minor for name in names], item["id"]
        if item["kind"] == "fret":
            assert item["answers"] == [str(facts["capo"])]
        elif "which shape" in item["prompt"]:
            assert item["answers"] == [facts["shape"]]
        else:
            assert item["answers"] == names
            assert ("minor" in item["prompt"]) == minor


@every_tuning
def test_struck_together_and_one_after_the_other(tuning: str) -> None:
    # One column is struck at once, left to right is the order (H. Wright 1995).
    for item in of(tuning, ["order"]):
        drawn = [sorted(column) for column in columns(item["staff"])]
        assert item["facts"]["strings"] == drawn, item["id"]
        assert item["facts"]["onsets"] == len(drawn)
        said = " ".join(str(string) for onset in drawn for string in onset)
        assert item["answers"] == [str(len(drawn)) if item["kind"] == "count" else said]


@every_tuning
def test_one_finger_a_fret(tuning: str) -> None:
    # A position has the number of the fret under the first finger (common practice, no source).
    fingers = list(of(tuning, ["finger"]))
    for item in fingers:
        facts = item["facts"]
        if "position" in facts:
            assert facts["finger"] == facts["fret"] - facts["position"] + 1
            assert {facts["string"]: facts["fret"]} in columns(item["staff"])
        elif "fingers" in facts:
            low = min(facts["frets"])
            assert facts["fingers"] == [fret - low + 1 for fret in facts["frets"]]
            assert [fret for column in columns(item["staff"]) for fret in column.values()] == facts["frets"]
            assert facts["finger"] == facts["fingers"][facts["note"] - 1]
        else:
            # Thumb p, index i, middle m, ring a from the Spanish pulgar, indice, medio, anular (from memory).
            names = dict(zip("1234pima", [
                "index finger", "middle finger", "ring finger", "little finger",
                "thumb", "index finger", "middle finger", "ring finger",
            ], strict=True))  # fmt: skip
            assert facts["finger"] == names[facts["sign"]]
            assert facts["hand"] == ("picking" if facts["sign"] in "pima" else "fretting")
        answer = facts["finger"] if "sign" not in facts or item["kind"] == "choice" else facts["sign"]
        assert item["answers"] in ([str(answer)], [facts.get("sign")])
    assert {item["kind"] for item in fingers} == {"choice", "count"}


def test_every_tuning_of_the_table_is_shipped_and_no_other() -> None:
    told = {item["tuning"] for tuning in OPEN for item in items(tuning)}
    assert told == set(OPEN)
