"""Chord diagrams -> rows of styled cells: the nut up, the last string at the left, as they are printed."""

from __future__ import annotations

from typing import Final, NamedTuple

from drills.notation.drawing import Canvas, Drawing, Role, Target
from drills.notation.shape import Shape

OPEN, MUTED, HELD = "○", "x", "●"
"""Over a string: open, or not played; on it: a finger."""

ROWS: Final = 4
"""Frets that a diagram shows at least."""
LOWEST: Final = 3
"""The same where it has to be low."""
GAP: Final = 4
"""Cells between two diagrams."""


class Box(NamedTuple):
    """One diagram.

    Attributes:
        shape: what is held.
        key, answer: a key under it, and the answer that it stands for.
        caption: a word under it, where there is no key.
        role: of its dots (LIT, SAID, TRUE; FRET for none of these).
        fingers: by string, the last first: 1 to 4 instead of a dot, 0 for a plain dot; empty for dots alone.
    """

    shape: Shape
    key: str = ""
    answer: str = ""
    caption: str = ""
    role: Role = Role.FRET
    fingers: tuple[int, ...] = ()


class DiagramView(NamedTuple):
    """Diagrams beside each other.

    Attributes:
        boxes: at least one, all of as many strings.
        left_handed: string 1 at the left.
        labels: a character or two for each string, string 1 first, written under it; empty for none.
    """

    boxes: tuple[Box, ...]
    left_handed: bool = False
    labels: tuple[str, ...] = ()

    @property
    def strings(self) -> int:
        """How many strings the instrument has."""
        return self.boxes[0].shape.lines


def first_fret(shape: Shape) -> int:
    """The fret of the top row: 1 where the shape lies near the nut, else that of its lowest finger."""
    return 1 if max(shape.pressed, default=0) <= ROWS else min(shape.pressed)


def draw_diagram(view: DiagramView, *, width: int = 0, tall: bool = True, low: bool = False) -> Drawing:
    """Draw diagrams, a row a fret; the fret of the top row is written beside it where the nut is not shown.

    Args:
        view: what to draw.
        width: cells that there are; strings are drawn closer, then diagrams under each other, where they would not
            fit (0: as wide as is good).
        tall: with a row for every fret wire; otherwise wires are drawn under the dots, in the same row.
        low: as low as can be: what stands over a string stands on the nut; frets below the last finger and the labels
            are left out. It is never tall.
    """
    rows = max(max(box.shape.pressed, default=0) - first_fret(box.shape) + 1 for box in view.boxes)
    rows = max(rows, LOWEST if low else ROWS)
    pitch, across = _arranged(view, width, low)
    shown = view._replace(labels=()) if low else view
    canvas = Canvas()
    for n, box in enumerate(view.boxes):
        pen = _Pen(canvas, shown, box, pitch, rows, tall and not low, low)
        pen.draw((n // across) * (pen.height + 1), (n % across) * (pen.width + _gap(pitch, low)))
    return canvas.drawing()


def _gap(pitch: int, low: bool) -> int:
    """Cells between two diagrams: fewer where strings are drawn closer, too."""
    return GAP if pitch == 2 else 1 if low else GAP - 2


def _arranged(view: DiagramView, width: int, low: bool) -> tuple[int, int]:
    """Cells from string to string, and how many diagrams stand in a row."""
    count = len(view.boxes)
    for pitch in (2, 1):
        for across in range(count, 0, -1):
            if not width or _needed(view, pitch, across, low) <= width:
                if pitch == 2 and across < count and _needed(view, 1, count, low) <= width:
                    break
                return pitch, across
    return 1, 1


def _needed(view: DiagramView, pitch: int, across: int, low: bool) -> int:
    """Cells of that many diagrams beside each other."""
    return across * (_width(view, pitch) + _gap(pitch, low)) - _gap(pitch, low)


def _width(view: DiagramView, pitch: int) -> int:
    """Cells of one diagram: its strings, and the fret number beside it where any of them needs one."""
    high = [first_fret(box.shape) for box in view.boxes]
    return (view.strings - 1) * pitch + 1 + (len(str(max(high))) + 1 if max(high) > 1 else 0)


class _Pen:
    """Draws one diagram at a place."""

    def __init__(
        self, canvas: Canvas, view: DiagramView, box: Box, pitch: int, rows: int, tall: bool, low: bool
    ) -> None:
        self.canvas, self.view, self.box, self.pitch, self.rows = canvas, view, box, pitch, rows
        self.step = 2 if tall else 1
        self.first = first_fret(box.shape)
        self.board = (view.strings - 1) * pitch + 1
        self.width = _width(view, pitch)
        self.nut = 0 if low else 1
        self.under = self.nut + 1 + rows * self.step
        self.height = self.under + bool(view.labels) + bool(box.key or box.caption)

    def column(self, string: int) -> int:
        """The last string at the left; left-handed, string 1."""
        n = string - 1 if self.view.left_handed else self.view.strings - string
        return n * self.pitch

    def draw(self, top: int, left: int) -> None:
        """The whole diagram from its top left cell on."""
        self._board(top, left)
        for string in range(1, self.view.strings + 1):
            self._string(top, left, string)
        if self.first > 1:
            self.canvas.put(top + self.nut + 1, left + self.board + 1, str(self.first), Role.LABEL)
        bottom = top + self.under
        if self.view.labels:
            for string, label in enumerate(self.view.labels, start=1):
                self.canvas.put(bottom, left + self.column(string), label[: self.pitch], Role.LABEL)
            bottom += 1
        text = self.box.key or self.box.caption
        if text:
            self.canvas.put(bottom, left + max(0, (self.board - len(text)) // 2), text, self._role_of_text())
        if self.box.key:
            self.canvas.target(Target(top, left, self.height, self.width, self.box.answer))

    def _role_of_text(self) -> Role:
        return Role.KEY if self.box.key else self.box.role if self.box.role is not Role.FRET else Role.LABEL

    def _board(self, top: int, left: int) -> None:
        """The nut (or the wire over the top row), the strings and the wires."""
        nut = self.first == 1
        self._wire(top + self.nut, left, "╒╤╕" if nut else "┌┬┐", "═" if nut else "─")
        for row in range(self.rows):
            at = top + self.nut + 1 + row * self.step
            for column in range(self.board):
                string = column % self.pitch == 0
                fill = "│" if string else " " if self.step == 2 else "_"
                self.canvas.put(at, left + column, fill, Role.LINE if string else Role.BAR)
            if self.step == 2:
                last = row == self.rows - 1
                self._wire(at + 1, left, "└┴┘" if last else "├┼┤", "─")

    def _wire(self, row: int, left: int, joints: str, fill: str) -> None:
        for column in range(self.board):
            sign = fill
            if column % self.pitch == 0:
                sign = joints[0] if column == 0 else joints[2] if column == self.board - 1 else joints[1]
            self.canvas.put(row, left + column, sign, Role.BAR)

    def _string(self, top: int, left: int, string: int) -> None:
        """What stands over a string, or the finger on it."""
        fret, column = self.box.shape.on(string), left + self.column(string)
        if not fret:
            sign, role = (OPEN, self.box.role) if fret == 0 else (MUTED, Role.MARK)
            self.canvas.put(top, column, sign, role)
            return
        fingers = self.box.fingers
        finger = fingers[self.view.strings - string] if fingers else 0
        row = top + self.nut + 1 + (fret - self.first) * self.step
        self.canvas.put(row, column, str(finger) if finger else HELD, self.box.role)
