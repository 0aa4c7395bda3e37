"""A question to the learner that takes y or n."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen

from trainer.screens.base import Plain


class Confirm(ModalScreen[bool]):
    """Dismissed with the answer; Escape is no."""

    BINDINGS: ClassVar[list[BindingType]] = [("y", "answer(True)", "Yes"), ("n,escape", "answer(False)", "No")]

    def __init__(self, question: str) -> None:
        super().__init__()
        self._question = question

    def compose(self) -> ComposeResult:
        with Vertical(id="keys"):
            yield Plain(self._question)
            yield Plain("\ny  yes      n  no", classes="title")

    def action_answer(self, sure: bool) -> None:
        self.dismiss(sure)
