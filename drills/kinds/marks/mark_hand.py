"""A sign is drawn: what do the hands do?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial

from drills import answers
from drills.kinds.marks import drawn
from drills.kinds.marks.mark_name import this_is, with_article
from drills.kinds.marks.offering import beside_act, sign_traps
from drills.kinds.marks.sign import Sign
from drills.kinds.marks.sign_items import both_drawn, item_of, sign_explanation, sign_facts
from drills.kinds.marks.table import BY_KEY, SIGNS, act_beside
from drills.kinds.wording import choice_options
from drills.notation.score import Note
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Manner, Picture, Question


class MarkHand:
    """A sign is drawn: what do the hands do?"""

    name = "mark-hand"
    title = "What the hands do"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for sign in SIGNS:
            yield item_of(self.name, sign, tuning, 4.0, f"The hands at {with_article(sign.name)}")

    def facts(self, item: Item) -> Facts:
        return sign_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return sign_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign, dialect = BY_KEY[item.subject], manner.dialect
        notes = drawn.at_home(sign, item.tuning, item.id)
        offered = beside_act(sign, rng)
        acts = {other.key: act_beside(other, sign) for other in offered}
        options = choice_options(list(acts.values()))
        legend = drawn.legend_of([sign], dialect, named=True)
        return Question(
            item,
            "What do the hands do here?",
            Picture(StaffView(drawn.one_bar(notes, item.tuning, sign.times), dialect, legend=legend)),
            (sign.act,),
            answers.choice(options),
            partial(_wrong_act, item, notes, dialect, dict(zip(acts.values(), offered, strict=True))),
            options=options,
            choices=options,
            traps=sign_traps(sign, acts),
        )


def _wrong_act(item: Item, notes: list[Note], dialect: Dialect, by_act: dict[str, Sign], said: str) -> Feedback:
    sign, other = BY_KEY[item.subject], by_act.get(said)
    why = f"{this_is(sign.name)}: {sign.act}"
    if other is not None:
        why += f"; what you chose is done at {with_article(other.name)}"
    return Feedback(f"{why}.", both_drawn(item.tuning, dialect, (sign, notes), other))
