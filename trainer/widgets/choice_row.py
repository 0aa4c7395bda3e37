"""One row of Setup: what is set, and a value that the arrows turn through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from rich.text import Text
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Static

LABEL = 16
"""Cells of what is set."""
ARROWS = "◂ ", " ▸"


class ChoiceRow(Static, can_focus=True):
    """A setting with a few values: Left and Right turn through them, Enter lists them, a click takes the next."""

    DEFAULT_CSS = """
    ChoiceRow { height: 1; width: 1fr; padding: 0 1; }
    ChoiceRow:focus { background: $panel; text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "turn(-1)", "Before", show=False),
        Binding("right,space", "turn(1)", "Next", show=False),
        Binding("home", "end(0)", "First", show=False),
        Binding("end", "end(-1)", "Last", show=False),
        Binding("enter", "list", "List", show=False),
    ]

    @dataclass
    class Turned(Message):
        """Another value is wanted."""

        row: ChoiceRow
        value: Any

    @dataclass
    class Listed(Message):
        """All values are to be listed."""

        row: ChoiceRow

    def __init__(
        self, label: str, options: Sequence[tuple[str, Any]], value: Any, *, id: str, classes: str | None = None
    ) -> None:
        super().__init__(id=id, classes=classes, markup=False)
        self.label = label
        self.options = list(options)
        self.value = value

    def on_mount(self) -> None:
        self.show(self.value)

    def show(self, value: Any, options: Sequence[tuple[str, Any]] | None = None) -> None:
        """Show a value, which becomes one of the options if it is none of them yet."""
        if options is not None:
            self.options = list(options)
        if value not in [each for _, each in self.options]:
            self.options.append((f"{value} (not known)", value))  # nothing is changed by looking at it
        self.value = value
        self._draw(focused=self.has_focus)

    def on_focus(self) -> None:
        self._draw(focused=True)

    def on_blur(self) -> None:
        self._draw(focused=False)

    def _draw(self, *, focused: bool) -> None:
        words = next(words for words, value in self.options if value == self.value)
        before, after = ARROWS if focused and len(self.options) > 1 else ("  ", "")
        self.update(Text(f"{self.label:<{LABEL}}{before}{words}{after}", no_wrap=True, overflow="ellipsis"))

    def action_turn(self, step: int) -> None:
        """The next value, or the one before; round at the ends."""
        if len(self.options) > 1:
            at = [value for _, value in self.options].index(self.value)
            self.post_message(self.Turned(self, self.options[(at + step) % len(self.options)][1]))

    def action_end(self, at: int) -> None:
        """The first value, or the last."""
        self.post_message(self.Turned(self, self.options[at][1]))

    def action_list(self) -> None:
        """All values, to choose one."""
        self.post_message(self.Listed(self))

    def on_click(self, event: events.Click) -> None:
        arrow = LABEL + 1
        self.action_turn(-1 if arrow <= event.x < arrow + 2 else 1)


class ActRow(Static, can_focus=True):
    """A row that does something: Enter, or a click."""

    DEFAULT_CSS = """
    ActRow { height: 1; width: 1fr; padding: 0 1; }
    ActRow:focus { background: $panel; text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter,space", "act", "Do", show=False)]

    @dataclass
    class Done(Message):
        """It was asked for."""

        row: ActRow

    def __init__(self, label: str, words: str, *, id: str) -> None:
        super().__init__(id=id, markup=False)
        self._label = label
        self.say(words)

    def say(self, words: str) -> None:
        """Show other words."""
        self.update(Text(f"{self._label:<{LABEL}}  {words}", no_wrap=True, overflow="ellipsis"))

    def action_act(self) -> None:
        """Do it."""
        self.post_message(self.Done(self))

    def on_click(self) -> None:
        self.action_act()
