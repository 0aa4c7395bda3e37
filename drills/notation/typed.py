"""The text dialect: ``e|--5h7--|``, as people type it (H. Wright, "The Guide to TAB Notation", 1995).

Hammer-ons ``h``, pull-offs ``p``, slides ``/`` and ``\\``, bends ``b`` with the fret that they sound like and
releases ``r`` are Wright's; ``pb`` for a pre-bend is common practice, no source.
"""

from __future__ import annotations

from typing import Final

from drills.notation.drawing import Canvas, Role
from drills.notation.frame import Pen, Rows
from drills.notation.score import MarkKind
from drills.notation.signs import fret_text, links, notes, spot_offset, token
from drills.notation.spacing import Layout, Room, onset_counts
from drills.notation.staff_view import StaffView

PEN: Final = Pen(line="-", lit="-", said="-", bar="|", label_gap="")
LETTERS: Final = {
    MarkKind.HAMMER_ON: "h",
    MarkKind.PULL_OFF: "p",
    MarkKind.SLIDE_UP: "/",
    MarkKind.SLIDE_DOWN: "\\",
}


def room(view: StaffView, compact: bool = False) -> Room:
    """How many characters each onset takes: two dashes after each, one where a mark joins or when compact."""
    widths = {(bar, n): 1 for bar, count in enumerate(onset_counts(view)) for n in range(count)}
    for at, note in notes(view.piece):
        widths[at.bar, at.onset] = max(widths[at.bar, at.onset], len(token(note)))
    for at, (text, _) in view.spots.items():
        widths[at.bar, at.onset] = max(widths[at.bar, at.onset], spot_offset(view, at) + len(text))
    tight = set()
    for link in links(view.piece):
        here = (link.source.bar, link.source.onset)
        if link.target is None:
            widths[here] += 1
        elif (link.target.bar, link.target.onset) == (here[0], here[1] + 1):
            tight.add(here)
    air = 1 if compact else 2
    steps = {at: width + (1 if at in tight else air) for at, width in widths.items()}
    return Room(air + 1, air, 12, air + 1, widths, steps, frozenset(tight))


def draw_marks(canvas: Canvas, view: StaffView, layout: Layout, rows: Rows) -> None:
    """Write the letters of the marks behind and between the numbers."""
    ends = {}
    for at, note in notes(view.piece):
        column, digits, whole = layout.onsets[at.bar, at.onset], fret_text(note), token(note)
        canvas.put(rows.of(at.string), column + len(digits), whole[len(digits) :], Role.MARK)
        ends[at] = column + len(whole)
    for link in links(view.piece):
        row, start = rows.of(link.source.string), ends[link.source]
        end = start + 1 if link.target is None else layout.onsets[link.target.bar, link.target.onset]
        free = [column for column in range(start, end) if canvas.at(row, column) == PEN.line]
        middle = (start + end - 1) / 2
        column = min(free, key=lambda column: abs(column - middle), default=start)
        canvas.put(row, column, LETTERS[link.mark.kind], Role.MARK)
