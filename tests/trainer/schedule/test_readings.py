"""How often cold answers are read, group by group, and that it belongs to what is kept of a record."""

from __future__ import annotations

import pytest

from tests.trainer.fakes import TODAY, make_event
from trainer.schedule.ledger import Ledger
from trainer.schedule.readings import GROUPS, REMEMBERED, Readings, group


def read_on(*days: int, seconds: float | None = 1.0) -> Ledger:
    ledger = Ledger()
    for day in days:
        ledger.apply(make_event(day=TODAY + day, seconds=seconds))
    return ledger


def told(ledger: Ledger) -> list[list[bool]]:
    return [list(each) for each in ledger.readings.groups]


def test_each_cold_answer_counts_by_those_before_it() -> None:
    ledger = read_on(0, 0, 1, 2, 3)
    assert told(ledger) == [[True], [], [True], [True], []]
    ledger.apply(make_event(day=TODAY + 4, seconds=4.0))
    ledger.apply(make_event(day=TODAY + 5, right=False))
    assert told(ledger) == [[True], [False], [True], [True], [False]]


def test_what_proves_no_speed_does_not_count() -> None:
    ledger = read_on(0, 1, 2, seconds=None)
    ledger.apply(make_event(day=TODAY + 3, helps=("letters",)))
    assert told(ledger) == [[]] * GROUPS


def test_long_runs_are_of_one_group_and_only_the_latest_answers_count() -> None:
    readings = Readings()
    for run in range(3, 3 + REMEMBERED + 5):
        readings.observe(run, run, run > 7)
    assert {group(9, run) for run in (3, 4, 90)} == {GROUPS - 1}
    assert list(readings.groups[-1]) == [True] * REMEMBERED


def test_it_is_written_down_and_read_again() -> None:
    ledger = read_on(0, 1, 2, 3)
    memory, history = ledger.as_data()
    again = Ledger.from_data(memory, history)
    assert told(again) == told(ledger)
    assert again.as_data() == (memory, history)


@pytest.mark.parametrize("wrong", [None, ["+"], ["+"] * (GROUPS - 1) + ["?"], ["+"] * (GROUPS - 1) + [1]])
def test_wrong_rows_are_refused(wrong: object) -> None:
    memory, history = read_on(0, 1).as_data()
    with pytest.raises(ValueError, match="readings"):
        Ledger.from_data(memory | {"readings": wrong}, history)
