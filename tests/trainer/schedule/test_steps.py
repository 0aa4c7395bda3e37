"""The grid of the forecast against the memory itself, which is the ``fsrs`` package."""

from __future__ import annotations

import random

import pytest

from trainer.schedule import memory, steps
from trainer.schedule.parameters import USUAL, Model

OTHER = Model((*USUAL.parameters[:2], 4.0, 12.0, *USUAL.parameters[4:]), 0.9)


@pytest.mark.parametrize("model", [USUAL, OTHER])
def test_on_the_grid_an_interval_is_nearly_the_same(model: Model) -> None:
    rng, step = random.Random(4), steps.steps_of(model)
    for _ in range(40):
        state: memory.Memory | None = None
        at, rest = steps.UNSEEN, 1
        for _ in range(8):
            grade = rng.choice((1, 3, 3, 4))
            before, state = state, memory.after(state, rest, grade, model)
            if before is not None and grade == 1:
                state = min(state[0], before[0]), state[1]
            at, wait = step(at, rest, grade)
            rest = memory.interval(state, model)
            assert wait == pytest.approx(rest, rel=0.3, abs=1)
            at = steps.place(state)


def test_the_place_of_a_memory_is_near_to_it_and_without_one_there_is_none() -> None:
    assert steps.place(None) is steps.UNSEEN
    assert steps.place((1.0, 5.2)) == (0, 10)
    assert steps.place((1e-9, 99.0)) == steps.place((0.05, 10.0))
