"""How many beats a note, a rest or two tied notes last."""

from __future__ import annotations

import random
from collections.abc import Iterator
from fractions import Fraction

from drills import time_misreadings
from drills.kinds.rhythm.value_lessons import tie_explanation, value_explanation
from drills.kinds.rhythm.value_pictures import choice_question, drawn, offer, value_facts, value_item
from drills.kinds.rhythm.value_signs import BEATS, IN_BEATS, SIGNS, TIES, article, beats_by, tied
from drills.kinds.rhythm.written import METRES, values, written_bar
from drills.kinds.wording import choice_options
from drills.notation.drawing import Role
from drills.notation.score import At, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Item, Manner, Question
from drills.stages import Stage


class ValueLength:
    """How many beats does it last?"""

    name = "value-length"
    title = "Lengths of note values"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for sign in SIGNS.values():
            needs = (f"value-name/{sign.key}",)
            title = f"Beats of the {sign.name}"
            yield value_item(self.name, tuning, sign.key, sign.stage, title, f"length-{sign.signs}", needs, 2.0)
        for key, (_, text) in TIES.items():
            first, second = tied(text)
            title = f"Beats of {article(first.words)} tied to {article(second.words)}"
            yield value_item(self.name, tuning, f"tie/{key}", Stage.HALF_BEATS, title, "ties", think=2.7)

    def facts(self, item: Item) -> Facts:
        if item.lesson != "ties":
            return value_facts(SIGNS[item.subject])
        first, second = tied(TIES[item.subject.removeprefix("tie/")][1])
        return {"value": [first.words, second.words], "length": float(first.quarters + second.quarters)}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return tie_explanation(item, manner) if item.lesson == "ties" else value_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        if item.lesson == "ties":
            return self._tie(item, rng, manner)
        sign = SIGNS[item.subject]
        view, lit = drawn(sign, item.tuning, rng, manner)
        what = "this rest" if sign.noun == "rest" else "the marked number"
        name = article(sign.name).capitalize()
        why = f"{name} is written {sign.look(manner.dialect)} and lasts {IN_BEATS[sign.value.quarters]}."
        return self._beats(item, f"How many beats does {what} last?", view, sign.value.quarters, why, lit, rng)

    def _tie(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        metre, text = TIES[item.subject.removeprefix("tie/")]
        first, second = tied(text)
        bar = written_bar(text, METRES[metre], item.tuning, rng)
        at = next(n for n, (_, _, tie) in enumerate(values(text)) if tie)
        lit = tuple(At(0, n, bar.onsets[n].notes[0].string) for n in (at, at + 1))
        view = StaffView(
            Piece(item.tuning, (bar,)), manner.dialect, stems=True, colours=dict.fromkeys(lit, Role.LIT)
        )
        total = first.quarters + second.quarters
        why = (
            f"The {first.words} lasts {IN_BEATS[first.quarters]} and the {second.words} {IN_BEATS[second.quarters]}, "
            f"so together it is {IN_BEATS[total]}."
        )
        prompt = "How many beats do the two tied numbers last together?"
        return self._beats(item, prompt, view, total, why, lit, rng)

    def _beats(
        self, item: Item, prompt: str, view: StaffView, length: Fraction, why: str, lit: tuple[At, ...],
        rng: random.Random,
    ) -> Question:  # fmt: skip
        near = sorted(beats_by(item.stage), key=lambda text: abs(BEATS[text] - length))[:6]
        offered = offer(IN_BEATS[length], near, rng)
        traps = time_misreadings.of_length(length, {text: BEATS[text] for text in offered})
        return choice_question(item, prompt, view, IN_BEATS[length], choice_options(offered), why, lit, traps)
