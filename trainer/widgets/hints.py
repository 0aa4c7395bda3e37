"""The bottom row: the keys that work now, from the table of commands. Cheap to change with every question."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rich.text import Text
from textual import events
from textual.widgets import Static

from trainer import commands, themes


class Row(NamedTuple):
    """What stands in a row: so many from the left, so many from the right, and the cells between two of them."""

    first: int
    last: int
    cells: int


def fit_in_row(widths: Sequence[int], room: int) -> Row:
    """Pieces into a row: closer together where it is narrow, then without those before the last one.

    The last one is the way out: it stays in any case.
    """
    for dropped in range(len(widths)):
        kept = [*widths[: len(widths) - 1 - dropped], *widths[-1:]]
        for cells in (3, 2, 1):
            if sum(kept) + cells * (len(kept) - 1) <= room:
                return Row(len(kept) - 1, 1, cells)
    return Row(0, min(1, len(widths)), 1)


class Hints(Static):
    """At most six keys with their words; a click on one does what its key does."""

    DEFAULT_CSS = "Hints { height: 1; width: 1fr; dock: bottom; padding: 0 1; }"

    def __init__(self, *places: str) -> None:
        super().__init__(markup=False, id="hints")
        self._commands = [command for command in commands.at(*places) if command.footer]
        self._areas: list[tuple[int, int, str]] = []

    def on_mount(self) -> None:
        self.show()
        self.app.theme_changed_signal.subscribe(self, lambda _: self.show())

    def on_resize(self) -> None:
        self.show()

    def show(self) -> None:
        """Draw the keys of the commands that the screen allows now, the last one always."""
        key_style = themes.bold(self.app.theme_variables["accent"])
        own = getattr(self.app, "own_keys", {})
        allowed = [
            command
            for command in self._commands
            if self.screen.check_action(command.action.partition("(")[0], ()) is True
        ]
        keys = [commands.key_words(command, own).split(" or ")[0] for command in allowed]
        pieces = list(zip(keys, allowed, strict=True))
        gap = fit_in_row([len(key) + 1 + len(command.words) for key, command in pieces], self.size.width)
        pieces = [*pieces[: gap.first], *pieces[len(pieces) - gap.last :]]
        text = Text(no_wrap=True)
        self._areas = []
        for key, command in pieces:
            if self._areas:
                text.append(" " * gap.cells)
            self._areas.append((len(text.plain), len(key) + 1 + len(command.words), command.action))
            text.append(f"{key} ", key_style)
            text.append(command.words)
        self.update(text, layout=False)

    async def on_click(self, event: events.Click) -> None:
        for column, width, action in self._areas:
            if column <= event.x - 1 < column + width:
                event.stop()
                await self.run_action(f"screen.{action}")
