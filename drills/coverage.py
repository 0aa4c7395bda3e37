"""How much of a piece somebody reads, and what they have to learn for the rest."""

from __future__ import annotations

from collections.abc import Callable

from drills.catalogue import Catalogue
from drills.needs import Needs

Has = Callable[[str], bool]
"""Whether somebody has an item, by its id: reads it fluently, or knows it."""


def share(needs: Needs, has: Has) -> float | None:
    """The part of the notes whose every item somebody has, from 0 to 1; None where no note counts."""
    parts = shares_by_bar(needs, has)
    read, count = (sum(part[n] for part in parts.values()) for n in (0, 1))
    return read / count if count else None


def shares_by_bar(needs: Needs, has: Has) -> dict[int, tuple[int, int]]:
    """By the index of a bar: how many of its notes somebody has, and how many count. Bars without any are not in."""
    known = {id: has(id) for id in needs.items}
    sets: dict[tuple[str, ...], bool] = {}
    found: dict[int, tuple[int, int]] = {}
    for bar, _, _, items in needs.notes:
        read = sets.get(items)
        if read is None:
            read = sets[items] = all(known[id] for id in items)
        one, all_of = found.get(bar, (0, 0))
        found[bar] = (one + read, all_of + 1)
    return found


def to_learn(needs: Needs, found: Catalogue | None, *, fluent: Has, known: Has) -> tuple[str, ...]:
    """What is not read fluently yet, and what has to be known before it, in teaching order."""
    if found is None:
        return ()
    wanted = [id for id in needs.items if not fluent(id)]
    seen = set(wanted)
    while wanted:
        for id in found.by_id[wanted.pop()].needs:
            if id not in seen and id in found.by_id and not known(id):
                seen.add(id)
                wanted.append(id)
    return tuple(item.id for item in found.items if item.id in seen)
