"""Repeat signs: dots beside a heavy bar line, or ``|:`` and ``:|``, and how often a part is played.

Both forms, and a count over the closing bar line, are common practice (MusicXML 4.0: ``repeat``, ``times``).
"""

from __future__ import annotations

from typing import NamedTuple

from drills.notation.drawing import Canvas, Role
from drills.notation.frame import Pen, Rows
from drills.notation.spacing import Layout
from drills.notation.staff_view import StaffView


class Count(NamedTuple):
    """How often a part is played, and the column of the bar line that closes it."""

    column: int
    text: str


def has_repeats(view: StaffView) -> bool:
    """Whether any repeat sign is drawn."""
    return any(bar.opens_repeat or bar.times > 1 for bar in view.piece.bars)


def _closing(view: StaffView, layout: Layout) -> dict[int, int]:
    """The column of each bar's closing bar line, where it is drawn."""
    shown = [bar for bar in range(len(view.piece.bars)) if bar not in view.hidden_bar_lines]
    return dict(zip(shown, layout.bar_lines[1:], strict=False))


def repeat_counts(view: StaffView, layout: Layout) -> list[Count]:
    """Counts over closing bar lines. Twice is what the bare sign means, and is not written."""
    if all(bar.times <= 2 for bar in view.piece.bars):
        return []
    ends = _closing(view, layout)
    counted = [(n, bar.times) for n, bar in enumerate(view.piece.bars) if bar.times > 2 and n in ends]
    return [Count(ends[n], f"x{times}") for n, times in counted]


def draw_repeats(canvas: Canvas, view: StaffView, layout: Layout, rows: Rows, pen: Pen) -> None:
    """Draw every repeat sign over its plain bar line."""
    if not has_repeats(view):
        return
    closing = {-1: layout.left, **_closing(view, layout)}
    lines = range(1, rows.lines + 1) if pen.dots_on_all else _inner(rows.lines)
    for index, bar in enumerate(view.piece.bars):
        for column, beside in ((closing.get(index - 1), 1), (closing.get(index), -1)):
            if column is None or not (bar.opens_repeat if beside == 1 else bar.times > 1):
                continue
            for row in range(rows.top, rows.below):
                canvas.put(row, column, pen.heavy, Role.BAR)
            for line in lines:
                canvas.put(rows.of(line), column + beside, pen.dot, Role.BAR)


def _inner(lines: int) -> tuple[int, int]:
    """The two lines around the middle of the staff."""
    return (lines // 2, lines // 2 + 1) if lines % 2 == 0 else (lines // 2, lines // 2 + 2)
