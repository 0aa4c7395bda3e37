"""A piece drawn by the staff, in systems that fit a width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from drills.notation.drawing import Drawing
from drills.notation.pitch import Naming
from drills.notation.reading.shapes import BarAt, Reading, TuningFrom
from drills.notation.score import Bar, Piece
from drills.notation.staff import Dialect, StaffView, draw_staff, note_columns

DOUBLED: Final = 3
"""More systems than that are drawn without a row between the lines: then less is to be scrolled."""


class System(NamedTuple):
    """Some bars in one drawing.

    Attributes:
        first, last: the numbers of the first and the last of them.
        continued: whether the first one began in the system before.
        drawing: how they look.
    """

    first: int
    last: int
    continued: bool
    drawing: Drawing


class _Part(NamedTuple):
    """A bar, or a part of one that is too wide.

    Attributes:
        number: of the bar.
        bar: what of it is in this part.
        starts, ends: whether it is the first part, and the last one, at whose end the bar line is drawn.
        width: in cells, from the left edge on.
    """

    number: int
    bar: Bar
    starts: bool
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
        yield from hand.systems(parts, double=double)


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

    def systems(self, parts: Sequence[_Part], *, double: bool) -> Iterator[System]:
        """A row of parts; the last ones go below where signs between them make it wider than they are alone."""
        drawing = self.draw(parts, double=double)
        if drawing.width > self._edge + self._room and len(parts) > 1:
            yield from self.systems(parts[:-1], double=double)
            yield from self.systems(parts[-1:], double=double)
        else:
            yield System(parts[0].number, parts[-1].number, not parts[0].starts, drawing)

    def draw(self, parts: Sequence[_Part], *, double: bool = False) -> Drawing:
        """Bars one after another."""
        return draw_staff(self._view(parts), double=double)

    def _view(self, parts: Sequence[_Part]) -> StaffView:
        hidden = frozenset(index for index, part in enumerate(parts) if not part.ends)
        piece = self._piece._replace(bars=tuple(part.bar for part in parts))
        return StaffView(piece, Dialect.ENGRAVED, self._labels, hidden_bar_lines=hidden)

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

    def _parts(self, bar: Bar, number: int, *, starts: bool = True, ends: bool = True) -> Iterator[_Part]:
        """A bar whole, or cut where it is too wide."""
        part = _Part(number, bar, starts, ends, 0)
        part = part._replace(width=self.draw([part]).width - self._edge)
        if part.width <= self._room or len(bar.onsets) < 2:
            yield part
            return
        cuts = [0, *self._cuts(part), len(bar.onsets)]
        for start, end in pairwise(cuts):
            first, last = start == 0, end == len(bar.onsets)
            cut = bar._replace(
                onsets=bar.onsets[start:end], opens_repeat=bar.opens_repeat and first, times=bar.times if last else 1
            )
            yield from self._parts(cut, number, starts=starts and first, ends=ends and last)

    def _cuts(self, part: _Part) -> Iterator[int]:
        """The onsets before which a bar is cut, at least one: by where they stand while it is whole."""
        at = {place.onset: column for place, (_, column) in note_columns(self._view([part])).items()}
        columns, count = sorted(at.items()), len(part.bar.onsets)
        begin = columns[0][1] if columns else 0
        limit = self._room - (begin - self._edge)  # as far as from the edge to the first number
        found = 0
        for (onset, column), (_, after) in zip(columns, [*columns[1:], (count, self._edge + part.width)], strict=True):
            if onset and after - begin > limit:
                yield onset
                begin, found = column, found + 1
        if not found:
            yield count // 2
