"""What a simulated learner can be asked: items of the real catalogue, and what a learner model has to know of them."""

from __future__ import annotations

import random
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from drills.catalogue import Catalogue, catalogue
from drills.notation.tuning import shipped
from drills.question import Item, Kind, Manner
from trainer.schedule.meeting import meeting_order

Floats = NDArray[np.float64]

COUNT: Final = 600
MINUTES: Final = 10.0
"""Of practice a day."""

THINK: Final = 1.2
"""Thinking time of a drill on one symbol; what another drill allows on top of it is time that looking takes."""

EXAM: Final = 2.0
"""Seconds within which an item of one symbol has to be read in the exam; longer by what looking takes."""

LAST_FRET_OF_FIRST_POSITION: Final = 4


class Subject(NamedTuple):
    """One item as learner models see it.

    Attributes:
        item: of the catalogue.
        answer: what is right.
        misread: a wrong answer that a plain misreading explains, or None.
        look: seconds that it takes to look at it, beyond those of a single symbol.
        fret: its fret where it is about a note, else None.
        needs: indices of the subjects that it needs.
        rival: index of the subject that it is most like (mirrored line, or one fret on), or None.
    """

    item: Item
    answer: str
    misread: str | None
    look: float
    fret: int | None
    needs: tuple[int, ...]
    rival: int | None


def part_of(whole: Catalogue, items: tuple[Item, ...]) -> Catalogue:
    """The catalogue with only these items."""
    return whole._replace(items=items, by_id={item.id: item for item in items})


def first_items(count: int = COUNT) -> Catalogue:
    """The items of standard tuning that are met first, each with all that it needs; bars to tap are left out."""
    whole = catalogue(shipped()["standard"])
    order = meeting_order(whole.items)
    chosen: set[str] = set()
    for at in sorted(range(len(order)), key=order.__getitem__):
        item = whole.items[at]
        if len(chosen) < count and item.kind is not Kind.TAP and chosen.issuperset(item.needs):
            chosen.add(item.id)
    return part_of(whole, tuple(item for item in whole.items if item.id in chosen))


def first_position() -> Catalogue:
    """The thirty notes of the first position, open strings to fret 4, as notes to be named."""
    whole = catalogue(shipped()["standard"])
    return part_of(
        whole,
        tuple(
            item
            for item in whole.items
            if item.drill == "fret-to-note" and int(item.subject.split("/")[1]) <= LAST_FRET_OF_FIRST_POSITION
        ),
    )


def subjects(part: Catalogue) -> tuple[Subject, ...]:
    """All that can be asked, in the order of meeting."""
    order = meeting_order(part.items)
    items = [part.items[at] for at in sorted(range(len(order)), key=order.__getitem__)]
    index = {item.id: at for at, item in enumerate(items)}
    places = [_place(part, item) for item in items]
    at_place = {(item.drill, *place): at for at, (item, place) in enumerate(zip(items, places, strict=True)) if place}
    found = []
    for at, (item, place) in enumerate(zip(items, places, strict=True)):
        question = part.ask(item, random.Random(at), Manner())
        misread = min((said for kind in question.traps.values() for said in kind), default=None)
        string, fret = place or (0, 0)
        likely = [(item.drill, 7 - string, fret), (item.drill, string, fret + 1)]
        rival = next((at_place[name] for name in likely[:: 1 if at % 2 else -1] if name in at_place), None)
        needs = tuple(index[need] for need in item.needs if need in index)
        found.append(
            Subject(
                item, question.model, misread, max(0.0, item.think - THINK), fret if place else None, needs,
                None if rival == at else rival,
            )
        )
    return tuple(found)


def _place(part: Catalogue, item: Item) -> tuple[int, int] | None:
    facts = part.facts(item)
    string, fret = facts.get("string"), facts.get("fret")
    return (string, fret) if isinstance(string, int) and isinstance(fret, int) else None
