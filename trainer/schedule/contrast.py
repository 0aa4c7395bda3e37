"""Pairs that are misread for one another, side by side."""

from __future__ import annotations

import random
from typing import Final

from drills.catalogue import Catalogue
from trainer.schedule.ledger import Ledger
from trainer.schedule.repeats import MOST_ASKINGS
from trainer.schedule.traits import Traits

LEAST_EVENTS: Final = 2
MOST_PAIRS: Final = 3
FURTHEST_APART: Final = 5


class Contrast:
    """The strongest pairs of misreadings, one pair after another, their members a few questions apart."""

    def __init__(self, catalogue: Catalogue, ledger: Ledger, traits: Traits, rng: random.Random) -> None:
        self._catalogue = catalogue
        self._ledger = ledger
        self._traits = traits
        self._rng = rng
        self._used: set[frozenset[str]] = set()
        self._tried: set[tuple[str, str]] = set()
        self._pair: tuple[str, str] | None = None
        self._second: str | None = None
        self._at = 0

    def candidates(self, n: int) -> tuple[str, ...]:
        """The member whose turn has come after n questions, if any."""
        if self._second is not None:
            return (self._second,) if n >= self._at else ()
        if self._pair is None:
            self._pair = self._find()
        return () if self._pair is None else self._pair[:1]

    def early(self) -> tuple[str, ...]:
        """The second member of a pair that was begun."""
        return () if self._second is None else (self._second,)

    def asked(self, item: str, n: int) -> None:
        """Note that a member was asked as question n (from 0)."""
        if item == self._second:
            self._second = None
        elif self._pair is not None and item == self._pair[0]:
            self._second = self._pair[1]
            self._at = n + 1 + self._rng.randint(1, FURTHEST_APART)
            self._pair = None

    def _find(self) -> tuple[str, str] | None:
        if len(self._used) >= MOST_PAIRS:
            return None
        strengths = [
            (-count, item, said)
            for item, answers in self._ledger.confusions.items()
            for said, count in answers.items()
            if count >= LEAST_EVENTS and (item, said) not in self._tried and item in self._catalogue.by_id
        ]
        for _, item, said in sorted(strengths):
            self._tried.add((item, said))
            other = self._other(item, said)
            if other is None or frozenset((item, other)) in self._used:
                continue
            self._used.add(frozenset((item, other)))
            return (item, other) if self._rng.random() < 0.5 else (other, item)
        return None

    def _other(self, item: str, said: str) -> str | None:
        """The item that the wrong answer would have been right for, if the learner has met it."""
        asked = self._catalogue.by_id[item]
        if not self._may_ask(item):
            return None
        for other in self._catalogue.items:
            if other.drill == asked.drill and other.id != item and self._may_ask(other.id):
                answers = self._traits.answers(other.id)
                if said in answers and not set(answers) & set(self._traits.answers(item)):
                    return other.id
        return None

    def _may_ask(self, item: str) -> bool:
        state = self._ledger.states.get(item)
        today = self._ledger.last_day
        return state is not None and not (state.last == today and state.asked >= MOST_ASKINGS) and not state.stuck
