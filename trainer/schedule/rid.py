"""Habits of misreading, and when one is rid of them. Our own choice of numbers, no source.

One way of misreading is a *habit* once it alone explained three wrong answers, on two days or of two items. An item on
which it happened is a *chance* for it whenever it is answered right, cold and without help. It is *gone* once three
items in four had two chances since it last happened there, and as many chances passed in all since it last happened
anywhere: so what happened on many items takes long to be gone, but one item that rests for two months by now does not
hold up the others. An item that has not been asked for a month does not count: it belongs to a tuning that is not
practised any more, say.

A slip or two that were made up for in the same way are forgotten; after a habit is gone it takes another three to make
it one again, so that one slip neither brings it back nor has it be told anew.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from trainer.schedule.state import ItemState

LEAST_EVENTS: Final = 3
CHANCES: Final = 2
"""Good cold answers that an item needs."""
ITEMS: Final = 0.75
"""The share of the items that need them."""
LEFT_ALONE: Final = 30
"""Days after which an item that was not asked does not count any more."""


@dataclass(slots=True)
class Habit:
    """One way of misreading, as the record leaves it.

    Attributes:
        events: how often it alone explained a wrong answer, since all was made up for.
        items: of so many items.
        first, last: the days of the first and the last of these.
        since: chances that passed without it.
        looked: the last day on which items were left out that are not asked any more.
        gone: the day on which one was rid of it, or None where one is not or never had it.
        proofs: item on which it happened -> chances there without it, two at most.
    """

    events: int = 0
    items: int = 0
    first: int = 0
    last: int = 0
    since: int = 0
    looked: int = 0
    gone: int | None = None
    proofs: dict[str, int] = field(default_factory=dict)

    @property
    def is_habit(self) -> bool:
        """Whether it happened too often, and too widely, for a slip."""
        return self.events >= LEAST_EVENTS and (self.last > self.first or self.items > 1)

    def happened(self, item: str, day: int) -> None:
        """It alone explained a wrong answer."""
        if not self.events:
            self.first = self.last = day
        self.events += 1
        self.items += item not in self.proofs
        self.last = max(self.last, day)
        self.since = self.proofs[item] = 0
        if self.is_habit:
            self.gone = None

    def did_not(self, item: str, day: int, states: Mapping[str, ItemState]) -> None:
        """An item was answered right, cold and without help.

        Args:
            item: which.
            day: when.
            states: of all items.
        """
        if item not in self.proofs:
            return
        self.since += 1
        self.proofs[item] = min(CHANCES, self.proofs[item] + 1)
        if day > self.looked:  # once a day: a replay takes in 50,000 answers a second
            self.looked = day
            self.proofs = {
                each: proofs
                for each, proofs in self.proofs.items()
                if each in states and day - states[each].last < LEFT_ALONE
            }
        enough = ITEMS * len(self.proofs)
        # What is cheap comes first: an answer is taken in within microseconds, however many items were misread.
        if self.since < CHANCES * enough or list(self.proofs.values()).count(CHANCES) < enough:
            return
        if self.is_habit:
            self.gone = day
        self.events = self.items = 0
        self.proofs.clear()


def gone(habits: Mapping[str, Habit]) -> dict[str, int]:
    """The kinds that one is rid of, with the day since when."""
    return {kind: habit.gone for kind, habit in habits.items() if habit.gone is not None}


def newly_gone(before: Mapping[str, int], habits: Mapping[str, Habit]) -> tuple[str, ...]:
    """The kinds that one has become rid of since ``gone`` gave ``before``, in the order of their names."""
    return tuple(sorted(kind for kind, day in gone(habits).items() if before.get(kind) != day))
