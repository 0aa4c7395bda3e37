"""Repeat signs: how many bars are played in all?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.rhythm.written import METRES, struck_bar
from drills.kinds.wording import count_options
from drills.notation.score import Bar, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

REPEATS: Final = (
    (0, 1, 2, 0), (0, 2, 2, 0), (0, 1, 2, 1), (1, 1, 2, 0), (1, 2, 2, 0), (0, 2, 2, 1), (0, 1, 3, 0), (0, 2, 3, 0),
    (1, 1, 3, 0), (1, 1, 2, 1),
)  # fmt: skip
"""Bars before the repeated part, bars in it, how often it is played, bars after it; each is one item."""

RHYTHMS: Final = ("1 3", "1 2", "1 4")


class BarRepeat:
    """How many bars are played?"""

    name = "bar-repeat"
    title = "Bars that are played again"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for n, (before, inside, times, after) in enumerate(REPEATS, start=1):
            stage = Stage.TOUCH if times == 2 else Stage.CHORDS
            subject = f"{before}-{inside}-{times}-{after}"
            yield Item(f"{self.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage,
                       f"Bars played in all, no. {n}", "repeats",
                       (f"bar-count/{tuning.name}/4-4/bars-2",), 2.7)  # fmt: skip

    def facts(self, item: Item) -> Facts:
        before, inside, times, after = _wanted(item)
        return {"bars": before + inside + after, "times": times, "played": before + inside * times + after,
                "metre": "4/4", "beats": 4}  # fmt: skip

    def explain(self, item: Item, manner: Manner) -> Explanation:
        lines = (
            "Dots beside a bar line make it a repeat sign. What stands between the sign that opens and the one "
            "that closes is played twice, or as often as is written there.",
            "Where no sign opens, it is played again from the start. Here the first bar is played once, the second "
            "twice: 3 bars in all.",
        )
        view = _staff(item, random.Random(3), manner, 1, 1, 2, 0)
        return Explanation("Counting repeated bars", lines, pictures.with_neck(view, manner))

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        before, inside, times, after = _wanted(item)
        played = before + inside * times + after
        view = _staff(item, rng, manner, before, inside, times, after)
        return Question(
            item,
            "How many bars are played in all?",
            Picture(view),
            (str(played),),
            answers.number(1, 99),
            partial(_wrong, view, before, inside, times, after),
            options=count_options(9),
            traps=misreadings.of_count(played, 99),
        )


def _wanted(item: Item) -> tuple[int, int, int, int]:
    before, inside, times, after = map(int, item.subject.split("-"))
    return before, inside, times, after


def _staff(
    item: Item, rng: random.Random, manner: Manner, before: int, inside: int, times: int, after: int
) -> StaffView:
    def some(count: int) -> list[Bar]:
        return [struck_bar(rng.choice(RHYTHMS), METRES["4-4"], item.tuning, rng) for _ in range(count)]

    part = some(inside)
    part[0] = part[0]._replace(opens_repeat=True)
    part[-1] = part[-1]._replace(times=times)
    return StaffView(Piece(item.tuning, (*some(before), *part, *some(after))), manner.dialect)


def _wrong(view: StaffView, before: int, inside: int, times: int, after: int, said: str) -> Feedback:
    parts = ([before] if before else []) + [inside] * times + ([after] if after else [])
    often = "twice" if times == 2 else f"{times} times"
    why = f"The part between the repeat signs is played {often}: {' + '.join(map(str, parts))} = {sum(parts)} bars."
    return Feedback(why, Picture(replace(view)))
