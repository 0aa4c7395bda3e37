"""Which item a misread one was taken for, among those that the learner has met."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Facts, Kind, Misreading
from drills.taken_for import answers_of, fits, in_common, same_ending
from trainer.schedule.standing import TheSame, standing
from trainer.schedule.traits import Traits

MOST_ASKED: Final = 16
"""So many items at most are asked for their answers at one time, which takes 0.1 to 1 ms each the first time; the rest
another time."""

BY_LOOKS: Final = frozenset(
    {Misreading.WRONG_DIRECTION, Misreading.PICKED_FOR_SLURRED, Misreading.SLURRED_FOR_PICKED}
)
"""Kinds whose wrong answers many items share, or none: what looks like it comes before what has that answer."""

_KINDS: Final = {str(kind): kind for kind in Misreading}


class Lookalikes:
    """Finds by facts, and by answers where these are known or cheap.

    Attributes:
        unfinished: whether more answers have to be learned before all is known.
    """

    def __init__(self, catalogue: Catalogue, traits: Traits) -> None:
        self._catalogue = catalogue
        self._traits = traits
        self._at = standing(catalogue.items).at
        self._facts, self._held = _known(TheSame(catalogue.items))
        self._learned: dict[str, frozenset[str]] = {}
        self._budget = MOST_ASKED
        self.unfinished = False
        self._found: dict[tuple[str, str, str], str] = {}

    def refresh(self) -> None:
        """Allow a few more answers to be learned."""
        self._budget, self.unfinished = MOST_ASKED, False

    def of(self, item: str, said: str, kind: str, met: Iterable[str]) -> str | None:
        """The item that was seen in place of another, or None where there is none among those met.

        Args:
            item: what was asked.
            said: the wrong answer, in normal form.
            kind: of the misreading that alone explained it.
            met: items of the same drill that may be asked.
        """
        asked, how = self._catalogue.by_id[item], _KINDS.get(kind)
        if how is None or asked.kind is Kind.TAP:
            return None
        known = self._found.get((item, said, kind))
        if known is not None:
            return known
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
        if not ranked:
            return None
        best = min(ranked)[-1]
        self._found[item, said, kind] = best
        return best

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
            if self._budget <= 0:
                self.unfinished = True
                return None
            self._budget -= 1  # also where they are known from an earlier sitting: the queue must not depend on that
            self._learned[item] = known = frozenset(self._traits.answers(item))
        return known


@lru_cache(maxsize=4)
def _known(items: TheSame) -> tuple[dict[str, Facts], dict[str, frozenset[str] | None]]:
    """Facts, and the answers that they hold."""
    return {}, {}
