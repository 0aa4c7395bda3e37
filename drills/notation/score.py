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
    SLIDE_IN_UP = "slide-in-up"
    SLIDE_IN_DOWN = "slide-in-down"
    SLIDE_OUT_UP = "slide-out-up"
    SLIDE_OUT_DOWN = "slide-out-down"
    VIBRATO = "vibrato"
    PALM_MUTE = "palm-mute"
    MUTE = "mute"
    HARMONIC = "harmonic"
    PINCH_HARMONIC = "pinch-harmonic"
    TAP = "tap"
    TRILL = "trill"
    GHOST = "ghost"
    LET_RING = "let-ring"
    TIE = "tie"
    GRACE = "grace"
    ACCENT = "accent"
    STACCATO = "staccato"
    REPEAT = "repeat"
    """Of a bar, never of a note: see ``Bar``."""


LINKING: Final = frozenset(
    {MarkKind.HAMMER_ON, MarkKind.PULL_OFF, MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN, MarkKind.TIE}
)
"""Marks that lead from their note to the next one on the same string."""

SPANS: Final = frozenset({MarkKind.PALM_MUTE, MarkKind.LET_RING})
"""Marks that are written once for a run of onsets: each of them carries the mark, the writing joins them."""

NODES: Final = {12: 12, 7: 19, 19: 19, 5: 24, 24: 24, 4: 28, 9: 28, 16: 28}
"""Fret of a natural harmonic -> semitones over the open string: the 2nd to 5th overtone of the string, at a half,
a third, a quarter and a fifth of its length (arithmetic: 12 log2 n, the fifth 14 cents flat of 28)."""


class Mark(NamedTuple):
    """One sign at one note.

    Attributes:
        kind: which sign; a linking one leads to the next note on the same string.
        amount: of a bend, in whole steps (1 is "full", 1/2 a half), else None.
        slurred: whether the note it leads to is sounded without picking (slides alone may be re-picked).
        to: the other fret of a trill, else None.
    """

    kind: MarkKind
    amount: Fraction | None = None
    slurred: bool = True
    to: int | None = None


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
    """The notes struck at one instant; two or more are a chord, none is a rest.

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
    """What stands between two bar lines.

    Attributes:
        onsets: in time.
        metre: None where the tab does not tell.
        opens_repeat: whether a repeated part begins with this bar.
        times: how often the part that ends with this bar is played; 1 where no repeat sign closes it.
        pick_up: whether it is an incomplete bar before the first full one.
    """

    onsets: tuple[Onset, ...]
    metre: Metre | None = None
    opens_repeat: bool = False
    times: int = 1
    pick_up: bool = False


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
    Notation", 1995), nor is one that is tapped or tied over; a slide that is not slurred is picked again, a muted
    x and a harmonic are picked like any note (common practice, no source).
    """
    struck = [True] * len(notes)
    for index, note in enumerate(notes):
        kinds = {mark.kind for mark in note.marks if mark.slurred}
        if MarkKind.TAP in kinds:
            struck[index] = False
        if kinds & LINKING and index + 1 < len(notes):
            struck[index + 1] = False
    return tuple(struck)


def sounds(notes: list[Note], tuning: Tuning) -> tuple[int, ...]:
    """The successive pitches that are heard on one string, as MIDI numbers.

    A bend of ``amount`` whole steps ends ``2 * amount`` semitones higher (MusicXML 4.0, ``bend-alter``); a
    pre-bend sounds bent from the start; a release comes back to the fret. A trill is heard as its two pitches once.
    A muted note has no pitch, a note that is tied over does not begin again; a slide from or to nowhere adds none,
    because where it begins or ends is not written.

    Raises:
        ValueError: a bend whose amount is unknown, a trill without its other fret, or a harmonic whose pitch its
            fret does not tell.
    """
    heard: list[int] = []
    tied = False
    for note in notes:
        kinds = [mark.kind for mark in note.marks]
        held, tied = tied, MarkKind.TIE in kinds
        if note.fret is None or MarkKind.MUTE in kinds:
            continue
        base = _base(note, kinds, tuning)
        if MarkKind.PRE_BEND not in kinds and not held:
            heard.append(base)
        for mark in note.marks:
            if mark.kind in (MarkKind.BEND, MarkKind.PRE_BEND):
                heard.append(base + bend_semitones(mark))
            elif mark.kind is MarkKind.RELEASE:
                heard.append(base)
            elif mark.kind is MarkKind.TRILL:
                if mark.to is None:
                    raise ValueError("a trill without its other fret has no second pitch")
                heard.append(tuning.sound(note.string, mark.to).midi)
    return tuple(heard)


def _base(note: Note, kinds: list[MarkKind], tuning: Tuning) -> int:
    """Where the sound of a note begins, as a MIDI number."""
    fret = note.fret or 0
    if MarkKind.PINCH_HARMONIC in kinds or (MarkKind.HARMONIC in kinds and fret not in NODES):
        raise ValueError(f"the pitch of a harmonic at fret {fret} does not follow from its fret")
    if MarkKind.HARMONIC in kinds:
        return tuning.open(note.string).midi + NODES[fret]
    return tuning.sound(note.string, fret).midi


def bend_semitones(mark: Mark) -> int:
    """How far a bend raises its note, in semitones.

    Raises:
        ValueError: its amount is unknown.
    """
    if mark.amount is None:
        raise ValueError("a bend whose amount is unknown has no pitch to end on")
    return int(mark.amount * 2)
