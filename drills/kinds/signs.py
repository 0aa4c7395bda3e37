"""The first technique signs: their names, what the fretting hand does, and fragments to draw them with."""

from __future__ import annotations

from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.score import Bar, Mark, MarkKind, Note, Onset, Piece
from drills.notation.tuning import Tuning
from drills.stages import Stage


class Sign(NamedTuple):
    """One technique sign as a beginner meets it.

    Attributes:
        key: as it stands in item ids.
        name: as players call it.
        marks: the marks on the first note.
        frets: an example on one string.
        hand: what the hands do, as a sentence.
        act: the same after the pick, in a few words.
        sound: what is heard.
        engraved, text: how it is written.
        stage: when it is taught.
        source: of these facts.
    """

    key: str
    name: str
    marks: tuple[Mark, ...]
    frets: tuple[int, ...]
    hand: str
    act: str
    sound: str
    engraved: str
    text: str
    stage: int
    source: str


_WRIGHT: Final = 'H. Wright, "The Guide to TAB Notation", 1995 (plain text); common practice (printed sign)'
_BEND: Final = f"{_WRIGHT}; MusicXML 4.0, bend-alter, in semitones (how far)"

SIGNS: Final = (
    Sign(
        "hammer-on", "hammer-on", (Mark(MarkKind.HAMMER_ON),), (5, 7),
        "Pick the first note, then bring another finger down hard on the higher fret; do not pick again",
        "fret the higher note hard, no pick",
        "The pitch rises; the second note sounds without a pick.",
        "an arc over both numbers with an H", "an h between the numbers", 3, _WRIGHT,
    ),
    Sign(
        "pull-off", "pull-off", (Mark(MarkKind.PULL_OFF),), (7, 5),
        "Hold both frets, pick the higher, then pluck the string with the finger that leaves it",
        "tug the string with the finger that leaves",
        "The pitch falls; the second note sounds without a pick.",
        "an arc over both numbers with a P", "a p between the numbers", 3, _WRIGHT,
    ),
    Sign(
        "slide-up", "slide up", (Mark(MarkKind.SLIDE_UP),), (5, 8),
        "Pick the first note and glide up to the higher fret, keeping the finger pressed down",
        "glide up, the finger kept down",
        "The pitch glides up; under an arc the second note is not picked.",
        "a rising line between the numbers, under an arc", "a / between the numbers", 6, _WRIGHT,
    ),
    Sign(
        "slide-down", "slide down", (Mark(MarkKind.SLIDE_DOWN),), (8, 5),
        "Pick the first note and glide down to the lower fret, keeping the finger pressed down",
        "glide down, the finger kept down",
        "The pitch glides down; under an arc the second note is not picked.",
        "a falling line between the numbers, under an arc", "a \\ between the numbers", 6, _WRIGHT,
    ),
    Sign(
        "half-bend", "half bend", (Mark(MarkKind.BEND, Fraction(1, 2)),), (7,),
        "Pick the note and push the string sideways until it sounds one fret higher",
        "push the string: sounds one fret higher",
        "The pitch rises by a half step, one fret.",
        "an arrow up to ½", "a b and the fret that it sounds like, one higher (7b8)", 6, _BEND,
    ),
    Sign(
        "full-bend", "full bend", (Mark(MarkKind.BEND, Fraction(1)),), (7,),
        "Pick the note and push the string sideways until it sounds two frets higher",
        "push the string: sounds two frets higher",
        "The pitch rises by a whole step, two frets.",
        "an arrow up to 1 (or full)", "a b and the fret that it sounds like, two higher (7b9)", 6, _BEND,
    ),
)  # fmt: skip
"""In the order in which beginners meet them."""

BY_KEY: Final = {sign.key: sign for sign in SIGNS}

CAUTION: Final = "Stop when a finger, the hand or the wrist hurts, and ask your teacher, or a doctor if it stays."
"""The usual caution wherever the hand has to work; it defers to people who can see the hand."""


class Phrase(NamedTuple):
    """A few notes on one string.

    Attributes:
        key: as it stands in item ids.
        title: for people.
        string: at most the number of strings.
        notes: fret and marks.
        stage: when it is taught.
        signs: the signs it needs.
    """

    key: str
    title: str
    string: int
    notes: tuple[tuple[int, tuple[Mark, ...]], ...]
    stage: int
    signs: tuple[str, ...]


