"""A piece of tab: bars of onsets of notes with their marks. Order in time is sure, lengths may be unknown."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.tuning import Tuning


class MarkKind(StrEnum):
    """A technique sign, by the trade's name."""

    HAMMER_ON = "hammer-on"
    PULL_OFF = "pull-off"
    SLIDE_UP = "slide-up"
    SLIDE_DOWN = "slide-down"
    BEND = "bend"
    PRE_BEND = "pre-bend"
    RELEASE = "release"


LINKING: Final = frozenset(
    {MarkKind.HAMMER_ON, MarkKind.PULL_OFF, MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN}
)
"""Marks that lead from their note to the next one on the same string."""


class Mark(NamedTuple):
    """One sign at one note.

    Attributes:
        kind: which sign; a linking one leads to the next note on the same string.
        amount: of a bend, in whole steps (1 is "full", 1/2 a half), else None.
        slurred: whether the note it leads to is sounded without picking (slides alone may be re-picked).
    """

    kind: MarkKind
    amount: Fraction | None = None
    slurred: bool = True


class Note(NamedTuple):
    """One number on the staff.

    Attributes:
        string: 1 is the top line.
        fret: 0 is open; None for a muted x.
        marks: in the order in which they sound.
    """

    string: int
    fret: int | None
    marks: tuple[Mark, ...] = ()


class Onset(NamedTuple):
    """The notes struck at one instant; two or more are a chord.

    Attributes:
        notes: at most one a string.
        beat: where in its bar it falls, counted from 1 in beats; None when the tab does not tell.
        length: in beats; None when unknown.
    """

    notes: tuple[Note, ...]
    beat: Fraction | None = None
    length: Fraction | None = None

    def on(self, string: int) -> Note | None:
        """The note on a string, or None."""
        return next((note for note in self.notes if note.string == string), None)


class Metre(NamedTuple):
    """Beats in a bar and the value that is one beat (4 a quarter, 8 an eighth)."""

    beats: int
    unit: int = 4

    def __str__(self) -> str:
        return f"{self.beats}/{self.unit}"


class Bar(NamedTuple):
    """What stands between two bar lines."""

    onsets: tuple[Onset, ...]
    metre: Metre | None = None


class Piece(NamedTuple):
    """A whole tab."""

    tuning: Tuning
    bars: tuple[Bar, ...]
    title: str = ""

    def onsets(self) -> Iterator[tuple[int, int, Onset]]:
        """Every onset in time, with the index of its bar and its index in that bar."""
        for bar_index, bar in enumerate(self.bars):
            for onset_index, onset in enumerate(bar.onsets):
                yield bar_index, onset_index, onset

    def on_string(self, string: int) -> list[Note]:
        """The notes of one string in time."""
        return [note for _, _, onset in self.onsets() if (note := onset.on(string))]


class At(NamedTuple):
    """Where a note stands in a piece: index of its bar, of its onset in that bar, and its string."""

    bar: int
    onset: int
    string: int


def picked(notes: list[Note]) -> tuple[bool, ...]:
    """Which of one string's notes the picking hand plucks.

    A note reached by a hammer-on, a pull-off or a slurred slide is not picked (H. Wright, "The Guide to TAB
    Notation", 1995); a slide that is not slurred is picked again (common practice, no source).
    """
    struck = [True] * len(notes)
    for index, note in enumerate(notes[:-1]):
        if any(mark.kind in LINKING and mark.slurred for mark in note.marks):
            struck[index + 1] = False
    return tuple(struck)


def sounds(notes: list[Note], tuning: Tuning) -> tuple[int, ...]:
    """The successive pitches that are heard on one string, as MIDI numbers.

    A bend of ``amount`` whole steps ends ``2 * amount`` semitones higher (MusicXML 4.0, ``bend-alter``); a
    pre-bend sounds bent from the start; a release comes back to the fret.

    Raises:
        ValueError: a bend whose amount is unknown.
    """
    heard: list[int] = []
    for note in notes:
        if note.fret is None:
            continue
        base = tuning.sound(note.string, note.fret).midi
        kinds = [mark.kind for mark in note.marks]
        if MarkKind.PRE_BEND not in kinds:
            heard.append(base)
        for mark in note.marks:
            if mark.kind in (MarkKind.BEND, MarkKind.PRE_BEND):
                heard.append(base + bend_semitones(mark))
            elif mark.kind is MarkKind.RELEASE:
                heard.append(base)
    return tuple(heard)


def bend_semitones(mark: Mark) -> int:
    """How far a bend raises its note, in semitones.

    Raises:
        ValueError: its amount is unknown.
    """
    if mark.amount is None:
        raise ValueError("a bend whose amount is unknown has no pitch to end on")
    return int(mark.amount * 2)
