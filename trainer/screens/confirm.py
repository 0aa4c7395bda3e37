"""A question to the learner that takes y or n."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.screen import ModalScreen

from trainer import commands
from trainer.screens.base import Plain, bindings


class Confirm(ModalScreen[bool]):
    """Dismissed with the answer; Escape is no."""

    BINDINGS = bindings(commands.CONFIRM)

    def __init__(self, question: str) -> None:
        super().__init__()
        self._question = question

    def compose(self) -> ComposeResult:
        with Vertical(id="keys"):
            yield Plain(self._question)
            yield Plain("\ny  yes      n  no", classes="title")

    def action_answer(self, sure: bool) -> None:
        self.dismiss(sure)
