"""A phrase with signs: what is heard, in order?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from drills import answers
from drills.kinds import pictures
from drills.kinds.caution import CAUTION
from drills.kinds.marks.hearing import heard_in
from drills.kinds.marks.phrase import Phrase
from drills.kinds.marks.phrase_table import PHRASE_BY_KEY, PHRASES
from drills.kinds.wording import capital, choice_options
from drills.notation.drawing import Role
from drills.notation.score import MarkKind
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question


class MarkSounds:
    """A phrase with signs: what is heard, in order?"""

    name = "mark-sounds"
    title = "What sounds"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for phrase in PHRASES:
            if phrase.sounds:
                yield Item(
                    f"{self.name}/{tuning.name}/{phrase.key}", self.name, tuning, phrase.key, Kind.CHOICE,
                    phrase.stage, f"What sounds: {phrase.title}", _lesson(phrase), phrase.needs(), think=3.2,
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return PHRASE_BY_KEY[item.subject].facts(item.tuning)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        example, title, lines = _LESSONS[item.lesson]
        view = PHRASE_BY_KEY[example].view(item.tuning, manner.dialect, picking=False)
        return Explanation(title, lines, pictures.with_neck(view, manner))

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        phrase = PHRASE_BY_KEY[item.subject]
        heard = heard_in(phrase, item.tuning, rng)
        texts = [heard.right, *heard.wrong]
        rng.shuffle(texts)
        options = choice_options(texts)
        view = phrase.view(item.tuning, manner.dialect, picking=False)
        return Question(
            item,
            heard.prompt,
            Picture(view),
            (heard.right,),
            answers.choice(options),
            partial(_wrong_sound, view, phrase, heard.right),
            options=options,
            choices=options,
            traps=heard.traps,
        )


_LESSONS = {
    "sounds": (
        "h", "What is heard",
        (
            "Signs change what is heard: a hammer-on steps up, a pull-off steps down, a slide glides, a bend "
            "pushes the pitch up while the finger stays at its fret.",
            "A half bend ends as high as the next fret, a full bend as high as the fret after that. Released, "
            "the pitch comes back down.",
            "Each pitch that is heard is named by the fret that sounds it, one after another. Here: 5, then 7.",
        ),
    ),
    "sounds-touch": (
        "tie-then", "What is heard when notes are held or muted",
        (
            "A tied number is no new sound: the note goes on. A muted x has no pitch at all and is left out.",
            "Under a palm mute every note keeps its pitch. Here: 4, then 7.",
        ),
    ),
    "sounds-bent": (
        "pre-bend-release", "What is heard of wide bends and pre-bends",
        (
            "The amount over the arrow counts whole steps: 1½ ends three frets higher, 2 ends four frets higher.",
            "A pre-bend is pushed in silence: the written fret is heard only after its release. Here: 9, then 7.",
            CAUTION,
        ),
    ),
    "sounds-turns": (
        "trill", "What is heard of trills and taps",
        (
            "A trill goes to and fro between its two frets as long as it lasts. A tap sounds its own fret, and what "
            "is pulled off to sounds next.",
            "A grace note is heard first, but only just. Here: 5 and 7 in turn, over and over.",
            CAUTION,
        ),
    ),
    "sounds-harmonic": (
        "harmonic-7", "Where a natural harmonic sounds",
        (
            "A harmonic sounds a part of the open string: half of it at fret 12, an octave up; a third at 7 and 19, "
            "an octave and a fifth; a quarter at 5 and 24, two octaves; a fifth at 4 and 9, two octaves and a third.",
            "Only at fret 12 is that the pitch of the pressed fret, and at 19 and 24. Here: an octave and a fifth.",
        ),
    ),
    "sounds-repeat": (
        "repeat-count", "What is heard of a repeated part",
        (
            "Repeat signs have the part between them played twice. A count beside the closing sign says how often in "
            "all, the first time counted: x3 is three times, not three times more.",
        ),
    ),
}  # fmt: skip
"""By lesson: the phrase that is drawn, the title, the words."""


def _lesson(phrase: Phrase) -> str:
    kinds = {mark.kind for step in phrase.steps for mark in step.marks}
    if phrase.times > 1:
        return "sounds-repeat"
    if MarkKind.HARMONIC in kinds:
        return "sounds-harmonic"
    if kinds & {MarkKind.TRILL, MarkKind.TAP, MarkKind.GRACE}:
        return "sounds-turns"
    if MarkKind.PRE_BEND in kinds or any((mark.amount or 0) > 1 for step in phrase.steps for mark in step.marks):
        return "sounds-bent"
    if kinds & {MarkKind.TIE, MarkKind.MUTE, MarkKind.PALM_MUTE}:
        return "sounds-touch"
    return "sounds"


def _wrong_sound(view: StaffView, phrase: Phrase, right: str, said: str) -> Feedback:
    moves = [sign.move for sign in phrase.in_it()]
    why = f"{capital(', and '.join(dict.fromkeys(moves)))}: what is heard is {right}."
    return Feedback(why, Picture(replace(view, colours=pictures.coloured(view, Role.TRUE))))
