"""The memory's steps on a coarse grid, for looking ahead: thousands of them in a few milliseconds.

FSRS-6 with its published default parameters, as ``memory`` has it from the package; written out here because a
forecast takes too many steps for the package (10 us each) and must not wait for its import. A test holds both equal.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, log
from typing import Final, NamedTuple

from trainer.schedule import memory
from trainer.schedule.grading import MISSED, QUICK
from trainer.schedule.memory import Memory

_W: Final = (
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
    1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912,
)  # fmt: skip
_FINE: Final = 8
"""Steps of the grid in which stability grows by the factor e."""
_LEAST, _MOST = 0.05, 2000.0


class Place(NamedTuple):
    """Where an item's memory stands on the grid.

    Attributes:
        stability: an eighth of its logarithm, in days.
        difficulty: whole, 1 to 10; 0 before the first cold answer.
    """

    stability: int
    difficulty: int


UNSEEN: Final = Place(0, 0)
"""Before the first cold answer."""


def place(state: Memory | None) -> Place:
    """The nearest place on the grid."""
    if state is None:
        return UNSEEN
    stability = min(max(state[0], _LEAST), _MOST)
    return Place(round(_FINE * log(stability)), min(10, max(1, round(state[1]))))


@lru_cache(maxsize=4096)
def step(at: Place, rest: int, grade: int) -> tuple[Place, int]:
    """Where a cold answer after so many days leads, and the days until it is due then."""
    before = None if at.difficulty == 0 else (exp(at.stability / _FINE), float(at.difficulty))
    after = update(before, rest, grade)
    return place(after), memory.interval(after)


def update(state: Memory | None, elapsed_days: int, grade: int) -> Memory:
    """The memory after a graded answer, as ``memory.after`` has it."""
    w = _W
    if state is None:
        return w[grade - 1], _within(_first_difficulty(grade))
    stability, difficulty = state
    recall = memory.recall(elapsed_days, state)
    if grade == MISSED:
        long = w[11] * difficulty ** -w[12] * ((stability + 1) ** w[13] - 1) * exp((1 - recall) * w[14])
        after = min(long, stability / exp(w[17] * w[18]))
    else:
        factor = {2: w[15], QUICK: w[16]}.get(grade, 1.0)
        growth = exp(w[8]) * (11 - difficulty) * stability ** -w[9] * (exp((1 - recall) * w[10]) - 1) * factor
        after = stability * (1 + growth)
    moved = difficulty + (10 - difficulty) * -w[6] * (grade - 3) / 9
    return after, _within(w[7] * _first_difficulty(QUICK) + (1 - w[7]) * moved)


def _first_difficulty(grade: int) -> float:
    return _W[4] - exp(_W[5] * (grade - 1)) + 1


def _within(difficulty: float) -> float:
    return min(max(difficulty, 1.0), 10.0)
