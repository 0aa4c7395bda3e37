"""Tab in words. What is said is our own wording; the form of a place is the surface's."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drills.notation.drawing import Role
from drills.notation.neck import NeckView
from drills.notation.score import At, Bar, Mark, MarkKind, Metre, Note, Onset, Piece
from drills.notation.spoken import from_edge, say_neck, say_place, say_staff
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.tuning import shipped

STANDARD = shipped()["standard"]


def one(string: int, fret: int | None, *marks: Mark) -> Onset:
    """One note."""
    return Onset((Note(string, fret, marks),))


def staff(*bars: tuple[Onset, ...], dialect: Dialect = Dialect.TEXT) -> StaffView:
    """Bars on six lines."""
    return StaffView(Piece(STANDARD, tuple(Bar(onsets) for onsets in bars)), dialect)


def test_places_one_after_another_and_together() -> None:
    chord = Onset((Note(3, 0), Note(2, 1)))
    assert say_staff(staff((one(5, 3), chord))) == [
        "string 5, fret 3, then together string 2, fret 1 and string 3, open"
    ]


def test_bar_lines_and_empty_bars_are_said() -> None:
    assert say_staff(staff((one(6, 0),), (), (one(1, None),))) == [
        "string 6, open; bar line; an empty bar; bar line; string 1, muted"
    ]


@pytest.mark.parametrize(
    ("kind", "frets", "named", "typed", "printed"),
    [
        (MarkKind.HAMMER_ON, (5, 7), "hammer-on", "the letter h", "an arc with the letter H"),
        (MarkKind.PULL_OFF, (7, 5), "pull-off", "the letter p", "an arc with the letter P"),
        (MarkKind.SLIDE_UP, (5, 7), "slide up", "a slash", "a rising line under an arc"),
        (MarkKind.SLIDE_DOWN, (7, 5), "slide down", "a backslash", "a falling line under an arc"),
    ],
)
def test_signs_by_name_or_as_they_are_written(
    kind: MarkKind, frets: tuple[int, int], named: str, typed: str, printed: str
) -> None:
    onsets = (one(3, frets[0], Mark(kind)), one(3, frets[1]))
    start, end = f"string 3, fret {frets[0]}", f"fret {frets[1]}"
    assert say_staff(staff(onsets)) == [f"{start}, {named} to {end}"]
    assert say_staff(staff(onsets), spell=True) == [f"{start}, {typed} to {end}"]
    assert say_staff(staff(onsets, dialect=Dialect.ENGRAVED), spell=True) == [f"{start}, {printed} to {end}"]


def test_bends_say_how_far() -> None:
    half = one(3, 7, Mark(MarkKind.BEND, Fraction(1, 2)))
    full = one(3, 7, Mark(MarkKind.BEND, Fraction(1)), Mark(MarkKind.RELEASE))
    unknown = one(3, 7, Mark(MarkKind.BEND))
    before = one(3, 7, Mark(MarkKind.PRE_BEND, Fraction(1)))
    assert say_staff(staff((half, full, unknown, before)))[0].split(", then ") == [
        "string 3, fret 7, bent up a half step",
        "string 3, fret 7, bent up a whole step and released",
        "string 3, fret 7, bent up",
        "string 3, fret 7, bent up a whole step before it is picked",
    ]
    assert say_staff(staff((full,)), spell=True) == ["string 3, fret 7, written 7b9r7"]
    assert say_staff(staff((half,), dialect=Dialect.ENGRAVED), spell=True) == [
        "string 3, fret 7, an arrow up to one half"
    ]


def test_a_marked_line_is_said_by_its_place_and_never_by_its_number() -> None:
    view = StaffView(Piece(STANDARD, (Bar(()),)), lines={5: Role.LIT})
    assert say_staff(view) == ["the second line from the bottom is marked"]
    assert say_staff(StaffView(Piece(STANDARD, (Bar(()),)))) == ["an empty staff of 6 lines"]


def test_what_is_marked_right_or_answered() -> None:
    view = StaffView(
        Piece(STANDARD, (Bar((one(1, 0), one(2, 1), one(3, 2))),)),
        colours={At(0, 0, 1): Role.LIT, At(0, 1, 2): Role.TRUE, At(0, 2, 3): Role.SAID},
    )
    assert say_staff(view) == [
        "string 1, open (marked), then string 2, fret 1 (right), then string 3, fret 2 (your answer)"
    ]


def test_keys_and_labels() -> None:
    view = StaffView(
        Piece(STANDARD, (Bar((one(1, 0), one(6, 3))),)),
        labels=("e", "", "", "", "", "E"),
        keys={(0, 0): ("a", "1/0"), (0, 1): ("b", "6/3")},
    )
    assert say_staff(view) == [
        "the top line is labelled e", "the bottom line is labelled E", "a: string 1, open, then b: string 6, fret 3",
    ]  # fmt: skip


def test_the_count_is_said_with_what_falls_on_it() -> None:
    bar = Bar((Onset((Note(1, 0),), Fraction(1)), Onset((Note(2, 3),), Fraction(5, 2))), Metre(3))
    assert say_staff(StaffView(Piece(STANDARD, (bar,)), count=True)) == [
        "1: string 1, open; and; 2; and: string 2, fret 3; 3; and"
    ]


def test_a_hidden_bar_line_is_not_said() -> None:
    bars = (Bar((one(1, 0),)), Bar((one(2, 0),)))
    view = StaffView(Piece(STANDARD, bars), hidden_bar_lines=frozenset({0}))
    assert "bar line" not in say_staff(view)[0]


def test_the_neck_as_the_player_looks_down_at_it() -> None:
    assert say_neck(NeckView(6, lit_strings={6: Role.LIT})) == ["on the neck, the top string is marked"]
    assert say_neck(NeckView(6, dots={(5, 3): ("●", Role.LIT)})) == [
        "on the neck, a dot at the second string from the top, fret 3"
    ]
    wrong = NeckView(6, dots={(6, 0): ("●", Role.TRUE), (1, 2): ("●", Role.SAID)}, labels=tuple("eBGDAE"))
    assert say_neck(wrong) == [
        "the strings from the top of the neck are labelled E, A, D, G, B, e",
        "on the neck, the dot at the top string, open, is the right one",
        "on the neck, the dot at the bottom string, fret 2, is what you answered",
    ]


def test_keys_on_the_neck_come_in_their_order() -> None:
    view = NeckView(4, keys={(1, 2): ("b", "1/2"), (4, 0): ("a", "4/0")})
    assert say_neck(view) == ["on the neck, a: the top string, open; b: the bottom string, fret 2"]


@pytest.mark.parametrize(
    ("place", "said"),
    [(1, "the top line"), (2, "the second line from the top"), (3, "the third line from the top"),
     (4, "the third line from the bottom"), (6, "the bottom line")],
)  # fmt: skip
def test_counting_from_the_nearer_edge(place: int, said: str) -> None:
    assert from_edge(place, 6, "line") == said


def test_a_place() -> None:
    assert (say_place(5, 3), say_place(3, 0)) == ("string 5, fret 3", "string 3, open")


def test_a_capo_is_said_once_whatever_the_strings() -> None:
    dots = {(string, fret): (text, role) for string in range(1, 7)
            for fret, text, role in ((2, "┃", Role.TRUE), (4, "×", Role.SAID))}  # fmt: skip
    assert say_neck(NeckView(6, dots=dots)) == [
        "a capo across the neck at fret 2 is the right one", "a capo across the neck at fret 4 is what you answered",
    ]  # fmt: skip


def test_fingers_under_the_staff_are_said_after_the_notes() -> None:
    onsets = tuple(Onset((Note(2, fret),)) for fret in (5, 7))
    view = StaffView(Piece(STANDARD, (Bar(onsets),)), fingering={(0, 0): "1", (0, 1): "3"})
    assert say_staff(view)[-1] == "fingers under the staff: 1 under note 1, 3 under note 2"
