"""A sign is drawn: what is it called?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial

from drills import answers
from drills.kinds.marks import drawn
from drills.kinds.marks.offering import beside, sign_traps
from drills.kinds.marks.sign import Sign
from drills.kinds.marks.sign_items import (
    both_drawn,
    dialect_items,
    dialect_of,
    sign_explanation,
    sign_facts,
    sign_of,
)
from drills.kinds.marks.table import name_beside
from drills.kinds.wording import choice_options
from drills.notation.score import Note
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Manner, Picture, Question


class MarkName:
    """A sign is drawn: what is it called?"""

    name = "mark-name"
    title = "Name the sign"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        return dialect_items(self.name, tuning, 1.2)

    def facts(self, item: Item) -> Facts:
        return sign_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return sign_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign, dialect = sign_of(item), dialect_of(item)
        notes = drawn.at_home(sign, item.tuning, item.id)
        offered = beside(sign, dialect, rng)
        names = {other.key: name_beside(other, sign) for other in offered}
        options = choice_options(list(names.values()))
        legend = drawn.legend_of([sign], dialect, named=False)
        return Question(
            item,
            "What is this sign called?",
            Picture(StaffView(drawn.one_bar(notes, item.tuning, sign.times), dialect, legend=legend)),
            (sign.name,),
            answers.choice(options),
            partial(_wrong_name, item, notes, dict(zip(names.values(), offered, strict=True))),
            options=options,
            choices=options,
            traps=sign_traps(sign, names),
            show=lambda answer: with_article(answer) if answer in names.values() else answer,
        )


def _wrong_name(item: Item, notes: list[Note], by_name: dict[str, Sign], said: str) -> Feedback:
    sign, dialect = sign_of(item), dialect_of(item)
    other = by_name.get(said)
    why = f"{this_is(sign.name)}: {sign.written(dialect)}"
    if other is not None:
        why += f"; {and_is(said)} {other.written(dialect)}"
    return Feedback(f"{why}.", both_drawn(item.tuning, dialect, (sign, notes), other))


def with_article(name: str) -> str:
    """``a hammer-on``, ``an accent``; nothing before what is more than one or has no number."""
    if name in ("vibrato", "let ring", "repeat signs", "staccato"):
        return name
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"


def this_is(name: str) -> str:
    """``This is a hammer-on``, ``These are repeat signs``."""
    return f"{'These are' if name in _MANY else 'This is'} {with_article(name)}"


def and_is(name: str) -> str:
    """``a hammer-on is``, ``a slide up, picked again, is``, ``repeat signs are``."""
    return f"{with_article(name)}{',' if ',' in name else ''} {'are' if name in _MANY else 'is'}"


_MANY = ("repeat signs",)
