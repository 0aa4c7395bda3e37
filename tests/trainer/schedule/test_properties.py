"""What holds of memory and days whatever is answered: against the ``fsrs`` package (6.3) where that is said, else by
our rules."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler, State
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, Learner, make_catalogue, make_event, mixed
from trainer.schedule import days, memory, state
from trainer.schedule.event import Event
from trainer.schedule.lasting import LEAST
from trainer.schedule.ledger import Ledger
from trainer.schedule.parameters import HIGHEST, LOWEST, PUBLISHED, RETENTION, Model
from trainer.schedule.state import ItemState

CATALOGUE = make_catalogue(roots=2, frets=2)
EVENING = datetime(2026, 11, 25, 20, tzinfo=UTC)

models = st.builds(
    Model,
    st.one_of(
        st.just(PUBLISHED),
        st.tuples(*(st.floats(low, high) for low, high in zip(LOWEST, HIGHEST, strict=True))),
    ),
    st.floats(0.5, 0.99),
)
answers = st.tuples(
    st.integers(0, 60), st.booleans(), st.one_of(st.none(), st.floats(0.2, 9.0)), st.sampled_from([(), ("neck",)])
)
histories = st.lists(answers, max_size=15)


def card(last_review: datetime) -> Card:
    """An item of the package, as if it had a memory of eight days."""
    return Card(
        card_id=1, state=State.Review, stability=8.0, difficulty=5.0, due=last_review, last_review=last_review
    )


def lived(history: list[tuple[int, bool, float | None, tuple[str, ...]]], model: Model, longest: int) -> ItemState:
    """The state after a history that begins with the meeting, by that model."""
    found = state.after(None, make_event())
    day = TODAY
    for step, right, seconds, helps in history:
        day += step
        event = make_event(day=day, right=right, seconds=seconds, helps=helps)
        found = state.after(found, event, 0, model, longest)
    return found


def evening(before: ItemState, model: Model, right: bool) -> ItemState:
    """Six more answers of the same day, each in half a second."""
    for _ in range(6):
        before = state.after(before, make_event(day=before.last, right=right, seconds=0.5), 0, model)
    return before


@settings(max_examples=40)
@given(histories, models, st.booleans())
def test_six_answers_in_one_evening_leave_the_memory_alone(
    history: list[tuple[int, bool, float | None, tuple[str, ...]]], model: Model, right: bool
) -> None:
    before = lived(history, model, memory.MAX_INTERVAL)
    after = evening(before, model, right)
    assert (after.memory, after.due, after.cold) == (before.memory, before.due, before.cold)
    assert (after.right_run, after.fast_run, after.slow_run) == (before.right_run, before.fast_run, before.slow_run)
    assert (after.fluent, after.kept) == (before.fluent, before.kept)


def test_the_package_as_it_comes_makes_months_of_one_evening() -> None:
    # The fsrs package, 6.3, used directly: why more answers of a day are kept from it.
    scheduler = Scheduler(enable_fuzzing=False)
    item = card(EVENING - timedelta(days=8))
    item, _ = scheduler.review_card(item, Rating.Easy, EVENING)
    assert item.stability is not None
    once = item.stability
    for minute in range(1, 6):
        item, _ = scheduler.review_card(item, Rating.Easy, EVENING + timedelta(minutes=minute))
    assert item.stability is not None
    assert item.stability > 4 * once


@pytest.mark.parametrize("hours", [23.5, 20.0, 24.5])
def test_half_an_hour_earlier_the_next_day_is_a_day_all_the_same(hours: float) -> None:
    # The package (6.3) calls all under 24 hours the same day, and whoever practises a little earlier each day gets no
    # further; after exactly a day it gives what we give.
    scheduler = Scheduler(enable_fuzzing=False, learning_steps=(), relearning_steps=(), desired_retention=RETENTION)
    morning = datetime(2026, 11, 24, 8, 30, tzinfo=UTC)
    later = morning + timedelta(hours=hours)
    rest = days.practice_day(later, UTC) - days.practice_day(morning, UTC)
    whole, _ = scheduler.review_card(card(morning), Rating.Good, morning + timedelta(days=1))
    direct, _ = scheduler.review_card(card(morning), Rating.Good, later)
    assert rest == 1
    assert memory.after((8.0, 5.0), rest, 3) == (whole.stability, whole.difficulty)
    assert (direct.stability == 8.0) == (hours < 24)


def test_who_practises_earlier_every_day_gets_further() -> None:
    at = datetime(2026, 11, 1, 22, tzinfo=UTC)
    found: ItemState | None = None
    for _ in range(20):
        found = state.after(found, make_event(day=days.practice_day(at, UTC)))
        at += timedelta(hours=23.5)
    assert found is not None
    assert found.cold == 19
    assert found.memory is not None
    assert found.memory[0] > 20


@settings(max_examples=200)
@given(histories, models, st.integers(LEAST, memory.MAX_INTERVAL), st.integers(1, 500), st.sampled_from("swu"))
def test_slow_wrong_or_untimed_lengthens_no_interval_whatever_the_parameters(
    history: list[tuple[int, bool, float | None, tuple[str, ...]]], model: Model, longest: int, rest: int, how: str
) -> None:
    before = lived(history, model, longest)
    seconds = {"s": 5.0, "w": 1.0, "u": None}[how]
    event = make_event(day=before.last + rest, right=how != "w", seconds=seconds)
    after = state.after(before, event, 0, model, longest)
    assert 1 <= after.due - after.last <= max(1, before.due - before.last)
    assert after.memory is not None
    if before.memory is not None:
        assert after.memory[0] <= before.memory[0]
    assert after.fast_run == 0
    if how == "w":
        assert not after.fluent


@settings(max_examples=100)
@given(histories, models, st.integers(LEAST, memory.MAX_INTERVAL), st.integers(1, 500))
def test_no_rest_is_longer_than_reading_lasts_with_the_learner(
    history: list[tuple[int, bool, float | None, tuple[str, ...]]], model: Model, longest: int, rest: int
) -> None:
    before = lived(history, model, longest)
    after = state.after(before, make_event(day=before.last + rest), 0, model, longest)
    most = max(longest, state.KEPT_REST + 1)
    assert 1 <= after.due - after.last <= min(most + max(1, most // 20), memory.MAX_INTERVAL)


@settings(max_examples=30, deadline=None)
@given(st.lists(
    st.builds(
        make_event,
        item=st.sampled_from([*(item.id for item in CATALOGUE.items), "gone/1", "gone/standard/2"]),
        day=st.integers(TODAY - 30, TODAY + 400),
        right=st.booleans(),
        seconds=st.one_of(st.none(), st.floats(0.15, 40.0)),
    ),
    max_size=60,
), st.integers(TODAY - 40, TODAY + 500))  # fmt: skip
def test_a_record_with_days_in_any_order_and_unknown_items_loses_nothing(record: list[Event], today: int) -> None:
    learner = Learner(CATALOGUE, Ledger())
    for event in record:
        learner.ledger.apply(event)
    for state_ in learner.ledger.states.values():
        assert state_.met <= state_.last < state_.due
    practice = learner.practise(mixed(1), today)
    assert learner.asked
    assert {asked.item.id for asked in learner.asked} <= CATALOGUE.by_id.keys()
    assert set(learner.ledger.states) >= {event.item for event in record}
    assert sum(tally.answers for tally in learner.ledger.days.values()) == len(record) + len(learner.asked)
    # Nothing is stranded: at the latest half a year after its last answer everything known comes again.
    far = max(practice.day, *(known.last for known in learner.ledger.states.values())) + 181
    assert all(known.due <= far for known in learner.ledger.states.values())
