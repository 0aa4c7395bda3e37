"""How much of a piece a learner reads: what it needs of the catalogue, held against their memory."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from drills.catalogue import Catalogue
from drills.coverage import share, to_learn
from drills.needs import Needs, catalogue_for, needs_of
from drills.notation.reading.shapes import Reading
from trainer.schedule.state import ItemState
from trainer.schedule.status import Status, status


class Reach(NamedTuple):
    """How much of a piece somebody reads.

    Attributes:
        catalogue: the items of the piece's tuning; None where nothing can be asked.
        needs: what the piece needs of them.
        states: what became of each item that it needs.
        fluent, known: shares of the notes that count, from 0 to 1; None where none does. Known includes fluent.
        to_learn: what is not fluent yet, and what has to be known before it, in teaching order.
    """

    catalogue: Catalogue | None
    needs: Needs
    states: Mapping[str, Status]
    fluent: float | None
    known: float | None
    to_learn: tuple[str, ...]


def reach_of(reading: Reading, memory: Mapping[str, ItemState]) -> Reach:
    """Hold a piece against a learner's memory."""
    catalogue = catalogue_for(reading)
    needs = needs_of(reading, catalogue)

    def fluent(id: str) -> bool:
        return status(memory.get(id)).rank >= Status.FLUENT.rank

    def known(id: str) -> bool:
        return status(memory.get(id)).rank >= Status.KNOWN.rank

    return Reach(
        catalogue,
        needs,
        {id: status(memory.get(id)) for id in needs.items},
        share(needs, fluent),
        share(needs, known),
        to_learn(needs, catalogue, fluent=fluent, known=known),
    )
