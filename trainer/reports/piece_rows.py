"""A piece drawn by the staff, in systems that fit a width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from drills.notation.drawing import Drawing
from drills.notation.pitch import Naming
from drills.notation.reading.shapes import BarAt, Reading, TuningFrom
from drills.notation.score import Bar, Piece
from drills.notation.staff import Dialect, StaffView, draw_staff

DOUBLED: Final = 3
"""More systems than that are drawn without a row between the lines: then less is to be scrolled."""
FEW: Final = 4
"""Onsets that stay together where a bar has to be parted."""


class System(NamedTuple):
    """Some bars in one drawing: the numbers of the first and the last one, and how they look."""

    first: int
    last: int
    drawing: Drawing


class _Part(NamedTuple):
    """A bar, or a part of one that is too wide; ``ends`` where its bar line is drawn."""

    number: int
    bar: Bar
    ends: bool
    width: int


def systems(reading: Reading, width: int, naming: Naming = Naming.LETTERS) -> Iterator[System]:
    """The systems of a piece, each at most ``width`` cells wide where a single onset is not wider.

    Args:
        reading: the piece as it was read.
        width: in cells.
        naming: of the letters before the lines.
    """
    hand = _Hand(reading, width, naming)
    rows = list(hand.rows(reading.piece.bars, reading.bars))
    double = len(rows) <= DOUBLED and any(note.marks for _, _, onset in reading.piece.onsets() for note in onset.notes)
    for parts in rows:
        yield System(parts[0].number, parts[-1].number, hand.draw(parts, double=double))


class _Hand:
    """Draws parts of one piece."""

    def __init__(self, reading: Reading, width: int, naming: Naming) -> None:
        tuning = reading.piece.tuning
        self._piece = Piece(tuning, ())
        known = reading.tuning_from is not TuningFrom.UNKNOWN
        # as the strings are called without a capo, which is what stands before the lines of most tab
        bare = tuning.with_capo(0)
        strings = range(1, tuning.lines + 1)
        self._labels = tuple(bare.label(string, naming) if known else str(string) for string in strings)
        self._edge = max(map(len, self._labels)) + 2  # with a blank and the left edge
        self._room = width - self._edge

    def draw(self, parts: Sequence[_Part], *, double: bool = False) -> Drawing:
        """Bars one after another."""
        hidden = frozenset(index for index, part in enumerate(parts) if not part.ends)
        piece = self._piece._replace(bars=tuple(part.bar for part in parts))
        return draw_staff(StaffView(piece, Dialect.ENGRAVED, self._labels, hidden_bar_lines=hidden), double=double)

    def rows(self, bars: Sequence[Bar], places: Sequence[BarAt]) -> Iterator[list[_Part]]:
        """As many bars a system as fit."""
        row: list[_Part] = []
        used = 0
        for bar, place in zip(bars, places, strict=True):
            for part in self._parts(bar, place.number):
                if row and used + part.width > self._room:
                    yield row
                    row, used = [], 0
                row.append(part)
                used += part.width
        if row:
            yield row

    def _parts(self, bar: Bar, number: int) -> Iterator[_Part]:
        """A bar whole, or in parts of a few onsets where it is too wide."""
        whole = self._measured(bar, number, ends=True)
        few = FEW if len(bar.onsets) > FEW else 1
        if whole.width <= self._room or len(bar.onsets) < 2:
            yield whole
            return
        last = len(bar.onsets) - 1
        for start in range(0, len(bar.onsets), few):
            opens, ends = bar.opens_repeat and start == 0, start + few > last
            onsets = bar.onsets[start : start + few]
            part = bar._replace(onsets=onsets, opens_repeat=opens, times=bar.times if ends else 1)
            yield self._measured(part, number, ends=ends)

    def _measured(self, bar: Bar, number: int, *, ends: bool) -> _Part:
        part = _Part(number, bar, ends, 0)
        return part._replace(width=self.draw([part]).width - self._edge)
