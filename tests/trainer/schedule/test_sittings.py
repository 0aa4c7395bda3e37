"""The order of many sittings: backlogs, days off, what is confused or done, clocks set back."""

from __future__ import annotations

from collections import Counter

import pytest

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
from trainer.schedule.intake import DAY_CAP, FIRST_DAYS_CAP, LONGER_BY, Intake
from trainer.schedule.ledger import Ledger
from trainer.schedule.second import LESSON_ASKINGS
from trainer.schedule.state import after
from trainer.schedule.status import Status, status
from trainer.schedule.why import Why

CATALOGUE = make_catalogue()


def test_a_backlog_shows_one_sitting_and_nothing_new() -> None:
    learner = overdue(500, TODAY - 60)
    learner.practise(well)
    assert set(reasons(learner)) == {"due"}
    assert len(learner.asked) == 150
    # ... also for a program whose clock stands still
    still = overdue(500, TODAY - 60)
    still.practise(well, seconds=0.001)
    assert set(reasons(still)) == {"due"}
    assert len(still.asked) < 500


def test_nothing_new_while_cold_answers_go_wrong() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    learner.practise(mixed(3, 0.3), TODAY + 1)
    assert "new" not in reasons(learner)
    learner.practise(mixed(4, 0.3), TODAY + 2)
    assert "new" not in reasons(learner)
    # recovered: the last thirty cold answers have to show it
    for day in range(3, 9):
        learner.practise(well, TODAY + day)
        if "new" in reasons(learner):
            break
    assert day < 8


def test_a_few_new_ones_come_where_half_was_right_and_nothing_else_is_left() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    practice = learner.practise(mixed(3, 0.55), TODAY + 1)
    assert 0 < len(practice.summary().new) <= LONGER_BY
    first = next(at for at, asked in enumerate(learner.asked) if asked.why is Why.NEW)
    assert all(asked.why is not Why.DUE for asked in learner.asked[first:])


def test_after_days_off_new_items_wait_until_the_old_ones_are_back() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    learner.practise(mixed(5, 0.6), TODAY + 4)
    assert "new" not in reasons(learner)
    # who comes once a week and reads well goes on all the same
    weekly = Learner(CATALOGUE)
    for week in range(3):
        weekly.practise(well, TODAY + 7 * week)
    assert "new" in reasons(weekly)


def test_new_items_a_day_are_few_and_fewer_after_the_first_days() -> None:
    learner = Learner(CATALOGUE)
    counts = [len(learner.practise(well, TODAY + day).summary().new) for day in range(6)]
    assert all(count <= FIRST_DAYS_CAP for count in counts[:3])
    assert all(count <= DAY_CAP for count in counts[3:])
    assert counts[3] == DAY_CAP


def quickly(asked: Asked) -> Answer:
    """Right at once, as ``well``, but the question and its verdict take no two seconds."""
    return Answer(asked.question.model, 0.8)


def test_a_quick_learner_gets_more_than_the_first_days_cap_only_to_fill_the_minutes() -> None:
    learner = Learner(CATALOGUE)
    practice = learner.practise(quickly, seconds=1.2)
    new = [at for at, asked in enumerate(learner.asked) if asked.why is Why.NEW]
    assert practice.reason == "limit"
    assert practice.summary().minutes >= 9.9
    assert len(new) > FIRST_DAYS_CAP
    # all else was exhausted before the first one beyond: the others have been asked as often as they may be
    before = Counter(learner.ids[: new[FIRST_DAYS_CAP]])
    assert set(before.values()) == {LESSON_ASKINGS}
    assert len(before) == FIRST_DAYS_CAP


@pytest.mark.parametrize("day", range(2))
def test_the_cap_of_the_first_days_holds_where_the_minutes_are_filled(day: int) -> None:
    learner = Learner(CATALOGUE)
    for each in range(day + 1):
        practice = learner.practise(well, TODAY + each)
    assert practice.reason == "limit"
    assert len(practice.summary().new) <= FIRST_DAYS_CAP


@pytest.mark.parametrize(("wrong", "more"), [(0, True), (2, True), (3, False)])
def test_the_first_lesson_becomes_longer_only_where_nine_in_ten_of_the_last_were_right(
    wrong: int, more: bool
) -> None:
    intake = Intake(CATALOGUE, Ledger(), day=TODAY, minutes=10)
    for n in range(FIRST_DAYS_CAP):
        item = CATALOGUE.items[n]
        intake.taken(item.id, counts=True)
        state = after(None, make_event(item.id, TODAY, right=n >= FIRST_DAYS_CAP - 20 + wrong), 0)
        intake.observe(item.id, None, state)
    assert not intake.allows(0)
    assert intake.lengthen() is more
    assert intake.allows(0) is more
    assert not intake.lengthen()


def test_a_sitting_of_later_days_is_never_made_longer() -> None:
    learner = Learner(CATALOGUE)
    for day in range(5):
        learner.practise(quickly, TODAY + day, seconds=1.2)
    assert sum(asked.why is Why.NEW for asked in learner.asked) <= DAY_CAP


