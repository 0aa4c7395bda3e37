"""The memory model is the ``fsrs`` package (6.3), fenced: compared with the package used directly."""

from __future__ import annotations

import random
import subprocess
import sys

import pytest
from fsrs import Card, Rating, Scheduler

from trainer.schedule import days, memory
from trainer.schedule.parameters import RETENTION


def test_random_histories_equal_the_package_used_directly() -> None:
    scheduler = Scheduler(
        enable_fuzzing=False, learning_steps=(), relearning_steps=(), desired_retention=RETENTION, maximum_interval=180
    )
    for history in range(300):
        rng = random.Random(history)
        day = 20_000
        card = Card(card_id=1, due=days.noon(day))
        state: memory.Memory | None = None
        for answer in range(rng.randint(1, 12)):
            rest = rng.choice((1, 1, 2, 3, 7, 20, 60, 400))
            day += rest
            if state is not None:
                expected = scheduler.get_card_retrievability(card, days.noon(day))
                assert memory.recall(rest, state) == pytest.approx(expected, rel=1e-12)
            grade = rng.randint(1, 4)
            card, _ = scheduler.review_card(card, Rating(grade), days.noon(day))
            state = memory.after(state, rest, grade)
            assert state == (card.stability, card.difficulty), (history, answer)
            assert memory.interval(state) == (card.due - days.noon(day)).days


def test_recall_is_whole_on_the_day_itself_and_falls() -> None:
    state = (5.0, 5.0)
    assert memory.recall(0, state) == 1.0
    assert memory.recall(-3, state) == 1.0
    # Stability is the days until recall falls to .9 (the definition of FSRS).
    assert memory.recall(5, state) == pytest.approx(0.9)
    assert memory.recall(6, state) < memory.recall(5, state)


def test_intervals_stay_between_a_day_and_half_a_year() -> None:
    assert memory.interval((0.001, 10.0)) == 1
    assert memory.interval((1e6, 1.0)) == memory.MAX_INTERVAL


def test_an_endless_rest_is_no_error() -> None:
    assert memory.after((3.0, 5.0), 10**9, 3)[0] > 3.0


def test_the_package_is_not_imported_before_an_update_needs_it() -> None:
    code = (
        "import sys\n"
        "from trainer import practice\n"
        "from trainer.schedule import memory\n"
        "memory.recall(3, (5.0, 5.0)), memory.interval((5.0, 5.0))\n"
        "assert 'fsrs' not in sys.modules\n"
        "memory.warm()\n"
        "assert 'fsrs' in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
