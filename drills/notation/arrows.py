"""Arrows of bends: where their columns stand beside the number, and how they are drawn."""

from __future__ import annotations

from typing import Final, NamedTuple

from drills.notation.drawing import Canvas, Role
from drills.notation.score import At, MarkKind
from drills.notation.signs import Signs, notes
from drills.notation.spacing import Layout
from drills.notation.staff_view import StaffView
from drills.notation.tokens import amount_text, bends

WAVE: Final = "~~~"
"""A bent note that is shaken: after the arrow's point."""


class Turn(NamedTuple):
    """One bend or release of a note.

    Attributes:
        kind: bend, pre-bend or release.
        offset: columns from the onset's to the arrow's.
        amount: what stands over it.
    """

    kind: MarkKind
    offset: int
    amount: str


class Arrow(NamedTuple):
    """All bends of one note. ``tail`` is where its line leaves the number, ``wave`` what follows the last point."""

    tail: int
    turns: tuple[Turn, ...]
    wave: str = ""

    @property
    def end(self) -> int:
        """Columns from the onset's to the first free one."""
        return max(self.tail, self.turns[-1].offset + 1 + len(self.wave))


OnsetArrows = dict[At, Arrow]


def find_arrows(view: StaffView, signs: Signs) -> OnsetArrows:
    """The arrows of every note that is bent; those of one chord side by side, line 1 first."""
    found: OnsetArrows = {}
    if not signs.bent:
        return found
    taken: dict[tuple[int, int], int] = {}
    over: dict[tuple[int, int], int] = {}  # what stands on higher lines, which no shaft may cross
    for at, note in notes(view.piece):
        here = (at.bar, at.onset)
        if marks := bends(note):
            spot = view.spots.get(at)
            tail = signs.offset(at) + len(spot[0]) if spot else signs.tokens[at].width
            straight = marks[0].kind is MarkKind.PRE_BEND and here not in over
            column = 0 if straight else max(tail + 1, taken.get(here, 0), over.get(here, 0))
            turns = []
            for mark in marks:
                turns.append(Turn(mark.kind, column, amount_text(mark.amount)))
                column = max(column, tail - 1) + 3
            found[at] = Arrow(tail, tuple(turns), WAVE if any(m.kind is MarkKind.VIBRATO for m in note.marks) else "")
            taken[here] = column + len(found[at].wave)
        over[here] = max(over.get(here, 0), signs.tokens[at].width)
    return found


def arrow_columns(arrows: OnsetArrows, layout: Layout) -> list[tuple[int, int]]:
    """First and last column of each note's arrows."""
    columns = []
    for at, arrow in arrows.items():
        start = layout.onsets[at.bar, at.onset]
        columns.append((start + arrow.turns[0].offset, start + arrow.turns[-1].offset + len(arrow.wave)))
    return columns


def draw_arrows(canvas: Canvas, arrow: Arrow, row: int, column: int, head: int) -> None:
    """Draw a note's arrows: up from its line to row ``head``, over, and down again.

    Args:
        canvas: the staff.
        arrow: what to draw.
        row: of the note's line.
        column: of its number.
        head: the row of the arrows' points; amounts stand in the row above.
    """
    up = False
    before = column + arrow.tail - 1
    for turn in arrow.turns:
        there = column + turn.offset
        falls = turn.kind is MarkKind.RELEASE
        if up or falls:
            canvas.put(head, before + 1, "─" * (there - before - 1) if up else "", Role.MARK)
        elif turn.offset > 0:
            corner = "┘" if turn.kind is MarkKind.PRE_BEND else "╯"
            canvas.put(row, before + 1, "─" * (there - before - 1) + corner, Role.MARK)
        if falls or not up:
            for between in range(head + 1, row):
                canvas.put(between, there, "│", Role.MARK)
        canvas.put(head, there, "╮" if falls else "▲", Role.MARK)
        if falls:
            canvas.put(row, there, "▼", Role.MARK)
        else:
            canvas.put(head - 1, there, turn.amount, Role.MARK)
        up, before = not falls, there
    canvas.put(head, before + 1, arrow.wave, Role.MARK)
