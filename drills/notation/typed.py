"""The text dialect: ``e|--5h7--|``, as people type it (H. Wright, "The Guide to TAB Notation", 1995).

Hammer-ons ``h``, pull-offs ``p`` and slides ``/`` and ``\\`` are Wright's. A tie is the same number again, close by and
in parentheses, ``5-(5)``: common practice, no source, and a ghost note looks alike, so that only a legend tells.
"""

from __future__ import annotations

from typing import Final

from drills.notation.drawing import Canvas, Role
from drills.notation.frame import Pen, Rows
from drills.notation.over import Dash, Placed, draw_over, height, stack, widen
from drills.notation.repeats import has_repeats, repeat_counts
from drills.notation.room import lead_in, token_widths
from drills.notation.score import MarkKind
from drills.notation.signs import Signs
from drills.notation.spacing import Layout, OnsetAt, Room
from drills.notation.staff_view import StaffView

PEN: Final = Pen(line="-", lit="-", said="-", bar="|", heavy="|", dot=":", dots_on_all=True, label_gap="")
DASH: Final = Dash("-", "")
LETTERS: Final = {
    MarkKind.HAMMER_ON: "h",
    MarkKind.PULL_OFF: "p",
    MarkKind.SLIDE_UP: "/",
    MarkKind.SLIDE_DOWN: "\\",
    MarkKind.TIE: "-",
}


def room(view: StaffView, signs: Signs, compact: bool = False) -> Room:
    """How many characters each onset takes: two dashes after each, one where a mark joins or when compact."""
    widths = token_widths(view, signs)
    for at, (text, _) in view.spots.items():
        widths[at.bar, at.onset] = max(widths[at.bar, at.onset], signs.offset(at) + len(text))
    tight: set[OnsetAt] = set(signs.graces)
    hanging: set[OnsetAt] = set()
    for link in signs.links:
        here = (link.source.bar, link.source.onset)
        if link.target is None:
            widths[here] += 1
            hanging.add(here)
        elif (link.target.bar, link.target.onset) == (here[0], here[1] + 1):
            tight.add(here)
    air = 1 if compact else 2
    steps = {at: width + (0 if at in hanging else 1 if at in tight else air) for at, width in widths.items()}
    beside = air + has_repeats(view)
    widen(signs, widths, steps, beside)
    return Room(beside + 1 + lead_in(signs, steps), beside, 12, air + 1, widths, steps, frozenset(tight | hanging))


def rows_above(view: StaffView, signs: Signs, layout: Layout) -> int:
    """Rows of words and signs over the staff."""
    return height(_placed(view, signs, layout))


def _placed(view: StaffView, signs: Signs, layout: Layout) -> list[Placed]:
    counts = repeat_counts(view, layout)
    return stack(signs, layout, DASH, {}, counts) if signs.runs or counts else []


def draw_marks(canvas: Canvas, view: StaffView, signs: Signs, layout: Layout, rows: Rows) -> None:
    """Write the letters of the marks between the numbers, and the rows over the staff."""
    for link in signs.links:
        row = rows.of(link.source.string)
        start = layout.onsets[link.source.bar, link.source.onset] + signs.tokens[link.source].width
        end = start + 1 if link.target is None else layout.onsets[link.target.bar, link.target.onset]
        free = [column for column in range(start, end) if canvas.at(row, column) == PEN.line]
        middle = (start + end - 1) / 2
        column = min(free, key=lambda column: abs(column - middle), default=start)
        canvas.put(row, column, LETTERS[link.mark.kind], Role.MARK)
    draw_over(canvas, _placed(view, signs, layout), rows.top)
