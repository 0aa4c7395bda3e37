"""One pitch, several places: where else it sounds, and at which fret of the string beside."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import pairwise, product
from typing import Final

from drills.kinds.elsewhere import ask_elsewhere, elsewhere_facts, elsewhere_items, example, sought
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Item, Manner, Question
from drills.stages import Stage

FRETS: Final = (0, 5, 7)
"""Frets of every string from which another place is sought."""


class SamePitch:
    """Where else does this very pitch sound?"""

    name = "same-pitch"
    title = "The same pitch elsewhere"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        asked = [
            (subject, stage, "beside", "{}, on the string beside it")
            for low, high in pairwise(tuning.full)
            for subject, stage in _beside(tuning, low, high)
        ]
        asked += [
            (f"{string}/{fret}", Stage.NECK, "elsewhere", "{}, somewhere else")
            for fret, string in product(FRETS, tuning.full)
        ]
        return elsewhere_items(self.name, tuning, 0, asked)

    def facts(self, item: Item) -> Facts:
        return elsewhere_facts(item, sought(item, 0))

    def explain(self, item: Item, manner: Manner) -> Explanation:
        first = next(each for each in self.items(item.tuning) if each.lesson == item.lesson)
        if item.lesson == "beside":
            title = "The same pitch on the string beside"
            lines: tuple[str, ...] = (
                "Far enough up a string you reach the pitch of the next higher string: that is how strings are tuned "
                "to each other by ear. The fret where they meet is worth knowing by heart for each pair.",
                "From there on both strings climb together: a fret more on the one is a fret more on the other. The "
                "two dots here sound exactly alike.",
                "Press the number of the fret.",
            )
        else:
            title = "One pitch in several places"
            lines = (
                "Most pitches can be played in several places. Tab says which one is meant, and another may lie better "
                "under the hand; the two here sound exactly alike.",
                "Not every place of the same name will do: it has to sound neither higher nor lower. Every right place "
                "in the range is accepted. Press the letter of one on the neck.",
            )
        return Explanation(title, lines, example(first, sought(first, 0), manner))

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        return ask_elsewhere(item, sought(item, 0), rng, manner, "this very pitch")


def _beside(tuning: Tuning, low: int, high: int) -> Iterator[tuple[str, Stage]]:
    """Subjects on a pair of strings: where the one reaches the open other, then further up both ways."""
    meet = tuning.open(high).midi - tuning.open(low).midi
    if meet < 0:
        low, high, meet = high, low, -meet
    yield f"{high}/0-on-{low}", Stage.HALF_BEATS
    yield f"{low}/{meet + 2}-on-{high}", Stage.TWELVE_FRETS
    yield f"{high}/3-on-{low}", Stage.TWELVE_FRETS
