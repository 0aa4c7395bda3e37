"""Piece -> rows of styled cells, in the engraved dialect (printed signs) or the text dialect (as typed)."""

from __future__ import annotations

from drills.notation import engraved, typed
from drills.notation.drawing import Canvas, Drawing
from drills.notation.frame import (
    Hand,
    Rows,
    draw_around,
    draw_lines,
    draw_numbers,
    key_width,
    label_width,
)
from drills.notation.score import At
from drills.notation.signs import notes
from drills.notation.spacing import Layout, lay_out
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.stems import OVER, UNDER, draw_stems

__all__ = ["Dialect", "StaffView", "draw_staff", "note_columns"]


def draw_staff(view: StaffView, *, double: bool = False, width: int = 0) -> Drawing:
    """Draw a staff.

    Args:
        view: what to draw.
        double: leave a row between the lines, so that arcs sit right over their numbers (engraved only).
        width: stretch the staff to about this many cells where it is shorter, and draw closer where it is longer,
            as far as numbers stay apart (0: as wide as it likes to be).

    Raises:
        ValueError: a count line, ticks or stems are asked for and a beat is unknown, or beats do not rise; stems
            are asked for and a length is unknown or has no value.
    """
    layout, rows = _place(view, double, width)
    hand = _hand(view)
    canvas = Canvas()
    draw_lines(canvas, view, layout, rows, hand.PEN)
    draw_numbers(canvas, view, layout, rows)
    hand.draw_marks(canvas, view, layout, rows)
    if view.stems:
        draw_stems(canvas, view, layout, first=rows.top, step=rows.step, under=rows.below)
    draw_around(canvas, view, layout, rows, hand.room(view).widths)
    return canvas.drawing()


def note_columns(view: StaffView, *, double: bool = False, width: int = 0) -> dict[At, tuple[int, int]]:
    """Where each note stands in ``draw_staff`` with the same arguments: row and column, from 0, of its first
    digit."""
    layout, rows = _place(view, double, width)
    return {at: (rows.of(at.string), layout.onsets[at.bar, at.onset]) for at, _ in notes(view.piece)}


def _place(view: StaffView, double: bool, width: int) -> tuple[Layout, Rows]:
    """Columns and rows of everything."""
    lines = view.piece.tuning.lines
    hand = _hand(view)
    left = label_width(view, hand.PEN)
    right = width - key_width(view)
    layout = lay_out(view, hand.room(view), left, right)
    if width and layout.right >= right:
        layout = lay_out(view, hand.room(view, compact=True), left, right)
    if view.dialect == Dialect.TEXT:
        return layout, Rows(OVER if view.stems else 0, 1, lines)
    return layout, Rows(engraved.rows_above(view, layout), 2 if double else 1, lines, UNDER if view.stems else 0)


def _hand(view: StaffView) -> Hand:
    return typed if view.dialect == Dialect.TEXT else engraved
