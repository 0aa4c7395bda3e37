"""The engraved dialect: slur arcs with their letter, diagonals, and arrows up to the amount of a bend.

A slur over a hammer-on or pull-off, a straight line for a slide, an arrow with its amount in whole steps for
a bend, one without a curve for a pre-bend: common practice in printed tab, no source.
"""

from __future__ import annotations

from typing import Final

from drills.notation.arcs import Arc, draw_arc, find_arcs
from drills.notation.arrows import OnsetArrows, arrow_columns, draw_arrows, find_arrows
from drills.notation.drawing import Canvas
from drills.notation.frame import Pen, Rows
from drills.notation.signs import fret_text, links, notes, spot_offset
from drills.notation.spacing import Layout, OnsetAt, Room, onset_counts
from drills.notation.staff_view import StaffView

PEN: Final = Pen(line="─", lit="═", said="┄", bar="│", label_gap=" ")


def room(view: StaffView, compact: bool = False) -> Room:
    """How many cells each onset takes: two free ones after every number, five between notes that a mark joins.

    Compact, one free one is enough, and three where a mark joins (as always over a count line).
    """
    arrows = find_arrows(view)
    widths = {(bar, n): 1 for bar, count in enumerate(onset_counts(view)) for n in range(count)}

    def widen(at: OnsetAt, width: int) -> None:
        widths[at] = max(widths[at], width)

    for at, note in notes(view.piece):
        widen((at.bar, at.onset), max(len(fret_text(note)), _reach(arrows, at.bar, at.onset)))
    for at, (text, _) in view.spots.items():
        widen((at.bar, at.onset), spot_offset(view, at) + len(text))
    steps = {at: width + 1 if compact else max(4, width + 2) for at, width in widths.items()}
    tight = set()
    texts = {at: len(fret_text(note)) for at, note in notes(view.piece)}
    for link in links(view.piece):
        here = (link.source.bar, link.source.onset)
        end = max(texts[link.source], _reach(arrows, *here))
        if link.target is None:
            widen(here, end + 4)
        elif (link.target.bar, link.target.onset) == (here[0], here[1] + 1):
            tight.add(here)
        elif link.target.bar != here[0]:
            widen(here, end + 1)
        steps[here] = max(steps[here], end + (3 if compact or view.count else 5))
    if compact:
        return Room(3, 2, 12, 2, widths, steps, frozenset(tight))
    return Room(4, 3, 24, 4, widths, steps, frozenset(tight))


def _reach(arrows: OnsetArrows, bar: int, onset: int) -> int:
    """Cells that the arrows of an onset take from its column on, with air for their amounts."""
    return max((arrow.end + 1 for at, arrow in arrows.items() if (at.bar, at.onset) == (bar, onset)), default=0)


def rows_above(view: StaffView, layout: Layout) -> int:
    """Rows that arrows, their amounts and the arcs of line 1 need over the staff."""
    arrows = find_arrows(view)
    arcs = [arc for arc in find_arcs(view, layout, arrows) if arc.string == 1 and arc.bowed]
    if not arrows:
        return 1 if arcs else 0
    return 2 + _raised(arcs, arrow_columns(arrows, layout))


def _raised(arcs: list[Arc], columns: list[tuple[int, int]]) -> int:
    """1 where an arrow would end in an arc of line 1, else 0."""
    return int(any(arc.start <= last and first <= arc.end for arc in arcs for first, last in columns))


def draw_marks(canvas: Canvas, view: StaffView, layout: Layout, rows: Rows) -> None:
    """Draw every mark."""
    arrows = find_arrows(view)
    arcs = find_arcs(view, layout, arrows)
    line_one = [arc for arc in arcs if arc.string == 1 and arc.bowed]
    head = rows.top - 1 - (_raised(line_one, arrow_columns(arrows, layout)) if arrows else 0)
    for at, arrow in arrows.items():
        draw_arrows(canvas, arrow, rows.of(at.string), layout.onsets[at.bar, at.onset], head)
    for arc in arcs:
        draw_arc(canvas, arc, rows.of(arc.string), PEN)
