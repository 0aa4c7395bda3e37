"""Which value fills up a bar?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final

from drills import answers, time_misreadings
from drills.kinds.rhythm.value_lessons import fill_explanation
from drills.kinds.rhythm.value_pictures import offer, value_item
from drills.kinds.rhythm.value_signs import SIGNS, article
from drills.kinds.rhythm.written import METRES, amount, values, written_bar
from drills.kinds.wording import choice_options
from drills.notation.drawing import Role
from drills.notation.score import At, Metre, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import VALUES, Value, beats_of
from drills.question import Explanation, Facts, Feedback, Item, Manner, Picture, Question
from drills.stages import Stage

FILLS: Final = {
    ("4-4", "q q"): Stage.STACKS, ("4-4", "h q"): Stage.STACKS, ("3-4", "q"): Stage.STACKS,
    ("3-4", "h"): Stage.STACKS, ("4-4", "q"): Stage.HALF_BEATS, ("4-4", "h q e"): Stage.HALF_BEATS,
    ("4-4", "h e"): Stage.HALF_BEATS, ("3-4", "q. e"): Stage.HALF_BEATS, ("4-4", "qr q"): Stage.HALF_BEATS,
    ("4-4", "h. er"): Stage.HALF_BEATS, ("2-4", "q e"): Stage.TWELVE_FRETS, ("2-4", "e"): Stage.TWELVE_FRETS,
    ("2-4", "q e s"): Stage.FAST_BEATS, ("6-8", "q."): Stage.FAST_BEATS, ("6-8", "q. q"): Stage.FAST_BEATS,
    ("6-8", "q. e"): Stage.FAST_BEATS,
}  # fmt: skip
"""The values of a bar that lacks one more, by metre; each is one item."""


class ValueFill:
    """Which value fills up the bar?"""

    name = "value-fill"
    title = "Filling up a bar"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for (metre, text), stage in FILLS.items():
            subject = f"{metre}/{text.replace(' ', '-')}"
            title = f"What is missing after {text} in {METRES[metre]}"
            yield value_item(self.name, tuning, subject, stage, title, "fill", _needs(text, stage), think=3.2)

    def facts(self, item: Item) -> Facts:
        metre, _, value = _wanted(item)
        return {
            "metre": str(metre), "beats": metre.beats, "bars": 1, "value": value.words,
            "length": float(value.quarters),
        }  # fmt: skip

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return fill_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        metre, text, value = _wanted(item)
        view = StaffView(
            Piece(item.tuning, (written_bar(text, metre, item.tuning, rng),)), manner.dialect, stems=True
        )
        every = sorted(_taught(item.stage), key=lambda other: abs(other.quarters - value.quarters))
        near = [f"{other.words} note" for other in every][:5]
        options = choice_options(offer(f"{value.words} note", near, rng))
        lengths = {f"{other.words} note": other.quarters for other in VALUES.values()}
        offered = {option.answer: lengths[option.answer] for option in options}
        return Question(
            item,
            f"This bar of {metre} is not full: which value fills it up?",
            Picture(view),
            (f"{value.words} note",),
            answers.choice(options),
            partial(_wrong, view, metre, value),
            options=options,
            choices=options,
            traps=time_misreadings.of_length(value.quarters, offered),
            show=lambda answer: article(answer) if answer in offered else answer,
        )


def _needs(text: str, stage: Stage) -> tuple[str, ...]:
    """How long each value lasts that is written there, as far as that is taught by then."""
    written = set(text.split())
    return tuple(
        f"value-length/{key}" for key, sign in SIGNS.items() if sign.written in written and sign.stage <= stage
    )


def _taught(stage: int) -> list[Value]:
    """The values that are offered at a stage: dots and sixteenths not before they are taught, bare eighths in any
    case, so that there are four."""
    known = {sign.value for sign in SIGNS.values() if sign.noun == "note" and sign.stage <= stage}
    return [value for value in VALUES.values() if value in known or value == Value("eighth")]


def _wanted(item: Item) -> tuple[Metre, str, Value]:
    """The metre, what is written, and the value that is missing."""
    name, _, written = item.subject.partition("/")
    metre = METRES[name]
    text = written.replace("-", " ")
    there = sum(value.quarters for value, _, _ in values(text))
    return metre, text, VALUES[Fraction(metre.beats * 4, metre.unit) - there]


def _wrong(view: StaffView, metre: Metre, value: Value, said: str) -> Feedback:
    """The bar with its last note, at the place of the first."""
    bar = view.piece.bars[0]
    note = next(onset.notes[0] for onset in bar.onsets if onset.notes)
    length = value.quarters * metre.unit / 4
    last = Onset((Note(note.string, note.fret),), 1 + beats_of(bar) - length, length)
    full = bar._replace(onsets=(*bar.onsets, last))
    colours = {At(0, len(bar.onsets), note.string): Role.TRUE}
    beats = "eighths" if metre.unit == 8 else "beats"
    there = beats_of(bar) - length
    why = (
        f"The bar has {metre.beats} {beats} and {amount(there)} of them {'is' if there <= 1 else 'are'} written, so "
        f"the {value.words} note fills it up."
    )
    shown = replace(view, piece=view.piece._replace(bars=(full,)), colours=colours, count=True)
    return Feedback(why, Picture(shown))
