"""``sixline items``."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from drills.catalogue import Catalogue, catalogue
from drills.kinds.pictures import line_letters
from drills.notation.neck import draw_neck
from drills.notation.staff import draw_staff
from drills.notation.staff_view import Dialect
from drills.question import Item, Manner, Question
from drills.uncollected import uncollected
from trainer.clock import Clock
from trainer.complaint import DONE
from trainer.opening import Choices, catalogue_of, find_tuning, open_profile
from trainer.profile.tunings import OWN
from trainer.reports import print_json, print_lines, table, tell_problems
from trainer.rows import diagram_rows
from trainer.wording import counted

SEED = 0
"""Of what an example varies: fixed, so that the list is always the same."""
LETTERED = frozenset({
    "fret-to-note", "note-to-fret", "same-pitch", "octave", "capo", "chord-name", "chord-symbol", "chord-tones",
    "chord-sounds", "chord-upper", "chord-interval",
})  # fmt: skip
"""Drills on what sounds: in a list, which has the answers too, their staves bear letters as typed tab does."""


def report(choices: Choices, clock: Clock, tuning: str | None, *, as_json: bool) -> int:
    """Print every item of a tuning, of the learner's own where none is named; the exit code."""
    if tuning is None or tuning == OWN:
        profile = open_profile(choices, clock, write=False)
        tell_problems(profile.problems)
        own = profile.settings.own_tuning
        found = catalogue_of(profile.settings) if tuning is None else catalogue(find_tuning(tuning, own))
    else:
        found = catalogue(find_tuning(tuning))
    if as_json:
        with uncollected():
            print_json(documents(found))
    else:
        print_lines(lines(found))
    return DONE


def documents(found: Catalogue) -> list[dict[str, Any]]:
    """Every item for programs, in teaching order."""
    manner = Manner(dialect=Dialect.TEXT)
    return [_document(found, item, found.ask(item, random.Random(SEED), manner)) for item in found.items]


def _document(found: Catalogue, item: Item, question: Question) -> dict[str, Any]:
    return {
        "id": item.id,
        "drill": item.drill,
        "tuning": item.tuning.name,
        "kind": str(item.kind),
        "stage": item.stage,
        "title": item.title,
        "prompt": question.prompt,
        "staff": _staff(question),
        "diagram": _diagram(question),
        "answers": list(question.answers),
        "needs": list(item.needs),
        "think": item.think,
        "facts": dict(found.facts(item)),
    }


def _staff(question: Question) -> list[str]:
    """The staff as it is typed, with letters at its left where what sounds is asked; else the neck, else the diagrams.
    """
    staff = question.picture.staff
    if staff is not None:
        if question.item.drill in LETTERED:
            staff = replace(staff, labels=line_letters(question.item.tuning, Manner().naming))
        return draw_staff(staff).text()
    return draw_neck(question.picture.neck).ascii().text() if question.picture.neck is not None else _diagram(question)


def _diagram(question: Question) -> list[str]:
    """The chord diagrams, where there are any."""
    view = question.picture.diagram
    return diagram_rows(view, plain=True) if view is not None else []


def lines(found: Catalogue) -> Iterator[str]:
    """The same for people, stage by stage."""
    count = len(found.items)
    yield f"{counted(count, 'item')} for {found.tuning.title} ({found.tuning.name})"
    for stage, title in found.stages.items():
        items = [item for item in found.items if item.stage == stage]
        if items:
            yield ""
            yield f"Stage {stage}: {title} ({len(items)})"
            yield from table([[f"  {item.id}", str(item.kind), item.title] for item in items])
