"""Note values: what they are called, and which number has one."""

from __future__ import annotations

import random
from collections.abc import Iterator

from drills import time_misreadings
from drills.kinds.rhythm.value_lessons import value_explanation
from drills.kinds.rhythm.value_pictures import choice_question, drawn, offer, value_facts, value_item
from drills.kinds.rhythm.value_signs import AMONG, BEATS, IN_BEATS, SIGNS, Sign, article
from drills.kinds.rhythm.written import METRES, written_bar
from drills.kinds.wording import choice_options
from drills.notation.score import At, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import value_of
from drills.question import Explanation, Facts, Item, Manner, Option, Question
from drills.stages import Stage


class ValueName:
    """What is the value called?"""

    name = "value-name"
    title = "Names of note values"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for sign in SIGNS.values():
            title = f"Name of the {sign.noun} that lasts {IN_BEATS[sign.value.quarters]}"
            think = _think(sign)
            yield value_item(self.name, tuning, sign.key, sign.stage, title, f"name-{sign.signs}", think=think)

    def facts(self, item: Item) -> Facts:
        return value_facts(SIGNS[item.subject])

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return value_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign = SIGNS[item.subject]
        others = [other.name for other in SIGNS.values() if other.noun == sign.noun and other.stage <= sign.stage]
        others += [f"{name} {sign.noun}" for name in ("whole", "half", "quarter", "eighth")]
        traps = time_misreadings.of_value(sign.value, sign.noun)
        near = {text for texts in traps.values() for text in texts if text in others}
        texts = offer(sign.name, others, rng, near)
        view, lit = drawn(sign, item.tuning, rng, manner)
        what = "What is this rest called?" if sign.noun == "rest" else "What is the value of the marked number called?"
        question = choice_question(
            item, what, view, sign.name, choice_options(texts), _why_name(sign, manner), lit, traps
        )
        return question._replace(show=lambda answer: article(answer) if answer in texts else answer)


class ValueFind:
    """Which of these numbers has the value?"""

    name = "value-find"
    title = "Finding a note value"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for sign in SIGNS.values():
            if sign.among:
                needs = (f"value-name/{sign.key}",)
                yield value_item(self.name, tuning, sign.key, sign.stage, f"The number that is a {sign.name}",
                            f"find-{sign.signs}", needs, 2.7)  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return value_facts(SIGNS[item.subject])

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return value_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign = SIGNS[item.subject]
        bars = [[_either_way(group, rng) for group in rng.sample(bar, len(bar))] for bar in AMONG[sign.among]]
        rng.shuffle(bars)
        metre = METRES["4-4"]
        piece = Piece(item.tuning, tuple(written_bar(" ".join(bar), metre, item.tuning, rng) for bar in bars))
        # One number of each value has a key; the eighth that follows another one needs none.
        first = {value_of(onset, piece.bars[bar]): (bar, n) for bar, n, onset in reversed(list(piece.onsets()))}
        found = sorted((at, value) for value, at in first.items())
        options = tuple(
            Option(key, "", IN_BEATS[value.quarters]) for key, (_, value) in zip("abcde", found, strict=False)
        )
        keys = {at: (option.key, option.answer) for (at, _), option in zip(found, options, strict=True)}
        bar, n = first[sign.value]
        question = choice_question(
            item, f"Which number is {article(sign.name)}?",
            StaffView(piece, manner.dialect, stems=True, keys=keys), IN_BEATS[sign.value.quarters], options,
            _why_name(sign, manner), (At(bar, n, piece.bars[bar].onsets[n].notes[0].string),), {},
        )  # fmt: skip
        return question._replace(show=lambda answer: f"the one of {answer}" if answer in BEATS else answer)


def _either_way(group: str, rng: random.Random) -> str:
    words = group.split()
    return " ".join(words if rng.random() < 0.5 else words[::-1])


def _think(sign: Sign) -> float:
    return 1.7 if sign.stage == Stage.STACKS else 2.0


def _why_name(sign: Sign, manner: Manner) -> str:
    look = sign.look(manner.dialect)
    lasts = IN_BEATS[sign.value.quarters]
    return f"{article(sign.name).capitalize()} is written {look} and lasts {lasts}, as the count under it shows."
