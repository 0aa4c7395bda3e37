"""What keeps two questions apart: the string they are about and the answer they have."""

from __future__ import annotations

import random
from collections import deque
from collections.abc import Iterable
from itertools import islice
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Manner

WINDOW: Final = 8
"""How far down a queue a question may be taken out of turn, to keep it apart from the last ones."""

THIRD_ANSWER, SAME_STRING, SAME_ITEM = 2, 1, 8


class Traits:
    """Strings and answers of items, looked up once; both are fixed for an item."""

    def __init__(self, catalogue: Catalogue, manner: Manner) -> None:
        self._catalogue = catalogue
        self._manner = manner
        self._strings: dict[str, int | None] = {}
        self._answers: dict[str, tuple[str, ...]] = {}

    def string(self, item: str) -> int | None:
        """The string that an item is about, or None."""
        if item not in self._strings:
            found = self._catalogue.facts(self._catalogue.by_id[item]).get("string")
            self._strings[item] = found if isinstance(found, int) else None
        return self._strings[item]

    def answers(self, item: str) -> tuple[str, ...]:
        """Every right answer of an item in normal form."""
        if item not in self._answers:
            question = self._catalogue.ask(self._catalogue.by_id[item], random.Random(0), self._manner)
            self._answers[item] = question.answers
        return self._answers[item]

    def first_answer(self, item: str) -> str:
        """What tells whether two items have the same answer; an item without a list of answers is like no other."""
        return next(iter(self.answers(item)), item)

    def learn(self, item: str, answers: tuple[str, ...]) -> None:
        """Take the answers of a question that was drawn anyway."""
        self._answers[item] = answers


class Apart:
    """Keeps questions apart: never an item twice in a row, nor an answer three times, strings in turn."""

    def __init__(self, traits: Traits) -> None:
        self._traits = traits
        self._last: str | None = None
        self._answers: deque[str] = deque(maxlen=2)

    def asked(self, item: str) -> None:
        """Note what was asked."""
        self._last = item
        self._answers.append(self._traits.first_answer(item))

    def cost(self, item: str, *, strings: bool) -> int:
        """How much an item would clash with the last ones; 0 for not at all."""
        if item == self._last:
            return SAME_ITEM
        cost = 0
        answers = self._answers
        if len(answers) == 2 and answers[0] == answers[1] == self._traits.first_answer(item):
            cost = THIRD_ANSWER
        if strings and self._last is not None:
            string = self._traits.string(item)
            cost += SAME_STRING * (string is not None and string == self._traits.string(self._last))
        return cost

    def best(self, items: Iterable[str], *, strings: bool = True) -> tuple[str, int] | None:
        """The first of a queue that does not clash, else the one that clashes least, with its cost."""
        best: tuple[str, int] | None = None
        for item in islice(items, WINDOW):
            cost = self.cost(item, strings=strings)
            if best is None or cost < best[1]:
                best = item, cost
            if cost == 0:
                break
        return best