def _h() -> tuple[Mark, ...]:
    return (Mark(MarkKind.HAMMER_ON),)


def _p() -> tuple[Mark, ...]:
    return (Mark(MarkKind.PULL_OFF),)


def _s(kind: MarkKind) -> tuple[Mark, ...]:
    return (Mark(kind),)


def _b(amount: Fraction, *more: MarkKind) -> tuple[Mark, ...]:
    return (Mark(MarkKind.BEND, amount), *(Mark(kind) for kind in more))


UP: Final = MarkKind.SLIDE_UP
DOWN: Final = MarkKind.SLIDE_DOWN
FULL: Final = Fraction(1)
HALF: Final = Fraction(1, 2)

PHRASES: Final = (
    Phrase("plain", "two notes, no sign", 2, ((5, ()), (7, ())), 3, ()),
    Phrase("h", "one hammer-on", 3, ((5, _h()), (7, ())), 3, ("hammer-on",)),
    Phrase("p", "one pull-off", 2, ((3, _p()), (1, ())), 3, ("pull-off",)),
    Phrase("h-open", "a hammer-on from the open string", 4, ((0, _h()), (2, ())), 3, ("hammer-on",)),
    Phrase("p-open", "a pull-off to the open string", 1, ((3, _p()), (0, ())), 3, ("pull-off",)),
    Phrase("h-then", "a hammer-on, then one more note", 3, ((2, _h()), (4, ()), (2, ())), 3, ("hammer-on",)),
    Phrase("then-p", "a note, then a pull-off", 2, ((3, ()), (3, _p()), (1, ())), 3, ("pull-off",)),
    Phrase("h-p", "a hammer-on and straight back", 3, ((5, _h()), (7, _p()), (5, ())), 6, ("hammer-on", "pull-off")),
    Phrase("p-h", "a pull-off and back up", 2, ((7, _p()), (5, _h()), (7, ())), 6, ("hammer-on", "pull-off")),
    Phrase("h-h", "two hammer-ons", 1, ((0, _h()), (1, _h()), (3, ())), 6, ("hammer-on",)),
    Phrase("up", "a slide up", 3, ((5, _s(UP)), (8, ())), 6, ("slide-up",)),
    Phrase("down", "a slide down", 4, ((7, _s(DOWN)), (4, ())), 6, ("slide-down",)),
    Phrase("up-then", "a slide up, then one more note", 2, ((3, _s(UP)), (5, ()), (3, ())), 6, ("slide-up",)),
    Phrase("full", "a full bend, then a note", 3, ((7, _b(FULL)), (5, ())), 6, ("full-bend",)),
    Phrase("half", "a half bend, then a note", 3, ((8, _b(HALF)), (5, ())), 6, ("half-bend",)),
    Phrase(
        "release", "a full bend and its release", 3, ((7, _b(FULL, MarkKind.RELEASE)),), Stage.TOUCH, ("full-bend",),
    ),
    Phrase(
        "half-release", "a half bend and its release", 3, ((8, _b(HALF, MarkKind.RELEASE)),), Stage.TOUCH,
        ("half-bend",),
    ),
    Phrase(
        "release-then", "a full bend, its release, then a note", 3,
        ((7, _b(FULL, MarkKind.RELEASE)), (5, ())), Stage.TOUCH, ("full-bend",),
    ),
    Phrase(
        "up-down", "a slide up and back", 4, ((4, _s(UP)), (7, _s(DOWN)), (4, ())), Stage.TOUCH,
        ("slide-up", "slide-down"),
    ),
)  # fmt: skip
"""Fragments whose picking and sound are asked."""

PHRASE_BY_KEY: Final = {phrase.key: phrase for phrase in PHRASES}


def notes_of(phrase: Phrase, tuning: Tuning) -> list[Note]:
    """The notes of a phrase on a string that the tuning has."""
    string = min(phrase.string, tuning.lines)
    return [Note(string, fret, marks) for fret, marks in phrase.notes]


def example(sign: Sign, string: int, frets: tuple[int, ...]) -> tuple[Onset, ...]:
    """A sign on its own: its first note carries the mark."""
    first, *rest = frets
    return (Onset((Note(string, first, sign.marks),)), *(Onset((Note(string, fret),)) for fret in rest))


def one_bar(onsets: tuple[Onset, ...], tuning: Tuning) -> Piece:
    """A piece of one bar."""
    return Piece(tuning, (Bar(onsets),))
