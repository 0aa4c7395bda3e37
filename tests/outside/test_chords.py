"""Chords from what is told of them: shapes, diagrams and staves against pitches, names against two music libraries."""

from __future__ import annotations

import re
from functools import cache

import pytest
from music21.interval import Interval
from music21.pitch import Pitch
from pychord import Chord

from tests.drills.kinds.chord_names_outside import by_music21, by_pychord, plain
from tests.outside.diagrams import shape_of, shapes
from tests.outside.rows import columns
from tests.outside.strings import EVERY, RE_ENTRANT, class_of, open_strings
from tests.outside.told import Told, items, of

# Chord symbols as handbooks spell them out, semitones over the root (common practice, no source).
FORMULAS = {
    "5": (0, 7), "": (0, 4, 7), "m": (0, 3, 7), "dim": (0, 3, 6), "aug": (0, 4, 8), "sus2": (0, 2, 7),
    "sus4": (0, 5, 7), "6": (0, 4, 7, 9), "m6": (0, 3, 7, 9), "7": (0, 4, 7, 10), "maj7": (0, 4, 7, 11),
    "m7": (0, 3, 7, 10), "dim7": (0, 3, 6, 9), "m7b5": (0, 3, 6, 10), "7sus4": (0, 5, 7, 10), "add9": (0, 4, 7, 2),
    "m(add9)": (0, 3, 7, 2), "9": (0, 4, 7, 10, 2), "9sus4": (0, 5, 7, 10, 2), "7#9": (0, 4, 7, 10, 3),
    "m7(add11)": (0, 3, 7, 10, 5), "6/9": (0, 4, 7, 9, 2),
}  # fmt: skip
# How pychord writes what it does not know as we write it; its reader takes the 9 of 6/9 for a bass.
PYCHORD = {"m(add9)": "madd9", "m7(add11)": "m7add11", "6/9": "69"}
# Names that pychord strains for where a plainer one fits: Em7 with a raised fifth is C with an added ninth, F6 with a
# flat fifth is B half-diminished, Asus4 with an added second is E7sus4.
STRAINED = {"m7+5", "6b5", "sus4add2"}
SYMBOL = re.compile(r"([A-G][#b]?)(6/9|.*?)(?:/([A-G][#b]?))?")

every_tuning = pytest.mark.parametrize("tuning", EVERY)


def chords(tuning: str) -> list[Told]:
    return [item for item in items(tuning) if "shape" in item["facts"] and item["drill"] != "capo"]


def frets_by_string(shape: tuple[int | None, ...]) -> dict[int, int | None]:
    return {len(shape) - n: fret for n, fret in enumerate(shape) if fret is not None}


def tones(name: str) -> tuple[set[int], int, int | None]:
    """Pitch classes of a symbol by the handbook, its root's, and its bass's where one is named."""
    match = SYMBOL.fullmatch(name)
    assert match, name
    root = class_of(match[1])
    return {(root + step) % 12 for step in FORMULAS[match[2]]}, root, class_of(match[3]) if match[3] else None


@every_tuning
def test_pitches_are_those_of_the_shape(tuning: str) -> None:
    strings = open_strings(tuning)
    assert len(chords(tuning)) >= 40
    for item in chords(tuning):
        held = frets_by_string(shape_of(item["facts"]["shape"]))
        sounds = sorted(strings[string] + fret for string, fret in held.items() if fret is not None)
        assert item["facts"]["pitches"] == sounds, item["id"]


@every_tuning
def test_what_is_drawn_is_the_shape(tuning: str) -> None:
    for item in chords(tuning):
        shape, drill = shape_of(item["facts"]["shape"]), item["drill"]
        held = frets_by_string(shape)
        staff = columns(item["staff"]) if item["staff"] != item["diagram"] else []
        boxes = shapes(item["diagram"]) if item["diagram"] else []
        if drill == "chord-x":
            # An x on a staff is struck, in a shape it is not played (H. Wright 1995).
            struck = staff[0] if staff else frets_by_string(boxes[0])
            assert {string: fret for string, fret in struck.items() if fret is not None} == held
            assert item["answers"] == [str(item["facts"]["struck"])] == [str(len(struck))]
        elif drill == "diagram-to-tab":
            assert boxes == [shape]
            assert [frets_by_string(shape) == column for column in staff].count(True) == 1
        elif drill in ("tab-to-diagram", "name-to-diagram"):
            assert staff == ([held] if drill == "tab-to-diagram" else [])
            assert len(boxes) == len(set(boxes)) == 4
            assert boxes.count(shape) == 1
        elif drill == "chord-symbol":
            assert (staff, boxes) in (([held], []), ([], [shape])), item["id"]
        else:
            assert staff == [held], item["id"]
        if drill in ("diagram-to-tab", "tab-to-diagram", "name-to-diagram"):
            assert item["answers"] == [item["facts"]["shape"]]


@every_tuning
def test_every_name_means_what_sounds(tuning: str) -> None:
    for item in chords(tuning):
        sounding = {pitch % 12 for pitch in item["facts"]["pitches"]}
        for name in item["facts"]["chords"]:
            meant, root, bass = tones(name)
            # Players leave out the fifth; a bass may be none of the chord's own tones (common practice, no source).
            assert meant - sounding <= {(root + 7) % 12}, (item["id"], name)
            assert sounding - meant <= {bass}, (item["id"], name)
            if tuning not in RE_ENTRANT or bass is not None:
                assert (root if bass is None else bass) == item["facts"]["pitches"][0] % 12, (item["id"], name)


