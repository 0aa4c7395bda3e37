"""A picture in the place of another one: what both have stays where it was. No Textual in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from drills.notation.drawing import Drawing
from drills.notation.neck import draw_neck
from drills.notation.staff import draw_staff
from drills.question import Picture
from trainer.widgets.fitting import GAP, WIDEST, above, corner, level
from trainer.widgets.joining_diagrams import join_diagrams

NECKS = (0, 36, 30, 24, 18)
"""Cells for a neck beside a staff, as it is drawn best first."""


class Placed(NamedTuple):
    """A drawing in its room: rows above it and cells at its left."""

    drawing: Drawing
    top: int
    left: int


def join(picture: Picture, before: Placed, width: int, height: int) -> Placed | None:
    """A picture with its staff (or its neck alone) exactly where the one before has it; None where it does not fit.

    The neck comes under the staff where there is room, else beside it, the staff drawn shorter.
    """
    if picture.diagram is not None:
        drawing = join_diagrams(picture, before.drawing, before.top, before.left, width, height)
        return drawing and Placed(drawing, 0, 0)
    old = corner(before.drawing)
    if old is None:
        return None
    row, column = before.top + old.row, before.left + old.column
    for drawing in _ways(picture, before.drawing.width, width - column):
        new = corner(drawing)
        if new is None or new.apart != old.apart:
            continue
        top, left = row - new.row, column - new.column
        if top >= 0 and left >= 0 and top + drawing.height <= height and left + drawing.width <= width:
            return Placed(drawing, top, left)
    return None


def _ways(picture: Picture, was: int, room: int) -> Iterator[Drawing]:
    """Ways to draw it, from ``room`` cells at the right of where the lines begin; ``was`` wide it was before."""
    staff, neck = picture.staff, picture.neck
    if staff is None:
        if neck is not None:
            yield draw_neck(neck)
            yield draw_neck(neck, width=was)
        return
    for double in (True, False):
        for width in dict.fromkeys((min(was, WIDEST), min(room, WIDEST))):
            lines = draw_staff(staff, double=double, width=width)
            if neck is None:
                yield lines
                continue
            board = draw_neck(neck)
            yield above(lines, board, 1)
            yield above(lines, board, 0)
        for width in NECKS if neck is not None else ():
            assert neck is not None
            board = draw_neck(neck, width=width)
            lines = draw_staff(staff, double=double, width=max(1, room - GAP - board.width))
            start = corner(lines)
            if start is not None and lines.width - start.column <= room - GAP - board.width:
                yield level(lines, board)
