"""What is gone over before its day: it keeps nothing from becoming fluent or kept. Our rule."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, Learner, make_catalogue, make_event, well
from trainer.schedule.early import early_queue
from trainer.schedule.intake import Intake
from trainer.schedule.lasting import FIRST
from trainer.schedule.ledger import Ledger
from trainer.schedule.state import FLUENT_REST, FLUENT_RUN
from trainer.schedule.status import Status, status

CATALOGUE = make_catalogue(roots=2, frets=1)
ONE = CATALOGUE.items[0].id


def early(ledger: Ledger, day: int) -> list[str]:
    """What may come before it is due on that day."""
    return early_queue(CATALOGUE, ledger, Intake(CATALOGUE, ledger, day=day, minutes=10), day, random.Random(1))


def answered(*days: int, seconds: float = 1.0) -> Ledger:
    """One item, answered on those days."""
    ledger = Ledger()
    for day in days:
        ledger.apply(make_event(ONE, TODAY + day, seconds=seconds))
    return ledger


def test_what_was_read_twice_in_a_row_is_left_alone_until_it_can_become_fluent() -> None:
    ledger = answered(0, 1, 2)
    known = ledger.states[ONE]
    assert known.fast_run == FLUENT_RUN - 1
    assert known.due > TODAY + 2 + FLUENT_REST
    for day in (3, 4):
        assert early(ledger, TODAY + day) == []
    assert early(ledger, TODAY + 2 + FLUENT_REST) == [ONE]
    ledger.apply(make_event(ONE, TODAY + 2 + FLUENT_REST))
    assert status(ledger.states[ONE]) is Status.FLUENT


def test_what_was_read_many_times_rests_until_it_can_show_that_it_is_kept() -> None:
    ledger = answered(0, 1, 2, 5, 8)
    known = ledger.states[ONE]
    assert status(known) is Status.FLUENT
    assert all(early(ledger, day) == [] for day in range(TODAY + 9, known.due))
    ledger.apply(make_event(ONE, known.due))
    assert status(ledger.states[ONE]) is Status.KEPT
    assert all(early(ledger, day) == [] for day in range(known.due + 1, ledger.states[ONE].due))


def test_nothing_comes_early_that_is_due_new_or_was_asked_today() -> None:
    ledger = answered(0, 1)
    assert early(ledger, TODAY + 1) == []
    due = ledger.states[ONE].due
    assert early(ledger, due) == []
    assert early(ledger, due - 1) == [ONE]
    assert early(Ledger(), TODAY) == []


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 9), st.sampled_from(["fast", "slow", "wrong"])), max_size=12),
    st.integers(0, 10_000),
    st.floats(0.3, 1.0),
)
def test_what_is_read_whenever_it_may_be_asked_becomes_fluent_and_kept(
    past: list[tuple[int, str]], seed: int, comes: float
) -> None:
    ledger = Ledger()
    day = TODAY
    ledger.apply(make_event(ONE, day))
    for step, how in past:
        day += step
        ledger.apply(make_event(ONE, day, right=how != "wrong", seconds=5.0 if how == "slow" else 1.0))
    rng = random.Random(seed)
    reached: dict[Status, int] = {}
    for practised in range(60):
        day += 1
        while rng.random() > comes:
            day += 1  # a day off
        known = ledger.states[ONE]
        if known.due <= day or ONE in early(ledger, day):
            ledger.apply(make_event(ONE, day))
        reached.setdefault(status(ledger.states[ONE]), practised)
    assert status(ledger.states[ONE]) is Status.KEPT
    # Asking early costs no more than the rests that show it: two answers, three days, and a week or a little more.
    assert reached.get(Status.FLUENT, reached[Status.KEPT]) <= 2 + 2 * FLUENT_REST + FIRST
    assert reached[Status.KEPT] <= 2 + 3 * FLUENT_REST + 3 * FIRST


def test_a_learner_with_time_to_spare_is_fluent_in_all_of_a_small_catalogue_within_weeks() -> None:
    learner = Learner(CATALOGUE)
    for day in range(45):
        learner.practise(well, TODAY + day, seconds=2.0)
    assert {status(learner.ledger.states[item.id]) for item in CATALOGUE.items} == {Status.KEPT}
