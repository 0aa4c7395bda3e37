"""Pick-up bars: how a piece begins, and on which beat its first number falls."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final

from drills import answers, time_misreadings
from drills.kinds.rhythm.bar_beat import beat_options, show_beat
from drills.kinds.rhythm.value_lessons import pick_up_explanation
from drills.kinds.rhythm.written import METRES, written_bar
from drills.kinds.wording import choice_options
from drills.notation.drawing import Role
from drills.notation.score import At, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import beat_of
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

PICK_UPS: Final = {
    "4-4": {"full": ("q q h", "h q q"), "half": ("e",), "1": ("q", "e e"), "2": ("q q", "q e e"),
            "3": ("q h", "q q q")},
    "3-4": {"full": ("h q", "q q q"), "half": ("e",), "1": ("q", "e e"), "2": ("q q", "q e e")},
}  # fmt: skip
"""By metre and beats of the pick-up: what is written in it. ``full`` is no pick-up."""

BEGINNINGS: Final = {"4-4": ("2", "half", "full", "3", "1"), "3-4": ("1", "half", "full", "2")}
"""Those whose first beat is asked for, in an order that tells none; a full bar too, or it would never be beat 1."""

AFTER: Final = {"4-4": ("h h", "q q h", "h q q"), "3-4": ("h q", "q h", "q q q")}
"""The full bar that follows."""

WORDS: Final = {
    "full": "with a full bar", "half": "with a pick-up of half a beat", "1": "with a pick-up of 1 beat",
    "2": "with a pick-up of 2 beats", "3": "with a pick-up of 3 beats",
}  # fmt: skip

BEATS: Final = {"half": "4&", "1": "4", "2": "3", "3": "2"}
"""Where a pick-up to a bar of four begins; in a bar of three one beat earlier."""


class BarPickUp:
    """Is the first bar full, and on which beat does it begin?"""

    name = "bar-pick-up"
    title = "Pick-up bars"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for metre, found in PICK_UPS.items():
            for n, which in enumerate(found, start=1):
                title = f"How a piece in {METRES[metre]} begins ({n} of {len(found)})"
                yield self._item(tuning, f"{metre}/{which}", Kind.CHOICE, title)
        for metre, beats in BEGINNINGS.items():
            for n, which in enumerate(beats, start=1):
                title = f"On which beat a piece in {METRES[metre]} begins, no. {n}"
                yield self._item(tuning, f"{metre}/{which}/beat", Kind.BEAT, title)

    def _item(self, tuning: Tuning, subject: str, kind: Kind, title: str) -> Item:
        needs = (f"bar-count/{tuning.name}/{subject[:3]}/values",)
        return Item(f"{self.name}/{subject}", self.name, tuning, subject, kind, Stage.FAST_BEATS, title, "pick-up",
                    needs, 3.2)  # fmt: skip

    def facts(self, item: Item) -> Facts:
        name, which = item.subject.split("/")[:2]
        begins = _first_beat(name, which)
        return {
            "metre": str(METRES[name]), "beats": METRES[name].beats, "bars": 2, "pick_up": which != "full",
            "beat": float(beat_of(begins)),
        }  # fmt: skip

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return pick_up_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        name, which = item.subject.split("/")[:2]
        metre, tuning = METRES[name], item.tuning
        bars = (
            written_bar(rng.choice(PICK_UPS[name][which]), metre, tuning, rng, pick_up=which != "full"),
            written_bar(rng.choice(AFTER[name]), metre, tuning, rng),
        )
        first = At(0, 0, bars[0].onsets[0].notes[0].string)
        view = StaffView(Piece(tuning, bars), manner.dialect, stems=True)
        beat = _first_beat(name, which)
        if item.kind is Kind.BEAT:
            return Question(
                item, f"This is in {metre}: on which beat does it begin?", Picture(view), (beat,),
                answers.beat(metre.beats), partial(_wrong, view, first, which, beat),
                options=beat_options(metre, Stage.HALF_BEATS), show=partial(show_beat, metre.beats),
            )  # fmt: skip
        texts = list(WORDS.values()) if name == "4-4" else list(WORDS.values())[:4]
        options = choice_options(rng.sample(texts, len(texts)))
        lengths = {text: _length(key) for key, text in WORDS.items() if text in texts and key != "full"}
        traps = time_misreadings.of_length(_length(which), lengths) if which != "full" else {}
        return Question(
            item, f"How does this piece in {metre} begin?", Picture(view), (WORDS[which],), answers.choice(options),
            partial(_wrong, view, first, which, beat), options=options, choices=options, traps=traps,
        )  # fmt: skip


def _length(which: str) -> Fraction:
    return Fraction(1, 2) if which == "half" else Fraction(which)


def _first_beat(name: str, which: str) -> str:
    """The beat on which a piece begins."""
    if which == "full":
        return "1"
    beat = BEATS[which]
    return beat if name == "4-4" else f"{int(beat[0]) - 1}{beat[1:]}"


def _wrong(view: StaffView, first: At, which: str, beat: str, said: str) -> Feedback:
    colours = {first: Role.TRUE}
    heard = answers.beat(9)(said)
    for index, onset in enumerate(view.piece.bars[0].onsets):
        if index and heard is not None and onset.beat == beat_of(heard):
            colours[At(0, index, onset.notes[0].string)] = Role.SAID
    why = f"Counted backward from the bar line, the first number falls on {beat}."
    if which == "full":
        why = "The values of the first bar fill it from beat 1 on, so there is no pick-up."
    return Feedback(why, Picture(replace(view, colours=colours, count=True)))
