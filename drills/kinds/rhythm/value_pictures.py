"""What the drills of note values share: items, the bars they draw, choices and what a wrong one shows."""

from __future__ import annotations

import random
from collections.abc import Collection, Mapping
from dataclasses import replace
from functools import partial

from drills import answers
from drills.kinds.rhythm.value_signs import Sign
from drills.kinds.rhythm.written import METRES, written_bar
from drills.notation.drawing import Role
from drills.notation.score import At, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Facts, Feedback, Item, Kind, Manner, Misreading, Option, Picture, Question
from drills.stages import Stage


def value_item(
    drill: str, tuning: Tuning, subject: str, stage: Stage, title: str, lesson: str, needs: tuple[str, ...] = (),
    think: float = 1.7,
) -> Item:  # fmt: skip
    """One item of the drills of values; its meaning is the same on every tuning."""
    return Item(f"{drill}/{subject}", drill, tuning, subject, Kind.CHOICE, stage, title, lesson, needs, think)


def value_facts(sign: Sign) -> Facts:
    """What is true of a value."""
    return {"value": sign.value.words, "rest": sign.noun == "rest", "length": float(sign.value.quarters)}


def drawn(sign: Sign, tuning: Tuning, rng: random.Random, manner: Manner) -> tuple[StaffView, tuple[At, ...]]:
    """A bar with the value in it; a note is pointed at, a rest is the only one."""
    metre, text = rng.choice(sign.bars)
    bar = written_bar(text, METRES[metre], tuning, rng)
    found = [n for n, word in enumerate(text.split()) if word == sign.written]
    index = rng.choice(found)
    view = StaffView(Piece(tuning, (bar,)), manner.dialect, stems=True)
    if sign.noun == "rest":
        return view, (At(0, index, 0),)
    at = At(0, index, bar.onsets[index].notes[0].string)
    return replace(view, colours={at: Role.LIT}), (at,)


def offer(right: str, others: list[str], rng: random.Random, near: Collection[str] = ()) -> list[str]:
    """The right text among three others, in any order; of those that are most easily taken for it, two at least."""
    wrong = sorted({text for text in others if text != right})
    close = sorted(text for text in wrong if text in near)
    chosen = rng.sample(close, min(2, len(close)))
    chosen += rng.sample([text for text in wrong if text not in chosen], 3 - len(chosen))
    texts = [right, *chosen]
    rng.shuffle(texts)
    return texts


def choice_question(
    item: Item, prompt: str, view: StaffView, right: str, options: tuple[Option, ...], why: str, lit: tuple[At, ...],
    traps: Mapping[Misreading, frozenset[str]],
) -> Question:  # fmt: skip
    """A choice; when it is wrong, the count stands under the staff and what was asked about is shown."""
    return Question(
        item, prompt, Picture(view), (right,), answers.choice(options), partial(_wrong, view, why, lit),
        options=options, choices=options, traps=traps,
    )  # fmt: skip


def _wrong(view: StaffView, why: str, lit: tuple[At, ...], said: str) -> Feedback:
    colours = dict.fromkeys(lit, Role.TRUE)
    if said in {answer for _, answer in view.keys.values()}:
        for (bar, index), (_, answer) in view.keys.items():
            if answer == said:
                colours[At(bar, index, view.piece.bars[bar].onsets[index].notes[0].string)] = Role.SAID
    return Feedback(why, Picture(replace(view, colours=colours, count=True)))
