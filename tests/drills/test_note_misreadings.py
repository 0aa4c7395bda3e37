"""Which misreadings fit a wrong place, capo or finger: cases worked out by hand, and what holds of every one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills import note_misreadings
from drills.misreadings import Traps
from drills.notation.tuning import shipped
from drills.question import Misreading

STANDARD = shipped()["standard"]
MIRRORED, NEIGHBOUR = Misreading.MIRRORED_LINE, Misreading.NEIGHBOUR_LINE
OFF, SWAPPED, OCTAVE = Misreading.OFF_BY_ONE_FRET, Misreading.SWAPPED, Misreading.OCTAVE
OTHER_WAY, SHARP_FLAT = Misreading.WRONG_DIRECTION, Misreading.SHARP_FLAT


def fits(traps: Traps, said: str) -> set[Misreading]:
    return {kind for kind, wrong in traps.items() if said in wrong}


@pytest.mark.parametrize(
    ("said", "kinds"),
    [
        # C3 on string 5, fret 3 also sounds at string 6, fret 8; C4 at string 2, fret 1 and string 3, fret 5.
        ("2/1", {OCTAVE}),
        ("3/5", {OCTAVE}),
        ("6/7", {OFF}),
        ("6/9", {OFF}),
        ("1/8", {OCTAVE, MIRRORED}),
        ("5/8", {NEIGHBOUR}),
        ("8/6", {SWAPPED}),
        ("6/8", set()),
        ("4/4", set()),
    ],
)
def test_the_same_pitch(said: str, kinds: set[Misreading]) -> None:
    assert fits(note_misreadings.of_elsewhere((5, 3), 0, [(6, 8)], STANDARD), said) == kinds


@pytest.mark.parametrize(
    ("said", "kinds"),
    [
        # D3 open on string 4; D4 at string 2, fret 3; D2 is below the guitar; D5 at string 1, fret 10.
        ("1/10", {OCTAVE}),
        ("5/5", {OCTAVE}),  # D3 once more: the octave is not taken at all
        ("2/4", {OFF}),
        ("3/3", {NEIGHBOUR}),
        ("5/3", {MIRRORED}),
    ],
)
def test_an_octave_higher(said: str, kinds: set[Misreading]) -> None:
    right = [(2, 3), (3, 7), (4, 12)]
    assert fits(note_misreadings.of_elsewhere((4, 0), 12, right, STANDARD), said) == kinds


def test_an_octave_the_other_way() -> None:
    # From D4 at string 2, fret 3 down to D3; D5 is the other way (at string 1, fret 10 it mirrors string 6, fret 10).
    traps = note_misreadings.of_elsewhere((2, 3), -12, [(4, 0), (5, 5), (6, 10)], STANDARD)
    assert fits(traps, "1/10") == {OTHER_WAY, MIRRORED}
    assert fits(traps, "2/15") == {OTHER_WAY}
    # D4 itself is no octave away; it is also the right place with string and fret the wrong way round.
    assert fits(traps, "3/7") == {OCTAVE}
    assert fits(traps, "10/6") == {SWAPPED}


def test_a_fret_on_one_string() -> None:
    # The octave of G2 (string 6, fret 3) on string 4 is fret 5.
    traps = note_misreadings.of_elsewhere((6, 3), 12, [(4, 5)], STANDARD, on=4)
    assert fits(traps, "4") == fits(traps, "6") == {OFF}
    assert fits(traps, "17") == {OCTAVE}
    assert fits(traps, "5") == fits(traps, "9") == set()


@pytest.mark.parametrize(
    ("number", "by", "said", "kinds"),
    [
        (0, 2, "Bb", {OTHER_WAY}),  # C with a capo at fret 2 is D, not Bb
        (0, 2, "C#", {OFF}),
        (0, 2, "Eb", {OFF}),
        (0, 2, "D#", {OFF, SHARP_FLAT}),
        (0, 2, "D", set()),
        (0, 2, "C", set()),
        (2, -2, "E", {OTHER_WAY}),  # D that sounds with a capo at fret 2 is played as C, not as E
        (4, 1, "D#", {OTHER_WAY}),
        (4, 1, "Fb", {OFF, SHARP_FLAT}),
    ],
)
def test_a_name_that_a_capo_raised(number: int, by: int, said: str, kinds: set[Misreading]) -> None:
    assert fits(note_misreadings.of_raised(number, by), said) == kinds


def test_where_the_capo_goes() -> None:
    traps = note_misreadings.of_capo(3, 9)
    assert fits(traps, "2") == fits(traps, "4") == {OFF}
    assert fits(traps, "9") == {OTHER_WAY}
    assert fits(traps, "3") == fits(traps, "7") == set()
    assert fits(note_misreadings.of_capo(1, 9), "0") == fits(note_misreadings.of_capo(1, 9), "11") == set()


def test_fingers() -> None:
    traps = note_misreadings.of_finger(3, 7, 9)
    assert fits(traps, "2") == fits(traps, "4") == {OFF}
    assert fits(traps, "7") == {SWAPPED}
    assert fits(traps, "1") == fits(traps, "3") == set()
    assert note_misreadings.of_finger(1, 1) == {OFF: {"2"}}


@given(st.sampled_from(sorted(shipped())), st.integers(1, 4), st.integers(0, 12), st.sampled_from([0, 12, -12]))
def test_what_is_right_is_never_a_misreading(name: str, string: int, fret: int, shift: int) -> None:
    tuning = shipped()[name]
    midi = tuning.sound(string, fret).midi + shift
    right = [(s, midi - tuning.open(s).midi) for s in range(1, tuning.lines + 1) if midi >= tuning.open(s).midi]
    traps = note_misreadings.of_elsewhere((string, fret), shift, right, tuning)
    assert not {f"{s}/{f}" for s, f in right} & set().union(*traps.values())
    assert all("-" not in said for wrong in traps.values() for said in wrong)
