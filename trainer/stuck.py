"""The help for an item on which repeating has not helped: its landmark, beside all that the question can show."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from drills.catalogue import Catalogue
from drills.question import Help, Manner, Question
from trainer.schedule.fading import LANDMARK, needs_landmark
from trainer.schedule.state import ItemState

if TYPE_CHECKING:
    from drills.landmark import Landmark


def is_told_from(state: ItemState | None, helped: str) -> bool:
    """Whether an item is asked with its landmark now, by when the learner wants help (see ``Practice``)."""
    return state is not None and helped != "never" and needs_landmark(state)


def with_landmark(
    question: Question, catalogue: Catalogue, manner: Manner, states: Mapping[str, ItemState]
) -> tuple[Help, Landmark | None]:
    """The help to show, and what the item is told from in words.

    Where there is neither the help has no name but ``landmark``, and the lesson is to be told once more.
    """
    from drills.landmark import landmark  # late: few questions need it, and none waits for the modules of the drills

    def reads(item: str) -> bool:
        state = states.get(item)
        return state is not None and state.fluent

    found = landmark(question.item, catalogue, manner, reads)
    whole = question.helps[0] if question.helps else Help((), lambda: question.picture)
    return Help((*whole.names, LANDMARK), whole.draw), found
