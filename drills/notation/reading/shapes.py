"""What the reader gives back: the piece, where each thing stands in the file, how sure it is, and every doubt."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.pitch import Pitch
from drills.notation.score import NODES, MarkKind, Note, Piece


class Certainty(StrEnum):
    """How sure the reader is of one thing; only what is sure is drilled."""

    SURE = "sure"
    LIKELY = "likely"
    GUESS = "guess"


_RANK: Final = {Certainty.SURE: 0, Certainty.LIKELY: 1, Certainty.GUESS: 2}


def weaker(one: Certainty, other: Certainty) -> Certainty:
    """The less sure of two."""
    return one if _RANK[one] >= _RANK[other] else other


class Severity(StrEnum):
    """How grave a doubt is."""

    ERROR = "error"
    """Something could not be understood."""
    WARNING = "warning"
    """Likely a slip in the file, or a choice that may be wrong."""
    NOTE = "note"
    """What was assumed, or left out."""


class Doubt(NamedTuple):
    """Something that the reader is not sure of, in plain words without raw text from the file.

    ``line`` and ``column`` count from 1, in characters of the decoded line before TABs are expanded.
    """

    line: int
    column: int
    severity: Severity
    message: str
    mend: str


class Source(NamedTuple):
    """Where a note stands in the file (its first digit, from 1), and how sure its string and fret are."""

    line: int
    column: int
    certainty: Certainty


class ReadMark(NamedTuple):
    """One sign as it was read; palm mute and let ring once a span, a repeat once where it closes.

    Attributes:
        kind: which sign; slides up or down by their frets, not by the sign.
        bar: index of its bar in the piece.
        onset: index of the onset it begins at; None for a repeat.
        string: None for what stands over several strings, and for a repeat.
        start: the fret it begins at, or None where it comes from no written note (``-h2-``; the piece has no note to
            bear such a mark).
        to: the fret it leads to, or None for a mark on one note.
        amount: of a bend, in whole steps; None where the text does not say.
        times: how often a repeated part is played in all; 1 for other marks.
        certainty: of the sign.
        line, column: of the sign in the file, from 1.
    """

    kind: MarkKind
    bar: int
    onset: int | None
    string: int | None
    start: int | None
    to: int | None
    amount: Fraction | None
    times: int
    certainty: Certainty
    line: int
    column: int


class TuningFrom(StrEnum):
    """What the tuning was taken from."""

    GIVEN = "given"
    TEXT = "text"
    LABELS = "labels"
    ROWS = "rows"
    UNKNOWN = "unknown"


class BarAt(NamedTuple):
    """Where a bar of the piece is drawn.

    Attributes:
        number: as people count: from 1, a pick-up bar is 0.
        system: which system of the file, from 1.
        line: of the system's first row, from 1.
        column: where it begins, from 1.
        chords: chord names over it, with the column of each, as written.
    """

    number: int
    system: int
    line: int
    column: int
    chords: tuple[tuple[int, str], ...] = ()


class Reading(NamedTuple):
    """All that was read.

    Attributes:
        piece: the tab; its tuning carries the capo. Where the tuning is unknown its pitches mean nothing.
        tuning_from: what the tuning was taken from.
        bars: where each bar of the piece stands.
        sources: where each note stands: bars of onsets of notes, as in the piece.
        marks: every sign, in the order of the piece.
        doubts: in the order of the file.
        systems: how many systems were found.
    """

    piece: Piece
    tuning_from: TuningFrom
    bars: tuple[BarAt, ...]
    sources: tuple[tuple[tuple[Source, ...], ...], ...]
    marks: tuple[ReadMark, ...]
    doubts: tuple[Doubt, ...]
    systems: int

    @property
    def errors(self) -> bool:
        """Whether something could not be understood."""
        return any(doubt.severity is Severity.ERROR for doubt in self.doubts)

    def pitch(self, note: Note) -> Pitch | None:
        """What a note sounds, capo included, a harmonic its overtone; None where that cannot be known."""
        if note.fret is None or self.tuning_from is TuningFrom.UNKNOWN:
            return None
        tuning = self.piece.tuning
        if note.marks:
            kinds = {mark.kind for mark in note.marks}
            if MarkKind.PINCH_HARMONIC in kinds or (MarkKind.HARMONIC in kinds and note.fret not in NODES):
                return None
            if MarkKind.HARMONIC in kinds:
                return tuning.open(note.string).up(NODES[note.fret])
        return tuning.sound(note.string, note.fret)


class Doubts:
    """A growing list of doubts."""

    def __init__(self) -> None:
        self._found: list[Doubt] = []

    def error(self, line: int, column: int, message: str, mend: str) -> None:
        """Something could not be understood."""
        self._found.append(Doubt(line, column, Severity.ERROR, message, mend))

    def warn(self, line: int, column: int, message: str, mend: str) -> None:
        """Likely a slip."""
        self._found.append(Doubt(line, column, Severity.WARNING, message, mend))

    def note(self, line: int, column: int, message: str, mend: str) -> None:
        """What was assumed or left out."""
        self._found.append(Doubt(line, column, Severity.NOTE, message, mend))

    def sorted(self) -> tuple[Doubt, ...]:
        """In the order of the file."""
        return tuple(sorted(self._found, key=lambda doubt: doubt[:2]))


def shown(text: str) -> str:
    """Text of the file as a message may quote it: short and in plain ASCII."""
    return ascii(text[:24] + ("..." if len(text) > 24 else ""))
