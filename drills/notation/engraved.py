"""The engraved dialect: slur arcs with their letter, diagonals, arrows up to the amount of a bend, words on top.

A slur over a hammer-on or pull-off, a straight line for a slide, an arrow with its amount in whole steps for
a bend, one without a curve for a pre-bend, an arc without a letter for a tie: common practice in printed tab, no
source.
"""

from __future__ import annotations

from typing import Final

from drills.notation.arcs import OPEN, Arc, draw_arc, find_arcs, leads_on
from drills.notation.arrows import OnsetArrows, arrow_columns, draw_arrows, find_arrows
from drills.notation.drawing import PARTS, Canvas
from drills.notation.frame import Pen, Rows
from drills.notation.over import Dash, Placed, draw_over, height, stack, widen
from drills.notation.repeats import repeat_counts
from drills.notation.room import lead_in, token_widths
from drills.notation.signs import Signs
from drills.notation.spacing import Layout, OnsetAt, Room
from drills.notation.staff_view import StaffView

PEN: Final = Pen(line="─", lit="═", said="┄", bar="│", heavy="┃", dot="•", dots_on_all=False, label_gap=" ")
DASH: Final = Dash("╌", "┤")
_AMOUNT: Final = 5
"""Cells that an amount with a part of a step may take: ASCII writes ``1 1/2``."""


def room(view: StaffView, signs: Signs, compact: bool = False) -> Room:
    """How many cells each onset takes: two free ones after every number, five between notes that a mark joins.

    Compact, one free one is enough, and three where a mark joins (as always over a count line).
    """
    widths = token_widths(view, signs)
    reach: dict[OnsetAt, int] = {}
    for at, arrow in find_arrows(view, signs).items():
        here = at.bar, at.onset
        reach[here] = max(reach.get(here, 0), arrow.end + 1)  # with air for the amounts
        widths[here] = max(widths[here], reach[here])
    for at, (text, _) in view.spots.items():
        widths[at.bar, at.onset] = max(widths[at.bar, at.onset], signs.offset(at) + len(text))
    steps = {at: width + 1 if compact else max(4, width + 2) for at, width in widths.items()}
    tight = set(signs.graces)
    for here in tight:
        steps[here] = widths[here] + 2
    for link in signs.links:
        here = (link.source.bar, link.source.onset)
        end = max(signs.tokens[link.source].width, reach.get(here, 0))
        if link.target is None:
            if not leads_on(view, link):
                widths[here] = max(widths[here], end + OPEN)
            tight.add(here)
        elif (link.target.bar, link.target.onset) == (here[0], here[1] + 1):
            tight.add(here)
        elif link.target.bar != here[0]:
            widths[here] = max(widths[here], end + 1)
        steps[here] = max(steps[here], end + (3 if compact or view.count else 5))
    lead, trail, empty, half = (3, 2, 12, 2) if compact else (4, 3, 24, 4)
    widen(signs, widths, steps, trail)
    return Room(lead + lead_in(signs, steps), trail, empty, half, widths, steps, frozenset(tight))


def rows_above(view: StaffView, signs: Signs, layout: Layout) -> int:
    """Rows that arrows, their amounts, the arcs of line 1 and the signs over the staff need."""
    if not (signs.links or signs.bent or signs.runs):
        return height(_placed(view, signs, layout, [], {}))
    arrows = find_arrows(view, signs)
    arcs = find_arcs(view, signs, layout, arrows)
    low = 2 + _raised(arcs, arrows, layout) if arrows else 1 if _line_one(arcs) else 0
    return max(low, height(_placed(view, signs, layout, arcs, arrows)))


def _line_one(arcs: list[Arc]) -> list[Arc]:
    """The arcs that stand over the staff."""
    return [arc for arc in arcs if arc.string == 1 and arc.bowed]


def _raised(arcs: list[Arc], arrows: OnsetArrows, layout: Layout) -> int:
    """1 where an arrow would end in an arc of line 1, else 0."""
    columns = arrow_columns(arrows, layout) if arrows else []
    return int(any(arc.start <= last and first <= arc.end for arc in _line_one(arcs) for first, last in columns))


def _placed(view: StaffView, signs: Signs, layout: Layout, arcs: list[Arc], arrows: OnsetArrows) -> list[Placed]:
    """The signs over the staff, above arcs and arrows."""
    counts = repeat_counts(view, layout)
    if not (signs.runs or counts):
        return []
    taken: dict[int, int] = {}
    for arc in _line_one(arcs):
        taken.update(dict.fromkeys(range(arc.start, arc.end + 1), 1))
    top = 2 + _raised(arcs, arrows, layout)
    for arrow, (first, last) in zip(arrows.values(), arrow_columns(arrows, layout), strict=True):
        parts = any(part in turn.amount for part in PARTS for turn in arrow.turns)
        taken.update(dict.fromkeys(range(first, last + (_AMOUNT if parts else 1)), top))
    return stack(signs, layout, DASH, taken, counts)


def draw_marks(canvas: Canvas, view: StaffView, signs: Signs, layout: Layout, rows: Rows) -> None:
    """Draw every mark."""
    arrows = find_arrows(view, signs)
    arcs = find_arcs(view, signs, layout, arrows)
    head = rows.top - 1 - _raised(arcs, arrows, layout)
    for at, arrow in arrows.items():
        draw_arrows(canvas, arrow, rows.of(at.string), layout.onsets[at.bar, at.onset], head)
    for arc in arcs:
        draw_arc(canvas, arc, rows.of(arc.string), PEN)
    draw_over(canvas, _placed(view, signs, layout, arcs, arrows), rows.top)
