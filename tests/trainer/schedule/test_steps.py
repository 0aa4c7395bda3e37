"""The steps of the forecast against the memory itself, which is the ``fsrs`` package."""

from __future__ import annotations

import random

import pytest

from trainer.schedule import memory, steps


def test_a_step_is_the_packages() -> None:
    rng = random.Random(4)
    for _ in range(60):
        state: memory.Memory | None = None
        for _ in range(8):
            rest, grade = rng.choice((1, 1, 2, 5, 30)), rng.randint(1, 4)
            expected = memory.after(state, rest, grade)
            assert steps.update(state, rest, grade) == pytest.approx(expected, rel=1e-9)
            state = expected


def test_on_the_grid_an_interval_is_nearly_the_same() -> None:
    state: memory.Memory | None = None
    at, rest = steps.UNSEEN, 1
    for grade in (3, 4, 3, 1, 3, 3, 3, 3, 4, 3):
        state = memory.after(state, rest, grade)
        at, wait = steps.step(at, rest, grade)
        rest = memory.interval(state)
        assert wait == pytest.approx(rest, rel=0.3, abs=1)
        at = steps.place(state)
