"""Learner A: memory as ACT-R has it, with decay that depends on activation at practice.

Pavlik and Anderson (2005), Practice and forgetting effects on vocabulary memory: an activation-based model of the
spacing effect, Cognitive Science 29, 559-586; decay, threshold, noise and the rest between sittings are theirs, from
memory. Latency and ability are our choice (a fret is named faster than a word of another language is found), and so
are counting up from the open string where retrieval fails, and confusion by partial matching.
"""

from __future__ import annotations

from math import exp, log
from typing import Final

import numpy as np

from tests.bench.learning.learner import Learner, Reply
from tests.bench.learning.subjects import Floats

DECAY: Final = 0.177
DECAY_SCALE: Final = 0.217
THRESHOLD: Final = -0.704
NOISE: Final = 0.255
LATENCY: Final = 0.8
REST: Final = 0.025
"""Time between sittings counts for so much of time within them."""

DAY: Final = 86_400 * REST
ENCODE: Final = 0.1
"""Seconds of seeing, before the key's own."""

ABILITY: Final = 0.6
ITEM_SPREAD: Final = 0.35
LEARNER_SPREAD: Final = 0.2
COUNTS_RIGHT: Final = 0.88
COUNT_START: Final = 1.5
COUNT_A_FRET: Final = 0.5
MISMATCH: Final = 1.0
"""How much less active another item is than itself, when it is taken for the one that is asked."""

_TRACES: Final = 64
_NEVER: Final = -20.0


class ActR(Learner):
    """Every time that an item is taken in leaves a trace; the more active it was, the faster that trace decays."""

    name = "A"

    def begin(self, rng: np.random.Generator) -> None:
        """Draw how well this learner keeps things, and each item."""
        count = len(self.subjects)
        self._ability = rng.normal(ABILITY, LEARNER_SPREAD) + rng.normal(0, ITEM_SPREAD, count)
        self._at = np.zeros((count, _TRACES))
        self._decay = np.zeros((count, _TRACES))
        self._n = [0] * count
        self._rivals = np.array([-1 if s.rival is None else s.rival for s in self.subjects])

    def respond(self, subject: int, day: int, second: float, luck: float, more: float) -> Reply:
        """Retrieve it, or take another one for it, or count up from the open string, or guess."""
        activation = self._activation(subject, day, second)
        rival = self.subjects[subject].rival
        look = self.subjects[subject].look
        if rival is not None and self._n[rival]:
            confused = _share(self._activation(rival, day, second) - MISMATCH - activation)
            if more < confused:
                seconds = self.key + ENCODE + LATENCY * exp(-max(activation, THRESHOLD)) + look
                return Reply(False, seconds, misread=True)
        luck = min(max(luck, 1e-6), 1 - 1e-6)
        noisy = activation + NOISE * log(luck / (1 - luck))
        if noisy > THRESHOLD:
            return Reply(True, self.key + ENCODE + LATENCY * exp(-noisy) + look)
        fret = self.subjects[subject].fret
        known = all(self._activation(need, day, second) > THRESHOLD for need in self.subjects[subject].needs)
        if fret is None or not known:
            return self.guess(subject, more, 1.0)
        return Reply(more < COUNTS_RIGHT, (COUNT_START + COUNT_A_FRET * fret) * self.pace + look)

    def learn(self, subject: int, day: int, second: float, *, right: bool) -> None:
        """Leave a trace."""
        n = self._n[subject]
        if n == self._at.shape[1]:
            self._at = np.hstack([self._at, np.zeros_like(self._at)])
            self._decay = np.hstack([self._decay, np.zeros_like(self._decay)])
        activation = self._activation(subject, day, second)
        self._decay[subject, n] = DECAY + (DECAY_SCALE * exp(min(activation, 2.0)) if n else 0.0)
        self._at[subject, n] = day * DAY + second
        self._n[subject] = n + 1

    def chances(self, day: int, second: float = 0.0) -> Floats:
        """Retrieved fast enough, and itself."""
        activation = self._all(day, second)
        fastest = LATENCY / (self.limit - self.look - self.key - ENCODE)
        needed = np.maximum(np.log(fastest), THRESHOLD)
        rival = np.where(self._rivals < 0, _NEVER, activation[self._rivals])
        itself = 1 - 1 / (1 + np.exp(-np.clip((rival - MISMATCH - activation) / (NOISE * 2**0.5), -50, 50)))
        read: Floats = itself / (1 + np.exp(np.clip((needed - activation) / NOISE, -50, 50)))
        return np.where(np.array(self._n) > 0, read, 0.0)

    def _activation(self, subject: int, day: int, second: float) -> float:
        n = self._n[subject]
        if not n:
            return _NEVER
        ages = np.maximum(day * DAY + second - self._at[subject, :n], 1.0)
        return float(self._ability[subject] + log((ages ** -self._decay[subject, :n]).sum()))

    def _all(self, day: int, second: float) -> Floats:
        n = np.array(self._n)
        most = int(n.max(initial=1))
        ages = np.maximum(day * DAY + second - self._at[:, :most], 1.0)
        weights = ages ** -self._decay[:, :most] * (np.arange(most) < n[:, None])
        found: Floats = self._ability + np.log(np.maximum(weights.sum(axis=1), 1e-8))
        return found


def _share(difference: float) -> float:
    return 1 / (1 + exp(min(50.0, -difference / (NOISE * 2**0.5))))
