"""Every mark for the ear: by name, and as either dialect writes it where the name is asked. The words are our own."""

from __future__ import annotations

import pytest

from drills.notation.score import Mark, MarkKind, Note, Onset, Piece
from drills.notation.spoken import say_staff
from drills.notation.staff_view import Dialect, StaffView
from tests.drills.notation.pieces import DOWN, DOWN_PICKED, HAMMER, UP, UP_PICKED, bend, note, piece, pre_bend
from tests.drills.notation.samples import SAMPLES, mark


def said(tab: Piece, dialect: Dialect = Dialect.ENGRAVED, *, spell: bool = False) -> str:
    return say_staff(StaffView(tab, dialect), spell=spell)[0]


@pytest.mark.parametrize(
    ("sign", "named", "printed", "typed"),
    [
        (mark("grace"), "a grace note", "a small number", "the letter g before it"),
        (mark("slide-in-up"), "slid into from below", "a short rising line before it", "a slash before it"),
        (mark("slide-in-down"), "slid into from above", "a short falling line before it", "a backslash before it"),
        (mark("slide-out-up"), "slid away upwards", "a short rising line behind it", "a slash behind it"),
        (mark("slide-out-down"), "slid away downwards", "a short falling line behind it", "a backslash behind it"),
        (mark("tap"), "tapped", "the letter T over it", "the letter t before it"),
        (mark("ghost"), "a ghost note", "in parentheses", "in parentheses"),
        (mark("harmonic"), "a natural harmonic", "in angle brackets, N.H. over it", "in angle brackets"),
        (mark("pinch-harmonic"), "a pinch harmonic", *["in angle brackets, P.H. over it"] * 2),
        (mark("vibrato"), "with vibrato", "a wavy line over it", "a wavy line behind it"),
        (mark("accent"), "accented", "a wedge, >, over it", "a wedge, >, over it"),
        (mark("staccato"), "staccato", "a dot over it", "a dot over it"),
        (mark("palm-mute"), "palm-muted", "P.M. over it", "PM over it"),
        (mark("let-ring"), "left to ring", *["the words let ring over it"] * 2),
        (mark("trill", 7), "trilled with fret 7",
         "the letters tr and a wavy line over it, 7 in parentheses behind it", "written 5tr7"),
        (mark("trill"), "trilled", "the letters tr and a wavy line over it", "written 5tr"),
        (bend(1.5), "bent up one and a half steps", "an arrow up to one and a half", "written 5b8"),
        (bend(2), "bent up two whole steps", "an arrow up to 2", "written 5b9"),
        (pre_bend(1), "bent up a whole step before it is picked", "a straight arrow up to 1", "written 5pb7"),
    ],
)  # fmt: skip
def test_a_mark_of_one_note(sign: Mark, named: str, printed: str, typed: str) -> None:
    tab = piece((note(3, 5, sign),))
    assert said(tab) == said(tab, Dialect.TEXT) == f"string 3, fret 5, {named}"
    assert said(tab, spell=True) == f"string 3, fret 5, {printed}"
    assert said(tab, Dialect.TEXT, spell=True) == f"string 3, fret 5, {typed}"


@pytest.mark.parametrize(
    ("sign", "named", "printed", "typed"),
    [
        (UP, "slide up to fret 7", "a rising line under an arc to fret 7", "a slash to fret 7"),
        (UP_PICKED, "slide up, picked again at fret 7", "a rising line without an arc to fret 7", "a slash to fret 7"),
        (DOWN_PICKED, "slide down, picked again at fret 7", "a falling line without an arc to fret 7",
         "a backslash to fret 7"),
        (mark("tie"), "tied over to fret 7", "an arc without a letter to fret 7, in parentheses",
         "a single dash to fret 7, in parentheses"),
    ],
)  # fmt: skip
def test_a_mark_between_two_notes(sign: Mark, named: str, printed: str, typed: str) -> None:
    tab = piece((note(3, 5, sign), note(3, 7)))
    assert said(tab) == f"string 3, fret 5, {named}"
    assert said(tab, spell=True) == f"string 3, fret 5, {printed}"
    assert said(tab, Dialect.TEXT, spell=True) == f"string 3, fret 5, {typed}"


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("dialect", Dialect)
def test_what_is_drawn_differently_is_said_differently(name: str, dialect: Dialect) -> None:
    """No mark goes unsaid: without its marks, every sample is said in other words."""
    tab = SAMPLES[name]
    bars = tuple(bar._replace(opens_repeat=False, times=1) for bar in tab.bars)
    bare = [
        bar._replace(onsets=tuple(o._replace(notes=tuple(n._replace(marks=()) for n in o.notes)) for o in bar.onsets))
        for bar in bars
    ]
    stripped = tab._replace(bars=tuple(bare))
    for spell in (False, True):
        assert (said(tab, dialect, spell=spell) == said(stripped, dialect, spell=spell)) == (name == "a muted string")


def test_spelling_never_says_the_name() -> None:
    names = ("hammer", "pull", "slide", "bend", "vibrato", "trill", "tap", "harmonic", "palm", "mute", "ghost", "tie",
             "grace", "accent", "staccato", "repeat")  # fmt: skip
    for tab in SAMPLES.values():
        for dialect in Dialect:
            words = said(tab, dialect, spell=True)
            assert not [name for name in names if name in words.replace("string", "")]


def test_a_mark_that_leads_to_another_string_leads_on_from_its_note() -> None:
    tab = piece((note(3, 5, HAMMER), note(2, 7)))
    assert said(tab) == "string 3, fret 5, hammer-on from it, then string 2, fret 7"
    assert said(tab, spell=True) == "string 3, fret 5, an arc with the letter H from it, then string 2, fret 7"
    slid = piece((note(3, 7, DOWN_PICKED), note(2, 5)))
    assert said(slid) == "string 3, fret 7, slide down, picked again from it, then string 2, fret 5"


def test_where_a_mark_leads_is_said_in_full_when_it_is_not_the_note_before() -> None:
    chord = Onset((Note(2, 5, (HAMMER,)), Note(3, 7, (DOWN,))))
    tab = piece((chord, Onset((Note(2, 7), Note(3, 5)))))
    assert said(tab).endswith("then together hammer-on to string 2, fret 7 and slide down to string 3, fret 5")
    far = piece((note(1, 5, HAMMER), note(2, 0), note(1, 7)))
    assert said(far) == "string 1, fret 5, then string 2, open, hammer-on to string 1, fret 7"


def test_repeats_are_said_with_their_count() -> None:
    tab = SAMPLES["repeats"]
    assert said(tab).split("; ") == [
        "repeat from here: string 1, fret 5, then string 1, fret 7",
        "end of the repeat, 2 times in all",
        "repeat from here: string 1, fret 5, then string 1, fret 3",
        "bar line",
        "string 1, fret 5",
        "end of the repeat, 3 times in all",
    ]
    spelled = said(tab, Dialect.TEXT, spell=True)
    assert "a bar line with colons at its left; a bar line with colons at its right: " in spelled
    assert spelled.endswith("a bar line with colons at its left, x3 over it")


def test_an_x_is_not_named_where_its_name_is_asked() -> None:
    tab = piece((note(3, None, Mark(MarkKind.MUTE)),))
    assert said(tab) == "string 3, muted"
    assert said(tab, spell=True) == "string 3, an x"


def test_a_legend_is_said_last() -> None:
    view = StaffView(SAMPLES["a tie"], legend=("( ) is held over.",))
    assert say_staff(view)[-1] == "legend: ( ) is held over"
