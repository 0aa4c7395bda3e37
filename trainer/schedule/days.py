"""Practice days: the local date after the 04:00 turn, as days since 1970-01-01."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, time, tzinfo
from typing import Final

TURN_HOUR: Final = 4
"""Who practises after midnight is still in the evening before (our choice)."""

SET_BACK: Final = 7
"""A clock set back by at most this many days changes nothing."""

FAR_AHEAD: Final = 400
"""A day further ahead than this is more likely a wrong clock than a long rest: ask before writing."""

MONTHS: Final = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
"""In English whatever the locale."""
_EPOCH: Final = date(1970, 1, 1).toordinal()

LOST: Final = date(2026, 1, 1).toordinal() - _EPOCH
"""A clock that says a day before this one, after one from it on, has lost its battery (our choice: no record is older).
It is no reason to believe that it had been ahead before."""


def practice_day(now: datetime, zone: tzinfo) -> int:
    """The practice day at an instant (2026-11-25 in the morning is 20782).

    Raises:
        ValueError: ``now`` says no time zone.
    """
    if now.tzinfo is None:
        raise ValueError("the time has no zone: give an aware datetime")
    local = now.astimezone(zone)
    return local.toordinal() - _EPOCH - (local.hour < TURN_HOUR)


def as_date(day: int) -> date:
    """The calendar date of a practice day."""
    return date.fromordinal(day + _EPOCH)


def from_date(when: date) -> int:
    """The practice day of a calendar date."""
    return when.toordinal() - _EPOCH


def noon(day: int) -> datetime:
    """Noon UTC of a practice day: where the memory model has its answers, so that hours never count."""
    return datetime.combine(as_date(day), time(12), UTC)


def settled_day(day: int, last_day: int | None) -> int:
    """The day to practise under: never below the last one for a clock that was set back a little, or that has lost its
    battery."""
    if last_day is not None and day < last_day and (day >= last_day - SET_BACK or day < LOST <= last_day):
        return last_day
    return day


def far_ahead(day: int, last_day: int | None) -> bool:
    """Whether the clock has to be confirmed before anything is written under that day."""
    return last_day is not None and day - last_day > FAR_AHEAD


def corrected_days(days: Sequence[int]) -> list[int]:
    """Days of one device in the order of its lines, after a clock that ran ahead was put right.

    A jump back of more than a week means that the clock had been ahead: lines before it with a later day count
    as the day of the first line after the jump. A smaller one changes nothing: the day does not fall.
    """
    runs: list[list[int]] = []  # [day, how many lines], days rising
    for day in days:
        count = 1
        if runs and day < runs[-1][0]:
            if day >= runs[-1][0] - SET_BACK:
                day = runs[-1][0]
            else:
                while runs and runs[-1][0] > day:
                    count += runs.pop()[1]
        runs.append([day, count])
    return [day for day, count in runs for _ in range(count)]
