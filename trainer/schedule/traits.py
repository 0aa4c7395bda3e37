"""What keeps questions apart: the string they are about, the answer they have, the drill that asks them."""

from __future__ import annotations

import random
from collections import deque
from collections.abc import Callable, Iterable
from functools import lru_cache
from itertools import islice
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Kind, Manner
from trainer.schedule.families import family
from trainer.schedule.standing import TheSame

WINDOW: Final = 8
"""How far down a queue a question may be taken out of turn, to keep it apart from the last ones."""

SAME_ITEM, THIRD_ANSWER, TOO_MUCH = 96, 48, 16
"""The same item again; an answer for the third time in a row; what else is put off as long as there is anything better:
a bar to tap soon after another, a lesson right after another, or a long run of one drill."""
SAME_STRING, THIRD_OF_DRILL, MANY_OF_FAMILY = 3, 2, 1

LONG_RUN: Final = 4
"""So many questions of a family in a row are many; of a drill, enough to have something else in between."""

LONGEST_RUN: Final = 8
"""So many questions of a family in a row are enough."""

TAPS_APART: Final = 4
"""So many other questions at least stand between two bars to tap: each takes ten seconds."""


class Traits:
    """Strings and answers of items; both are fixed for an item, and looked up once and not once a sitting."""

    def __init__(self, catalogue: Catalogue, manner: Manner) -> None:
        self._catalogue = catalogue
        self._manner = manner
        self._by_id = catalogue.by_id
        self._strings = _strings(TheSame(catalogue.items))
        self._answers = _answers(TheSame(catalogue.items), manner)

    def drill(self, item: str) -> str:
        """The drill that asks an item."""
        return self._by_id[item].drill

    def is_tap(self, item: str) -> bool:
        """Whether an item is a bar to tap."""
        return self._by_id[item].kind is Kind.TAP

    def string(self, item: str) -> int | None:
        """The string that an item is about, or None."""
        if item not in self._strings:
            found = self._catalogue.facts(self._by_id[item]).get("string")
            self._strings[item] = found if isinstance(found, int) else None
        return self._strings[item]

    def answers(self, item: str) -> tuple[str, ...]:
        """Every right answer of an item in normal form."""
        if item not in self._answers:
            question = self._catalogue.ask(self._by_id[item], random.Random(0), self._manner)
            self._answers[item] = question.answers
        return self._answers[item]

    def first_answer(self, item: str) -> str:
        """What tells whether two items have the same answer; an item without a list of answers is like no other."""
        answers = self.answers(item)
        return answers[0] if answers else item

    def learn(self, item: str, answers: tuple[str, ...]) -> None:
        """Take the answers of a question that was drawn anyway."""
        self._answers[item] = answers


@lru_cache(maxsize=2)
def _strings(items: TheSame) -> dict[str, int | None]:
    """The strings that were looked up so far: what is known of one never changes what comes next."""
    return {}


@lru_cache(maxsize=2)
def _answers(items: TheSame, manner: Manner) -> dict[str, tuple[str, ...]]:
    """The answers that were looked up so far, for somebody who is asked in this manner."""
    return {}


class Apart:
    """Keeps questions apart: never an item twice in a row, nor an answer three times; strings, drills and families in
    turn; bars to tap far from one another."""

    def __init__(self, traits: Traits, tells: Callable[[str], bool] = lambda item: False) -> None:
        """Begin with nothing asked; ``tells`` says whether an item would come with a lesson now."""
        self._traits = traits
        self._tells = tells
        self._told = False
        self._last: str | None = None
        self._answers: deque[str] = deque(maxlen=2)
        self._drill = self._family = ""
        self._of_drill = self._of_family = 0
        self._since_tap = TAPS_APART

    def asking(self, item: str, *, placement: bool) -> None:
        """Note what is about to be asked, and so whether a lesson is told; a placement tells none."""
        self._told = not placement and self._tells(item)

    def asked(self, item: str) -> None:
        """Note what was asked."""
        self._last = item
        self._answers.append(self._traits.first_answer(item))
        drill = self._traits.drill(item)
        self._of_drill = self._of_drill + 1 if drill == self._drill else 1
        kin = family(drill)
        self._of_family = self._of_family + 1 if kin == self._family else 1
        self._drill, self._family = drill, kin
        self._since_tap = 0 if self._traits.is_tap(item) else self._since_tap + 1

    def cost(self, item: str, *, strings: bool, runs: bool = False) -> int:
        """How much an item would clash with the last ones; 0 for not at all.

        Args:
            item: which.
            strings: whether strings and drills are to take turns.
            runs: whether a long run of one drill is put off too.
        """
        if item == self._last:
            return SAME_ITEM
        cost = 0
        traits, answers = self._traits, self._answers
        if len(answers) == 2 and answers[0] == answers[1] == traits.first_answer(item):
            cost += THIRD_ANSWER
        if self._since_tap < TAPS_APART and traits.is_tap(item):
            cost += TOO_MUCH
        if self._told and self._tells(item):
            cost += TOO_MUCH
        drill = traits.drill(item)
        same = drill == self._drill
        akin = same or family(drill) == self._family
        if runs and ((same and self._of_drill >= LONG_RUN) or (akin and self._of_family >= LONGEST_RUN)):
            cost += TOO_MUCH
        if strings and self._last is not None:
            string = traits.string(item)
            cost += SAME_STRING * (string is not None and string == traits.string(self._last))
            cost += THIRD_OF_DRILL * (same and self._of_drill >= 2)
            cost += MANY_OF_FAMILY * (akin and self._of_family >= LONG_RUN)
        return cost

    def best(self, items: Iterable[str], *, strings: bool = True, runs: bool = False) -> tuple[str, int] | None:
        """The first of a queue that does not clash, else the one that clashes least, with its cost."""
        best: tuple[str, int] | None = None
        for item in islice(items, WINDOW):
            cost = self.cost(item, strings=strings, runs=runs)
            if best is None or cost < best[1]:
                best = item, cost
            if cost == 0:
                break
        return best
