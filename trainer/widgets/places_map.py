"""The staff and the neck, each place with a sign for how well it is read; one under the other, fret over fret."""

from __future__ import annotations

from collections.abc import Mapping

from rich.segment import Segment
from rich.style import Style

from drills.notation.drawing import Canvas, Drawing, Role
from drills.notation.neck import INLAYS, NeckView, draw_neck
from trainer.widgets.sheet import Rows

Place = tuple[int, int]
"""String and fret."""

HEAD = 3
"""Cells before the nut, where open strings stand."""


def neck_map(
    places: Mapping[Place, str], labels: tuple[str, ...], last: int, width: int, *, left_handed: bool = False
) -> Drawing:
    """The neck in playing position with a sign at every place.

    Args:
        places: a sign by place.
        labels: of the strings, string 1 first.
        last: the last fret.
        width: cells that there are.
        left_handed: nut at the right.
    """
    dots = {place: (sign, Role.FRET) for place, sign in places.items()}
    view = NeckView(len(labels), last=last, left_handed=left_handed, dots=dots, labels=labels)
    return draw_neck(view, width=width)


def staff_map(places: Mapping[Place, str], labels: tuple[str, ...], last: int, width: int) -> Drawing:
    """The lines of the staff with a sign for every number that can stand on them, the numbers under it.

    The columns are those of the neck, so that both can be read together: only up and down are exchanged.
    """
    label = max(map(len, labels), default=0) + 1
    pitch = pitch_of(last, label, width)
    canvas = Canvas()
    end = label + HEAD + 2 + pitch * last
    for row, name in enumerate(labels):
        canvas.put(row, 0, name, Role.LABEL)
        canvas.put(row, label, "─" * (end - label), Role.LINE)
        for fret in range(last + 1):
            if (sign := places.get((row + 1, fret))) is not None:
                canvas.put(row, label + column(fret, pitch), sign, Role.FRET)
    for fret in range(last + 1):
        if pitch > 2 or fret < 10 or fret in INLAYS:
            canvas.put(len(labels), label + column(fret, pitch) - (len(str(fret)) - 1) // 2, str(fret), Role.LABEL)
    return canvas.drawing()


def pitch_of(last: int, label: int, width: int) -> int:
    """Cells from fret to fret, as the neck has them too."""
    return max(2, min(max(3, min(6, 66 // max(last, 1))), (width - label - HEAD - 2) // max(last, 1)))


def column(fret: int, pitch: int) -> int:
    """Where a fret's sign stands, counted from the end of the labels."""
    return 1 if fret == 0 else HEAD + 1 + (fret - 1) * pitch + (pitch - 2) // 2


def shaded(drawing: Drawing, shades: Mapping[str, Style], lines: Style, labels: Style) -> Rows:
    """A drawing in which every sign has its shade, and all around it is quiet."""
    found = Rows()
    found.rows = [
        [
            Segment(span.text, labels if span.role is Role.LABEL else shades.get(span.text, lines))
            for span in row
        ]
        for row in drawing.rows
    ]
    return found
