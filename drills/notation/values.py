"""Note values: how long a note or a rest lasts, by the trade's names, and the count words of a bar.

A quarter is half of a half, which is half of a whole; a dot adds half of the value (MusicXML 4.0, ``note-type-value``
and ``dot``). The letters ``w h q e s`` and the count words ``1 e & a`` are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Final, NamedTuple

from drills.notation.score import Bar, MarkKind, Metre, Onset, Piece

USUAL: Final = Metre(4)
"""The metre of a bar that does not tell its own."""

LENGTHS: Final = {
    "whole": Fraction(4),
    "half": Fraction(2),
    "quarter": Fraction(1),
    "eighth": Fraction(1, 2),
    "sixteenth": Fraction(1, 4),
}
"""Name of a value -> its length in quarters."""

BY_LETTER: Final = {name[0]: name for name in LENGTHS}
"""How text tab writes a value in line with its number."""


class Value(NamedTuple):
    """A written value.

    Attributes:
        name: ``whole`` to ``sixteenth``.
        dots: 0, or 1 for a dotted value.
    """

    name: str
    dots: int = 0

    @property
    def quarters(self) -> Fraction:
        """How long it lasts, in quarters."""
        length = LENGTHS[self.name]
        return length * 3 / 2 if self.dots else length

    @property
    def words(self) -> str:
        """``quarter``, ``dotted quarter``."""
        return ("dotted " if self.dots else "") + self.name

    @property
    def letters(self) -> str:
        """``q``, ``q.``."""
        return self.name[0] + "." * self.dots

    @property
    def flags(self) -> int:
        """Flags or beams on its stem: one for an eighth, two for a sixteenth."""
        return {"eighth": 1, "sixteenth": 2}.get(self.name, 0)


VALUES: Final = {value.quarters: value for name in LENGTHS for value in (Value(name), Value(name, 1))}
"""Length in quarters -> the value that is written for it."""


def value_of(onset: Onset, bar: Bar) -> Value:
    """The value that an onset is written with.

    Raises:
        ValueError: its length is unknown, or no single value with at most one dot has it.
    """
    if onset.length is None:
        raise ValueError("an onset has no length: stems need the length of every onset")
    quarters = onset.length * 4 / (bar.metre or USUAL).unit
    if quarters not in VALUES:
        raise ValueError(f"no single value lasts {onset.length} beats: tie two notes")
    return VALUES[quarters]


def beats_of(bar: Bar) -> int:
    """Beats in a full bar: its metre's, or the usual number and as many more as its onsets ask for."""
    if bar.metre is not None:
        return bar.metre.beats
    return max([USUAL.beats, *(int(onset.beat) for onset in bar.onsets if onset.beat is not None)])


def start_of(bar: Bar) -> Fraction:
    """The beat on which a bar begins: 1, or that of the first onset of a pick-up."""
    first = bar.onsets[0].beat if bar.pick_up and bar.onsets else None
    return Fraction(1) if first is None else first


def parts_of(piece: Piece) -> int:
    """In how many parts each beat is counted: 2 (``1 &``), 4 (``1 e & a``) where an onset asks for it, and 1 where
    the beat is an eighth and nothing is shorter."""
    beats = [onset.beat for _, _, onset in piece.onsets() if onset.beat is not None]
    finest = max((beat.denominator for beat in beats), default=1)
    if finest > 2:
        return 4
    return 1 if finest == 1 and any(bar.metre is not None and bar.metre.unit == 8 for bar in piece.bars) else 2


def count_words(bar: Bar, parts: int) -> list[tuple[Fraction, str]]:
    """Every counted place of a bar: its beat and its word, ``1``, ``e``, ``&``, ``a``."""
    beat, out = start_of(bar), []
    while beat < beats_of(bar) + 1:
        out.append((beat, beat_word(beat, alone=True)))
        beat += Fraction(1, parts)
    return out


def beat_word(beat: Fraction, *, alone: bool = False) -> str:
    """A beat as it is counted: ``2``, ``2e``, ``2&``, ``2a``; alone, without its number where it is no whole beat.

    Raises:
        ValueError: no count word falls there.
    """
    part = {Fraction(0): "", Fraction(1, 4): "e", Fraction(1, 2): "&", Fraction(3, 4): "a"}.get(beat % 1)
    if part is None:
        raise ValueError(f"no count word falls on beat {beat}")
    return part if part and alone else f"{int(beat)}{part}"


@cache
def beat_of(word: str) -> Fraction:
    """``2&`` -> 5/2, ``2e`` -> 9/4."""
    part = {"e": Fraction(1, 4), "&": Fraction(1, 2), "a": Fraction(3, 4)}.get(word[-1], Fraction(0))
    return int(word.rstrip("e&a")) + part


def struck(piece: Piece) -> list[tuple[int, int]]:
    """Bar and index of every onset that is begun anew: no rest, and not one whose every note is tied over."""
    tied: set[int] = set()
    found = []
    for bar, index, onset in piece.onsets():
        if {note.string for note in onset.notes} - tied:
            found.append((bar, index))
        for note in onset.notes:
            tied.discard(note.string)
            if any(mark.kind is MarkKind.TIE for mark in note.marks):
                tied.add(note.string)
    return found


def beat_moments(piece: Piece) -> list[Fraction]:
    """When each struck onset falls, in beats from the start of the piece.

    Raises:
        ValueError: an onset has no beat.
    """
    starts, at = [], Fraction(0)
    for bar in piece.bars:
        starts.append(at - start_of(bar))
        at += beats_of(bar) + 1 - start_of(bar)
    moments = []
    for bar_index, index in struck(piece):
        beat = piece.bars[bar_index].onsets[index].beat
        if beat is None:
            raise ValueError("an onset has no beat: its moment is unknown")
        moments.append(starts[bar_index] + beat)
    return moments
