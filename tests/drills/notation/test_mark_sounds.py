"""What the marks of the trade sound and which of their notes are picked, each rule with its source."""

from __future__ import annotations

from fractions import Fraction
from math import log2

import pytest

from drills.notation.score import NODES, Mark, MarkKind, Note, picked, sounds
from drills.notation.tuning import shipped
from tests.drills.notation.pieces import HAMMER, PULL, UP, UP_PICKED
from tests.drills.notation.samples import mark

STANDARD = shipped()["standard"]
COLOURS = ("slide-in-up", "slide-out-down", "vibrato", "palm-mute", "let-ring", "accent", "staccato", "ghost")
TIE, GHOST, TAP, GRACE = mark("tie"), mark("ghost"), mark("tap"), mark("grace")


def overtone_of(fret: int) -> int:
    """The overtone whose node lies nearest to a fret: the string touched at 1/n of its length (or a whole number of
    these) sounds n times its frequency; equal temperament puts fret f at 1 - 2**(-f/12) of the length."""
    place = 1 - 2 ** (-fret / 12)
    return min(range(2, 6), key=lambda n: (min(abs(place - Fraction(k, n)) for k in range(1, n)) > 0.013, n))


@pytest.mark.parametrize("fret", NODES)
@pytest.mark.parametrize("string", range(1, 7))
@pytest.mark.parametrize("capo", [0, 3])
def test_a_natural_harmonic_is_an_overtone_of_the_open_string(fret: int, string: int, capo: int) -> None:
    # Overtone arithmetic: n times the frequency of the open string, A4 = 440 Hz = MIDI 69, to the nearest MIDI number.
    tuning = STANDARD.with_capo(capo)
    hertz = overtone_of(fret) * 440 * 2 ** ((tuning.open(string).midi - 69) / 12)
    nearest = round(69 + 12 * log2(hertz / 440))
    assert sounds([Note(string, fret, (mark("harmonic"),))], tuning) == (nearest,)


def test_only_at_twelve_nineteen_and_twenty_four_a_harmonic_sounds_like_its_fret() -> None:
    # The same arithmetic: at the other nodes a learner who adds the fret to the string is wrong.
    assert {fret for fret, semitones in NODES.items() if fret == semitones} == {12, 19, 24}


@pytest.mark.parametrize("sign", ["harmonic", "pinch-harmonic"])
def test_a_harmonic_whose_fret_is_no_node_is_refused(sign: str) -> None:
    with pytest.raises(ValueError, match="a harmonic at fret 3"):
        sounds([Note(3, 3, (mark(sign),))], STANDARD)


@pytest.mark.parametrize(
    ("notes", "plucked"),
    [
        # H. Wright, "The Guide to TAB Notation", 1995: hammered and pulled notes are not picked, an x is struck.
        ([Note(3, 5, (HAMMER,)), Note(3, 7)], (True, False)),
        ([Note(3, None, (mark("mute"),)), Note(3, 5)], (True, True)),
        # Wright: a tap is sounded by the picking hand's finger on the fret.
        ([Note(3, 12, (TAP, PULL)), Note(3, 5, (HAMMER,)), Note(3, 8)], (False, False, False)),
        # MusicXML 4.0, ``tie``: one sound over two written notes.
        ([Note(3, 5, (TIE,)), Note(3, 5), Note(3, 5)], (True, False, True)),
        # MusicXML 4.0, ``trill-mark``: an ornament of one note.
        ([Note(3, 5, (mark("trill", 7),)), Note(3, 5)], (True, True)),
        # Common practice, no source.
        ([Note(3, 5, (UP,)), Note(3, 7)], (True, False)),
        ([Note(3, 5, (UP_PICKED,)), Note(3, 7)], (True, True)),
        ([Note(3, 7, (mark("slide-in-up"),)), Note(3, 7, (mark("slide-out-down"),)), Note(3, 5)], (True, True, True)),
        ([Note(3, 5, (GHOST,)), Note(3, 12, (mark("harmonic"),)), Note(3, 7, (mark("pinch-harmonic"),))], (True,) * 3),
        ([Note(3, 5, (GRACE, HAMMER)), Note(3, 7)], (True, False)),
        ([Note(3, 5, (GRACE,)), Note(3, 7)], (True, True)),
        ([Note(3, 5, (mark(kind),)) for kind in COLOURS], (True,) * len(COLOURS)),
    ],
)
def test_what_is_picked(notes: list[Note], plucked: tuple[bool, ...]) -> None:
    assert picked(notes) == plucked


@pytest.mark.parametrize(
    ("notes", "heard"),
    [
        # String 3 open is G3, 55. MusicXML 4.0, ``tie``: held, not begun again.
        ([Note(3, 5, (TIE,)), Note(3, 5, (TIE,)), Note(3, 5), Note(3, 7)], (60, 62)),
        # MusicXML 4.0, ``trill-mark``: two pitches in turn.
        ([Note(3, 5, (mark("trill", 7),))], (60, 62)),
        # Wright: an x has no pitch, whatever fret lies under the hand.
        ([Note(3, 5, (mark("mute"),)), Note(3, None)], ()),
        # Wright: a tapped note sounds at its fret.
        ([Note(3, 12, (TAP, PULL)), Note(3, 5)], (67, 60)),
        # Common practice, no source: these change no pitch, and where a slide from nowhere begins is not written.
        ([Note(3, 5, (mark(kind),)) for kind in COLOURS], (60,) * len(COLOURS)),
        ([Note(3, 5, (GRACE, HAMMER)), Note(3, 7)], (60, 62)),
        # A tie, then a bend of the held note: the held pitch does not begin again.
        ([Note(3, 7, (TIE,)), Note(3, 7, (Mark(MarkKind.BEND, Fraction(1)),))], (62, 64)),
    ],
)
def test_what_sounds(notes: list[Note], heard: tuple[int, ...]) -> None:
    assert sounds(notes, STANDARD) == heard


def test_a_trill_without_its_other_fret_is_refused() -> None:
    with pytest.raises(ValueError, match="no second pitch"):
        sounds([Note(3, 5, (mark("trill"),))], STANDARD)
