"""One answer of the record, as the schedule sees it."""

from __future__ import annotations

from typing import NamedTuple


class Event(NamedTuple):
    """One answer, stored once and never changed.

    Attributes:
        day: practice day (days since 1970-01-01 by the local date after the 04:00 turn).
        item: id of the item.
        right: the verdict.
        said: the answer in normal form, or what was typed.
        seconds: from question to key, or None when not known.
        base: the learner's key baseline at that time, in seconds.
        limit: base plus the drill's thinking time, in seconds, at least 1.5.
        timed: False when the seconds prove nothing.
        misreadings: every kind that fits a wrong answer.
        help: names of the helps that were shown with the question.
    """

    day: int
    item: str
    right: bool
    said: str
    seconds: float | None
    base: float
    limit: float
    timed: bool = True
    misreadings: tuple[str, ...] = ()
    help: tuple[str, ...] = ()
