"""Arcs over two numbers and the diagonal between them: hammer-ons, pull-offs, slides and ties."""

from __future__ import annotations

from typing import Final, NamedTuple

from drills.notation.arrows import OnsetArrows
from drills.notation.drawing import Canvas, Role
from drills.notation.frame import Pen
from drills.notation.score import MarkKind
from drills.notation.signs import Link, Signs
from drills.notation.spacing import Layout
from drills.notation.staff_view import StaffView

_LETTERS: Final = {MarkKind.HAMMER_ON: "H", MarkKind.PULL_OFF: "P"}
_DIAGONALS: Final = {MarkKind.SLIDE_UP: "╱", MarkKind.SLIDE_DOWN: "╲"}
_CROSSED: Final = {"│": "┼", "┃": "╂"}
"""Where an arc crosses a bar line or an arrow."""
OPEN: Final = 4
"""Cells of a mark that leads to no note."""


class Arc(NamedTuple):
    """What joins two numbers of one line.

    Attributes:
        string: the line.
        start, end: columns of its ends, over the numbers.
        free: the first column after the first number, where a diagonal may stand.
        letter: H or P, or empty.
        diagonal: of a slide, or empty.
        bowed: whether there is an arc at all (not over a slide that is picked again).
        closed: whether it leads to a number.
    """

    string: int
    start: int
    end: int
    free: int
    letter: str
    diagonal: str
    bowed: bool
    closed: bool


def find_arcs(view: StaffView, signs: Signs, layout: Layout, arrows: OnsetArrows) -> list[Arc]:
    """Every arc and diagonal of a piece, in time."""
    found = []
    for link in signs.links:
        source, kind = link.source, link.mark.kind
        column, token = layout.onsets[source.bar, source.onset], signs.tokens[source]
        tail = max(token.width, arrows[source].end) if source in arrows else token.width
        found.append(
            Arc(
                string=source.string,
                start=column + (tail if source in arrows else len(token.number) - 1),
                end=_end(view, link, layout, column + tail),
                free=column + tail,
                letter=_LETTERS.get(kind, ""),
                diagonal=_DIAGONALS.get(kind, ""),
                bowed=kind not in _DIAGONALS or link.mark.slurred,
                closed=leads_on(view, link),
            )
        )
    return found


def leads_on(view: StaffView, link: Link) -> bool:
    """Whether a mark leads to another number of its string, or at least to one of another string in its bar."""
    return link.target is not None or link.source.onset + 1 < len(view.piece.bars[link.source.bar].onsets)


def _end(view: StaffView, link: Link, layout: Layout, free: int) -> int:
    """The column where a mark ends: over the number it leads to, on whichever string that stands."""
    if link.target is not None:
        return layout.onsets[link.target.bar, link.target.onset]
    if leads_on(view, link):
        return layout.onsets[link.source.bar, link.source.onset + 1]
    return free + OPEN - 1


def draw_arc(canvas: Canvas, arc: Arc, row: int, pen: Pen) -> None:
    """Draw what joins two numbers on the line at ``row``.

    The arc stands in the row above: a free row, or the line above where that is bare over both numbers.
    Where it is not (two marks in one chord, single-spaced), a small arc stands between the numbers instead.
    """
    over = all(_is_free(canvas, row - 1, column, pen) for column in range(arc.start - 1, arc.end + 2))
    if arc.bowed and not over:
        sign = f"╭{arc.letter or arc.diagonal or '─'}╮"
        middle = _nearest(canvas, arc, row, pen, reach=1)
        if middle is not None:
            canvas.put(row, middle - 1, sign, Role.MARK)
            return
    sign = arc.diagonal if over or not arc.bowed else arc.letter or arc.diagonal
    if sign and (middle := _nearest(canvas, arc, row, pen)) is not None:
        canvas.put(row, middle, sign, Role.MARK)
    if arc.bowed and over:
        _draw_bow(canvas, arc, row - 1)


def _is_free(canvas: Canvas, row: int, column: int, pen: Pen) -> bool:
    """Whether an arc may pass here: over blanks, bare lines, bar lines and the foot of the arc before it."""
    return canvas.at(row, column) in (" ", pen.line, pen.lit, pen.bar, pen.heavy, "╮", "┬")


def _nearest(canvas: Canvas, arc: Arc, row: int, pen: Pen, reach: int = 0) -> int | None:
    """The column of the line that is nearest to the middle between the numbers, bare ``reach`` cells around,
    and not beside a bar line if that can be; None where there is none."""
    bare = {column for column in range(arc.free, arc.end) if canvas.at(row, column) in (pen.line, pen.lit)}
    fitting = [c for c in bare if bare.issuperset(range(c - reach, c + reach + 1))]
    middle = (arc.free + arc.end - 1) / 2

    def distance(column: int) -> tuple[bool, float, int]:
        beside_bar = pen.bar in (canvas.at(row, column - 1), canvas.at(row, column + 1))
        return beside_bar, abs(column - middle), column

    return min(fitting, key=distance, default=None)


def _draw_bow(canvas: Canvas, arc: Arc, row: int) -> None:
    """An arc from over the first number to over the second; where one starts that ended there, they join."""
    for column in range(arc.start + 1, arc.end):
        canvas.put(row, column, _CROSSED.get(canvas.at(row, column), "─"), Role.MARK)
    canvas.put(row, arc.start, "┬" if canvas.at(row, arc.start) == "╮" else "╭", Role.MARK)
    canvas.put(row, arc.end, "╮" if arc.closed else "─", Role.MARK)
    if arc.letter:
        middle = (arc.start + arc.end) // 2
        clear = [c for c in range(arc.start + 1, arc.end) if not any(canvas.at(row, c + d) in "┼╂" for d in (-1, 0, 1))]
        canvas.put(row, min(clear, key=lambda c: abs(c - middle), default=middle), arc.letter, Role.MARK)