def test_the_handbook_and_pychord_spell_a_name_alike() -> None:
    names = {name for tuning in EVERY for item in chords(tuning) for name in item["facts"]["chords"]}
    assert {match[2] for match in map(SYMBOL.fullmatch, names) if match} == set(FORMULAS)
    for name in names:
        match = SYMBOL.fullmatch(name)
        assert match
        spelled = Chord(match[1] + PYCHORD.get(match[2], match[2])).components(visible=True)
        assert {class_of(tone) for tone in spelled} == tones(name)[0], name


@cache
def pychord_names(pitches: tuple[int, ...]) -> frozenset[tuple[int, str, int | None]]:
    return frozenset(plain(name) for name in by_pychord(pitches))


# The other tunings lie a step off one of these, or between them.
@pytest.mark.parametrize("tuning", ["standard", "half-step-down", "dadgad", "open-c", "banjo", "mandolin"])
def test_no_name_that_pychord_finds_is_left_out(tuning: str) -> None:
    # Its names for pitch classes upward from the bass and as they lie, with sharps and with flats, united.
    named = 0
    for item in chords(tuning):
        facts = item["facts"]
        ours = {plain(name) for name in facts["chords"]}
        if not ours:
            continue
        theirs = set(pychord_names(tuple(facts["pitches"])))
        named += bool(theirs)
        if tuning in RE_ENTRANT:  # it takes the lowest note for the bass, players there do not
            bassless = {name[:2] for name in ours}
            theirs = {name for name in theirs if name[:2] not in bassless}
        assert {name for name in theirs - ours if name[1] not in STRAINED} == set(), item["id"]
    assert named >= 40


@every_tuning
def test_music21_finds_one_of_the_names(tuning: str) -> None:
    # It names notes with their spelling and octave, as the answers of two drills spell them.
    named = 0
    for item in of(tuning, ["chord-tones", "chord-sounds"]):
        facts = item["facts"]
        spelling = {class_of(name): name for name in item["answers"][0].split()}
        classes = [pitch % 12 for pitch in facts["pitches"]]
        assert set(spelling) == set(classes), item["id"]
        if item["drill"] == "chord-sounds":
            assert [class_of(name) for name in item["answers"][0].split()] == classes, item["id"]
        found = by_music21([with_octave(spelling[pitch % 12], pitch) for pitch in facts["pitches"]])
        if found is None or tuning in RE_ENTRANT:
            continue
        named += 1
        assert plain(found) in {plain(name) for name in facts["chords"]} or "add" in found, (item["id"], found)
    assert named >= 15 or tuning in RE_ENTRANT


def with_octave(name: str, midi: int) -> str:
    """A spelled pitch: C4 is 60, and an octave begins at its C however that is spelled."""
    there = Pitch(name[0] + name[1:].replace("b", "-") + "4")
    return f"{name}{4 + (midi - int(there.midi)) // 12}"


@every_tuning
def test_two_notes_are_as_far_apart_as_music21_says(tuning: str) -> None:
    for item in of(tuning, ["chord-interval"]):
        low, high = item["facts"]["pitches"]
        assert item["facts"]["semitones"] == high - low
        name = str(Interval(high - low).niceName).removeprefix("Perfect ").lower()
        assert item["facts"]["interval"] == {"diminished fifth": "tritone"}.get(name, name), item["id"]
        assert item["answers"] == [item["facts"]["interval"]]


@every_tuning
def test_the_whole_of_an_upper_part(tuning: str) -> None:
    for item in of(tuning, ["chord-upper"]):
        sounding = {pitch % 12 for pitch in item["facts"]["pitches"]}
        # The bass of the whole is not among the upper strings: the chord is named without it.
        assert item["answers"][0] in {name.partition("/")[0] for name in item["facts"]["part_of"]}
        for name in item["facts"]["part_of"]:
            assert sounding <= tones(name)[0], (item["id"], name)


@every_tuning
def test_the_name_that_is_asked_is_one_that_fits(tuning: str) -> None:
    for item in of(tuning, ["chord-name"]):
        assert item["answers"][0] in item["facts"]["chords"], item["id"]
    for item in of(tuning, ["chord-symbol"]):
        # Typed freely: every name that fits is right, whatever is the everyday one.
        assert item["answers"] == item["facts"]["chords"] != [], item["id"]
    for item in of(tuning, ["name-to-diagram"]):
        asked = re.search(r"is (\S+)\?$", item["prompt"])
        assert asked
        assert asked[1] in item["facts"]["chords"], item["id"]
        fitting = []
        for shape in shapes(item["diagram"]):
            strings = open_strings(tuning)
            held = {string: fret for string, fret in frets_by_string(shape).items() if fret is not None}
            classes = {(strings[string] + fret) % 12 for string, fret in held.items()}
            meant, root, bass = tones(asked[1])
            lowest = min(strings[string] + fret for string, fret in held.items()) % 12
            if meant - {(root + 7) % 12} <= classes <= meant and (tuning in RE_ENTRANT or lowest == (bass or root)):
                fitting.append(shape)
        assert fitting == [shape_of(item["facts"]["shape"])], item["id"]


def test_there_are_forty_shapes_with_a_name_and_two_dozen_kinds() -> None:
    named = {item["facts"]["shape"]: item["facts"]["chords"] for item in chords("standard") if item["facts"]["chords"]}
    assert len(named) >= 60
    assert len({match[2] for names in named.values() for match in map(SYMBOL.fullmatch, names) if match}) >= 20
