"""How much help is shown with an item: all of it while it is new or just missed, then a step less with every right
answer, and none when it is asked cold, so that what counts as fluent is read without help."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from trainer.schedule.event import Event
from trainer.schedule.why import Why

if TYPE_CHECKING:
    from trainer.schedule.state import ItemState

WHOLE: Final = 0
"""All of the help."""
GONE: Final = 3
"""No help: a right answer without any leads here at once, three right ones in any case. No drill has more than two
steps of help, so that the third is given without any."""

LANDMARK: Final = "landmark"
"""What a help is called that is shown where repeating has not helped: what to tell the item from, beside all other
help."""


def step(state: ItemState | None, day: int, why: Why, *, warm_up: bool = False) -> int:
    """How many steps of an item's help have gone when it is asked now, from WHOLE to GONE.

    A cold answer has no help, but where its last cold answer and its last answer were wrong: asking again without any
    would only be another miss. See ``is_lifted`` for what such an answer counts.

    Args:
        state: of the item before it is asked, None if it was never met.
        day: today.
        why: what it is asked for.
        warm_up: it is one of the first after a long rest.
    """
    if state is None or warm_up or (why is Why.NEW and not state.rights):
        return WHOLE
    if state.last >= day:
        return state.step
    return WHOLE if state.missed and state.cold and not state.right_run else GONE


def step_after(before: ItemState | None, event: Event) -> int:
    """How many steps have gone after an answer: none after a miss, all after a right answer without help."""
    if not event.right:
        return WHOLE
    return min((before.step if before is not None else WHOLE) + 1, GONE) if event.help else GONE


def needs_landmark(state: ItemState) -> bool:
    """Whether an item on which repeating has not helped is asked with its landmark.

    It is, until it was right with it once; then it is asked without any help, and a fast answer says that it is no
    longer stuck, another miss that the landmark is needed again. What is right and only slow is known: with help in
    sight every other day it could not show that, and nothing that needs it would ever be met.
    """
    return state.stuck and state.missed


def is_lifted(state: ItemState, event: Event) -> bool:
    """Whether a cold answer was right only with help, right after a miss, or with a landmark: it clears the miss and
    proves no more.

    It is no right cold answer in a row, takes no slips back, and does not say that new items may come.
    """
    return event.right and bool(event.help) and (state.missed or LANDMARK in event.help)
