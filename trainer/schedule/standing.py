"""Where items stand towards each other: what follows of a catalogue alone, worked out once and not once a sitting."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from drills.question import Item
from trainer.schedule.meeting import meeting_order


class Standing(NamedTuple):
    """What follows of the items in teaching order.

    Attributes:
        at: where each item stands in teaching order, by id.
        turn: where each stands in the order of meeting.
        dependents: by id, the indices of the items that need it.
        needs: how many items each needs.
        sizes: how many items each stage has.
    """

    at: Mapping[str, int]
    turn: Sequence[int]
    dependents: Mapping[str, Sequence[int]]
    needs: Sequence[int]
    sizes: Mapping[int, int]


class TheSame:
    """The very same items: a thousand of them are not compared one by one."""

    __slots__ = ("items",)

    def __init__(self, items: tuple[Item, ...]) -> None:
        self.items = items

    def __hash__(self) -> int:
        return id(self.items)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, TheSame) and other.items is self.items


def standing(items: tuple[Item, ...]) -> Standing:
    """How those items stand to each other."""
    return _standing(TheSame(items))


@lru_cache(maxsize=2)
def _standing(same: TheSame) -> Standing:
    items = same.items
    index = {item.id: at for at, item in enumerate(items)}
    dependents: dict[str, list[int]] = {}
    needs = [0] * len(items)
    for at, item in enumerate(items):
        for need in item.needs:
            if need in index:
                dependents.setdefault(need, []).append(at)
                needs[at] += 1
    return Standing(index, meeting_order(items), dependents, needs, Counter(item.stage for item in items))
