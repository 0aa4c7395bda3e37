"""Which stage a learner is at."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule.state import ItemState
from trainer.schedule.status import Status, status

NEARLY_ALL: Final = 0.9
"""A stage counts as fluent with nine tenths of its items: the last few, missed today or met late, would make any date a
matter of chance, and one item that is missed after weeks does not bring a learner back from the seventh stage to the
second."""


class StageNow(NamedTuple):
    """A stage as the record leaves it.

    Attributes:
        number, title: of the stage.
        items, met, fluent: how many of them; what is kept is fluent too.
        target: so many have to be fluent.
    """

    number: int
    title: str
    items: int
    met: int
    fluent: int
    target: int


def current_stage(catalogue: Catalogue, states: Mapping[str, ItemState]) -> StageNow:
    """The first stage of which less than nine tenths are fluent; else the first that is not fluent as a whole, whose
    target is all of it; the last one where every stage is."""
    here: dict[int, list[Status]] = {number: [] for number in catalogue.stages}
    for item in catalogue.items:
        here[item.stage].append(status(states.get(item.id)))
    found = [_stage(number, catalogue.stages[number], each) for number, each in here.items()]
    ahead = [stage for stage in found if stage.fluent < stage.target]
    if ahead:
        return ahead[0]
    whole = [stage for stage in found if stage.fluent < stage.items] or found[-1:]
    return whole[0]._replace(target=whole[0].items) if whole else StageNow(0, "", 0, 0, 0, 0)


def _stage(number: int, title: str, items: list[Status]) -> StageNow:
    return StageNow(
        number,
        title,
        items=len(items),
        met=sum(each is not Status.NEW for each in items),
        fluent=sum(each.rank >= Status.FLUENT.rank for each in items),
        target=ceil(NEARLY_ALL * len(items)),
    )
