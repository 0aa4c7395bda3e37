"""The memory model, FSRS-6 with its published default parameters: the only place that knows the ``fsrs`` package.

The package is imported when the first update needs it (26 ms), never before the first question is drawn.
Its own same-day rules, its learning steps and its random spread are left out: an item is updated at most once
a practice day, at noon UTC of that day.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Final

Memory = tuple[float, float]
"""Stability in days (until recall falls to .9) and difficulty from 1 to 10."""

RETENTION: Final = 0.95
"""An item is due when its recall has fallen to this."""

MAX_INTERVAL: Final = 180
"""No item is left alone for longer, in days."""

# Parameter 20 and the curve (1 + F t / S)^-w20 with F = .9^(-1/w20) - 1: FSRS-6 as published with py-fsrs 6
# (DEFAULT_PARAMETERS). Written out so that recall and interval do not need the import; a test holds both equal.
_DECAY: Final = -0.1542
_FACTOR: Final = 0.9 ** (1 / _DECAY) - 1
_REACH: Final = (RETENTION ** (1 / _DECAY) - 1) / _FACTOR
_LONGEST_REST: Final = 36_500
_START: Final = datetime(2000, 1, 1, 12, tzinfo=UTC)


def recall(elapsed_days: int, state: Memory) -> float:
    """The chance of recall that many whole days after the last update; 1 on the same day."""
    return float((1 + _FACTOR * max(0, elapsed_days) / state[0]) ** _DECAY)


def interval(state: Memory) -> int:
    """Whole days until recall has fallen to ``RETENTION``, from 1 to ``MAX_INTERVAL``."""
    return min(max(round(state[0] * _REACH), 1), MAX_INTERVAL)


def after(state: Memory | None, elapsed_days: int, grade: int) -> Memory:
    """The memory after a graded answer.

    Args:
        state: before it, or None at the first graded answer.
        elapsed_days: whole practice days since the last update (at least 1; ignored without a state).
        grade: 1 to 4.
    """
    return _updater()(state, min(max(elapsed_days, 1), _LONGEST_REST), grade)


def warm() -> None:
    """Import the package now, while nobody waits for it."""
    _updater()


@cache
def _updater() -> Callable[[Memory | None, int, int], Memory]:
    from fsrs import Card, Rating, Scheduler, State

    scheduler = Scheduler(
        enable_fuzzing=False,
        learning_steps=(),
        relearning_steps=(),
        desired_retention=RETENTION,
        maximum_interval=MAX_INTERVAL,
    )
    ratings = {int(rating): rating for rating in Rating}

    def update(state: Memory | None, elapsed: int, grade: int) -> Memory:
        # An id and a due date are always given: without them the package reads the clock, and sleeps.
        if state is None:
            item = Card(card_id=0, due=_START)
        else:
            item = Card(
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
        return item.stability, item.difficulty

    return update
