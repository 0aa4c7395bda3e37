"""Learners of all sorts: always slow, never timed, right in half of the first lesson. All of it is our rule."""

from __future__ import annotations

import random
from collections import Counter

import pytest

from drills.question import Answer
from tests.trainer.fakes import TODAY, Learner, Reply, badly, make_catalogue, make_event, mixed, reasons
from trainer.practice import Asked
from trainer.schedule import sizes
from trainer.schedule.due import todays
from trainer.schedule.intake import FIRST_DAYS_CAP
from trainer.schedule.ledger import Ledger
from trainer.schedule.status import Status, status

CATALOGUE = make_catalogue(roots=90)
SLOW = 4.0


def right_in(share: float, seed: int) -> Reply:
    """Right so often; the seconds of the answer are those of the clock."""
    rng = random.Random(seed)

    def reply(asked: Asked) -> Answer:
        return Answer(asked.question.model if rng.random() < share else "nothing", 1.8)

    return reply


def at_pace(seconds: float | None) -> Reply:
    """Always right, in so many seconds or untimed."""
    return lambda asked: Answer(asked.question.model, seconds)


@pytest.mark.parametrize("seconds", [4.0, 8.0, 12.0])
def test_who_is_always_slow_still_meets_new_items_week_after_week(seconds: float) -> None:
    learner = Learner(CATALOGUE)
    new = [learner.practise(at_pace(seconds), TODAY + day, seconds=seconds).summary().new for day in range(28)]
    weeks = [sum(map(len, new[week : week + 7])) for week in range(0, 28, 7)]
    assert min(weeks) >= 7
    # ... and nothing that is due is left lying: all come in turn
    met = [state for state in learner.ledger.states.values() if state.met < TODAY + 24]
    assert all(state.last >= TODAY + 27 - len(learner.ledger.states) // 20 for state in met)


def test_what_is_always_slow_has_its_turn_within_about_a_week_however_long_it_goes_on() -> None:
    learner = Learner(CATALOGUE)
    for day in range(75):
        learner.practise(at_pace(8.0), TODAY + day, seconds=8.0)
    assert max(TODAY + 75 - known.last for known in learner.ledger.states.values()) <= 8
    assert 200 <= len(learner.ledger.states) < len(CATALOGUE.items)


@pytest.mark.parametrize("seconds", [4.0, 8.0])
def test_what_is_always_right_and_slow_is_known_and_what_needs_it_is_met(seconds: float) -> None:
    catalogue = make_catalogue(roots=1, frets=13)
    learner = Learner(catalogue)
    first = learner.practise(right_in(0.5, 3), TODAY, seconds=seconds)
    assert first.summary().new
    for day in range(1, 29):
        learner.practise(at_pace(seconds), TODAY + day, seconds=seconds)
    states = learner.ledger.states
    assert set(states) == set(catalogue.by_id)
    assert sum(bool(item.needs) and item.id in states for item in catalogue.items) >= 60
    known = [status(states[item.id]) is Status.KNOWN for item in catalogue.items[:12]]
    assert all(known)
    assert not any(asked.landmark or asked.help for asked in learner.asked if asked.item in catalogue.items[:12])


def test_who_never_gives_seconds_still_meets_new_items() -> None:
    learner = Learner(CATALOGUE)
    new = [len(learner.practise(at_pace(None), TODAY + day, seconds=0.001).summary().new) for day in range(28)]
    assert min(sum(new[week : week + 7]) for week in range(0, 28, 7)) >= 7


def test_without_seconds_a_sitting_has_no_more_questions_than_ten_minutes_hold() -> None:
    # Three seconds each, as they count in a day's minutes, though the clock of a program stands still.
    learner = Learner(CATALOGUE)
    for day in range(4):
        learner.practise(at_pace(None), TODAY + day, seconds=0.001)
        assert 150 <= len(learner.asked) <= 200


def test_half_a_sitting_of_what_is_slow_comes_before_what_is_new_and_the_rest_after_it() -> None:
    ledger = Ledger()
    items = [item.id for item in CATALOGUE.items[:120]]
    for day in range(5):
        for item in items:
            ledger.apply(make_event(item, TODAY - 5 + day, seconds=SLOW if items.index(item) < 110 else 1.0))
    first, later, more = todays(items, ledger, 150, 40)
    assert first == [*items[:40], *items[110:]]
    assert later == items[40:110]
    assert not more
    assert todays(items, ledger, 60, 40)[1] == items[40:50]
    first, later, more = todays(items[110:], ledger, 9, 4)
    assert (first, later, more) == (items[110:119], [], True)
    assert todays(items, ledger, 150, 13) == ([*items[:13], *items[110:]], items[13:110], True)
    assert not todays(items, ledger, 150, 14)[2]
    usual = sizes.usual_answers(ledger, TODAY, 10)
    assert sizes.slow_worth(ledger, TODAY, 10) == int(usual / 2)


@pytest.mark.parametrize("seconds", [2.0, 3.0, 5.0, 8.0])
@pytest.mark.parametrize("share", [0.5, 0.65, 0.8, 1.0])
def test_the_first_sitting_fills_its_minutes_for_beginners_of_every_sort(seconds: float, share: float) -> None:
    for seed in range(3):
        learner = Learner(CATALOGUE)
        practice = learner.practise(right_in(share, seed), seconds=seconds)
        assert practice.summary().minutes >= 9.9, (seconds, share, seed)
        assert practice.reason == "limit"
        assert max(Counter(learner.ids).values()) <= 7
        # more than the usual number of new items only where all others were asked as often as they may be
        if seconds >= 5:
            assert reasons(learner)["new"] <= FIRST_DAYS_CAP


def test_a_lesson_becomes_no_longer_for_who_gets_nothing_right() -> None:
    learner = Learner(CATALOGUE)
    practice = learner.practise(badly, seconds=1.0)
    assert practice.reason == "nothing-left"
    assert reasons(learner)["new"] == FIRST_DAYS_CAP


def test_on_later_days_new_items_do_not_fill_the_time_of_who_is_often_wrong() -> None:
    learner = Learner(CATALOGUE)
    for day in range(3):
        learner.practise(mixed(4, 0.95), TODAY + day, seconds=3.0)
    learner.practise(right_in(0.6, 5), TODAY + 3, seconds=1.0)
    assert reasons(learner)["new"] <= 20
