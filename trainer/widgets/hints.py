"""The bottom row: the keys that work now, from the table of commands. Cheap to change with every question."""

from __future__ import annotations

from rich.text import Text
from textual import events
from textual.widgets import Static

from trainer import commands, themes


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
        """Draw the keys of the commands that the screen allows now, as many as there is room for."""
        key_style = themes.bold(self.app.theme_variables["accent"])
        text = Text(no_wrap=True)
        self._areas = []
        own = getattr(self.app, "own_keys", {})
        for command in self._commands:
            action = command.action.partition("(")[0]
            if self.screen.check_action(action, ()) is not True:
                continue
            key = commands.key_words(command, own).split(" or ")[0]
            column = len(text.plain) + (3 if text.plain else 0)
            width = len(key) + 1 + len(command.words)
            if column + width > max(self.size.width, 1) - 2:
                break
            text.append(" " * (column - len(text.plain)))
            text.append(f"{key} ", key_style)
            text.append(command.words)
            self._areas.append((column, width, command.action))
        self.update(text, layout=False)

    async def on_click(self, event: events.Click) -> None:
        for column, width, action in self._areas:
            if column <= event.x - 1 < column + width:
                event.stop()
                await self.run_action(f"screen.{action}")
