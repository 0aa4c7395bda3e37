"""One bar line is left out: before which number does it belong?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers
from drills.kinds.rhythm.bars import RHYTHMS, bar_explanation
from drills.kinds.rhythm.written import METRES, struck_bar, written_bar
from drills.notation.drawing import Role
from drills.notation.score import At, Metre, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import beat_word
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

MISSING: Final = {
    "4-4": ("1 2 3 4", "1 1& 2 3", "1 3 4"),
    "3-4": ("1 2 3", "1 2 2& 3", "1 3"),
    "2-4": ("1 2", "1 1& 2"),
    "6-8": ("1 3 4 6", "1 4 5 6"),
}
"""The bar before the missing line, by metre; each pattern is one item."""

STAGES: Final = {"4-4": Stage.STACKS, "3-4": Stage.STACKS, "2-4": Stage.TWELVE_FRETS, "6-8": Stage.FAST_BEATS}

PICK_UP: Final = {"4-4": "q", "3-4": "q"}
"""The pick-up before the first pattern of a metre, for an item of its own."""


class BarMissing:
    """One bar line is left out: before which number does it belong?"""

    name = "bar-missing"
    title = "The missing bar line"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for metre, rhythms in MISSING.items():
            for n in range(1, len(rhythms) + 1):
                yield self._item(tuning, metre, str(n), f"no. {n}", STAGES[metre])
        for metre in PICK_UP:
            yield self._item(tuning, metre, "pick-up", "after a pick-up", Stage.FAST_BEATS)

    def _item(self, tuning: Tuning, metre: str, which: str, title: str, stage: Stage) -> Item:
        return Item(
            f"{self.name}/{tuning.name}/{metre}/{which}", self.name, tuning, f"{metre}/{which}", Kind.CHOICE, stage,
            f"The missing bar line in {METRES[metre]}, {title}", "missing", (f"bar-beat/{tuning.name}/{metre}/1",),
            think=3.2 if metre != "6-8" else 3.7,
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        metre, rhythm, lead = _wanted(item)
        before = len(lead.split()) + len(rhythm.split()) + 1
        return {"metre": str(metre), "beats": metre.beats, "bars": 3 if lead else 2, "before": before}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return bar_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        metre, rhythm, lead = _wanted(item)
        name = item.subject.partition("/")[0]
        bars = [struck_bar(rhythm, metre, tuning, rng), struck_bar(rng.choice(RHYTHMS[name]), metre, tuning, rng)]
        if lead:
            bars.insert(0, written_bar(lead, metre, tuning, rng, pick_up=True))
        line = len(bars) - 2
        every = [(bar, index) for bar in range(len(bars)) for index in range(len(bars[bar].onsets))]
        places = [at for at in every if at > (line, 0)]
        number = {at: str(n) for n, at in enumerate(every, start=1)}
        options = tuple(Option(key, "", number[at]) for key, at in zip("abcdefghijkl", places, strict=False))
        right = number[line + 1, 0]
        view = StaffView(Piece(tuning, tuple(bars)), manner.dialect, ticks=True, hidden_bar_lines=frozenset({line}))
        keyed = replace(
            view, keys={at: (option.key, option.answer) for at, option in zip(places, options, strict=True)}
        )
        beats = f"{metre.beats} {'eighths' if metre.unit == 8 else 'beats'}"
        after = "after the pick-up " if lead else ""
        return Question(
            item,
            f"One bar line is missing; {after}each bar has {beats}. Which number comes right after it?",
            Picture(keyed),
            (right,),
            answers.choice(options),
            partial(_wrong_missing, view, metre, {number[at]: at for at in places}),
            options=options,
            choices=options,
            show=lambda answer: f"number {answer} from the left",
        )


def _wanted(item: Item) -> tuple[Metre, str, str]:
    """The metre, the bar before the missing line, and the values of a pick-up before it, if there is one."""
    name, _, which = item.subject.partition("/")
    if which == "pick-up":
        return METRES[name], MISSING[name][0], PICK_UP[name]
    return METRES[name], MISSING[name][int(which) - 1], ""


def _wrong_missing(view: StaffView, metre: Metre, places: dict[str, tuple[int, int]], said: str) -> Feedback:
    beats = f"{metre.beats} {'eighths' if metre.unit == 8 else 'beats'}"
    why = f"Each bar has {beats}: the bar line stands where the count begins again at 1"
    bars = view.piece.bars
    colours = {At(len(bars) - 1, 0, bars[-1].onsets[0].notes[0].string): Role.TRUE}
    if said in places:
        bar, index = places[said]
        chosen = bars[bar].onsets[index]
        colours[At(bar, index, chosen.notes[0].string)] = Role.SAID
        if chosen.beat is not None:
            whose = "of the next bar" if bar == len(bars) - 1 else "of the bar before it"
            why += f", and the number you chose falls on {beat_word(chosen.beat)} {whose}"
    shown = replace(view, hidden_bar_lines=frozenset(), colours=colours, ticks=False, count=True)
    return Feedback(f"{why}.", Picture(shown))
