"""An oracle: it sees what the learner really knows, which no schedule can."""

from __future__ import annotations

from collections import deque
from typing import ClassVar, Final

import numpy as np

from tests.bench.learning.learner import Reply
from tests.bench.learning.policy import Policy

LOOK_EVERY: Final = 8
APART: Final = 5


class Oracle(Policy):
    """What is nearest to being read tomorrow and is not yet: chance below ``target``, the highest first."""

    name = "oracle"
    target: ClassVar[float] = 0.85

    def begin(self) -> None:
        """Nothing seen yet."""
        self._latest: deque[int] = deque(maxlen=APART)
        self._order: list[int] = []

    def start(self, day: int) -> None:
        """Look at once."""
        self._order = []

    def next(self, day: int, second: float) -> int:
        """The best that was not asked just now; once all is read, what is nearest to being lost."""
        if not self._order:
            chances = self.learner.chances(day + 1)
            key = np.where(chances < self.target, 1 - chances, 1 + chances)
            self._order = np.argsort(key, kind="stable")[: LOOK_EVERY + APART].tolist()
            self._left = LOOK_EVERY
        self._left -= 1
        subject = next(one for one in self._order if one not in self._latest)
        self._order.remove(subject)
        if not self._left:
            self._order = []
        return subject

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """It sees for itself."""
        self._latest.append(subject)


class SaferOracle(Oracle):
    """The same, bringing each item further before it goes on."""

    name = "oracle, .95"
    target = 0.95
