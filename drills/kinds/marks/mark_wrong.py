"""Several short fragments are drawn: which one is written wrongly?"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.marks import drawn
from drills.kinds.marks.faults import FAULT_BY_KEY, FAULTS, WELL, WELL_BY_KEY, Fragment
from drills.kinds.marks.table import BY_KEY
from drills.kinds.wording import capital
from drills.notation.drawing import Role
from drills.notation.score import At, Note
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import (
    Explanation,
    Facts,
    Feedback,
    Item,
    Kind,
    Manner,
    Misreading,
    Option,
    Picture,
    Question,
)


class MarkWrong:
    """Several short fragments are drawn: which one is written wrongly?"""

    name = "mark-wrong"
    title = "Find what is written wrongly"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for n, fault in enumerate(FAULTS, start=1):
            sign = BY_KEY[fault.sign]
            yield Item(
                f"{self.name}/{fault.key}", self.name, tuning, fault.key, Kind.CHOICE, fault.stage,
                f"Written wrongly, no. {n}", "wrong",
                (sign.first_item(),), think=5.0,
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        fault = FAULT_BY_KEY[item.subject]
        sign = BY_KEY[fault.sign]
        kinds = [mark.kind.value for step in fault.steps for mark in step.marks]
        return {
            "mark": kinds[0],
            "picked": None,
            "sounds": None,
            "fault": fault.why,
            "source": sign.source,
            "certainty": sign.certainty.value,
        }

    def explain(self, item: Item, manner: Manner) -> Explanation:
        notes = drawn.usual(WELL_BY_KEY["hammer"].steps, item.tuning)
        view = StaffView(drawn.one_bar(notes, item.tuning), manner.dialect)
        return Explanation(
            "What is written wrongly",
            (
                "Tab is written by people, and people slip. Whoever knows what the hands do sees that a sign cannot "
                "be meant as it stands.",
                "A hammer-on rises, a pull-off falls, both on one string. A slide's line goes the way its frets go. "
                "An open string is not bent.",
                "Of the fragments just one is wrong: press the key under it. The one drawn here is right.",
            ),
            pictures.with_neck(view, manner),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        fault = FAULT_BY_KEY[item.subject]
        offered = _offered(fault, rng)
        fragments = _placed(offered, fault, item.tuning, rng)
        piece, starts = drawn.side_by_side([(notes, 1) for notes in fragments], item.tuning)
        options = tuple(Option(key, "", each.said) for key, each in zip("1234", offered, strict=True))
        keys = {at: (option.key, option.answer) for at, option in zip(starts, options, strict=True)}
        view = StaffView(piece, manner.dialect, keys=keys)
        found = list(zip(offered, fragments, (start for _, start in starts), strict=True))
        return Question(
            item,
            "Which of these is written wrongly?",
            Picture(view),
            (fault.said,),
            answers.choice(options),
            partial(_wrong, view, fault, found),
            options=options,
            choices=options,
            traps=_traps(fault),
        )


def _offered(fault: Fragment, rng: random.Random) -> list[Fragment]:
    """The fault and three well written fragments of signs that are known by then, in any order.

    One sign stands twice, as often that of the fault as another, so that neither the sign that stands twice nor one
    that stands alone tells which is wrong. Where only two signs are known, both stand twice.
    """
    known: dict[str, list[Fragment]] = {}
    for each in WELL:
        if each.stage <= fault.stage:
            known.setdefault(each.sign, []).append(each)
    same = known.pop(fault.sign)
    more = [sign for sign, found in known.items() if len(found) > 1]
    if len(known) == 1:
        offered = [fault, rng.choice(same), *rng.sample(known[more[0]], 2)]
    elif rng.random() < 0.5:
        offered = [fault, rng.choice(same), *(rng.choice(known[sign]) for sign in rng.sample(list(known), 2))]
    else:
        twice = rng.choice(more)
        once = rng.choice([sign for sign in known if sign != twice])
        offered = [fault, *rng.sample(known[twice], 2), rng.choice(known[once])]
    rng.shuffle(offered)
    return offered


def _placed(
    offered: Sequence[Fragment], fault: Fragment, tuning: Tuning, rng: random.Random
) -> list[list[Note]]:
    """Each fragment somewhere on the neck; nothing else stands on the string from which the fault leaves another,
    or its sign would lead to that."""
    deepest = drawn.deepest(fault.steps)
    top = rng.randint(1, min(4, tuning.lines) - deepest)
    free = [string for string in range(1, min(4, tuning.lines) + 1) if not fault.crosses or string != top]
    placed = []
    for each in offered:
        shift = rng.randrange(-2, 4) if each.movable else 0
        placed.append(drawn.notes_at(each.steps, top if each is fault else rng.choice(free), shift))
    return placed


def _traps(fault: Fragment) -> misreadings.Traps:
    """Who takes the well written likeness for the wrong one reads the sign the other way round."""
    turned = [WELL_BY_KEY[fault.like].said] if fault.turned else []
    return misreadings.traps({Misreading.WRONG_DIRECTION: turned}, [fault.said])


def _wrong(
    view: StaffView, fault: Fragment, found: Sequence[tuple[Fragment, Sequence[Note], int]], said: str
) -> Feedback:
    why = f"{capital(fault.said)} is wrong, because {fault.why}"
    colours: dict[At, Role] = {}
    for each, notes, start in found:
        if each is not fault and each.said != said:
            continue
        role = Role.TRUE if each is fault else Role.SAID
        colours |= {At(0, start + n, note.string): role for n, note in enumerate(notes)}
        if each is not fault:
            why += f"; {each.said} is well written"
    return Feedback(f"{why}.", Picture(replace(view, colours=colours)))
