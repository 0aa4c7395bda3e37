"""The screens that are opened over Today, by their names in the table of commands. Each is imported when needed."""

from __future__ import annotations

from textual.screen import Screen

from trainer import commands
from trainer.learner import Learner


def open_place(place: str, learner: Learner) -> Screen[None]:
    """A new screen of that name; Setup where there is none."""
    if place == commands.EXPLAIN:
        from trainer.screens.explain import ExplainScreen

        return ExplainScreen(learner)
    if place == commands.PROGRESS:
        from trainer.screens.progress import Progress

        return Progress(learner)
    from trainer.screens.setup import Setup

    return Setup(learner)
