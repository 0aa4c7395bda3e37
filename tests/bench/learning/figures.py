"""Means with their intervals, over learners who are the same for every policy."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

import numpy as np

# Student's t, two-sided 95 %, by degrees of freedom (tables of any handbook; the last for 30 and more).
_T: Final = {1: 12.71, 2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 7: 2.36, 9: 2.26, 14: 2.14, 19: 2.09, 29: 2.05, 59: 2.00}


class Mean(NamedTuple):
    """A mean and half the width of its 95 % interval (NaN for a single value)."""

    value: float
    half: float

    def __str__(self) -> str:
        return f"{self.value:.0f} ± {self.half:.0f}"

    @property
    def is_above_zero(self) -> bool:
        """Whether the whole interval lies above 0."""
        return self.value - self.half > 0


def mean_of(values: Sequence[float]) -> Mean:
    """The mean of independent values."""
    count = len(values)
    if count < 2:
        return Mean(float(np.mean(values)), float("nan"))
    t = _T[max(free for free in _T if free <= count - 1)]
    return Mean(float(np.mean(values)), t * float(np.std(values, ddof=1)) / count**0.5)


def difference(ours: Sequence[float], theirs: Sequence[float]) -> Mean:
    """The mean of paired differences: the same learner under both."""
    return mean_of([a - b for a, b in zip(ours, theirs, strict=True)])
