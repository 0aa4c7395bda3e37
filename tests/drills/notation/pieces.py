"""Pieces for the staff tests: a short way to write them, random ones, and a reader of what was drawn."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from hypothesis import strategies as st

from drills.notation.pitch import Pitch
from drills.notation.score import Bar, Mark, MarkKind, Metre, Note, Onset, Piece
from drills.notation.tuning import Tuning, shipped

STANDARD = shipped()["standard"]
HAMMER, PULL = Mark(MarkKind.HAMMER_ON), Mark(MarkKind.PULL_OFF)
UP, DOWN = Mark(MarkKind.SLIDE_UP), Mark(MarkKind.SLIDE_DOWN)
UP_PICKED, DOWN_PICKED = Mark(MarkKind.SLIDE_UP, slurred=False), Mark(MarkKind.SLIDE_DOWN, slurred=False)
RELEASE = Mark(MarkKind.RELEASE)


def bend(amount: Fraction | float) -> Mark:
    return Mark(MarkKind.BEND, Fraction(amount))


def pre_bend(amount: Fraction | float) -> Mark:
    return Mark(MarkKind.PRE_BEND, Fraction(amount))


def note(string: int, fret: int | None, *marks: Mark, beat: Fraction | float | None = None) -> Onset:
    """An onset of one note."""
    return Onset((Note(string, fret, marks),), None if beat is None else Fraction(beat))


def piece(*bars: tuple[Onset, ...], tuning: Tuning = STANDARD, metre: Metre | None = None) -> Piece:
    return Piece(tuning, tuple(Bar(onsets, metre) for onsets in bars))


def strung(lines: int) -> Tuning:
    """A tuning of that many strings; what they sound does not matter to the drawing."""
    return Tuning("own", "own", tuple(Pitch(64 - 5 * n) for n in range(lines)))


@st.composite
def pieces(draw: st.DrawFn, marked: bool = True) -> Piece:
    """Random pieces of 4 to 8 lines, with chords, muted strings, two-digit frets, and fitting marks."""
    lines = draw(st.integers(4, 8))
    fret = st.one_of(st.none(), st.integers(0, 24))
    onset = st.dictionaries(st.integers(1, lines), fret, min_size=1, max_size=lines)
    shape = draw(st.lists(st.lists(onset, max_size=5), min_size=1, max_size=3))
    following: dict[int, int | None] = {}
    bars: list[Bar] = []
    for bar in reversed(shape):
        onsets: list[Onset] = []
        for frets in reversed(bar):
            notes = []
            for string, at in frets.items():
                marks: tuple[Mark, ...] = ()
                if marked and at is not None:
                    marks = draw(st.sampled_from(_fitting(at, following.get(string))))
                notes.append(Note(string, at, marks))
            following.update(frets)
            onsets.insert(0, Onset(tuple(notes)))
        bars.insert(0, Bar(tuple(onsets)))
    return Piece(strung(lines), tuple(bars))


def _fitting(fret: int, following: int | None) -> list[tuple[Mark, ...]]:
    """Marks that make sense on a fret, given the next one on its string."""
    marks: list[tuple[Mark, ...]] = [(), (bend(1),), (bend(0.5), RELEASE), (pre_bend(1.5),), (pre_bend(1), RELEASE)]
    if following is not None and following > fret:
        marks += [(HAMMER,), (UP,), (UP_PICKED,), (bend(1), RELEASE, HAMMER)]
    if following is not None and following < fret:
        marks += [(PULL,), (DOWN,), (DOWN_PICKED,), (bend(1), RELEASE, PULL)]
    return marks


Read = list[list[dict[int, str]]]
"""Bars of onsets: string -> what stands on its line."""


@dataclass(frozen=True)
class Numbers:
    """What a reader finds on the drawn lines: bars of onsets, and the columns of the bar lines."""

    bars: Read
    bar_lines: list[int]


def read(rows: list[str], marks: str = "") -> Numbers:
    """Read the rows of the lines, line 1 first, as a person would: bar lines first, then columns of numbers.

    Args:
        rows: of the lines only.
        marks: characters after which digits belong to a mark, not to a note.
    """
    width = max(map(len, rows))
    bar_lines = [c for c in range(width) if all(row[c : c + 1] in ("|", "│", "┼") for row in rows)]
    found: dict[int, dict[int, str]] = {}
    for string, row in enumerate(rows, start=1):
        for match in re.finditer(r"\d+|x", row):
            if match.start() == 0 or row[match.start() - 1] not in (marks or " "):
                found.setdefault(match.start(), {})[string] = match.group()
    bars: Read = [[] for _ in bar_lines[1:]]
    for column in sorted(found):
        bars[sum(line < column for line in bar_lines) - 1].append(found[column])
    return Numbers(bars, bar_lines)


def written(piece: Piece) -> Read:
    """What a reader ought to find."""
    return [
        [{n.string: "x" if n.fret is None else str(n.fret) for n in onset.notes} for onset in bar.onsets]
        for bar in piece.bars
    ]
