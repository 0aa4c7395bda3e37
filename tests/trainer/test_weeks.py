"""A week of sittings on the catalogue as it is shipped, as a learner sees it: varied, and never silly."""

from __future__ import annotations

import random
from collections import Counter
from functools import cache
from itertools import groupby, pairwise
from typing import NamedTuple

import pytest

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Answer, Item, Kind
from drills.registry import DRILLS
from drills.stages import Stage
from tests.trainer.fakes import STANDARD, TODAY, Learner, Reply, make_event, well
from trainer.practice import Asked
from trainer.schedule.families import family
from trainer.schedule.intake import MOST_OF_A_STAGE, STAGES_AHEAD
from trainer.schedule.meeting import AT_A_TIME, meeting_order
from trainer.schedule.repeats import MOST_ASKINGS
from trainer.schedule.traits import TAPS_APART
from trainer.schedule.why import Why

DAYS = 7
FIRST_LESSON = 20
"""The first questions of all are about six lines, because nothing else is known yet."""


class Way(NamedTuple):
    """How somebody learns: how often right, in how many seconds, and how long a question takes with its verdict."""

    right: float
    seconds: float
    whole: float
    tuning: str = "standard"


WAYS = {
    "beginner": Way(0.8, 2.0, 4.0),
    "quick": Way(0.97, 1.2, 2.5),
    "careful": Way(0.95, 4.0, 6.0),
    "bass": Way(0.92, 1.5, 3.5, "bass"),
    "ukulele": Way(0.92, 1.5, 3.5, "ukulele"),
}


def replies(way: Way) -> Reply:
    """Right so often, by a fixed draw."""
    rng = random.Random(5)

    def reply(asked: Asked) -> Answer:
        return Answer(asked.question.model if rng.random() < way.right else "-", way.seconds)

    return reply


@cache
def week(who: str) -> tuple[tuple[Asked, ...], ...]:
    """What is asked on seven days, ten minutes a day."""
    way = WAYS[who]
    learner, reply = Learner(catalogue(shipped()[way.tuning])), replies(way)
    days = []
    for day in range(DAYS):
        learner.practise(reply, TODAY + day, seconds=way.whole)
        days.append(tuple(learner.asked))
    return tuple(days)


def longest_run(names: list[str]) -> int:
    return max(len(list(same)) for _, same in groupby(names))


@pytest.fixture(params=WAYS)
def days(request: pytest.FixtureRequest) -> tuple[tuple[Asked, ...], ...]:
    return week(str(request.param))


def test_no_drill_and_no_prompt_many_times_in_a_row(days: tuple[tuple[Asked, ...], ...]) -> None:
    for n, day in enumerate(days):
        later = day[FIRST_LESSON:] if n == 0 else day
        assert longest_run([asked.item.drill for asked in later]) <= 6
        assert longest_run([asked.question.prompt for asked in later]) <= 6
        assert longest_run([family(asked.item.drill) for asked in later]) <= 12


def test_no_item_twice_and_no_answer_three_times_in_a_row(days: tuple[tuple[Asked, ...], ...]) -> None:
    for day in days:
        assert all(one.item.id != two.item.id for one, two in pairwise(day))
        assert longest_run([asked.question.model for asked in day]) <= 2


def test_no_item_is_asked_more_than_seven_times_a_day(days: tuple[tuple[Asked, ...], ...]) -> None:
    for day in days:
        assert max(Counter(asked.item.id for asked in day).values()) <= MOST_ASKINGS


def test_every_day_mixes_families_and_none_takes_more_than_two_thirds(
    days: tuple[tuple[Asked, ...], ...],
) -> None:
    for day in days:
        counts = Counter(family(asked.item.drill) for asked in day)
        assert len(counts) >= 3
        assert max(counts.values()) <= len(day) * 2 / 3
    assert len({family(asked.item.drill) for day in days for asked in day}) >= 4


def test_a_lesson_is_followed_by_questions_of_its_own_before_the_next_one(
    days: tuple[tuple[Asked, ...], ...],
) -> None:
    for day in days:
        assert not any(one.lesson and two.lesson for one, two in pairwise(day))
        for at, asked in enumerate(day[:-6]):
            if asked.lesson and not asked.stuck:  # what stands for a landmark is told before one question
                lesson = (asked.item.drill, asked.item.lesson)
                assert sum((each.item.drill, each.item.lesson) == lesson for each in day[at:]) >= 2


