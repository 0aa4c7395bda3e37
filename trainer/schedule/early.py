"""What is gone over before it is due, once all that is due and new is done and minutes are left.

A cold answer on a later day is held to teach more than another one on the same day; simulated learners of two kinds
read as much for it as for a second pass, and what is asked cold shows more.
"""

from __future__ import annotations

import random
from typing import Final

from drills.catalogue import Catalogue
from trainer.schedule.intake import Intake
from trainer.schedule.ledger import Ledger
from trainer.schedule.standing import standing
from trainer.schedule.state import FLUENT_REST, FLUENT_RUN, ItemState

SURE_RUN: Final = 4
"""Read so many times in a row, an item has to show next that it is kept."""


def early_queue(catalogue: Catalogue, ledger: Ledger, intake: Intake, day: int, rng: random.Random) -> list[str]:
    """Ids of what was met before today and is not due yet, what is nearest to its day first.

    What has been read twice in a row is left alone until it can become fluent, and what has been read many times until
    it is due: what is asked every day can show neither that it is fluent nor that it is kept.
    """
    index = standing(catalogue.items).at
    waiting = sorted(
        (index[name], name)
        for name, state in ledger.states.items()
        if state.last < day < state.due and may_come(state, day) and name in index and not intake.waits(name)
    )
    states = ledger.states
    ranked = sorted(
        (1000 * (states[name].due - day) // (states[name].due - states[name].last), rng.random(), name)
        for _, name in waiting
    )
    return [name for *_, name in ranked]


def rest_before(fast_run: int, *, kept: bool) -> int | None:
    """So many days at least what was read so often in a row is left alone, if it may come before it is due at all."""
    if kept or fast_run >= SURE_RUN:
        return None
    return FLUENT_REST if fast_run >= FLUENT_RUN - 1 else 1


def may_come(state: ItemState, day: int) -> bool:
    """Whether it may come on that day, though it is not due."""
    rest = rest_before(state.fast_run, kept=state.kept)
    return rest is not None and not state.stuck and day - state.last >= rest
