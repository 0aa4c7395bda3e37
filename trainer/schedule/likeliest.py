"""The parameters under which a record is the likeliest, with a pull towards the published ones.

Gauss-Newton steps (Fisher scoring) with differences for derivatives: few evaluations, no library.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import exp, log
from operator import mul
from typing import Final, NamedTuple

from trainer.schedule.formulas import History, foretell, scored
from trainer.schedule.parameters import HIGHEST, LEAST_SHARE, LOWEST, PUBLISHED, SHARES, Parameters, Shares
from trainer.schedule.predicted import bounded

MOST_EVALUATIONS: Final = 100
"""So often the answers are foretold anew, at most: together with the number of answers that bounds the time."""

_DECIMALS: Final = 6
"""Of a line of the record."""
_DIFFERENCE: Final = 0.01
"""For derivatives, in units of a knob's spread."""
_SETTLED: Final = 1e-3
"""A step that gains less than this, in log likelihood of the whole record, is the last one."""
_STUCK: Final = 1e4
"""With so much damping a step is too small to gain anything."""


class Knob(NamedTuple):
    """One parameter that moves.

    Attributes:
        at: its place among the 21, or after them of its share.
        spread: how far from the published value it is believed to lie: the standard deviation of the pull.
        by_factor: whether it moves by factors (then ``spread`` is of its logarithm).
    """

    at: int
    spread: float
    by_factor: bool


KNOBS: Final = (
    Knob(0, 1.0, True),
    Knob(2, 1.0, True),
    Knob(3, 1.0, True),
    Knob(8, 0.5, False),
    Knob(9, 0.1, False),
    Knob(11, 0.5, True),
    Knob(20, 0.5, True),
    Knob(21, 0.3, True),
    Knob(22, 0.3, True),
    Knob(23, 0.3, True),
    Knob(24, 0.3, True),
)
"""First stabilities (missed, read, quick), growth and its saturation, what a slip leaves, how recall falls; and how
often what is remembered is read."""

_START: Final = (*PUBLISHED, *SHARES)
_LEAST: Final = (*LOWEST, *(LEAST_SHARE for _ in SHARES))
_MOST: Final = (*HIGHEST, *(1.0 for _ in SHARES))


def loss_of(chance: float, hit: bool) -> float:
    """Log loss of one answer."""
    chance = bounded(chance)
    return -log(chance if hit else 1 - chance)


class Search:
    """Looks for the knobs' places, in units of their spreads from the published values."""

    def __init__(self, histories: Sequence[History], stop: Callable[[], bool]) -> None:
        self.evaluations = 0
        self._histories = histories
        self._stop = stop
        self._hits = [each.hit is True for each in scored(histories)]

    def best(self) -> tuple[Parameters, Shares]:
        """The likeliest parameters and shares, as far as so many evaluations find them."""
        place = [0.0] * len(KNOBS)
        chance, cost = self._evaluate(place)
        damping = 1e-3
        while not self._over(len(KNOBS) + 1):
            slope, bend = self._slope(place, chance)
            while not self._over(1):
                step = _solved(bend, slope, damping)
                nearer = [_within(knob, at - by) for knob, at, by in zip(KNOBS, place, step, strict=True)]
                next_chance, next_cost = self._evaluate(nearer)
                if next_cost < cost:
                    break
                damping = max(damping * 8, 0.05)
                if damping > _STUCK:
                    return moved(place, _DECIMALS)
            else:
                break
            gained = cost - next_cost
            place, chance, cost = nearer, next_chance, next_cost
            damping /= 5
            if gained < _SETTLED:
                break
        return moved(place, _DECIMALS)

    def _over(self, needed: int) -> bool:
        return self.evaluations + needed > MOST_EVALUATIONS or self._stop()

    def _evaluate(self, place: Sequence[float]) -> tuple[list[float], float]:
        """The chances foretold, and minus the log of likelihood and pull."""
        self.evaluations += 1
        found = [bounded(chance) for chance in foretell(*moved(place), self._histories).chances]
        loss = -sum(log(chance if hit else 1 - chance) for chance, hit in zip(found, self._hits, strict=True))
        return found, loss + sum(at * at for at in place) / 2

    def _slope(self, place: list[float], chance: list[float]) -> tuple[list[float], list[list[float]]]:
        """Gradient of the cost, and its expected second derivatives, by differences."""
        columns = []
        for n, knob in enumerate(KNOBS):
            by = _DIFFERENCE if _within(knob, place[n] + _DIFFERENCE) == place[n] + _DIFFERENCE else -_DIFFERENCE
            there = [*place[:n], place[n] + by, *place[n + 1 :]]
            moved_chance, _ = self._evaluate(there)
            columns.append([(b - a) / by for a, b in zip(chance, moved_chance, strict=True)])
        weight = [1 / (p * (1 - p)) for p in chance]
        miss = [(p - hit) * w for p, hit, w in zip(chance, self._hits, weight, strict=True)]
        slope = [sum(map(mul, column, miss)) + at for column, at in zip(columns, place, strict=True)]
        weighed = [list(map(mul, column, weight)) for column in columns]
        bend = [[sum(map(mul, a, b)) + (i == j) for j, b in enumerate(columns)] for i, a in enumerate(weighed)]
        return slope, bend


def moved(place: Sequence[float], decimals: int | None = None) -> tuple[Parameters, Shares]:
    """The usual parameters and shares with the knobs at a place, inside the model's bounds."""
    w = list(_START)
    for knob, at in zip(KNOBS, place, strict=True):
        by = knob.spread * at
        value = w[knob.at] * exp(by) if knob.by_factor else w[knob.at] + by
        w[knob.at] = min(max(value, _LEAST[knob.at]), _MOST[knob.at])
    if decimals is not None:
        w = [round(value, decimals) for value in w]  # the bounds have fewer
    return tuple(w[: len(PUBLISHED)]), tuple(w[len(PUBLISHED) :])


def _within(knob: Knob, at: float) -> float:
    """A knob's place, kept where its parameter is inside the bounds."""
    start, low, high = _START[knob.at], _LEAST[knob.at], _MOST[knob.at]
    if knob.by_factor:
        least, most = (log(bound / start) / knob.spread for bound in (low, high))
    else:
        least, most = ((bound - start) / knob.spread for bound in (low, high))
    return min(max(at, least), most)


def _solved(matrix: list[list[float]], right: list[float], damping: float) -> list[float]:
    """The x of (matrix + damping x its diagonal) x = right, by elimination; the matrix is positive definite."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for n, row in enumerate(rows):
        row[n] *= 1 + damping
    for n, pivot in enumerate(rows):
        for row in rows[n + 1 :]:
            by = row[n] / pivot[n]
            for k in range(n, size + 1):
                row[k] -= by * pivot[k]
    found = [0.0] * size
    for n in reversed(range(size)):
        found[n] = (rows[n][size] - sum(rows[n][k] * found[k] for k in range(n + 1, size))) / rows[n][n]
    return found
