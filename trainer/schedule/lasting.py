"""How long reading lasts with this learner: no item is left alone for longer than the record bears out.

A memory model foretells recall; what is recalled is not always read at once. Simulated learners of two kinds showed
the difference: with some an item that rests for three weeks is still read fast, with others it is only found again
slowly. So every learner begins with under a week, and the record lengthens or shortens it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from typing import Final

from trainer.schedule.memory import MAX_INTERVAL

FIRST: Final = 6
LEAST: Final = 4
"""Days between askings at most, at first and where little lasts. What is fluent gets a week all the same, to show
whether it is kept."""

EDGE: Final = 0.75
"""An answer after at least this share of the longest rest tells whether rests may be that long."""

TOLD_BY: Final = 24
LASTS: Final = 0.85
FADES: Final = 0.65
"""Of so many such answers, the share that is right and fast from which on rests get longer, and below which shorter."""


class Lasting:
    """The longest rest for now, and the answers that tell whether it is too long or too short.

    Attributes:
        days: between two askings at most, before the spread of intervals.
        told: whether the latest answers after such rests were right and fast, newest last.
    """

    __slots__ = ("days", "told")

    def __init__(self, days: int = FIRST, told: Iterable[bool] = ()) -> None:
        self.days = days
        self.told: deque[bool] = deque(told, maxlen=TOLD_BY)

    def observe(self, rest: int, read: bool) -> None:
        """Take in a timed cold answer without help, so many days after the last one."""
        if rest < EDGE * self.days:
            return
        self.told.append(read)
        if len(self.told) < TOLD_BY:
            return
        share = sum(self.told) / TOLD_BY
        if share >= LASTS and self.days < MAX_INTERVAL:
            self._change(min(self.days * 3 // 2, MAX_INTERVAL))
        elif share < FADES and self.days > LEAST:
            self._change(max(self.days * 2 // 3, LEAST))

    def _change(self, days: int) -> None:
        self.days = days
        self.told.clear()
