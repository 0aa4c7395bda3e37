"""Chord diagrams in the place of others, the staff beside them where it was. No Textual in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from drills.notation.diagram import draw_diagram
from drills.notation.drawing import Drawing, Role, Row, Span
from drills.notation.staff import draw_staff
from drills.notation.staff_view import StaffView
from drills.question import Picture
from trainer.widgets.fitting import GAP, WIDEST, corner

TOPS: Final = "╒┌"
"""The upper left corner of a diagram's strings, a row under its own top."""
WIRE: Final = "├"
"""Is there where every wire has a row for itself."""


class Part(NamedTuple):
    """A drawing at a place."""

    drawing: Drawing
    row: int
    column: int

    @property
    def end(self) -> int:
        """The column right after it."""
        return self.column + self.drawing.width


class Anchors(NamedTuple):
    """Where the picture before had its parts: cells of the room; None for what it had not.

    Attributes:
        staff: the upper left end of its lines.
        apart: rows from line to line of it.
        diagram: the upper left cell of the first diagram.
        tall: whether diagrams have rows for their wires.
    """

    staff: tuple[int, int] | None
    apart: int
    diagram: tuple[int, int] | None
    tall: bool


def anchors(drawing: Drawing, top: int, left: int) -> Anchors:
    """What a drawing has where, when it stands ``top`` rows down and ``left`` cells to the right."""
    texts = drawing.text()
    box = next(
        ((row - 1 + top, column + left) for row, text in enumerate(texts) if (column := _first(text)) is not None), None
    )
    lines = corner(drawing)
    staff = (lines.row + top, lines.column + left) if lines else None
    return Anchors(staff, lines.apart if lines else 1, box, box is None or any(WIRE in text for text in texts))


def _first(text: str) -> int | None:
    return next((column for column, sign in enumerate(text) if sign in TOPS), None)


def join_diagrams(picture: Picture, drawing: Drawing, top: int, left: int, width: int, height: int) -> Drawing | None:
    """A picture with diagrams, drawn over the whole room; what the drawing before had too is where that had it.

    Args:
        picture: a staff and diagrams, or diagrams alone.
        drawing: the one before, with the rows above it and the cells at its left.
        top, left: these.
        width, height: cells that there are.
    """
    view, staff = picture.diagram, picture.staff
    if view is None or picture.neck is not None:
        return None
    was = anchors(drawing, top, left)
    for tall in dict.fromkeys((was.tall, False)):
        boxes = draw_diagram(view, width=width // 2, tall=tall)
        for parts in _ways(staff, boxes, was, width, height):
            if _fits(parts, width, height):
                return laid(parts)
    return None


def _ways(
    staff: StaffView | None, boxes: Drawing, was: Anchors, width: int, height: int
) -> Iterator[tuple[Part, ...]]:
    """Ways to lay it out, the best first."""
    if staff is None:
        if was.diagram is not None:
            yield (Part(boxes, *was.diagram),)
        return
    if was.staff is None:
        if was.diagram is not None:
            yield from _around(draw_staff(staff, width=1), Part(boxes, *was.diagram))
        return
    double = was.apart > 1
    room = width - was.staff[1] - GAP - boxes.width
    beside = was.diagram is not None and was.diagram[0] < was.staff[0] + was.apart
    for wanted in (1,) if beside else dict.fromkeys((min(WIDEST, width) * 2 // 3, min(WIDEST, room), 1)):
        lines = draw_staff(staff, double=double, width=max(1, wanted))
        start = corner(lines)
        if start is None or start.apart != was.apart:
            continue
        part = Part(lines, was.staff[0] - start.row, was.staff[1] - start.column)
        bottom = part.row + lines.height
        if was.diagram is None:
            yield part, Part(boxes, max(0, min(bottom, height) - boxes.height), part.end + GAP)
        elif not beside:
            yield part, Part(boxes, max(bottom, was.diagram[0]), was.diagram[1])
        yield part, Part(boxes, was.diagram[0] if was.diagram else part.row, _after(part, was))


def _after(staff: Part, was: Anchors) -> int:
    """The column of the diagrams at the right of a staff: where they were, if the staff does not reach so far."""
    return max(staff.end + GAP, was.diagram[1] if was.diagram else 0)


def _around(lines: Drawing, boxes: Part) -> Iterator[tuple[Part, ...]]:
    """A staff that was not there before: at the left of the diagrams, or else at their right."""
    row = max(0, boxes.row + boxes.drawing.height - lines.height)
    yield Part(lines, row, boxes.column - GAP - lines.width), boxes
    yield boxes, Part(lines, row, boxes.end + GAP)


def _fits(parts: Sequence[Part], width: int, height: int) -> bool:
    """Whether every part is inside of the room, and none over another."""
    inside = all(
        part.row >= 0 and part.column >= 0 and part.end <= width and part.row + part.drawing.height <= height
        for part in parts
    )
    one, *others = parts
    return inside and all(
        one.end <= other.column or one.row + one.drawing.height <= other.row for other in others
    )


def laid(parts: Sequence[Part]) -> Drawing:
    """Parts that do not overlap, each at its place, as one drawing."""
    rows: list[Row] = []
    for row in range(max(part.row + part.drawing.height for part in parts)):
        spans: list[Span] = []
        used = 0
        for part in sorted(parts, key=lambda part: part.column):
            at = row - part.row
            if 0 <= at < part.drawing.height and part.drawing.rows[at]:
                spans.append(Span(" " * (part.column - used), Role.BLANK))
                spans += part.drawing.rows[at]
                used = part.column + sum(len(span.text) for span in part.drawing.rows[at])
        rows.append(tuple(span for span in spans if span.text))
    targets = tuple(
        target._replace(row=target.row + part.row, column=target.column + part.column)
        for part in parts
        for target in part.drawing.targets
    )
    return Drawing(tuple(rows), targets)
