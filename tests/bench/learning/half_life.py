"""Learner B: a half-life for memory, and a power law of practice for speed, apart from it.

The half-life of an item grows with a success the more, the less likely that was (the spacing effect), as in the
half-life models of vocabulary learning; seconds fall with the power of the number of practices (Newell and Rosenbloom
1981, Mechanisms of skill acquisition and the law of practice). All numbers are our choice.
"""

from __future__ import annotations

from math import erf, exp, log
from statistics import NormalDist
from typing import Final

import numpy as np

from tests.bench.learning.learner import Learner, Reply
from tests.bench.learning.subjects import Floats

FIRST: Final = 1.0
SHORTEST: Final = 0.5
LONGEST: Final = 400.0
"""Half-lives in days: after the first meeting, and the bounds."""

GROWTH: Final = 4.0
LOSS: Final = 0.6
MASSED: Final = 0.35
"""A second practice on the same day counts for so much of one."""

SECONDS: Final = 3.0
EXPONENT: Final = 0.35
NOISE: Final = 0.25
ITEM_SPREAD: Final = 0.3
SPEED_SPREAD: Final = 0.2
_NORMAL: Final = NormalDist()


class HalfLife(Learner):
    """Recall halves every h days; reading gets faster with every day of practice."""

    name = "B"

    def begin(self, rng: np.random.Generator) -> None:
        """Draw how long each item lasts at first, and how slow it is at first."""
        count = len(self.subjects)
        self._first = FIRST * np.exp(rng.normal(0, ITEM_SPREAD, count))
        self._slow = SECONDS * np.exp(rng.normal(0, SPEED_SPREAD, count)) * self.pace
        self._half = np.zeros(count)
        self._last = np.zeros(count)
        self._practices = np.zeros(count)

    def respond(self, subject: int, day: int, second: float, luck: float, more: float) -> Reply:
        """Recalled or not; then as fast as practice has made it."""
        if luck >= self._recall(subject, day, second):
            return self.guess(subject, more, luck)
        spread = exp(NOISE * _NORMAL.inv_cdf(min(max(more, 1e-6), 1 - 1e-6)))
        return Reply(True, self.key + self._thinking(subject) * spread + self.subjects[subject].look)

    def learn(self, subject: int, day: int, second: float, *, right: bool) -> None:
        """Lengthen or shorten its half-life, and count the practice."""
        at = day + second / 86_400
        if not self._practices[subject]:
            self._half[subject] = self._first[subject]
            self._practices[subject] = 1.0
        else:
            recall = self._recall(subject, day, second)
            half = self._half[subject] * (1 + GROWTH * (1 - recall) if right else LOSS)
            self._half[subject] = min(max(half, SHORTEST), LONGEST)
            self._practices[subject] += 1.0 if int(self._last[subject]) < day else MASSED
        self._last[subject] = at

    def chances(self, day: int, second: float = 0.0) -> Floats:
        """Recalled, and within the exam's seconds."""
        met = self._practices > 0
        half = np.where(met, self._half, 1.0)
        recall = 2.0 ** (-(day + second / 86_400 - self._last) / half)
        thinking = self._slow * np.maximum(self._practices, 1.0) ** -EXPONENT
        margin = np.log((self.limit - self.look - self.key) / thinking) / NOISE
        fast = np.array([0.5 * (1 + erf(z / 2**0.5)) for z in margin.tolist()])
        found: Floats = np.where(met, recall * fast, 0.0)
        return found

    def _recall(self, subject: int, day: int, second: float) -> float:
        return float(2.0 ** (-(day + second / 86_400 - self._last[subject]) / self._half[subject]))

    def _thinking(self, subject: int) -> float:
        return float(self._slow[subject] * exp(-EXPONENT * log(self._practices[subject])))
