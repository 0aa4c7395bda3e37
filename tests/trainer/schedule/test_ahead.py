"""What today and the next days bring."""

from __future__ import annotations

from tests.trainer.fakes import TODAY, Learner, make_catalogue, make_event, well
from trainer.schedule.ahead import DAYS, look_ahead
from trainer.schedule.ledger import Ledger

CATALOGUE = make_catalogue()


def test_a_new_learner_has_a_lesson_before_them() -> None:
    ahead = look_ahead(CATALOGUE, Ledger(), day=TODAY)
    assert (ahead.due, ahead.waiting, ahead.new) == (0, 0, 24)
    assert 3 <= ahead.minutes <= 10
    assert ahead.days == (0,) * DAYS


def test_what_was_met_today_comes_tomorrow() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    ahead = look_ahead(CATALOGUE, learner.ledger, day=TODAY)
    assert (ahead.due, ahead.new) == (0, 0)
    assert ahead.days == (24,) + (0,) * (DAYS - 1)
    assert look_ahead(CATALOGUE, learner.ledger, day=TODAY + 1).due == 24


def test_the_days_ahead_are_those_on_which_items_fall_due() -> None:
    learner = Learner(CATALOGUE)
    for day in range(6):
        learner.practise(well, TODAY + day)
    today = TODAY + 5
    ahead = look_ahead(CATALOGUE, learner.ledger, day=today)
    dues = [state.due - today for state in learner.ledger.states.values()]
    assert list(ahead.days) == [dues.count(day) for day in range(1, DAYS + 1)]
    assert sum(ahead.days) > 50


def test_what_it_says_of_today_is_what_comes() -> None:
    learner = Learner(CATALOGUE)
    for day in range(4):
        ahead = look_ahead(CATALOGUE, learner.ledger, day=TODAY + day)
        learner.practise(well, TODAY + day)
        whys = [str(asked.why) for asked in learner.asked]
        assert whys.count("due") == ahead.due
        assert whys.count("new") <= ahead.new


def test_a_backlog_is_shown_as_one_sitting() -> None:
    catalogue = make_catalogue(roots=90)
    ledger = Ledger()
    for day in (TODAY - 61, TODAY - 60):
        for item in catalogue.items[:500]:
            ledger.apply(make_event(item.id, day))
    ahead = look_ahead(catalogue, ledger, day=TODAY)
    assert ahead.due < 350
    assert ahead.due + ahead.waiting == 500
    assert ahead.new == 0
    assert ahead.minutes == 10
    assert sum(ahead.days) == 0


def test_items_of_another_tuning_are_left_out() -> None:
    ledger = Ledger()
    ledger.apply(make_event("elsewhere/1", TODAY - 3))
    ahead = look_ahead(CATALOGUE, ledger, day=TODAY)
    assert ahead.due == 0


def test_what_is_not_done_with_today_counts_too() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well, limit=3)
    met = set(learner.ids)
    ahead = look_ahead(CATALOGUE, learner.ledger, day=TODAY)
    assert (ahead.due, ahead.waiting) == (len(met), 0)
    learner.practise(well, sitting=2)
    assert look_ahead(CATALOGUE, learner.ledger, day=TODAY).due == 0
