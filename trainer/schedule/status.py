"""What the learner is told about an item."""

from __future__ import annotations

from enum import StrEnum

from trainer.schedule.state import ItemState


class Status(StrEnum):
    """Five states that exclude one another, in rising order."""

    NEW = "new"
    """Never met."""
    SHAKY = "shaky"
    """Met, not known."""
    KNOWN = "known"
    """The last two cold answers were right."""
    FLUENT = "fluent"
    """Three cold answers in a row right and fast, the last after three days or more. One slow cold answer does
    not take it away; two in a row, or one wrong, do."""
    KEPT = "kept"
    """Fluent, and right and fast after seven days unseen."""

    @property
    def rank(self) -> int:
        """0 for new to 4 for kept."""
        return _RANKS[self]


_RANKS = {status: rank for rank, status in enumerate(Status)}


def status(state: ItemState | None) -> Status:
    """What the learner is told."""
    if state is None:
        return Status.NEW
    if state.kept:
        return Status.KEPT
    if state.fluent:
        return Status.FLUENT
    return Status.KNOWN if state.right_run >= 2 else Status.SHAKY