def test_the_days_new_items_count_over_its_sittings() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well, limit=40)
    learner.practise(well, sitting=2)
    assert sum(state.met == TODAY for state in learner.ledger.states.values()) == FIRST_DAYS_CAP


def test_a_second_sitting_takes_up_what_was_missed() -> None:
    learner = overdue(30, TODAY - 2)
    learner.practise(badly, limit=3)
    missed = set(learner.ids)
    learner.practise(well, sitting=2)
    assert set(learner.ids[:4]) >= missed


def test_confused_items_are_put_side_by_side() -> None:
    catalogue = make_catalogue(roots=0, frets=0)
    learner = Learner(catalogue)
    for day in (TODAY - 40, TODAY - 39, TODAY - 38):
        for item in catalogue.items:
            learner.ledger.apply(make_event(item.id, day))
    for _ in range(3):
        learner.ledger.apply(
            make_event("line/2/0", TODAY - 38, right=False, said="5", misreadings=("mirrored-line",))
        )
    learner.practise(well, TODAY - 38, sitting=2)
    contrast = [at for at, asked in enumerate(learner.asked) if asked.why is Why.CONTRAST]
    assert {learner.ids[at] for at in contrast} == {"line/2/0", "line/5/0"}
    assert len(contrast) == 2


def test_the_second_pass_is_for_the_first_two_weeks() -> None:
    for days, seconds in ((13, 12), (14, 0)):
        learner = Learner(make_catalogue(roots=1, frets=0))
        for item in learner.catalogue.items:
            learner.ledger.apply(make_event(item.id, TODAY - days))
        learner.practise(well)
        assert (reasons(learner)["due"], reasons(learner)["second"]) == (12, seconds)


def test_others_stand_between_a_miss_and_its_repeat_when_all_else_is_done() -> None:
    learner = overdue(10, TODAY - 30)
    learner.catalogue = make_catalogue(roots=1, frets=0)
    for item in learner.catalogue.items:
        learner.ledger.apply(make_event(item.id, TODAY - 30))
    last: list[str] = []

    def reply(asked: Asked) -> Answer:
        if asked.n == 12:
            last.append(asked.item.id)
            return badly(asked)
        return well(asked)

    learner.practise(reply)
    assert learner.ids.count(last[0]) == 2
    again = 12 + learner.ids[12:].index(last[0])
    assert again - 11 - 1 == 3


def test_nothing_left_is_said() -> None:
    learner = overdue(5, TODAY - 3)
    learner.catalogue = make_catalogue(roots=0, frets=0)
    for item in learner.catalogue.items:
        learner.ledger.apply(make_event(item.id, TODAY - 60))
    practice = learner.practise(well)
    assert practice.reason == "nothing-left"
    again = learner.practise(well, sitting=2)
    assert (learner.asked, again.reason) == ([], "nothing-left")


@pytest.mark.parametrize("reply", [badly, slowly, mixed(2)])
def test_learners_of_every_sort_get_a_practice_every_day(reply: Reply) -> None:
    learner = Learner(CATALOGUE)
    for day in [*range(8), 30, 395, 396]:
        learner.practise(reply, TODAY + day)
        assert learner.asked
        assert {asked.item.id for asked in learner.asked} <= learner.catalogue.by_id.keys()
    assert all(state.due <= TODAY + 396 + 190 for state in learner.ledger.states.values())


def test_who_returns_after_a_long_rest_starts_with_help_on_what_was_fluent() -> None:
    learner = Learner(make_catalogue(roots=2, frets=0))
    for day in range(30):
        learner.practise(well, TODAY + day)
    last = learner.ledger.last_day or 0
    practice = learner.practise(well, last + 40)
    assert practice.away == 40
    assert [asked.help for asked in learner.asked[:6]] == [("letters",)] * 5 + [()]
    assert all(status(learner.ledger.states[item]) is Status.KEPT for item in learner.ids[:5])


def test_a_clock_set_back_changes_nothing() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    learner.practise(well, TODAY + 1)
    before = {item: (state.memory, state.due, state.last) for item, state in learner.ledger.states.items()}
    practice = learner.practise(mixed(1), TODAY - 2, sitting=2)
    assert practice.day == TODAY + 1
    after = {item: (state.memory, state.due, state.last) for item, state in learner.ledger.states.items()}
    assert {item: after[item] for item in before} == before


def test_a_clock_far_back_is_no_error() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well, TODAY + 365)
    learner.practise(mixed(1), TODAY)
    assert all(state.due <= TODAY + 366 for state in learner.ledger.states.values())


def test_answers_to_items_that_no_longer_exist_are_harmless() -> None:
    learner = Learner(CATALOGUE)
    for day in range(3):
        learner.ledger.apply(make_event("gone/standard/1", TODAY - 9 + day, right=False))
    learner.practise(well)
    assert "gone/standard/1" not in learner.ids
