"""How often cold answers are right and fast: the first ones of items, and those after none to three fast ones in a row.

An item that was read twice in a row is read again far more often than one that was just missed, and what is not read is
asked far more often: the share of all cold answers alone would foretell too little of the first and too much of the
second.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence
from typing import Final

LONGEST_RUN: Final = 3
GROUPS: Final = LONGEST_RUN + 2
REMEMBERED: Final = 40
"""So many of the latest answers of each group count: people change."""

HELD_FOR: Final = 2
"""The usual half counts for so many first answers."""


def group(cold: int, fast_run: int) -> int:
    """The group of an item's next cold answer: 0 for its first one, else one more than its fast ones in a row."""
    return 1 + min(fast_run, LONGEST_RUN) if cold else 0


class Readings:
    """Whether the latest timed cold answers without help were right and fast, newest last, group by group."""

    __slots__ = ("groups",)

    def __init__(self, groups: Sequence[Iterable[bool]] = ((),) * GROUPS) -> None:
        self.groups = tuple(deque(told, maxlen=REMEMBERED) for told in groups)

    def observe(self, cold: int, fast_run: int, read: bool) -> None:
        """Count the answer to an item that had so many cold ones before, and so many fast ones in a row."""
        self.groups[group(cold, fast_run)].append(read)

    @property
    def first_share(self) -> float:
        """The chance that an item's first cold answer is right and fast: a half, until this learner's own say more."""
        first = self.groups[0]
        return (sum(first) + 0.5 * HELD_FOR) / (len(first) + HELD_FOR)
