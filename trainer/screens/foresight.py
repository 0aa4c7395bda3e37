"""What is likely, for Today: worked out in a thread once the page has stood for a moment, and kept until an answer."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING, Final, NamedTuple

from textual.screen import Screen
from textual.worker import Worker

from trainer.learner import Learner
from trainer.schedule.ahead import look_ahead

if TYPE_CHECKING:
    from trainer.schedule.outlook import Outlook
    from trainer.schedule.parameters import Fit

REST: Final = 0.25
"""Seconds that Today stands before anything is worked out: who begins at once does not wait for it."""
GROUP: Final = "foresight"


class _Key(NamedTuple):
    """What an outlook holds for."""

    day: int
    events: int
    fit: Fit | None
    tuning: str
    own: str
    minutes: float


class Foresight:
    """The outlook of one learner, in the time when nobody waits."""

    def __init__(self, screen: Screen[None], learner: Learner, draw: Callable[[], None]) -> None:
        self._screen = screen
        self._learner = learner
        self._draw = draw
        self._found: tuple[_Key, Outlook] | None = None

    @property
    def found(self) -> Outlook | None:
        """What is known to be likely now, or None until it has been worked out."""
        return self._found[1] if self._found is not None and self._found[0] == self._key() else None

    def begin(self) -> None:
        """Work it out where that is not done, once the page has stood for a moment, and have it drawn."""
        self._worker: Worker[None] = self._screen.run_worker(self._look, group=GROUP, exclusive=True)

    def stop(self) -> None:
        """A sitting begins: nothing is worked out now, and nothing drawn."""
        self._screen.workers.cancel_group(self._screen, GROUP)

    async def _look(self) -> None:
        key = self._key()
        if self.found is not None or not key.events:
            return
        await asyncio.sleep(REST)
        found = await asyncio.to_thread(self._work_out, key)
        if key == self._key():
            self._found = key, found
            self._draw()

    def _work_out(self, key: _Key) -> Outlook:
        from trainer.schedule.outlook import outlook  # late: what the first frame does without

        catalogue, ledger = self._learner.catalogue, self._learner.profile.ledger
        ahead = look_ahead(catalogue, ledger, day=key.day, minutes=key.minutes)
        return outlook(catalogue, ledger, ahead, day=key.day, minutes=key.minutes)

    def _key(self) -> _Key:
        learner, settings = self._learner, self._learner.settings
        day = learner.profile.sitting_day(learner.clock.now(), learner.clock.zone)
        ledger = learner.profile.ledger
        return _Key(day, ledger.events, ledger.fit, settings.tuning, settings.own_tuning, settings.minutes)
