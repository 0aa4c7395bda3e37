"""The order of one sitting, with a plain catalogue and made-up learners."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.question import Answer
from tests.trainer.fakes import (
    TODAY,
    Learner,
    Reply,
    badly,
    make_catalogue,
    make_event,
    mixed,
    overdue,
    reasons,
    slowly,
    well,
)
from trainer.practice import Asked
from trainer.schedule.intake import FIRST_DAYS_CAP, RIGHT_TODAY
from trainer.schedule.ledger import Ledger
from trainer.schedule.repeats import MOST_ASKINGS
from trainer.schedule.state import STUCK
from trainer.schedule.why import Why

CATALOGUE = make_catalogue()


def test_the_first_sitting_is_a_lesson_that_fills_its_ten_minutes() -> None:
    learner = Learner(CATALOGUE)
    practice = learner.practise(well)
    assert 140 <= len(learner.asked) <= 160
    assert practice.reason == "limit"
    assert set(reasons(learner)) == {"new", "repeat", "second"}
    assert len(practice.summary().new) == FIRST_DAYS_CAP


@pytest.mark.parametrize(("reply", "seconds"), [(slowly, 5.0), (mixed(1), 4.0), (well, 2.6)])
def test_the_first_sitting_fills_its_time_for_other_learners_too(reply: Reply, seconds: float) -> None:
    practice = Learner(CATALOGUE).practise(reply, seconds=seconds)
    assert practice.summary().minutes >= 9.5


def test_a_new_item_comes_back_after_about_two_and_four_others() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    places = [at for at, item in enumerate(learner.ids) if item == learner.ids[0]]
    assert places[0] == 0
    assert 2 <= places[1] - places[0] - 1 <= 3
    assert 4 <= places[2] - places[1] - 1 <= 6


def test_new_items_come_in_teaching_order_as_what_they_need_allows() -> None:
    learner = Learner(make_catalogue(roots=1, frets=3))
    learner.practise(well)
    new = [asked.item.id for asked in learner.asked if asked.why is Why.NEW]
    assert new[:6] == [f"line/{string}/0" for string in range(1, 7)]
    met: Counter[str] = Counter()
    for asked in learner.asked:
        if asked.why is Why.NEW:
            assert all(met[need] >= 3 for need in asked.item.needs)
        met[asked.item.id] += 1
    assert any(asked.item.needs for asked in learner.asked)


def test_what_needs_a_shaky_item_waits() -> None:
    learner = Learner(make_catalogue(roots=1, frets=3))
    learner.practise(slowly, limit=31)
    assert not any(asked.item.needs for asked in learner.asked)
    # right four times today is known well enough for what needs it, however slow
    slow = Learner(make_catalogue(roots=1, frets=3))
    slow.practise(slowly)
    first = next(at for at, asked in enumerate(slow.asked) if asked.item.needs)
    assert slow.ids[:first].count(slow.asked[first].item.needs[0]) >= RIGHT_TODAY


def test_the_next_day_begins_with_all_of_yesterdays_new_items() -> None:
    learner = Learner(CATALOGUE)
    yesterday = learner.practise(well).summary().new
    learner.practise(well, TODAY + 1)
    assert set(learner.ids[: len(yesterday)]) == set(yesterday)
    assert all(asked.why is Why.DUE for asked in learner.asked[: len(yesterday)])
    assert learner.asked[len(yesterday)].why is Why.NEW


def test_a_missed_item_comes_back_after_a_few_others_and_one_right_answer_clears_it() -> None:
    learner = overdue(40, TODAY - 30)
    missed: list[str] = []

    def reply(asked: Asked) -> Answer:
        if not missed:
            missed.append(asked.item.id)
            return badly(asked)
        return well(asked)

    learner.practise(reply)
    places = [at for at, item in enumerate(learner.ids) if item == missed[0]]
    assert [learner.asked[at].why for at in places].count(Why.REPEAT) == 1
    assert learner.asked[places[1]].why is Why.REPEAT
    assert 5 <= places[1] - places[0] - 1 <= 6
    assert [outcome.repeat for outcome in learner.outcomes][:2] == [True, False]


def test_right_but_slow_does_not_come_back_the_same_day() -> None:
    learner = overdue(20, TODAY - 60)
    learner.practise(slowly)
    due = [at for at, asked in enumerate(learner.asked) if asked.why is Why.DUE]
    assert len({learner.ids[at] for at in due}) == len(due) == 20
    assert all(learner.outcomes[at].slow and not learner.outcomes[at].repeat for at in due)


def test_what_is_always_missed_waits_for_tomorrow() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(badly, seconds=1.0)
    assert max(Counter(learner.ids).values()) <= min(MOST_ASKINGS, STUCK)


def test_six_slips_show_the_item_as_stuck_and_its_parts_come_right_before_it() -> None:
    learner = Learner(make_catalogue(roots=0, frets=1))
    for item in learner.catalogue.items:
        learner.ledger.apply(make_event(item.id, TODAY - 9))
    for _ in range(6):
        learner.ledger.apply(make_event("note/3/0", TODAY - 9, right=False))
    learner.practise(well, TODAY)
    at = learner.ids.index("note/3/0")
    assert learner.asked[at].stuck
    assert "line/3/0" in learner.ids[:at]


def test_lowest_recall_comes_first() -> None:
    learner = overdue(12, TODAY - 30)
    shaky = learner.catalogue.items[5].id
    learner.ledger.apply(make_event(shaky, TODAY - 29, right=False))
    learner.practise(well)
    assert learner.ids[0] == shaky


@pytest.mark.parametrize("seed", range(3))
def test_no_item_twice_in_a_row_no_answer_three_times_and_strings_in_turn(seed: int) -> None:
    learner = Learner(CATALOGUE)
    for day in range(4):
        learner.practise(mixed(seed, 0.9), TODAY + day, seed=seed)
        ids, answers = learner.ids, [asked.question.model for asked in learner.asked]
        assert all(one != two for one, two in pairwise(ids))
        triples = zip(answers, answers[1:], answers[2:], strict=False)
        assert not any(one == two == three for one, two, three in triples)
    due = [asked.item.subject[0] for asked in learner.asked if asked.why is Why.DUE]
    same = sum(one == two for one, two in pairwise(due))
    assert same <= len(due) // 10


def test_a_lonely_item_is_asked_all_the_same() -> None:
    catalogue = make_catalogue(roots=0, frets=0)
    one = Learner(type(catalogue)(
        catalogue.tuning, catalogue.items[:1], {"line/1/0": catalogue.items[0]}, catalogue.drills, {}
    ))  # fmt: skip
    one.practise(well)
    assert len(one.asked) >= 3


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10_000), st.floats(0.0, 1.0))
def test_the_same_seed_and_record_give_the_same_queue(seed: int, right: float) -> None:
    first, second = Learner(CATALOGUE), Learner(CATALOGUE)
    for learner in (first, second):
        for day in (0, 1, 3):
            learner.practise(mixed(seed, right), TODAY + day, seed=seed, minutes=4)
    assert first.ids == second.ids
    assert first.record == second.record
    replayed = Ledger()
    for one in first.record:
        replayed.apply(one)
    assert replayed.as_data() == first.ledger.as_data()
    third = Learner(CATALOGUE, replayed)
    for learner in (first, third):
        learner.practise(well, TODAY + 4, seed=seed, minutes=4)
    assert first.ids == third.ids


def test_another_seed_gives_another_order() -> None:
    one, two = overdue(40, TODAY - 30), overdue(40, TODAY - 30)
    one.practise(well, seed=1)
    two.practise(well, seed=2)
    assert set(one.ids[:40]) == set(two.ids[:40])
    assert one.ids != two.ids


def test_a_placement_asks_twenty_spread_questions_and_spares_a_reader_the_introduction() -> None:
    learner = Learner(CATALOGUE)
    practice = learner.practise(well, placement=True)
    placed = learner.asked[:20]
    assert all(asked.placement and asked.why is Why.NEW for asked in placed)
    assert not any(asked.help or asked.lesson for asked in placed)
    assert {asked.item.drill for asked in placed} == {"line", "place", "note"}
    assert not {asked.item.id for asked in placed} & set(learner.ids[20:])
    assert not any(asked.lesson for asked in learner.asked)
    assert len(practice.summary().new) == 20 + FIRST_DAYS_CAP
    learner.practise(well, TODAY + 1)
    why = {asked.item.id: asked.why for asked in reversed(learner.asked)}
    assert all(why[asked.item.id] is Why.DUE for asked in placed)


def test_a_placement_of_a_beginner_ends_early_and_the_lesson_begins() -> None:
    learner = Learner(CATALOGUE)

    def beginner(asked: Asked) -> Answer:
        return badly(asked) if asked.placement else well(asked)

    learner.practise(beginner, placement=True)
    assert sum(asked.placement for asked in learner.asked) == 5
    assert learner.asked[5].item.id == "line/1/0"
    assert learner.asked[5].lesson is not None
    # what was asked too early comes back once what it needs is there, not as a failure every day
    too_early = {asked.item.id for asked in learner.asked[:5] if asked.item.needs}
    learner.practise(well, TODAY + 1, limit=20)
    assert not too_early & set(learner.ids)
