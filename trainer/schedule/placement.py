"""The placement: spread questions for somebody who reads already."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Kind
from trainer.schedule.families import family
from trainer.schedule.ledger import Ledger

QUESTIONS: Final = 20
GIVE_UP: Final = 5
"""So many misses in a row end it: what follows is harder still."""


class Placement:
    """Unmet items from all over the catalogue, about as many of each family, in teaching order."""

    def __init__(self, catalogue: Catalogue, ledger: Ledger) -> None:
        unmet: dict[str, list[int]] = defaultdict(list)
        for at, item in enumerate(catalogue.items):
            if item.id not in ledger.states and item.kind is not Kind.TAP:
                unmet[family(item.drill)].append(at)
        chosen = sorted(at for found, many in _shared(unmet) for at in _spread(found, many))
        self._queue = [catalogue.items[at].id for at in chosen]
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


def _shared(unmet: dict[str, list[int]]) -> Iterator[tuple[list[int], int]]:
    """How many questions each family gets: one in turn, as long as it has items and there are questions."""
    many = dict.fromkeys(unmet, 0)
    left = min(QUESTIONS, sum(map(len, unmet.values())))
    while left:
        for name, found in unmet.items():
            if left and many[name] < len(found):
                many[name] += 1
                left -= 1
    for name, found in unmet.items():
        yield found, many[name]


def _spread(found: Sequence[int], many: int) -> list[int]:
    """So many, each from the middle of an equal part."""
    return [found[(2 * n + 1) * len(found) // (2 * many)] for n in range(many)]
