"""What is likely: the counts of the next 14 days, the date of the stage, today's new items, against what came."""

from __future__ import annotations

import pytest

from drills.question import Answer
from tests.trainer.fakes import TODAY, Learner, Reply, badly, make_catalogue, make_event, slowly, well
from tests.trainer.schedule.foretold import CATALOGUE, LOOK, looked, one_who_learns, story
from trainer.practice import Asked
from trainer.schedule.ahead import DAYS, look_ahead
from trainer.schedule.forecast import forecast
from trainer.schedule.ledger import Ledger
from trainer.schedule.outlook import Outlook, outlook
from trainer.schedule.pace import mean, pace_of
from trainer.schedule.reaching import ENOUGH_DAYS, Prospect, stage_ahead

LEARNERS = range(20)
CLEARLY_MORE_THAN_HALF = 0.65
"""Between the 10th and the 90th percentile should lie four fifths; so few learners tell that only roughly."""


def after(days: int, reply: Reply) -> tuple[Learner, int]:
    """A learner after so many days of practice, and the next day."""
    learner = Learner(CATALOGUE)
    for nth in range(days):
        learner.practise(reply, TODAY + nth)
    return learner, TODAY + days


def outlook_of(learner: Learner, day: int) -> Outlook:
    return looked(learner, look_ahead(CATALOGUE, learner.ledger, day=day), day)


def test_the_stage_is_mostly_fluent_within_the_range_that_was_told() -> None:
    dated = [each for seed in LEARNERS if (each := story(seed)).found.stage.prospect is Prospect.DATED]
    assert len(dated) > len(LEARNERS) / 2
    inside = 0
    for each in dated:
        early, late = each.found.stage.early, each.found.stage.late
        assert early is not None
        assert late is not None
        inside += each.reached is not None and early <= TODAY + LOOK + each.reached <= late
    assert inside >= CLEARLY_MORE_THAN_HALF * len(dated)


def test_the_counts_of_two_weeks_are_nearly_always_within_a_factor_of_two() -> None:
    close = 0
    for told in map(story, LEARNERS):
        came = sum(told.due.values())
        close += came / 2 < sum(told.found.expected[day - 1] for day in told.due) < came * 2
    assert close >= 0.9 * len(LEARNERS)


def test_the_new_items_of_today_are_those_that_come() -> None:
    wrong = [abs(foretold - came) for seed in LEARNERS for foretold, came in story(seed).new]
    assert sum(wrong) / len(wrong) < 1.5
    assert sum(each <= 3 for each in wrong) > 0.85 * len(wrong)


def test_the_same_record_gives_the_same_outlook() -> None:
    assert outlook_of(*after(6, one_who_learns(1))) == outlook_of(*after(6, one_who_learns(1)))


def test_where_sittings_are_full_nothing_that_is_known_is_left_out_of_what_is_likely() -> None:
    learner = Learner(make_catalogue(roots=20))
    for nth in range(6):
        learner.practise(well, TODAY + nth, seconds=14.0)
    ahead = look_ahead(learner.catalogue, learner.ledger, day=TODAY + 6)
    likely = looked(learner, ahead, TODAY + 6, learner.catalogue).expected
    assert len(likely) == DAYS
    assert sum(ahead.days) > 20
    assert all(more >= due for more, due in zip(likely, ahead.days, strict=True))
    assert sum(likely) > sum(ahead.days)


def test_what_is_gone_over_before_it_is_due_is_not_counted_as_due() -> None:
    learner, day = after(3, well)
    ahead = look_ahead(CATALOGUE, learner.ledger, day=day)
    likely = looked(learner, ahead, day).expected
    assert sum(ahead.days[1:9]) > 20
    assert sum(likely[1:9]) < sum(ahead.days[1:9]) / 2
    dues = []
    for nth in range(day, day + 9):
        learner.practise(well, nth)
        dues.append(look_ahead(CATALOGUE, learner.ledger, day=nth + 1).due)
    assert sum(dues[1:]) == pytest.approx(sum(likely[1:9]), abs=6)


