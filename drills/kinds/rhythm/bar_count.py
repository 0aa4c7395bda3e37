"""How many bars, how many beats in each, how many notes in one."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds.rhythm.bars import RHYTHMS, bar_explanation
from drills.kinds.rhythm.written import METRES, struck_bar, written_bar
from drills.kinds.wording import ORDINALS, count_options
from drills.notation.drawing import Role
from drills.notation.score import At, Metre, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

WRITTEN: Final = {
    "4-4": ("w", "h h", "q q h", "h q q", "q q q q", "h. q", "q h q"),
    "3-4": ("h.", "h q", "q h", "q q q"),
    "2-4": ("h", "q q"),
    "6-8": ("q. q.", "q e q e", "e e e q.", "q. e e e", "q e q."),
}
"""Bars by the values in them, for adding up."""

NOTED: Final = {"4-4": RHYTHMS["4-4"][:4], "3-4": RHYTHMS["3-4"][:3]}
"""The bars whose notes are counted; each is one item."""

BARS: Final = (2, 4, 1, 3)
"""How many bars are counted, in an order that tells nothing; each is one item."""

SHORT: Final = ("1 3", "1 2", "1 4")
"""Bars of two notes: four of them have room side by side in forty columns."""


class BarCount:
    """How many bars, or how many beats in each."""

    name = "bar-count"
    title = "Counting bars and beats"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for n, metre in enumerate(("4-4", "3-4"), start=1):
            yield self._item(tuning, f"{metre}/beats", Stage.BARS, f"Beats of each bar, no. {n}", 1.7)
        for n, bars in enumerate(BARS, start=1):
            yield self._item(tuning, f"4-4/bars-{bars}", Stage.BARS, f"Bars on a staff, no. {n}", 1.7)
        for metre, rhythms in NOTED.items():
            for n, rhythm in enumerate(rhythms, start=1):
                think = 1.2 + 0.5 * len(rhythm.split())
                title = f"Notes of one bar in {METRES[metre]}, no. {n}"
                yield self._item(tuning, f"{metre}/notes-{n}", Stage.SLIDES, title, think)
        for n, metre in enumerate(("4-4", "3-4"), start=1):
            title = f"Beats of each bar by its values, no. {n}"
            yield self._item(tuning, f"{metre}/values", Stage.STACKS, title, 3.2, "sums")
        yield self._item(tuning, "2-4/beats", Stage.TWELVE_FRETS, "Beats of each bar, no. 3", 1.7)
        title = "Beats of each bar by its values, no. 3"
        yield self._item(tuning, "2-4/values", Stage.TWELVE_FRETS, title, 2.7, "sums")
        yield self._item(tuning, "6-8/beats", Stage.FAST_BEATS, "Eighths of each bar", 1.7, "six-eight")
        title = "Eighths of each bar by its values"
        yield self._item(tuning, "6-8/values", Stage.FAST_BEATS, title, 3.7, "six-eight")

    def _item(
        self, tuning: Tuning, subject: str, stage: Stage, title: str, think: float, lesson: str = "bars"
    ) -> Item:
        return Item(
            f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage, title, lesson,
            think=round(think, 2),
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        metre, what, n = _subject(item)
        return {
            "metre": str(METRES[metre]),
            "beats": METRES[metre].beats,
            "bars": n if what == "bars" else 2,
            "notes": len(NOTED[metre][n - 1].split()) if what == "notes" else None,
        }

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return bar_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        name, what, n = _subject(item)
        metre = METRES[name]
        texts = rng.sample(WRITTEN[name], 2) if what == "values" else []
        bars = [written_bar(text, metre, tuning, rng) for text in texts] or [
            struck_bar(rng.choice(SHORT if what == "bars" else RHYTHMS[name]), metre, tuning, rng)
            for _ in range(n if what == "bars" else 2)
        ]
        colours: dict[At, Role] = {}
        if what == "notes":
            marked = n % 2
            bars[marked] = struck_bar(NOTED[name][n - 1], metre, tuning, rng)
            colours = {At(marked, i, onset.notes[0].string): Role.LIT for i, onset in enumerate(bars[marked].onsets)}
            prompt, count = f"How many notes are struck in the {ORDINALS[marked + 1]} bar?", len(bars[marked].onsets)
        elif what == "bars":
            prompt, count = "How many bars are drawn here?", n
        else:
            beats = "eighths" if metre.unit == 8 else "beats"
            prompt, count = f"How many {beats} does each bar have?", metre.beats
        view = StaffView(
            Piece(tuning, tuple(bars)), manner.dialect, count=what == "beats", stems=what == "values"
        )
        return Question(
            item,
            prompt,
            Picture(view),
            (str(count),),
            answers.number(1, 99),
            partial(_wrong_count, view, colours, what, metre, count),
            options=count_options(9),
            traps=misreadings.of_count(count, 99),
        )


def _subject(item: Item) -> tuple[str, str, int]:
    """Name of the metre, what is counted (bars, beats, values or notes), and which."""
    name, _, rest = item.subject.partition("/")
    what, _, n = rest.partition("-")
    return name, what, int(n or 0)


def _wrong_count(view: StaffView, colours: dict[At, Role], what: str, metre: Metre, count: int, said: str) -> Feedback:
    are = "is 1" if count == 1 else f"are {count}"
    why = {
        "bars": f"Count the spaces between the bar lines, not the lines: there {are}.",
        "beats": f"The count under the staff runs from 1 to {count} and begins again after the bar line.",
        "values": f"The values of each bar add up to {count} {'eighths' if metre.unit == 8 else 'beats'}, as the "
        "count under them shows.",
        "notes": f"Each number on the lines is one note, and between its two bar lines there {are}.",
    }[what]
    shown = dict.fromkeys(colours, Role.TRUE)
    return Feedback(why, Picture(replace(view, count=what != "bars", colours=shown)))
