"""Words under a staff, for signs that only a legend tells apart."""

from __future__ import annotations

from textwrap import wrap
from typing import Final

from drills.notation.drawing import Canvas, Role
from drills.notation.staff_view import StaffView

LEAST: Final = 24
"""Cells that a legend takes under a staff that is narrower: below that, words break."""


def draw_legend(canvas: Canvas, view: StaffView, width: int) -> None:
    """Write the legend under all that is drawn, an empty row between, wrapped to ``width`` cells."""
    if not view.legend:
        return
    row = canvas.height + 1
    for sentence in view.legend:
        for line in wrap(sentence, max(width, LEAST)):
            canvas.put(row, 0, line, Role.LABEL)
            row += 1
