"""Which item a misread one was taken for, among those that the learner has met."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Facts, Item, Kind, Misreading
from drills.taken_for import answers_of, fits, in_common, same_ending
from trainer.schedule.standing import TheSame, standing
from trainer.schedule.traits import Traits

MOST_ASKED: Final = 6
"""So many items at most are asked for their answers at one time, which takes 0.05 to 0.5 ms each the first time; the
rest another time."""

MOST_TRACED: Final = 4
"""So many misreadings at most are traced at one time: each is held against every item of its drill that was met."""

BY_LOOKS: Final = frozenset(
    {Misreading.WRONG_DIRECTION, Misreading.PICKED_FOR_SLURRED, Misreading.SLURRED_FOR_PICKED}
)
"""Kinds whose wrong answers many items share, or none: what looks like it comes before what has that answer."""

_KINDS: Final = {str(kind): kind for kind in Misreading}


class Lookalikes:
    """Finds by facts, and by answers where these are known or cheap; remembers what it found, and where there was
    nothing to find.

    Attributes:
        unfinished: whether more has to be looked at another time before all is known.
    """

    def __init__(self, catalogue: Catalogue, traits: Traits) -> None:
        self._catalogue = catalogue
        self._traits = traits
        self._at = standing(catalogue.items).at
        self._facts, self._held = _known(TheSame(catalogue.items))
        self._learned: dict[str, frozenset[str]] = {}
        self._asks, self._traces = MOST_ASKED, MOST_TRACED
        self._short = False
        self.unfinished = False
        self._found: dict[tuple[str, str, str], str] = {}
        self._missing: dict[tuple[str, str, str], int] = {}  # among so many that were met

    def refresh(self) -> None:
        """Allow a few more misreadings to be traced, and answers to be learned for it."""
        self._asks, self._traces, self.unfinished = MOST_ASKED, MOST_TRACED, False

    def of(self, item: str, said: str, kind: str, met: Sequence[str]) -> str | None:
        """The item that was seen in place of another, or None where there is none among those met.

        Args:
            item: what was asked.
            said: the wrong answer, in normal form.
            kind: of the misreading that alone explained it.
            met: items of the same drill that may be asked; it may grow from one time to the next, and only that.
        """
        key = item, said, kind
        known = self._found.get(key)
        if known is not None or self._missing.get(key) == len(met):
            return known
        asked, how = self._catalogue.by_id[item], _KINDS.get(kind)
        if how is None or asked.kind is Kind.TAP:
            return None
        if self._traces <= 0:
            self.unfinished = True
            return None
        self._traces -= 1
        self._short = False
        best = self._nearest(asked, how, said, met)
        if self._short:
            self.unfinished = True
        elif best is None:
            self._missing[key] = len(met)
        else:
            self._found[key] = best
        return best

    def _nearest(self, asked: Item, how: Misreading, said: str, met: Sequence[str]) -> str | None:
        """What looks like it, has that answer, and has most in common with it."""
        item = asked.id
        facts, lines = self._of(item), self._catalogue.tuning.lines
        others = [other for other in met if other != item]
        if how in BY_LOOKS:
            pool = [other for other in others if fits(how, facts, self._of(other), said, lines)]
            pool = pool or [other for other in others if self._is_answer(said, other)]
        else:
            pool = [other for other in others if self._is_answer(said, other)]
            pool = pool or [other for other in others if fits(how, facts, self._of(other), said, lines)]
        right, ranked = self._answers(item), []
        for other in pool:
            answers = self._answers(other)
            if right is not None and answers is not None and right.isdisjoint(answers):
                both = said in answers and fits(how, facts, self._of(other), said, lines)
                alike = in_common(facts, self._of(other))
                ending = same_ending(asked, self._catalogue.by_id[other])
                ranked.append((-both, -alike, -ending, self._at[other], other))
        return min(ranked)[-1] if ranked else None

    def _of(self, item: str) -> Facts:
        if item not in self._facts:
            self._facts[item] = self._catalogue.facts(self._catalogue.by_id[item])
        return self._facts[item]

    def _is_answer(self, said: str, item: str) -> bool:
        answers = self._answers(item)
        return answers is not None and said in answers

    def _answers(self, item: str) -> frozenset[str] | None:
        """The right answers; None while they are not known and enough was drawn already."""
        if item not in self._held:
            answers = answers_of(self._catalogue.by_id[item], self._of(item))
            self._held[item] = None if answers is None else frozenset(answers)
        known = self._held[item] or self._learned.get(item)
        if known is None:
            if self._asks <= 0:
                self._short = True
                return None
            self._asks -= 1  # also where they are known from an earlier sitting: the queue must not depend on that
            self._learned[item] = known = frozenset(self._traits.answers(item))
        return known


@lru_cache(maxsize=4)
def _known(items: TheSame) -> tuple[dict[str, Facts], dict[str, frozenset[str] | None]]:
    """Facts, and the answers that they hold."""
    return {}, {}
