"""Learner C, never used for tuning: context at many time scales for memory, a race of instances for speed.

Memory: Mozer, Pashler, Cepeda, Lindsey and Vul (2009), Predicting the optimal spacing of study: a multiscale context
model of memory (NIPS 22): a cascade of leaky integrators, the slower ones taking in only what the faster ones have
lost. Speed: Logan (1988), Toward an instance theory of automatization: the fastest of many retrievals wins, with
Weibull times. The forms are theirs, from memory; the numbers are our choice, fixed before any schedule was tuned.
"""

from __future__ import annotations

from math import log
from typing import Final

import numpy as np

from tests.bench.learning.learner import Learner, Reply
from tests.bench.learning.subjects import Floats

POOLS: Final = 32
FASTEST: Final = 0.002
SLOWEST: Final = 400.0
"""Time constants of the pools, in days."""

WEIGHT: Final = 0.95
"""Each slower pool weighs so much of the one before."""

STUDIED: Final = 1.0
RECALLED: Final = 2.5
"""How much is taken in when the answer had to be shown, and when it was recalled."""

MOST_RECALL: Final = 0.98
ENOUGH: Final = 0.7
"""So much of a full trace is enough for recall at its best."""

LASTING: Final = 1.0
"""Pools that last at least so many days hold the instances that are raced."""

INSTANCES: Final = 2.4
ENCODE: Final = 0.25
ONE_INSTANCE: Final = 2.6
"""Scale of the retrieval time of a single instance, in seconds."""

SHAPE: Final = 2.0
WORKED_OUT_RIGHT: Final = 0.75
WORKED_OUT: Final = 3.5
ITEM_SPREAD: Final = 0.25
LEARNER_SPREAD: Final = 0.15

_SCALES: Final = FASTEST * (SLOWEST / FASTEST) ** (np.arange(POOLS) / (POOLS - 1))
_WEIGHTS: Final = WEIGHT ** np.arange(POOLS)
_SO_FAR: Final = np.cumsum(_WEIGHTS)
_LASTS: Final = np.where(_SCALES >= LASTING, _WEIGHTS, 0.0) / _WEIGHTS[_SCALES >= LASTING].sum()


class Multiscale(Learner):
    """Traces of an item in pools that leak at different rates."""

    name = "C"

    def begin(self, rng: np.random.Generator) -> None:
        """Draw how much each item is taken in."""
        count = len(self.subjects)
        self._uptake = np.exp(rng.normal(0, LEARNER_SPREAD) + rng.normal(0, ITEM_SPREAD, count))
        self._pools = np.zeros((count, POOLS))
        self._last = np.zeros(count)
        self._met = np.zeros(count, dtype=bool)

    def respond(self, subject: int, day: int, second: float, luck: float, more: float) -> Reply:
        """Recalled by the fastest of its instances, or worked out, or neither."""
        pools = self._now(subject, day, second)
        look = self.subjects[subject].look
        recall = min(MOST_RECALL, float(pools @ _WEIGHTS) / float(ENOUGH * _SO_FAR[-1]))
        if luck < recall:
            scale = ONE_INSTANCE * max(INSTANCES * float(pools @ _LASTS), 0.2) ** (-1 / SHAPE)
            waited = scale * (-log(1 - min(more, 1 - 1e-9))) ** (1 / SHAPE)
            return Reply(True, self.key + ENCODE + min(waited, WORKED_OUT) * self.pace + look)
        if more < 0.5:
            return Reply(more < 0.5 * WORKED_OUT_RIGHT, self.key + WORKED_OUT * self.pace + look)
        return self.guess(subject, 2 * more - 1, luck)

    def learn(self, subject: int, day: int, second: float, *, right: bool) -> None:
        """Fill each pool by what the faster ones up to it have lost."""
        pools = self._now(subject, day, second)
        taken = (RECALLED if right and self._met[subject] else STUDIED) * self._uptake[subject]
        held = np.cumsum(_WEIGHTS * pools) / _SO_FAR
        self._pools[subject] = pools + taken * np.maximum(1 - held, 0.0)
        self._last[subject] = day + second / 86_400
        self._met[subject] = True

    def chances(self, day: int, second: float = 0.0) -> Floats:
        """Recalled, and the fastest instance within the exam's seconds."""
        rest = day + second / 86_400 - self._last
        pools = self._pools * np.exp(-rest[:, None] / _SCALES)
        recall = np.minimum(MOST_RECALL, pools @ _WEIGHTS / (ENOUGH * _SO_FAR[-1]))
        scale = ONE_INSTANCE * np.maximum(INSTANCES * (pools @ _LASTS), 0.2) ** (-1 / SHAPE)
        left = (self.limit - self.look - self.key - ENCODE) / self.pace
        found: Floats = np.where(self._met, recall * (1 - np.exp(-((left / scale) ** SHAPE))), 0.0)
        return found

    def _now(self, subject: int, day: int, second: float) -> Floats:
        rest = day + second / 86_400 - self._last[subject]
        found: Floats = self._pools[subject] * np.exp(-rest / _SCALES)
        return found
