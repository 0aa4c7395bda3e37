"""Several signs are drawn: which of them is the one named?"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from drills import answers
from drills.kinds.marks import drawn
from drills.kinds.marks.mark_name import and_is, with_article
from drills.kinds.marks.offering import drawn_beside, sign_traps
from drills.kinds.marks.sign import Sign
from drills.kinds.marks.sign_items import dialect_items, dialect_of, sign_explanation, sign_facts, sign_of
from drills.kinds.wording import capital
from drills.notation.drawing import Role
from drills.notation.score import At, Note
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Manner, Option, Picture, Question


class NameToMark:
    """Several signs are drawn: which of them is the one named?"""

    name = "name-to-mark"
    title = "Find the sign"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        return dialect_items(self.name, tuning, 2.2)

    def facts(self, item: Item) -> Facts:
        # It stands somewhere else each time, and so sounds something else: nobody is to learn where it stands.
        return {**sign_facts(item), "sounds": None}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return sign_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign, dialect = sign_of(item), dialect_of(item)
        offered = drawn_beside(sign, dialect, rng)
        fragments = [(drawn.varied(other, item.tuning, rng), other.times) for other in offered]
        piece, starts = drawn.side_by_side(fragments, item.tuning)
        written = {other.key: other.written(dialect) for other in offered}
        options = tuple(Option(key, "", answer) for key, answer in zip("1234", written.values(), strict=True))
        keys = {at: (option.key, option.answer) for at, option in zip(starts, options, strict=True)}
        view = StaffView(piece, dialect, keys=keys, legend=drawn.legend_of(offered, dialect, named=False))
        found = [(other, notes, start) for other, (notes, _), start in zip(offered, fragments, starts, strict=True)]
        verb = "has" if sign.times > 1 else "is"
        return Question(
            item,
            f"Which of these {verb} {with_article(sign.name)}?",
            Picture(view),
            (sign.written(dialect),),
            answers.choice(options),
            partial(_wrong_find, item, view, found),
            options=options,
            choices=options,
            traps=sign_traps(sign, written),
        )


def _wrong_find(
    item: Item, view: StaffView, found: Sequence[tuple[Sign, Sequence[Note], tuple[int, int]]], said: str
) -> Feedback:
    sign = sign_of(item)
    why = f"{capital(and_is(sign.name))} {sign.written(view.dialect)}"
    colours: dict[At, Role] = {}
    for other, notes, (bar, start) in found:
        if other is not sign and said != other.written(view.dialect):
            continue
        role = Role.TRUE if other is sign else Role.SAID
        colours |= {At(bar, start + n, note.string): role for n, note in enumerate(notes)}
        if other is not sign:
            why += f"; what you chose is {with_article(other.name)}"
    return Feedback(f"{why}.", Picture(replace(view, colours=colours)))
