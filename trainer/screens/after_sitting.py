"""What is done with the profile once a sitting has ended: it is saved, and the memory fitted while nobody waits."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from threading import Event

from textual.app import App

from trainer.learner import Learner
from trainer.profile.automatic import Automatic

REST = 0.5
"""Seconds after which the screen that follows a sitting has been drawn."""


class AfterSitting:
    """Saves and, when that is due, fits in a thread.

    Who leaves meanwhile does not wait for the fit: it is given up, and due again at the next mark.
    """

    def __init__(self, app: App[None], learner: Learner, fitted: Callable[[], None]) -> None:
        """Take the app; ``fitted`` is called once another memory is in use, so that what is shown can follow it."""
        self._app = app
        self._learner = learner
        self._fitted = fitted
        self._automatic = Automatic(learner.profile)

    async def save(self) -> None:
        """Save, and begin to fit if that is due."""
        await asyncio.to_thread(self._learner.profile.save, self._learner.clock.now())
        if self._automatic.due():
            self._app.run_worker(self._fit())

    async def _fit(self) -> None:
        await asyncio.sleep(REST)
        stop = Event()
        try:
            if await asyncio.to_thread(self._work, stop.is_set):
                self._fitted()
        finally:
            stop.set()

    def _work(self, stop: Callable[[], bool]) -> bool:
        from trainer.profile.fitted import fit_by_itself  # late: seldom needed

        clock, profile = self._learner.clock, self._learner.profile
        return fit_by_itself(profile, clock.now(), profile.sitting_day(clock.now(), clock.zone), stop)