def test_nothing_is_asked_before_what_it_stands_on(days: tuple[tuple[Asked, ...], ...]) -> None:
    met: set[str] = set()
    for asked in (asked for day in days for asked in day):
        assert met.issuperset(asked.item.needs)
        met.add(asked.item.id)


@pytest.mark.parametrize("who", WAYS)
def test_no_stage_is_begun_long_before_the_earlier_ones_are_met(who: str) -> None:
    left = Counter(item.stage for item in catalogue(shipped()[WAYS[who].tuning]).items)
    size = left.copy()
    for asked in (asked for day in week(who) for asked in day if asked.why is Why.NEW):
        begun = min(stage for stage in size if left[stage] > (1 - MOST_OF_A_STAGE) * size[stage])
        assert asked.item.stage <= begun + STAGES_AHEAD
        left[asked.item.stage] -= 1


@pytest.mark.parametrize("who", ["quick", "careful", "bass", "ukulele"])
def test_every_sitting_of_the_first_week_fills_its_minutes(who: str) -> None:
    for day in week(who):
        assert 9.8 <= len(day) * WAYS[who].whole / 60 <= 10.5


def test_who_often_errs_is_held_at_what_was_met_and_still_has_a_sitting_of_some_length() -> None:
    for day in week("beginner"):
        assert 6 <= len(day) * WAYS["beginner"].whole / 60 <= 10.5


def test_a_quick_learner_meets_a_first_chord_and_note_value_within_the_week() -> None:
    met = {asked.item.drill for day in week("quick") for asked in day}
    assert {"diagram-to-tab", "value-name", "bar-count", "mark-name", "place-to-tab", "order"} <= met


def test_the_first_lesson_is_the_six_lines_and_nothing_breaks_it_off() -> None:
    new = [asked.item for asked in week("quick")[0] if asked.why is Why.NEW]
    assert {item.drill for item in new[:6]} == {"line-to-string"}
    assert {family(item.drill) for item in new[6:24]} >= {"lines", "order", "places"}


def test_bars_to_tap_are_far_from_one_another_and_not_gone_over_a_second_time() -> None:
    learner = Learner(catalogue(STANDARD))
    taps = [item for item in learner.catalogue.items if item.kind is Kind.TAP][:12]
    others = [item for item in learner.catalogue.items if item.stage <= Stage.NAMES]
    for item in [*taps, *others]:
        learner.ledger.apply(make_event(item.id, TODAY - 4))
    learner.practise(well)
    places = [at for at, asked in enumerate(learner.asked) if asked.item.kind is Kind.TAP]
    assert len(places) >= 10
    assert all(two - one > TAPS_APART for one, two in pairwise(places))
    assert all(learner.asked[at].why is Why.DUE for at in places)


def test_a_placement_asks_every_family_and_no_bar_to_tap() -> None:
    learner = Learner(catalogue(STANDARD))
    learner.practise(well, placement=True, limit=20)
    counts = Counter(family(asked.item.drill) for asked in learner.asked)
    assert set(counts) == {family(name) for name in DRILLS}
    assert min(counts.values()) >= 2
    assert max(counts.values()) <= 3
    assert not any(asked.item.kind is Kind.TAP for asked in learner.asked)
    stages = [asked.item.stage for asked in learner.asked]
    assert stages == sorted(stages)


def test_every_drill_belongs_to_a_family_of_several_or_stands_alone_on_purpose() -> None:
    sizes = Counter(map(family, DRILLS))
    assert [name for name, size in sizes.items() if size == 1] == ["order"]
    assert len(sizes) == 8


@pytest.mark.parametrize("tuning", ["standard", "bass", "8-string"])
def test_the_order_of_meeting_keeps_the_order_of_each_lesson_and_puts_no_family_last(tuning: str) -> None:
    items = catalogue(shipped()[tuning]).items
    order = meeting_order(items)
    assert sorted(order) == list(range(len(items)))
    met: list[Item] = [item for _, item in sorted(zip(order, items, strict=True), key=lambda pair: pair[0])]
    seen: dict[tuple[str, str, int], list[str]] = {}
    for item in met:
        seen.setdefault((item.drill, item.lesson, item.stage), []).append(item.id)
    for (drill, lesson, stage), ids in seen.items():
        assert ids == [item.id for item in items if (item.drill, item.lesson, item.stage) == (drill, lesson, stage)]
    assert {item.lesson for item in met[:4]} == {"lines"}
    assert longest_run([item.drill for item in met[:300]]) <= 2 * AT_A_TIME
    assert len({family(item.drill) for item in met[:150]}) >= 6
