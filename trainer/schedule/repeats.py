"""What comes again in this sitting: missed items, and new ones until they have been right twice, without help."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from trainer.schedule.fading import GONE
from trainer.schedule.state import ItemState

NEW_GAPS: Final = (2, 4, 8)
"""Others between the first askings of a new item."""

NEW_RIGHTS: Final = 2
"""So often right, and once without help, a new item waits for tomorrow; a further time brought simulated learners less
than other items did."""

FEW_IN_PLAY: Final = 8
GAP_OF_FEW: Final = 3
MOST_ASKINGS: Final = 7
"""After so many askings in a day an item waits for tomorrow."""


def comes_again(state: ItemState, day: int, *, introduced: bool, reader: bool = False) -> bool:
    """Whether an item has to come again on the day of its last answer.

    What somebody who reads already reads at first sight does not.
    """
    if state.last != day or state.asked >= MOST_ASKINGS or state.stuck:
        return False
    if reader and state.fast == state.asked:
        return False
    return state.missed or (introduced and (state.right < NEW_RIGHTS or state.step < GONE))


def gap(state: ItemState, in_play: int) -> int:
    """How many others come before it comes again: 3 to 6 make no difference for what was missed."""
    if state.missed:
        return GAP_OF_FEW if in_play < FEW_IN_PLAY else 5 + state.asked % 2
    return NEW_GAPS[min(state.asked, len(NEW_GAPS)) - 1]


class Repeats:
    """Items that wait for their turn to come again, by the number of questions asked by then."""

    def __init__(self) -> None:
        self._at: dict[str, int] = {}
        self._order: Sequence[str] | None = ()

    def __len__(self) -> int:
        return len(self._at)

    def __contains__(self, item: object, /) -> bool:
        return item in self._at

    def put(self, item: str, at: int) -> None:
        """Have an item come again once ``at`` questions have been asked."""
        self._at[item] = at
        self._order = None

    def drop(self, item: str) -> None:
        """It does not come again for now."""
        if self._at.pop(item, None) is not None:
            self._order = None

    def ready(self, n: int) -> Sequence[str]:
        """Items whose turn has come after n questions, longest waiting first."""
        at = self._at
        return [item for item in self.early() if at[item] <= n]

    def early(self) -> Sequence[str]:
        """All of them, soonest first."""
        if self._order is None:
            self._order = sorted(self._at, key=self._at.__getitem__)
        return self._order
