"""One sitting as the screen, the lines of text and the tests drive it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from math import inf, nan

import pytest

from drills.question import Answer, Manner
from tests.trainer.fakes import (
    TODAY,
    Learner,
    badly,
    make_catalogue,
    make_event,
    mixed,
    slowly,
    well,
)
from trainer.practice import Asked, Practice
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.status import Status
from trainer.schedule.why import Why

CATALOGUE = make_catalogue()
MORNING = datetime(2026, 11, 25, 8, tzinfo=UTC)


def sitting(
    ledger: Ledger | None = None,
    record: list[Event] | None = None,
    *,
    minutes: float = 10.0,
    limit: int | None = None,
    base: float = 0.5,
) -> Practice:
    """A sitting at eight in the morning."""
    kept: list[Event] = [] if record is None else record
    return Practice(
        CATALOGUE,
        Ledger() if ledger is None else ledger,
        keep=lambda event, now: kept.append(event),
        day=TODAY,
        seed=1,
        sitting=1,
        minutes=minutes,
        manner=Manner(),
        started=MORNING,
        limit=limit,
        base=base,
    )


def ask(practice: Practice) -> Asked:
    """The next question, which must come."""
    asked = practice.next(MORNING)
    assert asked is not None
    return asked


def test_the_first_question_comes_with_its_lesson_and_help() -> None:
    practice = sitting()
    asked = ask(practice)
    assert (asked.n, asked.item.id, asked.why, asked.limit) == (1, "line/1/0", Why.NEW, 1.7)
    assert asked.help == ("letters",)
    assert asked.lesson is not None
    assert asked.lesson.title == "lines"
    assert practice.explain() == asked.lesson


def test_the_limit_follows_the_hand() -> None:
    assert ask(sitting(base=0.8)).limit == 2.0
    assert ask(sitting(base=nan)).limit == 1.7


def test_the_same_question_stays_open_until_it_is_answered() -> None:
    practice = sitting()
    asked = ask(practice)
    assert ask(practice) is asked
    assert practice.current is asked
    practice.answer(well(asked), MORNING)
    assert practice.current is None
    assert practice.explain() is None
    assert ask(practice).n == 2


def test_an_answer_without_a_question_is_refused() -> None:
    with pytest.raises(RuntimeError, match="no question"):
        sitting().answer(Answer("1", 1.0), MORNING)


def test_the_record_is_written_before_anything_else_changes() -> None:
    ledger = Ledger()
    seen: list[tuple[int, datetime]] = []
    practice = Practice(
        CATALOGUE,
        ledger,
        keep=lambda event, now: seen.append((ledger.events, now)),
        day=TODAY,
        seed=1,
        sitting=1,
        minutes=10,
        manner=Manner(),
        started=MORNING,
    )
    practice.answer(well(ask(practice)), MORNING + timedelta(seconds=2))
    assert seen == [(0, MORNING + timedelta(seconds=2))]
    assert ledger.events == 1


def test_an_answer_that_could_not_be_written_leaves_the_question_open() -> None:
    ledger = Ledger()

    def full(event: Event, now: datetime) -> None:
        raise OSError("no space left")

    practice = Practice(
        CATALOGUE, ledger, keep=full, day=TODAY, seed=1, sitting=1, minutes=10, manner=Manner(), started=MORNING
    )
    asked = ask(practice)
    with pytest.raises(OSError, match="space"):
        practice.answer(well(asked), MORNING)
    assert ask(practice) is asked
    assert ledger.events == 0


def test_what_is_kept_is_what_was_answered() -> None:
    record: list[Event] = []
    practice = sitting(record=record)
    asked = ask(practice)
    outcome = practice.answer(Answer("6", 1.25), MORNING)
    assert record == [
        Event(
            day=TODAY,
            item="line/1/0",
            right=False,
            said="6",
            seconds=1.25,
            base=0.5,
            limit=1.7,
            timed=True,
            misreadings=("mirrored-line",),
            help=("letters",),
        )
    ]
    assert not outcome.verdict.right
    assert outcome.repeat
    assert not outcome.slow
    assert outcome.limit == asked.limit


def test_right_but_slow_is_said() -> None:
    practice = sitting()
    outcome = practice.answer(slowly(ask(practice)), MORNING)
    assert outcome.verdict.right
    assert outcome.slow
    assert outcome.seconds == 4.0


@pytest.mark.parametrize("seconds", [None, nan, inf, -2.0, 1e12])
def test_impossible_seconds_are_untimed_and_never_slow(seconds: float | None) -> None:
    record: list[Event] = []
    practice = sitting(record=record)
    outcome = practice.answer(Answer(ask(practice).question.model, seconds), MORNING)
    assert (outcome.timed, outcome.slow, outcome.seconds) == (False, False, None)
    assert (record[0].timed, record[0].seconds) == (False, None)


def test_a_just_missed_item_comes_back_with_help_and_then_with_less_and_less() -> None:
    learner = Learner(CATALOGUE)
    missed: list[bool] = []

    def reply(asked: Asked) -> Answer:
        if asked.item.id == "line/2/0" and len(missed) < 1:
            missed.append(True)
            return badly(asked)
        return well(asked)

    learner.practise(reply)
    helps = [asked.help for asked in learner.asked if asked.item.id == "line/2/0"]
    assert helps[:4] == [("letters",), ("letters",), ("letter",), ()]


def test_a_cold_question_has_no_help() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(mixed(4, 0.5))
    learner.practise(well, TODAY + 1)
    due = [asked for asked in learner.asked if asked.why is Why.DUE and not asked.stuck]
    assert due
    assert all(asked.help == () for asked in due)


def test_each_lesson_is_shown_once_in_a_sitting_and_not_again_once_something_of_it_was_right() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    assert [asked.lesson.title for asked in learner.asked if asked.lesson] == ["lines", "places", "notes"]
    learner.practise(well, TODAY + 1)
    assert not any(asked.lesson for asked in learner.asked)


def test_a_lesson_that_did_not_help_is_shown_again_the_next_time() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(badly, limit=12)
    assert [asked.item.lesson for asked in learner.asked if asked.lesson] == ["lines"]
    learner.practise(well, TODAY + 1, limit=6)
    assert [(asked.n, asked.item.lesson) for asked in learner.asked if asked.lesson] == [(1, "lines")]


def test_it_stops_after_so_many_answers() -> None:
    learner = Learner(CATALOGUE)
    practice = learner.practise(well, limit=5)
    assert len(learner.asked) == 5
    assert practice.reason == "limit"


def test_a_long_break_does_not_eat_the_sitting() -> None:
    practice = sitting(minutes=1)
    now = MORNING
    asked = practice.next(now)
    assert asked is not None
    now += timedelta(hours=1)
    practice.answer(well(asked), now)
    assert practice.seconds_left == 30.0
    assert practice.next(now) is not None


def test_a_clock_that_jumps_back_takes_no_time_away() -> None:
    practice = sitting(minutes=1)
    asked = ask(practice)
    practice.answer(well(asked), MORNING - timedelta(hours=5))
    assert practice.seconds_left == 60.0


def test_what_was_missed_last_still_comes_back_after_the_minutes_are_over() -> None:
    learner = Learner(CATALOGUE)

    def reply(asked: Asked) -> Answer:
        return badly(asked) if asked.n in (13, 14) else well(asked)

    learner.practise(reply, minutes=1, seconds=4.0)
    missed = learner.ids[12:14]
    assert len(learner.asked) == 17
    assert set(missed) <= set(learner.ids[14:])


def test_who_always_misses_is_let_go_soon_after_the_minutes() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(badly, minutes=1, seconds=4.0)
    assert 15 <= len(learner.asked) <= 15 + 6


def test_the_learner_may_go_on() -> None:
    learner = Learner(CATALOGUE)
    practice = learner.practise(well, minutes=1)
    assert practice.reason == "limit"
    practice.go_on(5)
    assert practice.reason is None
    assert practice.next(MORNING) is not None


def test_the_summary_tells_what_became_better() -> None:
    learner = Learner(CATALOGUE)
    for day in (0, 1):
        learner.practise(well, TODAY + day)
    became: dict[tuple[str, Status], int] = {}
    for day in range(2, 24):
        summary = learner.practise(well, TODAY + day).summary()
        became.update(dict.fromkeys(summary.rose, day))
        assert not {item for item, _ in summary.rose} & set(summary.new)
    assert {now for _, now in became} == {Status.KNOWN, Status.FLUENT, Status.KEPT}


def test_the_summary_counts() -> None:
    practice = sitting()
    now = MORNING
    for text, seconds in (("1", 1.0), ("5", 2.0), ("4", 1.2), ("nothing", None)):
        assert practice.next(now) is not None
        now += timedelta(seconds=3)
        practice.answer(Answer(text, seconds), now)
    summary = practice.summary()
    assert (summary.answers, summary.right, summary.slow) == (4, 1, 0)
    assert summary.median_seconds == 1.2
    assert summary.minutes == 0.2
    assert summary.misreading == ("mirrored-line", 2)
    assert summary.new[:3] == ("line/1/0", "line/2/0", "line/3/0")
    assert summary.rose == ()


def test_an_empty_summary() -> None:
    summary = sitting().summary()
    assert (summary.answers, summary.median_seconds, summary.misreading, summary.new) == (0, None, None, ())


def test_live_and_replayed_ledgers_are_the_same() -> None:
    learner = Learner(CATALOGUE)
    for day in range(5):
        learner.practise(slowly if day == 2 else well, TODAY + day)
    replayed = Ledger()
    for event in learner.record:
        replayed.apply(event)
    assert replayed.as_data() == learner.ledger.as_data()


def test_a_clock_set_back_counts_under_the_last_day() -> None:
    ledger = Ledger()
    ledger.apply(make_event(day=TODAY + 3))
    assert sitting(ledger).day == TODAY + 3
