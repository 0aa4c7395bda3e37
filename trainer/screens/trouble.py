"""Answers that are not being saved: said in the top row while it is so, and once in full, with how to mend it."""

from __future__ import annotations

from textual.screen import Screen

from trainer.widgets.time_line import TimeLine


class Trouble:
    """What the learner has been told of it."""

    def __init__(self, screen: Screen[None]) -> None:
        self._screen = screen
        self._told: str | None = None

    def show(self, unsaved: str | None) -> None:
        """Say it, or that all is well again by saying nothing."""
        self._screen.query_one(TimeLine).warn(unsaved)
        if unsaved and unsaved != self._told:
            line = f"{unsaved[0].upper()}{unsaved[1:]}."
            self._screen.notify(line, severity="error", timeout=10, markup=False)
        self._told = unsaved
