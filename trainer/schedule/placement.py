"""The placement: spread questions for somebody who reads already."""

from __future__ import annotations

from typing import Final

from drills.catalogue import Catalogue
from trainer.schedule.ledger import Ledger

QUESTIONS: Final = 20
GIVE_UP: Final = 5
"""So many misses in a row end it: what follows is harder still."""


class Placement:
    """Unmet items from all over the catalogue, in teaching order."""

    def __init__(self, catalogue: Catalogue, ledger: Ledger) -> None:
        unmet = [item.id for item in catalogue.items if item.id not in ledger.states]
        count = min(QUESTIONS, len(unmet))
        self._queue = [unmet[at * len(unmet) // count] for at in range(count)]
        self._misses = 0

    def candidates(self) -> list[str]:
        """The next ones."""
        return self._queue

    def holds(self, item: str) -> bool:
        """Whether an item is one of its questions still to come."""
        return item in self._queue

    def answered(self, item: str, *, right: bool) -> None:
        """Go on to the next, or end it."""
        self._queue.remove(item)
        self._misses = 0 if right else self._misses + 1
        if self._misses >= GIVE_UP:
            self._queue.clear()
