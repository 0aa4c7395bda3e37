"""What is to be gone over today, lowest recall first."""

from __future__ import annotations

import random
from collections.abc import Collection
from itertools import islice
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Item
from trainer.schedule.intake import Intake
from trainer.schedule.ledger import Ledger
from trainer.schedule.standing import standing
from trainer.schedule.state import ItemState

WARM_UP: Final = 5
IN_TURN: Final = 7
"""What is always slow comes in turn; nothing new comes while its turn would be more than so many days away."""

_DIGITS: Final = 9
"""Recall is compared to so many digits, because the last bits of a power differ between platforms."""


def is_due(state: ItemState | None, day: int) -> bool:
    """Whether the item is to be gone over on that day and has not been asked on it."""
    return state is not None and state.due <= day and state.last < day


def due_queue(catalogue: Catalogue, ledger: Ledger, intake: Intake, day: int, rng: random.Random) -> list[str]:
    """Ids of all that is due: what has had no cold answer first of all, then by recall.

    An item on which repeating has not helped is taken apart: what it needs comes right before it.
    """
    index = standing(catalogue.items).at
    ties = [rng.random() for _ in catalogue.items]
    ranked = [
        (state.memory is not None, round(state.recall(day, ledger.model), _DIGITS), ties[index[name]], index[name])
        for name, state in ledger.states.items()
        if is_due(state, day) and name in index and not intake.waits(name)
    ]
    queue: dict[str, None] = {}

    def put(item: Item) -> None:
        if ledger.states[item.id].stuck:
            for need in item.needs:
                part = ledger.states.get(need)
                if part is not None and part.last < day and need in catalogue.by_id and need not in queue:
                    put(catalogue.by_id[need])
        queue.setdefault(item.id)

    for *_, at in sorted(ranked):
        put(catalogue.items[at])
    return list(queue)


def in_turn(queue: Collection[str], catalogue: Catalogue, ledger: Ledger, most: int) -> list[str]:
    """The first few of a queue that may be asked in any order: what is taken apart waits for its parts, which stand
    before it."""
    states, by_id = ledger.states, catalogue.by_id
    return [
        item
        for item in islice(queue, most)
        if not states[item].stuck or not any(need in queue for need in by_id[item].needs)
    ]


def todays(queue: list[str], ledger: Ledger, worth: int, slow: int) -> tuple[list[str], list[str], bool]:
    """What of all that is due comes first of all, what comes after that day's new items, and whether so much is due
    that nothing new may come: more than fits into one sitting, or more that is slow than comes in turn in a week.

    What is known but slow again and again comes back every day. So many of it come first, in turn, and the rest waits
    behind what is new without holding it up: else somebody who is never fast would never meet anything new.

    Args:
        queue: all that is due, most urgent first.
        ledger: what the record says.
        worth: as much as is gone over in one sitting at most.
        slow: so many that are always slow come first, half of what this learner answers in a sitting.
    """
    later = [item for item in queue if ledger.states[item].always_slow][slow:]
    behind = set(later)
    first = [item for item in queue if item not in behind]
    more = len(first) > worth or len(later) > IN_TURN * slow
    return first[:worth], later[: max(0, worth - len(first))], more


def warm_up(catalogue: Catalogue, ledger: Ledger, day: int) -> list[str]:
    """Ids of a few fluent items that are surest still to be there, for a start after a long rest."""
    found = [
        (-round(state.recall(day, ledger.model), _DIGITS), at, item.id)
        for at, item in enumerate(catalogue.items)
        if (state := ledger.states.get(item.id)) is not None and state.fluent and state.last < day
    ]
    return [item for *_, item in sorted(found)[:WARM_UP]]
