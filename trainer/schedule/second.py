"""The second pass: what is not fluent yet is asked again while minutes are left."""

from __future__ import annotations

from collections.abc import Container
from heapq import nlargest
from math import log
from typing import Final

from trainer.schedule.repeats import FEW_IN_PLAY, MOST_ASKINGS
from trainer.schedule.state import ItemState
from trainer.schedule.traits import WINDOW

LEAST_GAP: Final = 5
GAP_OF_FEW: Final = 2
LESSON_ASKINGS: Final = MOST_ASKINGS
"""So often at most on the day on which an item is met: the first lesson has few items to fill its time with."""

MORE_ASKINGS: Final = 5
"""So often at most on a later day, where a sitting would otherwise be over before its minutes are."""

_UNKNOWN_SECONDS: Final = 3.0
_LONG_AGO: Final = -20


class SecondPass:
    """Items by (N - 5) ln(1 + seconds) / (1 + 2 x asked today), N = questions since the item was last asked.

    The shape of Mettler, Massey and Kellman's response-time sequencing.
    """

    def __init__(self, day: int) -> None:
        self._day = day
        self._most = 2
        self._items: dict[str, tuple[int, float]] = {}
        self._more: dict[str, tuple[int, float]] = {}

    def note(self, item: str, state: ItemState, n: int = _LONG_AGO) -> None:
        """Take in an item that was asked today, as question n of this sitting or in an earlier one."""
        self._items.pop(item, None)
        self._more.pop(item, None)
        if state.last != self._day or state.fluent or state.stuck or state.missed:
            return
        most = LESSON_ASKINGS if state.met == self._day else self._most
        if state.asked < max(most, MORE_ASKINGS):
            seconds = _UNKNOWN_SECONDS if state.pace is None else state.pace
            items = self._items if state.asked < most else self._more
            items[item] = n, log(1 + seconds) / (1 + 2 * state.asked)

    def widen(self) -> bool:
        """Ask more often what was met on an earlier day; whether that brings anything."""
        self._most = MORE_ASKINGS
        self._items |= self._more
        found = bool(self._more)
        self._more = {}
        return found

    def candidates(self, n: int, busy: Container[str]) -> list[str]:
        """The best few after n questions, best first, without those that come again anyway."""
        return self._best(self._items, n, busy)

    def others(self, n: int, busy: Container[str]) -> list[str]:
        """The best few of those that ``widen`` would add."""
        return self._best(self._more, n, busy)

    def _best(self, items: dict[str, tuple[int, float]], n: int, busy: Container[str]) -> list[str]:
        least = LEAST_GAP if len(items) >= FEW_IN_PLAY else GAP_OF_FEW
        ranked = [
            ((n - at - least) * weight, item)
            for item, (at, weight) in items.items()
            if n - at > least and item not in busy
        ]
        return [item for _, item in nlargest(WINDOW, ranked)]
