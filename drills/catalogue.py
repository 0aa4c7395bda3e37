"""Every item, in teaching order, with what each one needs first."""

from __future__ import annotations

import random
from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from drills import kept_items
from drills.notation.tuning import Tuning, shipped
from drills.question import Explanation, Facts, Item, Manner, Question
from drills.registry import DRILLS, Drill
from drills.stages import TITLES


class Catalogue(NamedTuple):
    """The items of one tuning.

    Attributes:
        tuning: which.
        items: in teaching order.
        by_id: the same, by id.
        drills: by name.
        stages: titles by number, of those that have items.
    """

    tuning: Tuning
    items: tuple[Item, ...]
    by_id: dict[str, Item]
    drills: Mapping[str, Drill]
    stages: dict[int, str]

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        """Have the item's drill ask it."""
        return self.drills[item.drill].ask(item, rng, manner)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        """Have the item's drill explain it."""
        return self.drills[item.drill].explain(item, manner)

    def facts(self, item: Item) -> Facts:
        """What is true of an item."""
        return self.drills[item.drill].facts(item)


def worked_out(tuning: Tuning) -> tuple[Item, ...]:
    """The items, from the drills: stage by stage, and in a stage lesson by lesson in the order of the drills."""
    return tuple(sorted((item for drill in DRILLS.values() for item in drill.items(tuning)), key=_stage))


def _stage(item: Item) -> int:
    return item.stage


@cache
def catalogue(tuning: Tuning) -> Catalogue:
    """The catalogue of a tuning, from the items kept beside the bytecode where they are those of today's code."""
    is_shipped = shipped().get(tuning.name) == tuning
    items = kept_items.read(tuning) if is_shipped else None
    if items is None:
        items = worked_out(tuning)
        if is_shipped:
            kept_items.write(tuning, items)
    found = {item.stage for item in items}
    return Catalogue(
        tuning,
        items,
        {item.id: item for item in items},
        DRILLS,
        {stage: title for stage, title in TITLES.items() if stage in found},
    )
