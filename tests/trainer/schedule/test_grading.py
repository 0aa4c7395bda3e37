"""From seconds to a grade (limits are our choice; no norm for reading tab was found)."""

from __future__ import annotations

from math import inf, nan

import pytest

from tests.trainer.fakes import make_event
from trainer.schedule import grading


@pytest.mark.parametrize(("base", "think", "limit"), [(0.5, 1.2, 1.7), (0.2, 1.2, 1.5), (0.62, 1.2, 1.82)])
def test_the_limit_is_the_hand_and_the_thinking_and_at_least_a_second_and_a_half(
    base: float, think: float, limit: float
) -> None:
    assert grading.limit(base, think) == pytest.approx(limit)


@pytest.mark.parametrize(
    ("right", "seconds", "grade"),
    [
        (False, 0.5, 1),
        (False, None, 1),
        (True, 1.71, 0),
        (True, 12.0, 0),
        (True, None, 2),
        (True, 1.7, 3),
        (True, 1.05, 3),
        (True, 1.04, 4),
        (True, 0.2, 4),
    ],
)
def test_grades(right: bool, seconds: float | None, grade: int) -> None:
    # base .5, limit 1.7: within .5 + .45 x 1.2 = 1.04 s is quick
    assert grading.grade(make_event(right=right, seconds=seconds)) == grade


def test_right_with_help_in_sight_proves_no_reading() -> None:
    assert grading.grade(make_event(seconds=0.8, helps=("letters",))) == 2
    assert grading.grade(make_event(right=False, helps=("letters",))) == 1


@pytest.mark.parametrize("seconds", [None, nan, inf, -1.0, 0.14, 1e9])
def test_seconds_that_prove_nothing(seconds: float | None) -> None:
    assert not grading.is_timed(seconds)


def test_the_screen_may_know_that_seconds_prove_nothing() -> None:
    assert grading.is_timed(1.0)
    assert not grading.is_timed(1.0, timed=False)


@pytest.mark.parametrize("seconds", [None, nan, inf, -1.0, 1e9])
def test_what_is_no_time_is_not_kept(seconds: float | None) -> None:
    assert grading.usable(seconds) is None


def test_long_thinking_is_slow_like_any_other() -> None:
    assert grading.is_timed(25.0)
    assert grading.is_slow(make_event(seconds=25.0))


def test_wrong_is_never_called_slow() -> None:
    assert not grading.is_slow(make_event(right=False, seconds=25.0))


def test_the_baseline_is_the_median_of_sound_trials() -> None:
    assert grading.baseline([0.4, 0.62, 5.0, 0.05, nan]) == 0.62
    assert grading.baseline([]) == grading.DEFAULT_BASE
