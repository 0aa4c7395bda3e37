"""The formulas of the memory model in plain floats, for fitting alone: hundreds of thousands of updates a second.

FSRS-6 as published; the ``fsrs`` package, which updates what the schedule goes by, takes ten times as long. A test
holds both equal.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import exp
from typing import Final, NamedTuple

from trainer.schedule import grading
from trainer.schedule.parameters import Parameters, Shares

LEAST_STABILITY: Final = 0.001
"""In days (STABILITY_MIN of the package)."""

MOST_STABILITY: Final = 1e8
"""In days. Nothing reaches it with the published parameters; others within the bounds would grow beyond any float."""

_MIN_DIFFICULTY: Final = 1.0
_MAX_DIFFICULTY: Final = 10.0

Step = Callable[[float, float, float, int], tuple[float, float]]
"""Stability and difficulty before, chance of recall, grade -> stability and difficulty after."""


class Cold(NamedTuple):
    """A cold answer.

    Attributes:
        rest: whole practice days since the item was last asked, at least 1.
        grade: 0 to 4 (see ``grading.grade``).
        hit: whether it was right and fast; None where that is not known, as it was untimed or helped.
        at: its place among the answers of the record.
    """

    rest: int
    grade: int
    hit: bool | None
    at: int


History = Sequence[Cold]
"""The cold answers of one item, in order."""


def first_memory(w: Parameters, grade: int) -> tuple[float, float]:
    """Stability and difficulty after the first graded answer."""
    return max(w[grade - 1], LEAST_STABILITY), _clamped(_first_difficulty(w, grade))


def forgetting(w: Parameters) -> tuple[float, float]:
    """The curve of recall after t days, (1 + factor t / stability) ^ decay, as (factor, decay)."""
    return 0.9 ** (-1 / w[20]) - 1, -w[20]


def stepper(w: Parameters) -> Step:
    """The update after a later answer, by these parameters."""
    growth, saturation, by_recall = exp(w[8]), -w[9], w[10]
    bonus = (0.0, 0.0, w[15], 1.0, w[16])
    lapse, by_difficulty, by_stability, by_risk = w[11], -w[12], w[13], w[14]
    most_left = exp(-w[17] * w[18])
    shift = tuple(-w[6] * (grade - 3) / 9 for grade in range(5))
    pull, aim = w[7], w[7] * _first_difficulty(w, 4)

    def step(stability: float, difficulty: float, recall: float, grade: int) -> tuple[float, float]:
        if grade == 1:
            long = (
                lapse
                * difficulty**by_difficulty
                * ((stability + 1) ** by_stability - 1)
                * exp((1 - recall) * by_risk)
            )
            found = min(long, stability * most_left)
        else:
            gain = growth * (11 - difficulty) * stability**saturation * (exp((1 - recall) * by_recall) - 1)
            found = stability * (1 + gain * bonus[grade])
        harder = aim + (1 - pull) * (difficulty + (10 - difficulty) * shift[grade])
        return min(max(found, LEAST_STABILITY), MOST_STABILITY), _clamped(harder)

    return step


class Foretold(NamedTuple):
    """What a memory with certain parameters foretells of a record.

    Attributes:
        chances: P(right and fast) of every scored answer, item by item.
        stabilities: of each item after its last answer, in days.
    """

    chances: list[float]
    stabilities: list[float]


def scored(histories: Iterable[History]) -> list[Cold]:
    """The answers that are foretold: those whose hit is known, from an item's second cold answer on.

    What the first one brings, no parameter foretells.
    """
    return [each for history in histories for each in history[1:] if each.hit is not None]


def foretell(w: Parameters, shares: Shares, histories: Iterable[History]) -> Foretold:
    """Go through histories as the schedule does, with other parameters and shares."""
    most = len(shares) - 1
    step = stepper(w)
    factor, decay = forgetting(w)
    found: list[float] = []
    left: list[float] = []
    for history in histories:
        stability, difficulty = first_memory(w, history[0].grade or grading.UNTIMED)
        run = int(history[0].grade >= grading.READ)
        for rest, grade, hit, _ in history[1:]:
            recall = (1 + factor * rest / stability) ** decay
            if hit is not None:
                found.append(recall * shares[run])
            run = min(run + 1, most) if grade >= grading.READ else 0
            if grade == grading.SLOW:
                continue  # as the schedule has it: the memory stays as it is
            before = stability
            stability, difficulty = step(stability, difficulty, recall, grade)
            if grade <= grading.UNTIMED and stability > before:
                stability = before  # as the schedule has it: what proves no reading lengthens nothing
        left.append(stability)
    return Foretold(found, left)


def _first_difficulty(w: Parameters, grade: int) -> float:
    return w[4] - exp(w[5] * (grade - 1)) + 1


def _clamped(difficulty: float) -> float:
    return min(max(difficulty, _MIN_DIFFICULTY), _MAX_DIFFICULTY)
