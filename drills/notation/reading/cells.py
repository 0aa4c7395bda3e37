"""What the scanner finds on one row: numbers with their signs, before they are put together to onsets."""

from __future__ import annotations

from drills.notation.reading.shapes import Certainty
from drills.notation.score import Mark, MarkKind


class Sign:
    """A mark of a cell, with how sure it is and where it stands.

    Attributes:
        mark: the mark.
        certainty: of the sign.
        at: its place in the row, from 0.
        to: the cell it leads to, or None.
    """

    __slots__ = ("at", "certainty", "mark", "to")

    def __init__(self, mark: Mark, certainty: Certainty, at: int, to: Cell | None = None) -> None:
        self.mark, self.certainty, self.at, self.to = mark, certainty, at, to


class Cell:
    """A number, or a muted x.

    Attributes:
        at: place of its first digit in the row, from 0.
        end: place behind it and its signs.
        fret: None for a muted x.
        digits: how many characters the number has.
        signs: its marks as they are written, or None.
        certainty: of its being this fret on this string.
        column: where it stands in the system, once rows are put together.
        row: index of its row in the system.
        place: bar and onset in the piece, of one that a mark is told of.
        opened: how many characters of a bracket, or of signs before it, stand at its left.
        reached: the hammer-on or pull-off that leads to it from no written note, and its place in the row; or None.
    """

    __slots__ = ("at", "certainty", "column", "digits", "end", "fret", "opened", "place", "reached", "row", "signs")

    def __init__(self, at: int, fret: int | None, digits: int, row: int) -> None:
        self.at, self.end, self.fret, self.digits, self.row = at, at + digits, fret, digits, row
        self.signs: list[Sign] | None = None
        self.certainty = Certainty.SURE
        self.column = at
        self.place = (0, 0)
        self.opened = 0
        self.reached: tuple[MarkKind, int] | None = None

    def add(self, mark: Mark, certainty: Certainty, at: int, to: Cell | None = None) -> None:
        """Give it a mark."""
        if self.signs is None:
            self.signs = []
        self.signs.append(Sign(mark, certainty, at, to))

    def has(self, kind: MarkKind) -> bool:
        """Whether it bears that mark."""
        return self.signs is not None and any(sign.mark.kind is kind for sign in self.signs)
