"""What the screens have in common: their place in the table of commands, and plain text."""

from __future__ import annotations

from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.widgets import Static

from trainer import commands
from trainer.screens.messages import Go


def bindings(*places: str) -> list[BindingType]:
    """The bindings of a screen, from the table of commands: of one place, or of several in turn."""
    return [
        Binding(
            ",".join(command.keys),
            command.action,
            command.words,
            show=command.footer,
            tooltip=command.help,
            id=command.id,
            key_display=commands.key_words(command).split(" or ")[0],
        )
        for command in commands.at(*places)
    ]


class Plain(Static):
    """Text that is never read as markup."""

    def __init__(self, text: str = "", *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(text, id=id, classes=classes, markup=False)


class Place(Screen[Any]):
    """A screen that the table of commands knows by name."""

    PLACES: ClassVar[tuple[str, ...]]
    """Its names in the table of commands."""
    AUTO_FOCUS = ""

    def action_go(self, place: str) -> None:
        """Another screen of the house."""
        self.post_message(Go(place))

    def action_keys(self) -> None:
        """Every key that works here."""
        from trainer.screens.keys import Keys

        self.app.push_screen(Keys(self.PLACES[0], getattr(self.app, "own_keys", {})))

    async def action_quit(self) -> None:
        """Quit; the app keeps everything."""
        await self.app.action_quit()
