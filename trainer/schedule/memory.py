"""The memory model, FSRS-6: the only place that knows the ``fsrs`` package.

It goes by the published parameters, or by those fitted to the learner's own record (see ``fitting``).

The package is imported when the first update needs it (26 ms), never before the first question is drawn.
Its own same-day rules, its learning steps and its random spread are left out: an item is updated at most once
a practice day, at noon UTC of that day.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import Final, Self

from trainer.schedule.formulas import MOST_STABILITY, forgetting
from trainer.schedule.parameters import USUAL, Model

Memory = tuple[float, float]
"""Stability in days (until recall falls to .9) and difficulty from 1 to 10."""

MAX_INTERVAL: Final = 180
"""No item is left alone for longer, in days."""

_LONGEST_REST: Final = 36_500
_START: Final = datetime(2000, 1, 1, 12, tzinfo=UTC)

Update = Callable[[Memory | None, int, int], Memory]
Curve = tuple[float, float, float]


def reach_of(model: Model) -> float:
    """Days until an item is due at a stability of one day; they grow with the stability."""
    factor, decay = forgetting(model.parameters)
    return float((model.retention ** (1 / decay) - 1) / factor)


def _curve_of(model: Model) -> Curve:
    """Factor and decay of recall, and ``reach_of`` the model."""
    return *forgetting(model.parameters), reach_of(model)


_USUAL_CURVE: Final = _curve_of(USUAL)
_fitted_curve: Final = lru_cache(maxsize=4)(_curve_of)


def recall(elapsed_days: int, state: Memory, model: Model = USUAL) -> float:
    """The chance of recall that many whole days after the last update; 1 on the same day."""
    factor, decay, _ = _USUAL_CURVE if model is USUAL else _fitted_curve(model)
    return float((1 + factor * max(0, elapsed_days) / state[0]) ** decay)


def interval(state: Memory, model: Model = USUAL) -> int:
    """Whole days until recall has fallen to the model's retention, from 1 to ``MAX_INTERVAL``."""
    reach = (_USUAL_CURVE if model is USUAL else _fitted_curve(model))[2]
    return min(max(round(state[0] * reach), 1), MAX_INTERVAL)


def after(state: Memory | None, elapsed_days: int, grade: int, model: Model = USUAL) -> Memory:
    """The memory after a graded answer.

    Args:
        state: before it, or None at the first graded answer.
        elapsed_days: whole practice days since the last update (at least 1; ignored without a state).
        grade: 1 to 4.
        model: what it goes by.
    """
    update = _usual_updater() if model is USUAL else _fitted_updater(model)
    return update(state, min(max(elapsed_days, 1), _LONGEST_REST), grade)


def warm() -> None:
    """Import the package now, while nobody waits for it."""
    _usual_updater()


@lru_cache(maxsize=1)
def _usual_updater() -> Update:
    return _updater(USUAL)


@lru_cache(maxsize=4)
def _fitted_updater(model: Model) -> Update:
    return _updater(model)


def _updater(model: Model) -> Update:
    from fsrs import Card, Rating, Scheduler, State

    scheduler = Scheduler(
        parameters=model.parameters,
        enable_fuzzing=False,
        learning_steps=(),
        relearning_steps=(),
        desired_retention=model.retention,
        maximum_interval=MAX_INTERVAL,
    )
    ratings = {int(rating): rating for rating in Rating}

    class Fresh(Card):
        """Made for one update and used by nobody else: the package need not copy it, which takes half of its time."""

        def __copy__(self) -> Self:
            return self

    def update(state: Memory | None, elapsed: int, grade: int) -> Memory:
        # An id and a due date are always given: without them the package reads the clock, and sleeps.
        if state is None:
            item: Card = Fresh(card_id=0, due=_START)
        else:
            item = Fresh(
                card_id=0,
                state=State.Review,
                stability=state[0],
                difficulty=state[1],
                due=_START,
                last_review=_START,
            )
        item, _ = scheduler.review_card(item, ratings[grade], _START + timedelta(days=elapsed))
        assert item.stability is not None
        assert item.difficulty is not None
        return min(item.stability, MOST_STABILITY), item.difficulty

    return update
