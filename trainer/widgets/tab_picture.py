"""The hero: a staff, a neck or both, centred in the room there is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from drills.notation.drawing import Drawing, Role
from drills.question import Picture
from trainer.widgets.fitting import fit
from trainer.widgets.joining import Placed, join

LINES = "═╪="
"""Signs of a line or a string that is pointed at."""

APART = 2
"""Rows between a picture and what stands under it."""


class TabPicture(Widget):
    """Draws a picture; a click on a part that stands for an answer gives that answer."""

    DEFAULT_CSS = """
    TabPicture { height: 1fr; min-height: 4; width: 1fr; }
    TabPicture > .tab--line { color: $foreground 50%; }
    TabPicture > .tab--bar { color: $foreground 60%; }
    TabPicture > .tab--fret { color: $foreground; text-style: bold; }
    TabPicture > .tab--mark { color: $accent; }
    TabPicture > .tab--label { color: $foreground 60%; }
    TabPicture > .tab--count { color: $foreground 70%; }
    TabPicture > .tab--lit { color: $primary; text-style: bold reverse; }
    TabPicture > .tab--said { color: $error; text-style: bold strike; }
    TabPicture > .tab--true { color: $success; text-style: bold underline; }
    TabPicture > .tab--key { color: $warning; text-style: bold; }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {f"tab--{role}" for role in Role if role is not Role.BLANK}
    """One for each role of a cell."""

    @dataclass
    class Chosen(Message):
        """A part of the picture was clicked that stands for an answer."""

        answer: str

    def __init__(self, *, ascii_only: bool = False, id: str | None = None) -> None:
        super().__init__(id=id)
        self._ascii = ascii_only
        self._picture = Picture()
        self._whole = False
        self._below = 0
        self._joined: Picture | None = None
        self._stays = False
        self._base = self._placed = Placed(Drawing(()), 0, 0)
        self._room = (0, 0)
        self._strips: list[Strip] = []

    def show(self, picture: Picture, *, whole: bool = False, below: int = 0) -> None:
        """Draw this from now on.

        Args:
            picture: what to draw.
            whole: both staff and neck are needed, however small the window.
            below: rows to be left free under it, for what a later picture has there.
        """
        self._picture, self._whole, self._below = picture, whole, below
        self._joined, self._stays = None, False
        self._lay_out()

    @property
    def least(self) -> int:
        """Rows that its drawing needs where it stands."""
        return self._base.drawing.height

    def stay(self) -> None:
        """From now on, until another one is shown, stay in place as far as there is room."""
        self._stays = True

    def join(self, picture: Picture) -> None:
        """Draw this instead, with the staff where it was as far as there is room."""
        self._joined, self._stays = picture, True
        self._lay_out()

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, lambda _: self.call_after_refresh(self._lay_out))

    def on_resize(self) -> None:
        self._lay_out()

    def _lay_out(self) -> None:
        width, height = self.size
        if not width or not height:
            return
        if not (self._stays and self._room[0] == width and self._base.top + self._base.drawing.height <= height):
            drawing = fit(self._picture, width, height - self._below, whole=self._whole)
            self._base = self._place(drawing, width, height, self._below)
        self._room = width, height
        self._placed = self._base
        if self._joined is not None:
            found = join(self._joined, self._base, width, height)
            self._placed = found or self._place(fit(self._joined, width, height), width, height)
        drawing = self._placed.drawing.ascii() if self._ascii else self._placed.drawing
        styles = {role: self._style(role) for role in Role}
        left = Segment(" " * self._placed.left, styles[Role.BLANK])
        line = styles[Role.LIT] + Style(reverse=False)  # a whole line in reverse would shout
        self._strips = []
        for row in drawing.rows:
            segments = [
                left,
                *(
                    Segment(span.text, line if span.role is Role.LIT and span.text[0] in LINES else styles[span.role])
                    for span in row
                ),
            ]
            # Every sign of ours is one cell wide; asking for its width would load tables for 25 ms at the start.
            strip = Strip(segments, sum(len(segment.text) for segment in segments))
            self._strips.append(strip.adjust_cell_length(width, styles[Role.BLANK]))
        self.refresh()

    @staticmethod
    def _place(drawing: Drawing, width: int, height: int, below: int = 0) -> Placed:
        """Right above the prompt under it, so that the eye need not travel, but never touching it if it can be."""
        spare = max(0, height - drawing.height)
        under = min(max(APART, below), spare if below else (spare + 1) // 2)
        return Placed(drawing, spare - under, max(0, (width - drawing.width) // 2))

    def _style(self, role: Role) -> Style:
        if role is Role.BLANK:
            return self.rich_style
        return self.get_component_rich_style(f"tab--{role}")

    def render_line(self, y: int) -> Strip:
        row = y - self._placed.top
        if 0 <= row < len(self._strips):
            return self._strips[row]
        return Strip.blank(self.size.width, self.rich_style)

    def on_click(self, event: events.Click) -> None:
        row, column = event.y - self._placed.top, event.x - self._placed.left
        for target in self._placed.drawing.targets:
            inside = target.row <= row < target.row + target.height
            if inside and target.column <= column < target.column + target.width and target.answer:
                event.stop()
                self.post_message(self.Chosen(target.answer))
                return
