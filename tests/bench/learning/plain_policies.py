"""What people would otherwise do, without any model of memory: at random, in turn, in boxes."""

from __future__ import annotations

import random
from typing import Final

from tests.bench.learning.learner import Reply
from tests.bench.learning.policy import Policy

BOXES: Final = (1, 2, 4, 8, 16, 32)
"""Days until an item comes back, by how often it was right in a row."""


class Random(Policy):
    """Any item, but never the same twice in a row."""

    name = "random"

    def begin(self) -> None:
        """A generator of its own."""
        self._rng = random.Random(self.seed)
        self._last = -1

    def start(self, day: int) -> None:
        """A day like any other."""

    def next(self, day: int, second: float) -> int:
        """Any other one."""
        self._last = (self._last + self._rng.randrange(1, self.count)) % self.count
        return self._last

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """Nothing is learned from it."""


class RoundRobin(Policy):
    """One after another in teaching order, again and again."""

    name = "round-robin"

    def begin(self) -> None:
        """From the first one on."""
        self._at = -1

    def start(self, day: int) -> None:
        """A day like any other."""

    def next(self, day: int, second: float) -> int:
        """The one after the last."""
        self._at = (self._at + 1) % self.count
        return self._at

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """Nothing is learned from it."""


class Boxes(Policy):
    """Boxes of 1, 2, 4, 8, 16 and 32 days: up one when right, back to the first when wrong, and again the same day."""

    name = "boxes"

    def begin(self) -> None:
        """All are new."""
        self._box = [-1] * self.count
        self._due: dict[int, int] = {}
        self._again: list[tuple[int, int]] = []
        self._n = self._fresh = 0

    def start(self, day: int) -> None:
        """A day like any other."""

    def next(self, day: int, second: float) -> int:
        """What was missed a few questions ago, then what is due, then a new one, then what is due soonest."""
        self._n += 1
        if self._again and self._again[0][0] <= self._n:
            return self._again.pop(0)[1]
        waiting = {subject for _, subject in self._again}
        due = [(when, subject) for subject, when in self._due.items() if subject not in waiting]
        soonest = min(due, default=None)
        if soonest is not None and soonest[0] <= day:
            return soonest[1]
        if self._fresh < self.count:
            self._fresh += 1
            return self._fresh - 1
        return soonest[1] if soonest is not None else self._again.pop(0)[1]

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """Up or back."""
        self._box[subject] = min(self._box[subject] + 1, len(BOXES) - 1) if reply.right else 0
        self._due[subject] = day + BOXES[self._box[subject]]
        if not reply.right:
            self._again.append((self._n + 6, subject))
