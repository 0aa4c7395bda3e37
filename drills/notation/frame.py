"""The staff without its notes: lines, bar lines and labels, the count line, and keys with their targets."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple, Protocol

from drills.notation.drawing import Canvas, Role, Target
from drills.notation.signs import Signs
from drills.notation.spacing import Layout, Room
from drills.notation.staff_view import StaffView


class Pen(NamedTuple):
    """The signs of a dialect's lines.

    Attributes:
        line, lit, said: a plain line, one that is pointed at, one that was answered.
        bar, heavy: a bar line, and one with a repeat sign.
        dot: of a repeat sign.
        dots_on_all: whether it stands on all lines, or on the two inner ones.
        label_gap: between a label and its line.
    """

    line: str
    lit: str
    said: str
    bar: str
    heavy: str
    dot: str
    dots_on_all: bool
    label_gap: str


class Hand(Protocol):
    """A dialect: how much room its signs need, and how they are drawn on the bare staff."""

    PEN: Pen

    def room(self, view: StaffView, signs: Signs, compact: bool = False) -> Room:
        """How many cells each onset takes; compact where a wider staff would not fit."""

    def rows_above(self, view: StaffView, signs: Signs, layout: Layout) -> int:
        """Rows that its signs need over the staff."""

    def draw_marks(self, canvas: Canvas, view: StaffView, signs: Signs, layout: Layout, rows: Rows) -> None:
        """Everything that joins the numbers or stands over them."""


class Rows(NamedTuple):
    """Where lines stand: ``top`` rows above line 1, then a line every ``step`` rows, and ``under`` rows of signs."""

    top: int
    step: int
    lines: int
    under: int = 0

    def of(self, line: int) -> int:
        """The row of a line, from 0."""
        return self.top + (line - 1) * self.step

    @property
    def below(self) -> int:
        """The first row under the staff."""
        return self.of(self.lines) + 1

    @property
    def foot(self) -> int:
        """The first row under the signs that stand under the staff."""
        return self.below + self.under


def label_width(view: StaffView, pen: Pen) -> int:
    """Cells left of the staff."""
    return max(map(len, view.labels)) + len(pen.label_gap) if view.labels else 0


def key_width(view: StaffView) -> int:
    """Cells right of the staff."""
    return max((len(key) + 1 for key, _ in view.line_keys.values()), default=0)


def draw_lines(canvas: Canvas, view: StaffView, layout: Layout, rows: Rows, pen: Pen) -> None:
    """Labels, lines and bar lines."""
    for index, label in enumerate(view.labels):
        canvas.put(rows.of(index + 1), 0, label, Role.LABEL)
    for line in range(1, rows.lines + 1):
        role = view.lines.get(line, Role.LINE)
        sign = {Role.LINE: pen.line, Role.SAID: pen.said}.get(role, pen.lit)
        canvas.put(rows.of(line), layout.left, sign * (layout.right - layout.left + 1), role)
    for column in layout.bar_lines:
        for row in range(rows.top, rows.below):
            canvas.put(row, column, pen.bar, Role.BAR)


def draw_numbers(canvas: Canvas, view: StaffView, signs: Signs, layout: Layout, rows: Rows) -> None:
    """The numbers of the piece with the signs beside them, and the spots."""
    for at, (before, number, after) in signs.tokens.items():
        row, column = rows.of(at.string), layout.onsets[at.bar, at.onset]
        canvas.put(row, column, number, view.colours.get(at, Role.FRET))
        if before or after:
            canvas.put(row, column - len(before), before, Role.MARK)
            canvas.put(row, column + len(number), after, Role.MARK)
    for at, (text, role) in view.spots.items():
        column = layout.onsets[at.bar, at.onset] + signs.offset(at)
        canvas.put(rows.of(at.string), column, text, role)


def draw_around(
    canvas: Canvas, view: StaffView, layout: Layout, rows: Rows, widths: dict[tuple[int, int], int]
) -> None:
    """The count line, fingers, the keys under them and at the right, and what they make clickable."""
    for column, word in layout.words:
        canvas.put(rows.foot, column, word, Role.COUNT)
    key_row = rows.foot + bool(layout.words)
    for column in layout.taps:
        canvas.put(key_row, column, "x", Role.SAID)
    key_row += bool(layout.taps)
    for at, finger in view.fingering.items():
        canvas.put(key_row, layout.onsets[at], finger, Role.LABEL)
    key_row += bool(view.fingering)
    starts = sorted((column, column + widths[at]) for at, column in layout.onsets.items())
    roomy = all(later - end > 2 for (_, end), (later, _) in pairwise(starts))
    beside = 1 if roomy else 0  # a single cell is hard to hit with a mouse
    for at, (key, answer) in view.keys.items():
        column, width = layout.onsets[at], max(widths[at], len(key))
        canvas.put(key_row, column, key, Role.KEY)
        canvas.target(Target(0, column - beside, key_row + 1, width + 2 * beside, answer))
    for line, (key, answer) in view.line_keys.items():
        canvas.put(rows.of(line), layout.right + 2, key, Role.KEY)
        canvas.target(Target(rows.of(line), 0, 1, layout.right + 2 + len(key), answer))
