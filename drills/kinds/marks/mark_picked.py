"""A phrase with signs: which notes does the picking hand pluck?"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.marks import drawn
from drills.kinds.marks.phrase import Phrase
from drills.kinds.marks.phrase_table import PHRASE_BY_KEY, PHRASES
from drills.kinds.wording import capital
from drills.notation.drawing import Role
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question


class MarkPicked:
    """A phrase with signs: which notes does the picking hand pluck?"""

    name = "mark-picked"
    title = "Which notes are picked"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for phrase in PHRASES:
            if phrase.picked:
                yield Item(
                    f"{self.name}/{phrase.key}", self.name, tuning, phrase.key, Kind.PICKED, phrase.stage,
                    f"Picked or not: {phrase.title}", "picked", phrase.needs(),
                    think=round(1.2 + 0.85 * (len(phrase.steps) - 1), 2),
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return PHRASE_BY_KEY[item.subject].facts(item.tuning)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        view = PHRASE_BY_KEY["h-then"].view(item.tuning, manner.dialect, picking=True)
        return Explanation(
            "Picked or not",
            (
                "The picking hand plucks a note unless a sign says that it sounds without: the second note of a "
                "hammer-on, a pull-off, a tie or a slide under an arc is not picked, and neither is a tapped one.",
                "In typed tab only a legend tells of a slide: a legato slide is not picked again, a shift slide is.",
                "Answer for each number from left to right: y when it is picked, n when it is not. Here: y n y.",
                "Without any sign every note is picked. A bend is picked once, before the string is pushed.",
            ),
            pictures.with_neck(view, manner),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        phrase = PHRASE_BY_KEY[item.subject]
        true = drawn.struck(phrase.notes(item.tuning))
        right = "".join("y" if struck else "n" for struck in true)
        view = phrase.view(item.tuning, manner.dialect, picking=True)
        return Question(
            item,
            "Which notes are picked? y or n for each, from left to right.",
            Picture(view),
            (right,),
            answers.picked(len(true)),
            partial(_wrong_picked, view, phrase, true),
            options=(Option("y", "picked", "y"), Option("n", "not picked", "n")),
            length=len(true),
            traps=misreadings.of_picked(true),
            show=lambda answer: " ".join(answer) if set(answer) <= {"y", "n"} else answer,
        )


def _wrong_picked(view: StaffView, phrase: Phrase, true: Sequence[bool], said: str) -> Feedback:
    right = " ".join("y" if struck else "n" for struck in true)
    reasons = [sign.picking for sign in phrase.in_it()] or ["no sign joins these notes, so the hand picks every one"]
    why = f"{capital('; '.join(dict.fromkeys(reasons)))}: {right}."
    wrong = [len(said) == len(true) and said[i] != ("y" if true[i] else "n") for i in range(len(true))]
    colours = pictures.coloured(view, Role.TRUE) | pictures.coloured(view, Role.SAID, wrong)
    keys = {(0, i): ("y" if struck else "n", "") for i, struck in enumerate(true)}
    return Feedback(why, Picture(replace(view, colours=colours, keys=keys)))
