"""All the values of a setting, to choose one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from trainer.screens.base import Plain


class Pick(ModalScreen[int | None]):
    """A list over the screen; dismissed with the number of the choice, or None."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape", "leave", "Leave")]
    DEFAULT_CSS = """
    Pick { align: center middle; }
    Pick Vertical { width: 60; max-width: 96%; height: auto; max-height: 90%; background: $panel; padding: 0 1; }
    Pick .title { height: 1; text-style: bold; color: $primary; }
    Pick OptionList { height: auto; max-height: 100%; border: none; padding: 0; background: $panel; }
    Pick OptionList:focus { border: none; background-tint: $foreground 0%; }
    """

    def __init__(self, title: str, options: Sequence[tuple[str, Any]], value: Any) -> None:
        super().__init__()
        self._title = title
        self._words = [words for words, _ in options]
        self._at = [each for _, each in options].index(value)

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Plain(self._title, classes="title")
            yield OptionList(*(Option(words) for words in self._words), markup=False, id="values")

    def on_mount(self) -> None:
        self.query_one(OptionList).highlighted = self._at

    @on(OptionList.OptionSelected)
    def _chosen(self, message: OptionList.OptionSelected) -> None:
        self.dismiss(message.option_index)

    def action_leave(self) -> None:
        """Leave it as it is."""
        self.dismiss(None)
