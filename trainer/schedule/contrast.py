"""Pairs that are misread for one another, side by side."""

from __future__ import annotations

import random
from typing import Final

from drills.catalogue import Catalogue
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.lookalikes import Lookalikes
from trainer.schedule.pairs import Pair, strongest
from trainer.schedule.repeats import MOST_ASKINGS
from trainer.schedule.traits import Traits

LEAST_EVENTS: Final = 2
MOST_PAIRS: Final = 3
FURTHEST_APART: Final = 5
"""So many others stand between the members at most, and one at least."""


class Contrast:
    """The strongest pairs of misreadings, one pair after another, their members a few questions apart.

    Nothing is looked for before there is time for a pair, and again only after another misreading or after an item was
    met of a drill that had misreadings.
    """

    def __init__(self, catalogue: Catalogue, ledger: Ledger, traits: Traits, rng: random.Random) -> None:
        self._catalogue = catalogue
        self._ledger = ledger
        self._lookalikes = Lookalikes(catalogue, traits)
        self._rng = rng
        self._met: dict[str, list[str]] | None = None
        self._pairs: list[Pair] | None = None
        self._used: set[tuple[str, str]] = set()
        self._pair: tuple[str, str] | None = None
        self._second: str | None = None
        self._at = 0
        self._alone = 0

    @property
    def second(self) -> str | None:
        """The other member of a pair that was begun."""
        return self._second

    def candidates(self) -> tuple[str, ...]:
        """The first member of the next pair, if there is one and none is begun."""
        if self._second is not None:
            return ()
        if self._pair is None or not all(map(self._may_ask, self._pair)):
            self._pair = self._find()
        return () if self._pair is None else self._pair[:1]

    def ready(self, n: int) -> tuple[str, ...]:
        """The second member, when its turn has come after n questions."""
        if self._second is not None and not self._may_ask(self._second):
            self._second = None
        return () if self._second is None or n < self._at else (self._second,)

    def early(self, n: int) -> tuple[str, ...]:
        """The second member before its turn, once anything at all stands between."""
        return () if self._second is None or n < self._alone else (self._second,)

    def asked(self, item: str, n: int, *, begins: bool) -> None:
        """Note that an item is asked as question n (from 0); ``begins`` where it is the first of a pair or the second,
        and not asked for another reason."""
        if item == self._second and n >= self._alone:
            self._second = None
        elif begins and self._pair is not None and item == self._pair[0]:
            self._used.add((min(self._pair), max(self._pair)))
            self._second = self._pair[1]
            self._alone = n + 2
            # One less than may be: another question may have to come in between, to keep answers apart.
            self._at = n + 1 + self._rng.randint(1, FURTHEST_APART - 1)
            self._pair = None

    def observe(self, event: Event) -> None:
        """Take in an answer that the ledger has: after another misreading it is worth looking again, and where an item
        was met."""
        if self._met is not None and self._ledger.states[event.item].answers == 1:
            self._met.setdefault(self._catalogue.by_id[event.item].drill, []).append(event.item)
            self._pairs = None
        if not event.right and len(event.misreadings) == 1:
            self._pairs = None

    def _find(self) -> tuple[str, str] | None:
        if len(self._used) >= MOST_PAIRS or not self._ledger.confusions:
            return None
        if self._pairs is None or self._lookalikes.unfinished:
            self._pairs = self._look()
        for pair in self._pairs:
            if pair.items not in self._used and all(map(self._may_ask, pair.items)):
                one, other = pair.items
                return (one, other) if self._rng.random() < 0.5 else (other, one)
        return None

    def _look(self) -> list[Pair]:
        """The pairs that were mixed up often enough, the strongest first; a few more are traced each time."""
        by_id = self._catalogue.by_id
        met = self._met
        if met is None:
            met = self._met = self._askable()
        self._lookalikes.refresh()

        def other(item: str, said: str, kind: str) -> str | None:
            return self._lookalikes.of(item, said, kind, met.get(by_id[item].drill, ())) if item in by_id else None

        found = strongest(self._ledger.confusions, other)
        return [pair for pair in found if pair.strength >= LEAST_EVENTS]

    def _askable(self) -> dict[str, list[str]]:
        """What was met and may be asked when a pair is first looked for in this sitting, by drill."""
        by_id = self._catalogue.by_id
        found: dict[str, list[str]] = {}
        for item in self._ledger.states:
            if item in by_id and self._may_ask(item):
                found.setdefault(by_id[item].drill, []).append(item)
        return found

    def _may_ask(self, item: str) -> bool:
        state = self._ledger.states.get(item)
        today = self._ledger.last_day
        return state is not None and not (state.last == today and state.asked >= MOST_ASKINGS) and not state.stuck
