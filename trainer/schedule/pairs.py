"""Pairs of items that are mixed up with one another, counted whichever of the two was misread."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, NamedTuple

MOST_LOOKED_UP: Final = 48
"""So many confusions at most are traced to a pair, the strongest first: it takes some 20 us each."""


class Confusion(NamedTuple):
    """One wrong answer that was given for an item by one plain misreading.

    Attributes:
        kind: of the last misreading that alone explained it.
        times: how often it was given; each good cold answer since has made up for half of it.
        day: the last day on which it was.
    """

    kind: str
    times: int
    day: int


class Pair(NamedTuple):
    """Two items that are mixed up.

    Attributes:
        items: both, in the order of their ids: A for B and B for A make one pair.
        strength: how often; each good cold answer since has made up for half of what was said for that item.
        day: the last day on which they were.
    """

    items: tuple[str, str]
    strength: int
    day: int


def strongest(
    confusions: Mapping[str, Mapping[str, Confusion]], other: Callable[[str, str, str], str | None]
) -> list[Pair]:
    """Every pair, the strongest first, the one that was mixed up last where they are equally strong.

    Args:
        confusions: item -> wrong answer -> what is known of it.
        other: item, wrong answer and kind of misreading -> the item that it was taken for, or None.
    """
    each = ((-c.times, -c.day, item, said, c.kind) for item, found in confusions.items() for said, c in found.items())
    counts: dict[tuple[str, str], Pair] = {}
    for times, day, item, said, kind in sorted(each)[:MOST_LOOKED_UP]:
        taken_for = other(item, said, kind)
        if taken_for is None or taken_for == item:
            continue
        key = (item, taken_for) if item < taken_for else (taken_for, item)
        so_far = counts.get(key, Pair(key, 0, -day))
        counts[key] = Pair(key, so_far.strength - times, max(so_far.day, -day))
    return sorted(counts.values(), key=lambda pair: (-pair.strength, -pair.day, pair.items))