def test_what_an_item_needs_is_expected_each_day_while_that_is_taken_apart() -> None:
    learner = Learner(CATALOGUE)
    for nth in range(2):
        learner.ledger.apply(make_event("line/1/0", TODAY + nth))
    learner.ledger.apply(make_event("note/1/0", TODAY))
    for _ in range(6):
        learner.ledger.apply(make_event("note/1/0", TODAY + 1, right=False))
    assert learner.ledger.states["note/1/0"].stuck
    ahead = look_ahead(CATALOGUE, learner.ledger, day=TODAY + 1)
    assert ahead.days[0] == 1
    assert learner.ledger.states["line/1/0"].due > TODAY + 2
    assert looked(learner, ahead, TODAY + 1).expected[0] == ahead.days[0] + 1 + ahead.new
    assert look_ahead(CATALOGUE, learner.ledger, day=TODAY + 2).due == 2


@pytest.mark.parametrize("days", range(ENOUGH_DAYS))
def test_after_a_day_or_two_it_is_too_early_for_a_date(days: int) -> None:
    stage = outlook_of(*after(days, well)).stage
    assert stage.prospect is Prospect.TOO_EARLY
    assert (stage.early, stage.likely, stage.late) == (None, None, None)


def test_a_date_is_a_range_in_order_that_lies_ahead() -> None:
    learner, day = after(6, well)
    stage = outlook_of(learner, day).stage
    assert stage.prospect is Prospect.DATED
    assert stage.early is not None
    assert stage.likely is not None
    assert stage.late is not None
    assert day <= stage.early <= stage.likely <= stage.late


def test_who_practises_on_fewer_days_gets_there_later() -> None:
    learner, day = after(5, one_who_learns(3))  # who needs more than the three days that nobody is spared
    ledger, ahead = learner.ledger, look_ahead(CATALOGUE, learner.ledger, day=day)
    pace = pace_of(CATALOGUE, ledger, day=day, minutes=10)
    coming = forecast(CATALOGUE, ledger, pace, ahead, day=day, minutes=10)
    always, rarely = (
        stage_ahead(CATALOGUE, ledger, pace._replace(comes=comes), coming, day=day).likely
        for comes in ((20.0, 0.25), (10.0, 10.0))
    )
    assert always is not None
    assert rarely is not None
    assert rarely > always


def test_days_without_practice_are_counted_but_a_long_rest_only_as_a_short_one() -> None:
    shares = {}
    for name, days in {"daily": (0, 1, 2, 3), "gaps": (0, 2, 4, 6), "rest": (0, 1, 2, 300)}.items():
        ledger = Ledger()
        for day in days:
            ledger.apply(make_event(day=TODAY + day))
        shares[name] = mean(pace_of(CATALOGUE, ledger, day=TODAY + days[-1], minutes=10).comes)
    assert shares["daily"] > 0.9
    assert shares["rest"] > 0.2
    assert shares["daily"] > shares["gaps"] > shares["rest"]


def untimed(asked: Asked) -> Answer:
    return Answer(asked.question.model, None)


@pytest.mark.parametrize(
    ("reply", "told"), [(slowly, Prospect.SLOW), (badly, Prospect.WRONG), (untimed, Prospect.UNTIMED)]
)
def test_where_it_goes_nowhere_it_says_what_is_in_the_way(reply: Reply, told: Prospect) -> None:
    stage = outlook_of(*after(8, reply)).stage
    assert (stage.prospect, stage.likely) == (told, None)


def test_with_every_item_fluent_there_is_nothing_to_say() -> None:
    ledger = Ledger()
    for day in (0, 1, 2, 6):
        for item in CATALOGUE.items:
            ledger.apply(make_event(item.id, TODAY + day))
    ahead = look_ahead(CATALOGUE, ledger, day=TODAY + 7)
    stage = outlook(CATALOGUE, ledger, ahead, day=TODAY + 7, minutes=10).stage
    assert (stage.prospect, stage.fluent) == (Prospect.ALL_FLUENT, len(CATALOGUE.items))


def test_with_nine_tenths_fluent_the_date_is_that_of_all() -> None:
    learner, day = Learner(CATALOGUE), TODAY + 7
    for when in (0, 1, 2, 6):
        for item in CATALOGUE.items[2:]:
            learner.ledger.apply(make_event(item.id, TODAY + when))
    stage = outlook_of(learner, day).stage
    assert stage.target == stage.items == len(CATALOGUE.items)
    assert stage.likely is not None
    assert stage.likely > day + 3  # three cold answers, the last after three days or more
