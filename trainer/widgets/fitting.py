"""A staff, a neck and chord diagrams into the room there is. No Textual in it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, pairwise
from typing import NamedTuple

from drills.notation.diagram import DiagramView, draw_diagram
from drills.notation.drawing import Drawing, Role, Row, Span, Target
from drills.notation.neck import draw_neck
from drills.notation.staff import draw_staff
from drills.question import Picture

WIDEST = 64
"""Cells that a staff is stretched to at most: further apart, the eye loses the line."""
GAP = 3
WIRES = " _─═"


def fit(picture: Picture, width: int, height: int, *, whole: bool = False) -> Drawing:
    """The best drawing of a picture that fits: double-spaced if it can be, the neck under the staff or beside it.

    Where not all fits, a diagram goes without the neck, and then the staff alone, unless the whole is needed. What
    fits in no way comes as the smallest one, and is cut by whoever shows it.
    """
    least: Drawing | None = None
    ways = _ways(picture, width)
    if not whole and picture.neck is not None and picture.diagram is not None:
        ways = chain(ways, _ways(picture._replace(neck=None), width))
    if not whole and picture.staff is not None and picture != Picture(picture.staff):
        ways = chain(ways, _ways(Picture(picture.staff), width))
    for drawing in ways:
        if drawing.width <= width and drawing.height <= height:
            return drawing
        if least is None or (drawing.width > width, drawing.height) < (least.width > width, least.height):
            least = drawing
    return least or Drawing(())


def _ways(picture: Picture, width: int) -> Iterator[Drawing]:
    staff, neck = picture.staff, picture.neck
    stretch = min(width, WIDEST)
    if picture.diagram is not None:
        yield from _with_diagram(picture, picture.diagram, width)
        return
    if staff is not None and neck is not None:
        board = draw_neck(neck)
        for double in (True, False):
            yield above(draw_staff(staff, double=double, width=max(board.width, stretch * 2 // 3)), board, 1)
        yield above(draw_staff(staff, width=board.width), board, 0)
        for narrow in (0, max(12, width // 2)):
            lines = draw_staff(staff, width=narrow and width // 3)
            room = width - lines.width - GAP
            yield level(lines, draw_neck(neck, width=room if narrow else 0))
    elif staff is not None:
        for double in (True, False):
            yield draw_staff(staff, double=double, width=stretch)
        yield draw_staff(staff, width=1)
    elif neck is not None:
        yield draw_neck(neck)
        yield draw_neck(neck, width=width)


def _with_diagram(picture: Picture, view: DiagramView, width: int) -> Iterator[Drawing]:
    """Diagrams under the staff or at its right, the neck before them; the closer drawn, the less room there is."""
    staff, neck = picture.staff, picture.neck
    small = None if staff is None else draw_staff(staff, width=1)
    for tall in (True, False):
        boxes = draw_diagram(view, width=width, tall=tall)
        if neck is not None:
            boxes = beside(draw_neck(neck, width=max(12, width - boxes.width - GAP)), boxes)
        if staff is None or small is None:
            yield boxes
            continue
        for double in (True, False):
            yield above(draw_staff(staff, double=double, width=min(width, WIDEST) * 2 // 3), boxes, 1)
        yield beside(small, boxes)
    if small is not None and neck is None:
        yield beside(small, draw_diagram(view, width=max(1, width - small.width - GAP), tall=False))
    if neck is None:
        low = draw_diagram(view, width=width, low=True)
        yield low if small is None else beside(small, low)
        if small is not None:
            yield beside(small, draw_diagram(view, width=max(1, width - small.width - GAP), low=True))


def above(upper: Drawing, lower: Drawing, gap: int) -> Drawing:
    """One drawing over another, both centred."""
    width = max(upper.width, lower.width)
    one, two = shifted(upper, 0, (width - upper.width) // 2), shifted(lower, 0, (width - lower.width) // 2)
    rows = (*one.rows, *[()] * gap, *two.rows)
    down = len(one.rows) + gap
    return Drawing(rows, (*one.targets, *(t._replace(row=t.row + down) for t in two.targets)))


class Corner(NamedTuple):
    """Where a staff begins, or a neck alone: the upper left end of its lines; and how far apart these are."""

    row: int
    column: int
    apart: int


def corner(drawing: Drawing) -> Corner | None:
    """Where the lines of a drawing begin; None where it has none."""
    starts = [(row, column) for row, spans in enumerate(drawing.rows) if (column := _start(spans)) is not None]
    if not starts:
        return None
    row, column = starts[0]
    below = next((other for other, at in starts[1:] if at == column), row + 1)
    return Corner(row, column, below - row)


def _start(spans: Row) -> int | None:
    """The column of the first upright stroke that a line runs on from; between two lines there may be others.

    Wires and blanks of a chord diagram are no strokes.
    """
    column = 0
    for span, after in pairwise(spans):
        if span.role is Role.BAR and span.text.strip(WIRES) and after.role is not Role.BLANK:
            return column
        column += len(span.text)
    return None


def level(staff: Drawing, neck: Drawing) -> Drawing:
    """A neck at the right of a staff, its top string level with line 1.

    They are in reverse order on purpose; level, the two can be compared.
    """
    one, two = corner(staff), corner(neck)
    return beside(staff, neck, lower=one.row - two.row if one and two else 0)


def beside(left: Drawing, right: Drawing, *, lower: int | None = None) -> Drawing:
    """Two drawings side by side: their bottoms level, or the right one so many rows lower than the left one."""
    if lower is None:
        lower = left.height - right.height
    one, two = shifted(left, max(0, -lower), 0), shifted(right, max(0, lower), left.width + GAP)
    rows: list[Row] = []
    for row in range(max(one.height, two.height)):
        start = one.rows[row] if row < one.height else ()
        used = sum(len(span.text) for span in start)
        rest = two.rows[row] if row < two.height else ()
        if rest and rest[0].role is Role.BLANK:
            rest = (Span(rest[0].text[used:], Role.BLANK), *rest[1:])
        rows.append((*start, *rest))
    return Drawing(tuple(rows), (*one.targets, *two.targets))


def shifted(drawing: Drawing, down: int, right: int) -> Drawing:
    """The same drawing further down and to the right."""
    blank = (Span(" " * right, Role.BLANK),) if right else ()
    rows = (*[()] * down, *((*blank, *row) for row in drawing.rows))
    moved = (Target(t.row + down, t.column + right, t.height, t.width, t.answer) for t in drawing.targets)
    return Drawing(rows, tuple(moved))
