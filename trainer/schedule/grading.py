"""From an answer to its grade: right, and fast enough to be reading.

Limits are our choice: fact-fluency practice uses 2 to 3 s, about 1 s for true retrieval, corrected for the
learner's own writing speed; no published norm for reading tab was found.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import Final

from trainer.schedule.event import Event

DEFAULT_BASE: Final = 0.5
"""The key baseline in seconds until it has been measured."""

LEAST_LIMIT: Final = 1.5
TOO_QUICK: Final = 0.15
"""Faster than anybody reads: a bounced key or a script. The seconds prove nothing."""

ABSURD: Final = 3600.0
QUICK_SHARE: Final = 0.45

SLOW, MISSED, UNTIMED, READ, QUICK = 0, 1, 2, 3, 4


def baseline(trials: Sequence[float]) -> float:
    """The key baseline: the median of "press the key that is shown" trials, in seconds."""
    from statistics import median  # late: not needed before the first question

    sound = [seconds for seconds in map(usable, trials) if seconds is not None and seconds >= TOO_QUICK]
    return round(median(sound), 3) if sound else DEFAULT_BASE


def limit(base: float, think: float) -> float:
    """Seconds within which a right answer counts as reading. Only thinking is limited, never the hand."""
    return round(max(LEAST_LIMIT, base + think), 3)


def usable(seconds: float | None) -> float | None:
    """The seconds if they can be a time at all (finite, not negative, at most an hour), else None."""
    if seconds is None or not isfinite(seconds) or not 0 <= seconds <= ABSURD:
        return None
    return float(seconds)


def is_timed(seconds: float | None, timed: bool = True) -> bool:
    """Whether the seconds prove anything; ``timed`` is what the screen knows (focus, suspension)."""
    return timed and seconds is not None and isfinite(seconds) and TOO_QUICK <= seconds <= ABSURD


def is_slow(event: Event) -> bool:
    """Right, but over the limit."""
    return event.right and event.timed and event.seconds is not None and event.seconds > event.limit


def is_fast(event: Event) -> bool:
    """Right and within the limit, and known to be."""
    return event.right and event.timed and event.seconds is not None and event.seconds <= event.limit


def grade(event: Event) -> int:
    """The grade of a cold answer.

    Wrong is 1; right but untimed, or with help in sight, is 2 (it shows that the item is known, not that it is read);
    within the limit 3; within base + .45 of the thinking time 4. Right but over the limit is none of these: the item is
    remembered and not read yet, so that its memory stays as it is, and its interval too (counting it as wrong took
    back what was remembered again and again: simulated learners read a fifth, A, and a third, B, less after 90 days).
    """
    if not event.right:
        return MISSED
    if not event.timed or event.seconds is None or event.help:
        return UNTIMED
    if event.seconds > event.limit:
        return SLOW
    return QUICK if event.seconds <= event.base + QUICK_SHARE * (event.limit - event.base) else READ
