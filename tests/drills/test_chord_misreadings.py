"""Which misreadings fit a wrong answer about a chord: cases worked out by hand, and what holds of every one."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from drills import chord_misreadings
from drills.kinds.chord_shapes import readings, taught
from drills.misreadings import Traps
from drills.notation.chords import tone_names
from drills.notation.pitch import SHARP_NAMES
from drills.notation.shape import parse_shape
from drills.notation.tuning import shipped
from drills.question import Misreading

STANDARD = shipped()["standard"]
MIRRORED, NEIGHBOUR, OFF = Misreading.MIRRORED_LINE, Misreading.NEIGHBOUR_LINE, Misreading.OFF_BY_ONE_FRET
MANY, FEW, ORDER = Misreading.TOO_MANY, Misreading.TOO_FEW, Misreading.WRONG_ORDER
C_MAJOR = parse_shape("x32010")


def fits(traps: Traps, said: str) -> set[Misreading]:
    return {kind for kind, wrong in traps.items() if said in wrong}


@pytest.mark.parametrize(
    ("said", "kinds"),
    [
        ("01023x", {MIRRORED}),
        ("32010x", {NEIGHBOUR}),
        ("3x2010", {NEIGHBOUR}),
        ("x22010", {OFF}),
        ("x43020", {OFF}),
        ("032010", {MANY}),
        ("x3201x", {FEW}),
        ("x32011", set()),
        ("x32010", set()),
    ],
)
def test_shapes(said: str, kinds: set[Misreading]) -> None:
    assert fits(chord_misreadings.of_shape(C_MAJOR), said) == kinds


@pytest.mark.parametrize(
    ("said", "kinds"),
    [
        ("C E", {FEW}),
        ("C E G B", {MANY}),
        ("C D# G", {Misreading.SHARP_FLAT}),
        ("D F# A", set()),
    ],
)
def test_tones(said: str, kinds: set[Misreading]) -> None:
    tones = tone_names(C_MAJOR.pitches(STANDARD))
    assert fits(chord_misreadings.of_tones(C_MAJOR, STANDARD, tones), said) == kinds


def test_tones_are_counted_up_from_the_root() -> None:
    d_major = {2: "D", 6: "F#", 9: "A"}
    assert chord_misreadings.tones_text([9, 2, 6, 2], d_major) == "D F# A"
    assert chord_misreadings.tones_text([1, 9], d_major) == "A C#"


@pytest.mark.parametrize(
    ("shape", "names", "said", "kinds"),
    [
        ("x02220", ["A"], "Ab", {Misreading.SHARP_FLAT}),
        ("x02220", ["A"], "A#", set()),  # the same as Bb, and read so
        ("x02220", ["A"], "Bb", {Misreading.SHARP_FLAT}),
        ("244222", ["F#m"], "Fm", {Misreading.SHARP_FLAT}),
        ("2x0232", ["D/F#"], "Eb/Gb", {Misreading.SHARP_FLAT}),
        # 2320xx: F#, C, E, G.
        ("xx0232", ["D"], "C/F#", {MIRRORED}),
        ("xxx000", ["Em/G"], "Asus4", set()),
        ("xxx000", ["Em/G"], "Em/G", set()),
        # 000xxx: E, A, D.
        ("xxx000", ["Em/G"], "Asus4/E", {MIRRORED}),
        ("x02220", ["A"], "Am", set()),
    ],
)
def test_names(shape: str, names: list[str], said: str, kinds: set[Misreading]) -> None:
    assert fits(chord_misreadings.of_name(parse_shape(shape), STANDARD, names), said) == kinds


def say(pitches: Iterable[int]) -> str:
    return " ".join(SHARP_NAMES[pitch % 12] for pitch in pitches)


def test_what_is_heard() -> None:
    traps = chord_misreadings.of_heard(C_MAJOR, STANDARD, say)
    assert fits(traps, "E C G E C") == {ORDER}
    assert fits(traps, "E C E G C E") == {MANY}
    assert fits(traps, "C E G C") == {FEW}
    assert fits(traps, "C E G C E") == set()
    # A ukulele's fourth string sounds above the third: by line is not by pitch.
    ukulele = chord_misreadings.of_heard(parse_shape("0003"), shipped()["ukulele"], say)
    assert fits(ukulele, "G C E C") == {ORDER}


def test_distances() -> None:
    fifth = parse_shape("02xxxx")
    traps = chord_misreadings.of_distance(fifth, STANDARD, str)
    assert {kind for kind in traps if "6" in traps[kind] or "8" in traps[kind]} == {OFF}
    assert "7" not in {said for wrong in traps.values() for said in wrong}


@pytest.mark.parametrize("name", ["standard", "ukulele", "bass", "8-string"])
def test_no_trap_holds_what_is_right(name: str) -> None:
    tuning = shipped()[name]
    for entry in taught(tuning):
        shape, pitches = entry.shape, entry.shape.pitches(tuning)
        tones = tone_names(pitches)
        names = [chord.name for chord in readings(shape, tuning)]
        cases = [
            (chord_misreadings.of_shape(shape), shape.text),
            (chord_misreadings.of_tones(shape, tuning, tones), chord_misreadings.tones_text(tones, tones)),
            (chord_misreadings.of_heard(shape, tuning, say), say(pitches)),
            *((chord_misreadings.of_name(shape, tuning, names), name) for name in names),
        ]
        for traps, right in cases:
            assert all(wrong and right not in wrong for wrong in traps.values()), shape.text
