"""What is picked and what sounds: H. Wright, "The Guide to TAB Notation" (1995), and MusicXML 4.0."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drills.notation.score import (
    Bar,
    Mark,
    MarkKind,
    Metre,
    Note,
    Onset,
    Piece,
    bend_semitones,
    picked,
    sounds,
)
from drills.notation.tuning import shipped

STANDARD = shipped()["standard"]
HAMMER, PULL = Mark(MarkKind.HAMMER_ON), Mark(MarkKind.PULL_OFF)
UP, DOWN = Mark(MarkKind.SLIDE_UP), Mark(MarkKind.SLIDE_DOWN)
RELEASE = Mark(MarkKind.RELEASE)
FULL, HALF = Mark(MarkKind.BEND, Fraction(1)), Mark(MarkKind.BEND, Fraction(1, 2))


def line(*notes: tuple[int, Mark | None], string: int = 3) -> list[Note]:
    """Notes of one string: fret, and the mark to the next."""
    return [Note(string, fret, (mark,) if mark else ()) for fret, mark in notes]


@pytest.mark.parametrize(
    ("notes", "plucked"),
    [
        # Wright, section on hammer-ons and pull-offs: only the first note is picked; 5h7p5 is one pick.
        (line((5, HAMMER), (7, None)), (True, False)),
        (line((7, PULL), (5, None)), (True, False)),
        (line((5, HAMMER), (7, PULL), (5, None)), (True, False, False)),
        # Slurred or picked again: common practice, no source.
        (line((5, UP), (7, None)), (True, False)),
        (line((5, Mark(MarkKind.SLIDE_UP, slurred=False)), (7, None)), (True, True)),
        (line((7, DOWN), (5, HAMMER), (7, None), (7, None)), (True, False, False, True)),
        # A bend is part of its own note.
        (line((7, FULL), (7, None)), (True, True)),
        (line((5, None), (5, None)), (True, True)),
        (line((5, HAMMER)), (True,)),
        ([], ()),
    ],
)
def test_what_is_picked(notes: list[Note], plucked: tuple[bool, ...]) -> None:
    assert picked(notes) == plucked


@pytest.mark.parametrize(
    ("marks", "heard"),
    [
        # String 3 fret 7 is D4, 62. MusicXML 4.0, ``bend-alter``: the bend in semitones, 2 for a whole step.
        ((FULL, RELEASE), (62, 64, 62)),
        ((Mark(MarkKind.PRE_BEND, Fraction(1)), RELEASE), (64, 62)),
        ((Mark(MarkKind.PRE_BEND, Fraction(1, 2)),), (63,)),
        ((FULL,), (62, 64)),
        ((HALF,), (62, 63)),
        ((Mark(MarkKind.BEND, Fraction(3, 2)),), (62, 65)),
        ((HALF, RELEASE, FULL), (62, 63, 62, 64)),
        ((), (62,)),
    ],
)
def test_what_a_bent_note_sounds(marks: tuple[Mark, ...], heard: tuple[int, ...]) -> None:
    assert sounds([Note(3, 7, marks)], STANDARD) == heard


def test_what_a_chain_sounds() -> None:
    # MusicXML 4.0, ``fret``: a semitone a fret from the open string.
    assert sounds(line((5, HAMMER), (7, PULL), (5, None)), STANDARD) == (60, 62, 60)
    assert sounds(line((0, None), string=6), STANDARD) == (40,)
    assert sounds(line((3, UP), (5, None)), STANDARD.with_capo(2)) == (60, 62)


def test_a_muted_string_has_no_pitch() -> None:
    # Wright: x is struck, heavily damped.
    assert sounds([Note(3, None), Note(3, 2)], STANDARD) == (57,)


def test_a_bend_of_unknown_amount_is_refused() -> None:
    with pytest.raises(ValueError, match="amount is unknown"):
        bend_semitones(Mark(MarkKind.BEND))
    with pytest.raises(ValueError, match="amount is unknown"):
        sounds([Note(3, 7, (Mark(MarkKind.BEND),))], STANDARD)


def test_a_piece_is_walked_in_time() -> None:
    low, high, both = Onset((Note(6, 3),)), Onset((Note(1, 0),)), Onset((Note(6, 1), Note(2, 1)))
    piece = Piece(STANDARD, (Bar((low, high)), Bar(()), Bar((both,), Metre(3))))
    assert list(piece.onsets()) == [(0, 0, low), (0, 1, high), (2, 0, both)]
    assert [note.fret for note in piece.on_string(6)] == [3, 1]
    assert both.on(2) == Note(2, 1)
    assert both.on(1) is None
    assert str(piece.bars[2].metre) == "3/4"
