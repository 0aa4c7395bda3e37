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
from drills.notation.legend import draw_legend
from drills.notation.repeats import draw_repeats
from drills.notation.score import At
from drills.notation.signs import Signs, signs_of
from drills.notation.spacing import Layout, Room, lay_out
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.stems import UNDER, draw_stems

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
    signs = signs_of(view)
    layout, rows, room = _place(view, signs, double, width)
    hand = _hand(view)
    canvas = Canvas()
    draw_lines(canvas, view, layout, rows, hand.PEN)
    draw_repeats(canvas, view, layout, rows, hand.PEN)
    draw_numbers(canvas, view, signs, layout, rows)
    hand.draw_marks(canvas, view, signs, layout, rows)
    if view.stems:
        draw_stems(canvas, view, layout, first=rows.top, step=rows.step, under=rows.below)
    draw_around(canvas, view, layout, rows, room.widths)
    draw_legend(canvas, view, max(width, layout.right + 1 + key_width(view)))
    return canvas.drawing()


def note_columns(view: StaffView, *, double: bool = False, width: int = 0) -> dict[At, tuple[int, int]]:
    """Where each note stands in ``draw_staff`` with the same arguments: row and column, from 0, of its first
    digit."""
    signs = signs_of(view)
    layout, rows, _ = _place(view, signs, double, width)
    return {at: (rows.of(at.string), layout.onsets[at.bar, at.onset]) for at in signs.tokens}


def _place(view: StaffView, signs: Signs, double: bool, width: int) -> tuple[Layout, Rows, Room]:
    """Columns and rows of everything, and the room that onsets have."""
    lines = view.piece.tuning.lines
    hand = _hand(view)
    left = label_width(view, hand.PEN)
    right = width - key_width(view)
    room = hand.room(view, signs)
    layout = lay_out(view, room, left, right)
    if width and layout.right >= right:
        room = hand.room(view, signs, compact=True)
        layout = lay_out(view, room, left, right)
    step = 2 if double and view.dialect != Dialect.TEXT else 1
    under = UNDER[view.dialect] if view.stems else 0
    return layout, Rows(hand.rows_above(view, signs, layout), step, lines, under), room


def _hand(view: StaffView) -> Hand:
    return typed if view.dialect == Dialect.TEXT else engraved
