"""When a way of misreading is a habit, and when one is rid of it."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, make_event
from trainer.schedule.ledger import Ledger
from trainer.schedule.rid import LEFT_ALONE, gone, newly_gone

KIND = "mirrored-line"
ITEMS = [f"line/{string}/0" for string in range(1, 7)]


def missed(item: str, day: int, kind: str = KIND) -> tuple[str, int, str]:
    """An item, a day, and how it was misread."""
    return item, day, kind


def read(item: str, day: int) -> tuple[str, int, str]:
    """An item that was read right on a day."""
    return item, day, ""


def ledger(*record: tuple[str, int, str]) -> Ledger:
    """All items met on day 0, then these answers."""
    found = Ledger()
    for item in ITEMS:
        found.apply(make_event(item, TODAY))
    for item, day, kind in record:
        found.apply(make_event(item, TODAY + day, right=not kind, misreadings=(kind,) if kind else ()))
    return found


ONE, TWO, THREE, *_ = ITEMS
HABIT = (missed(ONE, 1), missed(TWO, 1), missed(ONE, 2))
CLEAN = (read(ONE, 3), read(TWO, 3), read(ONE, 4), read(TWO, 4))


def test_it_is_gone_once_its_items_were_read_cold_twice_each() -> None:
    assert gone(ledger(*HABIT, *CLEAN[:-1]).habits) == {}
    assert gone(ledger(*HABIT, *CLEAN).habits) == {KIND: TODAY + 4}


def test_the_same_day_over_and_over_proves_nothing() -> None:
    again = [read(item, 3) for _ in range(9) for item in (ONE, TWO)]
    assert gone(ledger(*HABIT, *again).habits) == {}


def test_what_was_read_with_help_proves_nothing() -> None:
    found = ledger(*HABIT)
    for item, day, _ in CLEAN:
        found.apply(make_event(item, TODAY + day, helps=("letters",)))
    assert gone(found.habits) == {}


def test_two_slips_or_three_of_one_evening_are_no_habit() -> None:
    for slips in (HABIT[:2], (missed(ONE, 1),) * 3):
        found = ledger(*slips, *CLEAN)
        assert gone(found.habits) == {}
        assert found.habits[KIND].events == 0


def test_several_kinds_that_fit_are_no_habit_of_any() -> None:
    found = Ledger()
    for day in range(4):
        found.apply(make_event(ONE, TODAY + day, right=False, misreadings=(KIND, "octave")))
    assert found.habits == {}


def test_after_it_happened_anywhere_the_chances_begin_anew() -> None:
    habit = [missed(item, 2) for item in ITEMS[:4]]
    proved = [read(item, day) for day in (3, 4) for item in ITEMS[:3]]
    assert gone(ledger(*habit, *proved).habits) == {KIND: TODAY + 4}
    again = [missed(ITEMS[5], 4)]
    assert gone(ledger(*habit, *proved[:-1], *again, proved[-1]).habits) == {}
    assert gone(ledger(*habit, *proved, *again).habits) == {KIND: TODAY + 4}


def test_one_item_in_four_may_rest_without_holding_it_up() -> None:
    habit = [missed(item, 2) for item in ITEMS[:4]]
    proved = [read(item, day) for day in (3, 4) for item in ITEMS[:3]]
    assert gone(ledger(*habit, *proved).habits) == {KIND: TODAY + 4}
    assert gone(ledger(*habit, *(each for each in proved if each[0] != THREE)).habits) == {}


def test_a_slip_afterwards_brings_it_not_back_and_a_habit_does() -> None:
    found = ledger(*HABIT, *CLEAN, missed(ONE, 5))
    assert gone(found.habits) == {KIND: TODAY + 4}
    made_up = ledger(*HABIT, *CLEAN, missed(ONE, 5), read(ONE, 6), read(ONE, 7))
    assert newly_gone(gone(found.habits), made_up.habits) == ()
    assert gone(ledger(*HABIT, *CLEAN, missed(ONE, 5), missed(ONE, 6), missed(ONE, 7)).habits) == {}
    again = ledger(*HABIT, *CLEAN, missed(ONE, 5), missed(ONE, 6), missed(ONE, 7), read(ONE, 8), read(ONE, 9))
    assert newly_gone(gone(found.habits), again.habits) == (KIND,)


def test_items_that_are_not_asked_any_more_do_not_hold_it_up() -> None:
    habit = [missed(item, 1) for item in ITEMS]
    late = [read(item, LEFT_ALONE + 5 + day) for day in range(6) for item in (ONE, TWO)]
    assert gone(ledger(*habit, *late).habits) == {KIND: TODAY + LEFT_ALONE + 6}
    soon = [read(item, 5 + day) for day in range(6) for item in (ONE, TWO)]
    assert gone(ledger(*habit, *soon).habits) == {}


record = st.lists(
    st.tuples(st.sampled_from(ITEMS), st.integers(0, 1), st.sampled_from(["", "", KIND, "octave"])), max_size=60
)


@given(record)
def test_kinds_do_not_touch_each_other_and_none_is_gone_that_never_happened_often(
    steps: list[tuple[str, int, str]],
) -> None:
    day, answers = 1, []
    for item, later, kind in steps:
        day += later
        answers.append((item, day, kind))
    found = ledger(*answers)
    for kind in (KIND, "octave"):
        alone = ledger(*((item, when, each if each == kind else each and "other") for item, when, each in answers))
        assert found.habits.get(kind) == alone.habits.get(kind)
        happened = [when for _, when, each in answers if each == kind]
        if kind in gone(found.habits):
            assert len(happened) >= 3
            assert any(each == "" and when > happened[0] for _, when, each in answers)
