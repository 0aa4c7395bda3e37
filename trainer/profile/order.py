"""The order in which answers count: (day, key), with the days of a clock that had been ahead put right."""

from __future__ import annotations

from collections.abc import Iterable
from operator import itemgetter
from typing import Final

from trainer.profile.lines import Entry
from trainer.schedule.days import corrected_days

by_day_and_key: Final = itemgetter(0, 1)


def settle(
    entries: Iterable[Entry], next_day: tuple[str, int] | None = None
) -> tuple[list[Entry], list[Entry]]:
    """Every line once, in the order in which lines count.

    Of two different lines with one key the bytewise smaller counts.

    Args:
        entries: lines of all files, in any order.
        next_day: a device and the day that its next line will have, so that a clock that has just been set
            back is seen before that line is written.

    Returns:
        The lines in order, and those that do not count because their key was taken.
    """
    taken: dict[str, Entry] = {}
    losers: dict[str, Entry] = {}
    for entry in entries:
        other = taken.setdefault(entry.key, entry)
        if other is entry or other.raw == entry.raw:
            continue
        smaller, larger = sorted((other, entry), key=lambda each: each.raw.encode())
        taken[entry.key] = smaller
        losers[larger.raw] = larger
    by_device: dict[str, list[Entry]] = {}
    for entry in taken.values():
        by_device.setdefault(entry.device, []).append(entry)
    device, day = next_day or ("", 0)
    settled: list[Entry] = []
    for name, lines in by_device.items():
        settled += _put_right(lines, [day] if name == device else [])
    settled.sort(key=by_day_and_key)
    return settled, list(losers.values())


def _put_right(lines: list[Entry], coming: list[int]) -> list[Entry]:
    """One device's lines, in the order of writing, on the days that they count for."""
    lines.sort(key=lambda entry: (entry.number, entry.key))
    days = corrected_days([entry.day for entry in lines] + coming)
    return [
        entry if entry.day == day else on_day(entry, day) for entry, day in zip(lines, days, strict=False)
    ]


def on_day(entry: Entry, day: int) -> Entry:
    """The same line, counting for another day."""
    event = None if entry.event is None else entry.event._replace(day=day)
    fit = None if entry.fit is None else entry.fit._replace(day=day)
    return entry._replace(day=day, event=event, fit=fit)
