"""The memory's steps on a coarse grid, for looking ahead: thousands of them in a few milliseconds.

A forecast takes too many steps for the ``fsrs`` package, and must not wait for its import.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import exp, log
from typing import Final, NamedTuple

from trainer.schedule import memory
from trainer.schedule.formulas import first_memory, stepper
from trainer.schedule.grading import MISSED, UNTIMED
from trainer.schedule.memory import Memory
from trainer.schedule.parameters import Model

_FINE: Final = 8
"""Steps of the grid in which stability grows by the factor e."""
_HALVES: Final = 2
"""Steps of the grid between whole difficulties: what is hardest of all grows far more slowly than what is less hard."""
_LEAST, _MOST = 0.05, 2000.0


class Place(NamedTuple):
    """Where an item's memory stands on the grid.

    Attributes:
        stability: an eighth of its logarithm, in days.
        difficulty: in halves, 2 to 20; 0 before the first cold answer.
    """

    stability: int
    difficulty: int


UNSEEN: Final = Place(0, 0)
"""Before the first cold answer."""

Step = Callable[[Place, int, int], tuple[Place, int]]
"""Place, days of rest, grade -> the place after a cold answer, and the days until the item is due then."""


def place(state: Memory | None) -> Place:
    """The nearest place on the grid."""
    if state is None:
        return UNSEEN
    stability = min(max(state[0], _LEAST), _MOST)
    return Place(round(_FINE * log(stability)), min(10 * _HALVES, max(_HALVES, round(_HALVES * state[1]))))


@lru_cache(maxsize=2)
def steps_of(model: Model) -> Step:
    """The steps by a model of memory; each is worked out once."""
    update = stepper(model.parameters)

    @lru_cache(maxsize=4096)
    def step(at: Place, rest: int, grade: int) -> tuple[Place, int]:
        if at == UNSEEN:
            after = first_memory(model.parameters, grade if grade >= MISSED else UNTIMED)
        else:
            before = exp(at.stability / _FINE), at.difficulty / _HALVES
            if grade < MISSED:  # what leaves the memory as it is
                return at, memory.interval(before, model)
            after = update(*before, memory.recall(rest, before, model), grade)
            if grade <= UNTIMED:
                after = min(after[0], before[0]), after[1]
        return place(after), memory.interval(after, model)

    return step
