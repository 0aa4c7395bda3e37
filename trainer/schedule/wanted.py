"""What comes first among the new items: what somebody wants to read, and what has to be met before it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drills.question import Item
from trainer.schedule.standing import Standing


def with_needs(items: Sequence[Item], standing: Standing, wanted: Iterable[str]) -> set[int]:
    """Where the wanted items stand in teaching order, and all that they need, directly or not.

    Args:
        items: in teaching order.
        standing: theirs.
        wanted: ids; those that are none of these items are passed over.
    """
    at = standing.at
    found = {at[name] for name in wanted if name in at}
    todo = list(found)
    while todo:
        for need in items[todo.pop()].needs:
            place = at.get(need)
            if place is not None and place not in found:
                found.add(place)
                todo.append(place)
    return found


def wanted_first(items: Sequence[Item], standing: Standing, wanted: Iterable[str]) -> Sequence[int]:
    """The order of meeting with what is wanted before all else; among themselves the turns stay as they are."""
    found = with_needs(items, standing, wanted)
    if not found:
        return standing.turn
    return [turn - len(items) if at in found else turn for at, turn in enumerate(standing.turn)]
