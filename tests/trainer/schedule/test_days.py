"""Practice days: the 04:00 turn, clocks that were set."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.schedule import days


def test_a_day_is_counted_from_1970() -> None:
    assert days.practice_day(datetime(1970, 1, 1, 12, tzinfo=UTC), UTC) == 0
    assert days.practice_day(datetime(2026, 11, 25, 8, tzinfo=UTC), UTC) == 20782
    assert days.as_date(20782) == date(2026, 11, 25)
    assert days.from_date(date(2026, 11, 25)) == 20782


def test_the_day_turns_at_four_in_the_local_morning() -> None:
    zone = timezone(timedelta(hours=2))
    assert days.practice_day(datetime(2026, 11, 25, 1, 59, 59, tzinfo=UTC), zone) == 20781
    assert days.practice_day(datetime(2026, 11, 25, 2, 0, tzinfo=UTC), zone) == 20782


def test_a_gap_of_under_a_day_over_the_turn_is_a_day() -> None:
    evening = datetime(2026, 11, 24, 8, 30, tzinfo=UTC)
    assert days.practice_day(evening + timedelta(hours=23.5), UTC) - days.practice_day(evening, UTC) == 1


def test_the_turn_holds_on_days_with_a_changed_hour() -> None:
    # Clocks go back at 03:00 on 2026-10-25 in Berlin (IANA time zone database).
    berlin = ZoneInfo("Europe/Berlin")
    before = datetime(2026, 10, 25, 3, 59, tzinfo=berlin)
    assert days.as_date(days.practice_day(before, berlin)) == date(2026, 10, 24)
    assert days.as_date(days.practice_day(before + timedelta(minutes=1), berlin)) == date(2026, 10, 25)


def test_a_time_without_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="zone"):
        days.practice_day(datetime(2026, 11, 25), UTC)


def test_noon_is_that_of_the_day() -> None:
    assert days.noon(20782) == datetime(2026, 11, 25, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("day", "last", "settled"),
    [(10, None, 10), (10, 9, 10), (10, 13, 13), (10, 17, 17), (10, 18, 10), (10, 10, 10)],
)
def test_a_clock_set_back_a_little_changes_nothing(day: int, last: int | None, settled: int) -> None:
    assert days.settled_day(day, last) == settled


@pytest.mark.parametrize(
    ("when", "last", "settled"),
    [
        # Where clocks begin that have lost their battery (common practice, no source).
        (date(1970, 1, 1), date(2026, 12, 20), date(2026, 12, 20)),
        (date(2010, 1, 1), date(2026, 12, 20), date(2026, 12, 20)),
        (date(2025, 12, 31), date(2026, 1, 1), date(2026, 1, 1)),
        # A clock that had been ahead; a record that is older than any can be; nothing answered yet.
        (date(2026, 1, 1), date(2026, 12, 20), date(2026, 1, 1)),
        (date(2024, 3, 1), date(2025, 3, 1), date(2024, 3, 1)),
        (date(2010, 1, 1), None, date(2010, 1, 1)),
    ],
)
def test_a_clock_that_lost_its_battery_changes_nothing(when: date, last: date | None, settled: date) -> None:
    last_day = None if last is None else days.from_date(last)
    assert days.as_date(days.settled_day(days.from_date(when), last_day)) == settled


def test_a_clock_far_ahead_is_worth_a_question() -> None:
    assert days.far_ahead(501, 100)
    assert not days.far_ahead(500, 100)
    assert not days.far_ahead(500, None)


def test_days_of_a_clock_that_was_a_year_ahead_count_as_the_day_it_was_put_right() -> None:
    assert days.corrected_days([100, 101, 466, 467, 102, 103]) == [100, 101, 102, 102, 102, 103]
    assert days.corrected_days([100, 97, 101]) == [100, 100, 101]


@given(st.lists(st.integers(0, 2000), max_size=40))
def test_corrected_days_never_fall_and_keep_their_number(seen: list[int]) -> None:
    corrected = days.corrected_days(seen)
    assert len(corrected) == len(seen)
    assert corrected == sorted(corrected)
    assert days.corrected_days(corrected) == corrected


@given(st.lists(st.integers(0, 2000), max_size=40))
def test_days_that_never_fall_stay_as_they_are(seen: list[int]) -> None:
    assert days.corrected_days(sorted(seen)) == sorted(seen)
