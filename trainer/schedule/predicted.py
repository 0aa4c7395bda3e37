"""Predicted against observed: does an item that should be read really get read?"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import log
from typing import Final

BINS: Final = 10
_SURE: Final = 0.99
"""Nobody's answer is more certain than this: keeps the log loss finite."""


def bounded(chance: float) -> float:
    """A chance that is no certainty."""
    return min(max(chance, 1 - _SURE), _SURE)


@dataclass(slots=True)
class Bin:
    """Cold answers whose predicted chance lies in one tenth: how many, sum predicted, how many right and fast."""

    n: int = 0
    predicted: float = 0.0
    observed: int = 0


@dataclass(slots=True)
class Predictions:
    """P(right and fast) as predicted, beside what came, over timed cold answers.

    Attributes:
        bins: ten, by predicted chance.
        loss: sum of -ln(chance given to what came).
    """

    bins: list[Bin] = field(default_factory=lambda: [Bin() for _ in range(BINS)])
    loss: float = 0.0

    def observe(self, chance: float, hit: bool) -> None:
        """Count one cold answer."""
        chance = bounded(chance)
        at = self.bins[min(int(chance * BINS), BINS - 1)]
        at.n += 1
        at.predicted += chance
        at.observed += hit
        self.loss -= log(chance if hit else 1 - chance)

    @property
    def n(self) -> int:
        """How many cold answers were counted."""
        return sum(b.n for b in self.bins)

    @property
    def log_loss(self) -> float | None:
        """Mean log loss, or None before the first cold answer."""
        return self.loss / self.n if self.n else None

    @property
    def constant_log_loss(self) -> float | None:
        """What always predicting the overall share would have lost: the least that a model has to beat."""
        if not self.n:
            return None
        share = sum(b.observed for b in self.bins) / self.n
        return -sum(p * log(p) for p in (share, 1 - share) if p)
