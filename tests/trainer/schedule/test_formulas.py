"""The formulas for fitting are those of the ``fsrs`` package (PyPI, 6.3), whatever its parameters."""

from __future__ import annotations

import random
from typing import Any

import pytest
from fsrs import Card, Rating, Scheduler, scheduler

from tests.trainer.fakes import make_event
from trainer.schedule import days, formulas, parameters, state
from trainer.schedule.fitting import cold_answers
from trainer.schedule.parameters import Model, Parameters


def any_parameters(rng: random.Random) -> Parameters:
    """Within the package's bounds."""
    return tuple(
        rng.uniform(low, high)
        for low, high in zip(scheduler.LOWER_BOUNDS_PARAMETERS, scheduler.UPPER_BOUNDS_PARAMETERS, strict=True)
    )


def test_what_is_published_and_its_bounds_are_those_of_the_package() -> None:
    assert parameters.PUBLISHED == scheduler.DEFAULT_PARAMETERS
    assert parameters.LOWEST == scheduler.LOWER_BOUNDS_PARAMETERS
    assert parameters.HIGHEST == scheduler.UPPER_BOUNDS_PARAMETERS
    assert formulas.LEAST_STABILITY == scheduler.STABILITY_MIN


def test_random_histories_under_random_parameters_equal_the_package() -> None:
    for history in range(300):
        rng = random.Random(history)
        w = any_parameters(rng) if history % 10 else parameters.PUBLISHED
        package = Scheduler(w, 0.9, learning_steps=(), relearning_steps=(), enable_fuzzing=False)
        card, day = Card(card_id=1, due=days.noon(20_000)), 20_000
        step, (factor, decay) = formulas.stepper(w), formulas.forgetting(w)
        stability = difficulty = 0.0
        for answer in range(rng.randint(2, 12)):
            rest, grade = rng.choice((1, 1, 2, 3, 7, 20, 60, 400)), rng.randint(1, 4)
            day += rest
            if answer:
                recall = (1 + factor * rest / stability) ** decay
                assert recall == pytest.approx(package.get_card_retrievability(card, days.noon(day)), rel=1e-9)
                stability, difficulty = step(stability, difficulty, recall, grade)
            else:
                stability, difficulty = formulas.first_memory(w, grade)
            card, _ = package.review_card(card, Rating(grade), days.noon(day))
            if card.stability is None or card.stability > formulas.MOST_STABILITY:
                assert stability == formulas.MOST_STABILITY
                break
            assert (stability, difficulty) == pytest.approx((card.stability, card.difficulty), rel=1e-9), history


KINDS: list[dict[str, Any]] = [
    {"right": False}, {"seconds": 5.0}, {"seconds": None}, {"helps": ("letters",)}, {"seconds": 1.5}, {"seconds": 0.6},
]  # fmt: skip
"""Wrong, slow, untimed, helped, read, and read quickly."""


def test_a_record_is_gone_through_as_the_schedule_does_it() -> None:
    rng = random.Random(1)
    for _ in range(100):
        model = Model(any_parameters(rng), 0.9, (0.4, 0.6, 0.8, 1.0))
        record, chances, day = [make_event(day=1)], [], 1
        known = state.after(None, record[0])
        for _ in range(12):
            day += rng.choice((1, 1, 2, 9, 40))
            record.append(make_event(day=day, **rng.choice(KINDS)))
            if known.memory is not None and record[-1].timed and not record[-1].help:
                chances.append(known.chance(day, model))
            known = state.after(known, record[-1], model=model)
        assert known.memory is not None
        found = formulas.foretell(model.parameters, model.shares, cold_answers(record).values())
        assert found.chances == pytest.approx(chances, rel=1e-9)
        assert found.stabilities == [pytest.approx(known.memory[0], rel=1e-9)]
