"""One update per item per practice day, and nothing slow or wrong ever earns a longer rest."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, make_event
from trainer.schedule import memory, state
from trainer.schedule.event import Event
from trainer.schedule.spread import spread
from trainer.schedule.state import ItemState

SLOW = 5.0


def history(*events: Event) -> ItemState:
    """The state after these answers."""
    found: ItemState | None = None
    for one in events:
        found = state.after(found, one)
    assert found is not None
    return found


def seasoned() -> ItemState:
    """An item with a memory of some days."""
    return history(*(make_event(day=TODAY + day) for day in (0, 1, 4, 10)))


answers = st.tuples(
    st.integers(0, 40), st.booleans(), st.one_of(st.none(), st.floats(0.2, 8.0)), st.sampled_from([(), ("neck",)])
)


def test_the_day_an_item_is_met_has_no_grade() -> None:
    met = history(make_event(), make_event(right=False), make_event())
    assert met.memory is None
    assert met.due == TODAY + 1
    assert (met.asked, met.right, met.cold) == (3, 2, 0)


def test_the_first_cold_answer_sets_the_memory() -> None:
    cold = history(make_event(), make_event(day=TODAY + 2, seconds=1.5))
    assert cold.memory == memory.after(None, 2, 3)


@pytest.mark.parametrize("right", [True, False])
def test_six_answers_in_one_evening_leave_the_memory_alone(right: bool) -> None:
    before = seasoned()
    evening = before
    for _ in range(6):
        evening = state.after(evening, make_event(day=before.last, right=right, seconds=0.3))
    assert evening.memory == before.memory
    assert evening.due == before.due
    assert evening.asked == before.asked + 6


def test_a_day_before_the_last_counts_as_the_last() -> None:
    before = seasoned()
    after = state.after(before, make_event(day=before.last - 3, right=False))
    assert (after.memory, after.due, after.last) == (before.memory, before.due, before.last)


def test_the_true_rest_of_an_overdue_item_counts() -> None:
    before = seasoned()
    assert before.memory is not None
    late = state.after(before, make_event(day=before.last + 300, seconds=1.5))
    assert late.memory == memory.after(before.memory, 300, 3)


@given(st.lists(answers, max_size=12), st.integers(1, 400), st.sampled_from([False, True]))
def test_slow_or_wrong_never_lengthens_an_interval(
    past: list[tuple[int, bool, float | None, tuple[str, ...]]], rest: int, right: bool
) -> None:
    before = history(make_event())
    day = TODAY
    for step, good, seconds, shown in past:
        day += step
        before = state.after(before, make_event(day=day, right=good, seconds=seconds, helps=shown))
    after = state.after(before, make_event(day=day + rest, right=right, seconds=SLOW))
    assert after.due - after.last <= before.due - before.last
    assert after.memory is not None
    if before.memory is not None:
        assert after.memory[0] <= before.memory[0]


@given(st.lists(answers, max_size=12), st.integers(1, 400))
def test_an_untimed_answer_lets_no_interval_grow(
    past: list[tuple[int, bool, float | None, tuple[str, ...]]], rest: int
) -> None:
    before = history(make_event())
    day = TODAY
    for step, good, seconds, shown in past:
        day += step
        before = state.after(before, make_event(day=day, right=good, seconds=seconds, helps=shown))
    after = state.after(before, make_event(day=day + rest, seconds=None))
    assert after.due - after.last <= before.due - before.last


def test_slow_counts_as_a_slip_and_a_good_cold_answer_clears_them() -> None:
    slips = history(*(make_event(day=TODAY + day, seconds=SLOW) for day in range(7)))
    assert slips.slips == 6
    assert slips.stuck
    assert not slips.missed
    assert state.after(slips, make_event(day=TODAY + 8)).slips == 0


def test_fast_answers_rest_longer_than_slow_ones() -> None:
    fast = history(*(make_event(day=TODAY + day) for day in (0, 1, 4)))
    slow = history(*(make_event(day=TODAY + day, seconds=SLOW) for day in (0, 1, 4)))
    assert fast.due > slow.due == TODAY + 5


def test_pace_follows_recent_right_answers() -> None:
    paced = history(make_event(seconds=2.0), make_event(seconds=1.0), make_event(right=False, seconds=9.0))
    assert paced.pace == pytest.approx(1.6)


@given(st.integers(1, 180), st.integers(), st.text(max_size=20), st.integers(0, 1000))
def test_the_spread_is_small_and_repeatable(days: int, seed: int, item: str, n: int) -> None:
    moved = spread(days, seed, item, n)
    assert moved == spread(days, seed, item, n)
    assert 1 <= moved <= memory.MAX_INTERVAL
    assert moved == days if days < 3 else abs(moved - days) <= max(1, days * 0.05)


def test_the_spread_spreads() -> None:
    assert {spread(10, 0, f"item/{n}", 1) for n in range(60)} == {9, 10, 11}
    assert {spread(100, 0, f"item/{n}", 1) for n in range(300)} == set(range(95, 106))
    assert {spread(180, 0, f"item/{n}", 1) for n in range(300)} == set(range(171, 181))


def test_the_spread_is_the_same_on_every_machine() -> None:
    # CRC-32 of "0:line/1/0:1" is fixed by its definition (ISO 3309), so this never changes.
    assert [spread(10, 0, "line/1/0", n) for n in range(1, 7)] == [10, 9, 9, 9, 10, 10]
