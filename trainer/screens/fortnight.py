"""The next 14 days as bars and numbers: what is known to fall due, and beside it what is likely to come."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from rich.text import Text

from trainer.schedule.ahead import Ahead

CELL: Final = 4
"""Cells of a day."""
DAY_LETTERS: Final = "MTWTFSS"
_KNOWN: Final = {False: " ▁▂▃▄▅▆▇█", True: " .:-=+*#%"}
_LIKELY: Final = {False: " ⣀⣤⣶⣿", True: " .:!|"}
"""Signs by height, and by whether the terminal knows ASCII alone: solid for what is known, dots for what is likely."""


def coming_days(ahead: Ahead, expected: Sequence[int] | None, today: date, ascii_only: bool) -> Text:
    """Five rows: what the signs mean, bars, what is known, what is likely besides, the days.

    Heights are measured by today's own work, so that they stay when ``expected`` comes after the rest.

    Args:
        ahead: what is known.
        expected: how many are likely on each day, the known ones among them but for those that come before
            their day; None where that is not known yet.
        today: the date.
        ascii_only: whether the terminal knows nothing but ASCII.
    """
    most = max(*ahead.days, ahead.due + ahead.new, 1)
    # What is likely to be gone over before its day is not drawn as known for that day.
    days = [min(n, due) for n, due in zip(expected or ahead.days, ahead.days, strict=True)]
    besides = [n - due for n, due in zip(expected or ahead.days, days, strict=True)]
    known, likely = _KNOWN[ascii_only], _LIKELY[ascii_only]
    text = Text(justify="center", no_wrap=True)
    text.append(f"the next 14 days: {known[-1]} known now, {likely[-1]} likely besides\n")
    for due, more in zip(days, besides, strict=True):
        text.append(f" {_bar(due, most, known)}")
        text.append(f"{_bar(more, most, likely)} ", "dim")
    text.append("\n" + "".join(f"{due or '':^{CELL}}" for due in days) + "\n")
    text.append("".join(f"{_besides(more):^{CELL}}" for more in besides) + "\n", "dim")
    text.append("".join(f"{_letter(today, n):^{CELL}}" for n in range(1, len(ahead.days) + 1)))
    return text


def _bar(count: int, most: int, signs: str) -> str:
    highest = len(signs) - 1
    return signs[0 if not count else min(highest, max(1, round(count / most * highest)))]


def _besides(more: int) -> str:
    """With its sign, as long as that leaves a gap to the next day."""
    return "" if not more else f"+{more}"[-(CELL - 1) :]


def _letter(today: date, after: int) -> str:
    return DAY_LETTERS[(today + timedelta(days=after)).weekday()]
