"""Habits of misreading, and when one is rid of them. Our own choice of numbers, no source.

One way of misreading is a *habit* once it alone explained three wrong answers, on two days or of two items. It is
*gone* once each item on which it happened has been answered right, cold and without help, twice since it last happened
there. An item that has not been asked for a month does not stand in the way: it belongs to a tuning that is not
practised any more, say. A slip or two that were made up for in the same way are forgotten; after a habit is gone it
takes another three to make it one again, so that one slip neither brings it back nor has it be told anew.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from trainer.schedule.state import ItemState

LEAST_EVENTS: Final = 3
NEEDED: Final = 2
"""Good cold answers that each item needs."""
LEFT_ALONE: Final = 30
"""Days after which an item that was not asked does not count any more."""


@dataclass(slots=True)
class Habit:
    """One way of misreading, as the record leaves it.

    Attributes:
        events: how often it alone explained a wrong answer, since all was made up for.
        first, last: the days of the first and the last of these.
        gone: the day on which one was rid of it, or None where one is not or never had it.
        proofs: item on which it happened -> good cold answers since.
    """

    events: int = 0
    first: int = 0
    last: int = 0
    gone: int | None = None
    proofs: dict[str, int] = field(default_factory=dict)

    @property
    def is_habit(self) -> bool:
        """Whether it happened too often, and too widely, for a slip."""
        return self.events >= LEAST_EVENTS and (self.last > self.first or len(self.proofs) > 1)

    def happened(self, item: str, day: int) -> None:
        """It alone explained a wrong answer."""
        if not self.events:
            self.first = self.last = day
        self.events += 1
        self.last = max(self.last, day)
        self.proofs[item] = 0
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
        self.proofs[item] += 1
        for each, proofs in self.proofs.items():
            state = states.get(each)
            if proofs < NEEDED and state is not None and day - state.last < LEFT_ALONE:
                return
        if self.is_habit:
            self.gone = day
        self.events = 0
        self.proofs.clear()


def gone(habits: Mapping[str, Habit]) -> dict[str, int]:
    """The kinds that one is rid of, with the day since when."""
    return {kind: habit.gone for kind, habit in habits.items() if habit.gone is not None}


def newly_gone(before: Mapping[str, int], habits: Mapping[str, Habit]) -> tuple[str, ...]:
    """The kinds that one has become rid of since ``gone`` gave ``before``, in the order of their names."""
    return tuple(sorted(kind for kind, day in gone(habits).items() if before.get(kind) != day))
