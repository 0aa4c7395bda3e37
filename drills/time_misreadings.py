"""Misreadings of time: a value taken for its neighbour, too long or too short, taps that are not what is written.

Pure functions, like those of :mod:`drills.misreadings`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from functools import cache
from itertools import accumulate, pairwise

from drills.misreadings import Traps, traps
from drills.notation.values import VALUES, Value
from drills.question import Misreading
from drills.tapping import Tapping


@cache
def of_value(value: Value, noun: str = "note") -> Traps:
    """The sign of a value twice or half as long, or the one with a dot too many or too few: ``quarter note``."""
    near = [value.quarters * 2, value.quarters / 2, Value(value.name, 1 - value.dots).quarters]
    confused = [f"{VALUES[length].words} {noun}" for length in near if length in VALUES]
    return traps({Misreading.MARK_CONFUSED: confused}, [])


def of_length(right: Fraction, offered: Mapping[str, Fraction]) -> Traps:
    """Too many beats, or too few, among answers that each stand for a length."""
    return traps(
        {
            Misreading.TOO_MANY: [answer for answer, length in offered.items() if length > right],
            Misreading.TOO_FEW: [answer for answer, length in offered.items() if length < right],
        },
        [],
    )


def of_taps(taps: Sequence[float], tapping: Tapping) -> tuple[Misreading, ...]:
    """Tapped too often or not often enough, or the written lengths in another order.

    Args:
        taps: when, in seconds, rising.
        tapping: what was written.
    """
    if len(taps) != len(tapping.moments):
        return (Misreading.TOO_MANY if len(taps) > len(tapping.moments) else Misreading.TOO_FEW,)
    if tapping.fits(taps):
        return ()
    gaps = sorted(later - earlier for earlier, later in pairwise(taps))
    rearranged = tapping._replace(moments=_running(sorted(tapping.gaps)))
    return (Misreading.WRONG_ORDER,) if rearranged.fits(_running(gaps)) else ()


def _running(gaps: Iterable[float]) -> tuple[float, ...]:
    return tuple(accumulate(gaps, initial=0.0))
