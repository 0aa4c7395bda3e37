"""How well each place is read, as the neck and the staff are shaded by it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Final, NamedTuple

from drills.catalogue import Catalogue, catalogue
from drills.notation.own_tuning import OWN, tuning_named
from drills.notation.tuning import Tuning, shipped
from trainer.schedule.state import ItemState
from trainer.schedule.status import Status, status

SIGNS: Final = {
    False: {Status.NEW: "·", Status.SHAKY: "○", Status.KNOWN: "◐", Status.FLUENT: "●", Status.KEPT: "◆"},
    True: {Status.NEW: ".", Status.SHAKY: "o", Status.KNOWN: "O", Status.FLUENT: "@", Status.KEPT: "#"},
}
"""A sign for each state, the more ink the better it is read; by whether the terminal knows ASCII alone."""

FROM_THE_NECK: Final = ("place-to", "neck-to", "note-to", "diagram-to")
"""How the drills begin that go out from the neck, or to it from a name; the others go out from the staff."""

Place = tuple[int, int]
"""String and fret."""


class Shading(NamedTuple):
    """The state of every place that is asked.

    Attributes:
        staff: of the numbers on the lines.
        neck: of the places on the neck.
        highest: the highest fret that was ever met, 0 where none was.
    """

    staff: dict[Place, Status]
    neck: dict[Place, Status]
    highest: int


class Asked(NamedTuple):
    """An item that asks one place."""

    id: str
    place: Place
    neck: bool


@cache
def asked_places(tuning: Tuning) -> tuple[Asked, ...]:
    """Every item of a tuning that is about one place, by the facts of its drill."""
    whole = catalogue(tuning)
    about: dict[str, bool] = {}
    found = []
    for item in whole.items:
        if about.get(item.drill) is False:
            continue
        facts = whole.facts(item)
        string, fret = facts.get("string"), facts.get("fret")
        if not isinstance(string, int) or not isinstance(fret, int):
            about.setdefault(item.drill, False)  # a drill asks either single places or none
            continue
        about[item.drill] = True
        found.append(Asked(item.id, (string, fret), item.drill.startswith(FROM_THE_NECK)))
    return tuple(found)


def shading(whole: Catalogue, states: Mapping[str, ItemState]) -> Shading:
    """The state of each place: the weakest of what was met there, new where nothing was."""
    staff: dict[Place, Status] = {}
    neck: dict[Place, Status] = {}
    highest = 0
    for asked in asked_places(whole.tuning):
        side = neck if asked.neck else staff
        found = status(states.get(asked.id))
        before = side.get(asked.place, Status.NEW)
        if found is not Status.NEW:
            highest = max(highest, asked.place[1])
            side[asked.place] = found if before is Status.NEW else min(found, before, key=_rank)
        else:
            side.setdefault(asked.place, Status.NEW)
    return Shading(staff, neck, highest)


def by_stage(whole: Catalogue, states: Mapping[str, ItemState]) -> dict[int, dict[Status, int]]:
    """How many items of each stage are in each state."""
    found = {stage: dict.fromkeys(Status, 0) for stage in whole.stages}
    for item in whole.items:
        found[item.stage][status(states.get(item.id))] += 1
    return found


def elsewhere(whole: Catalogue, met: Iterable[str]) -> dict[str, int]:
    """How many items of other tunings were met, by the tuning's name in their ids.

    Args:
        whole: the catalogue of this tuning.
        met: ids of everything that was ever met.
    """
    known = shipped()
    found: dict[str, int] = {}
    for name in met:
        parts = name.split("/")
        if name not in whole.by_id and len(parts) > 2 and (parts[1] in known or parts[1].startswith(OWN)):
            found[parts[1]] = found.get(parts[1], 0) + 1
    return found


def title_of(tuning: str) -> str:
    """The title of a tuning by its name, or the name itself where it says nothing any more."""
    try:
        return tuning_named(tuning).title
    except ValueError:
        return tuning


def _rank(state: Status) -> int:
    return state.rank
