"""Every key that works on a screen, from the table of commands."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen

from trainer import commands
from trainer.screens.base import Plain


class Keys(ModalScreen[None]):
    """A list of keys over the screen they belong to."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape,enter,q,question_mark", "dismiss", "Close")]

    def __init__(self, place: str, own: Mapping[str, str] | None = None) -> None:
        super().__init__()
        self._place = place
        self._own = own or {}

    def compose(self) -> ComposeResult:
        with VerticalScroll(id="keys"):
            yield Plain(f"Keys on this screen ({self._place})\n", classes="title")
            yield Plain(key_list(self._place, self._own))
            yield Plain("\nIds in brackets name a command under [keys] in profile.toml.", classes="quiet")
            yield Plain("Ctrl-Z suspends.  Esc closes.", classes="quiet")


def key_list(place: str, own: Mapping[str, str]) -> str:
    """A line for each command."""
    rows = [(commands.key_words(command, own), command) for command in commands.at(place)]
    wide = max(len(keys) for keys, _ in rows)
    return "\n".join(f"{keys.ljust(wide)}   {command.help}  [{command.id}]" for keys, command in rows)
