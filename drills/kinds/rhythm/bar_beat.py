"""On which beat does a number fall?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final

from drills import answers
from drills.kinds.rhythm.bars import RHYTHMS, bar_explanation
from drills.kinds.rhythm.written import METRES, struck_bar, written_bar
from drills.notation.drawing import Role
from drills.notation.score import At, Metre, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import beat_of
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

PARTS: Final = {"": "", "&": "-and", "e": "-e", "a": "-a"}
"""Part of a beat -> how an item's id writes it."""

SUMMED: Final = {
    "4-4/3": ("h q q", "q q h", "q q q q", "e e q h", "q. e h"),
    "4-4/4": ("h. q", "h q q", "q h q", "q q q q", "e e h q"),
    "4-4/2-and": ("q. e h", "q. e q q", "q e e h", "q e e q q"),
    "4-4/3-and": ("h e e q", "q q e e q", "e e q e e q", "q. e e e q"),
    "3-4/2": ("q h", "q q q", "e e h", "e e q q", "q q e e"),
    "3-4/3": ("h q", "q q q", "h e e", "q. e q"),
}
"""Bars in which the beat has to be added up from the values, with no count under them; each beat is one item."""


class BarBeat:
    """On which beat does a number fall?"""

    name = "bar-beat"
    title = "The beat of a number"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for part in ("", "&"):
            for metre in ("4-4", "3-4"):
                stage = Stage.HALF_BEATS if part else Stage.BARS
                yield from self._beats(tuning, metre, part, stage, "beats", 2.05 if part else 1.7)
        for place in SUMMED:
            metre, _, beat = place.partition("/")
            word = beat.replace("-and", "&")
            yield self._item(
                tuning, f"{metre}/values/{beat}", Stage.HALF_BEATS, f"Beat {word} of {METRES[metre]} by its values",
                "summed", 3.2,
            )  # fmt: skip
        for part in ("", "&"):
            yield from self._beats(tuning, "2-4", part, Stage.TWELVE_FRETS, "beats", 2.05)
        yield from self._beats(tuning, "6-8", "", Stage.FAST_BEATS, "six-eight", 1.7)
        for metre in ("4-4", "3-4"):
            for part in ("e", "a"):
                yield from self._beats(tuning, metre, part, Stage.FAST_BEATS, "sixteenths", 2.4)

    def _beats(
        self, tuning: Tuning, metre: str, part: str, stage: Stage, lesson: str, think: float
    ) -> Iterator[Item]:
        for beat in range(1, METRES[metre].beats + 1):
            title = f"Beat {beat}{part} of {METRES[metre]}"
            yield self._item(tuning, f"{metre}/{beat}{PARTS[part]}", stage, title, lesson, think)

    def _item(self, tuning: Tuning, subject: str, stage: Stage, title: str, lesson: str, think: float) -> Item:
        metre = subject.partition("/")[0]
        return Item(
            f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.BEAT, stage, title, lesson,
            (f"bar-count/{tuning.name}/{metre}/beats",), think,
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        metre, word = _wanted(item)
        return {"metre": str(METRES[metre]), "beats": METRES[metre].beats, "beat": float(beat_of(word)), "bars": 1}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return bar_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        name, word = _wanted(item)
        metre = METRES[name]
        summed = "/values/" in item.subject
        if summed:
            bar = written_bar(rng.choice(SUMMED[item.subject.replace("/values", "")]), metre, tuning, rng)
        else:
            bar = struck_bar(_rhythm(name, word, rng), metre, tuning, rng)
        index = [onset.beat for onset in bar.onsets].index(beat_of(word))
        lit = At(0, index, bar.onsets[index].notes[0].string)
        view = StaffView(
            Piece(tuning, (bar,)), manner.dialect, colours={lit: Role.LIT}, count=not summed, stems=summed
        )
        return Question(
            item,
            f"On which {'eighth' if metre.unit == 8 else 'beat'} does the marked number fall?",
            Picture(view),
            (word,),
            answers.beat(metre.beats),
            partial(_wrong_beat, view, lit, word, metre),
            options=beat_options(metre, item.stage),
            ends=_complete,
            show=partial(show_beat, metre.beats),
        )


def _complete(typed: str) -> bool:
    """A number with its part is complete; a number alone may still get one."""
    return len(typed) == 2 and typed[0].isdigit() and typed[1] in "e&a+n"


def _wanted(item: Item) -> tuple[str, str]:
    """Name of the metre and the beat: ``4-4``, ``2&``."""
    name, *_, beat = item.subject.split("/")
    number, _, part = beat.partition("-")
    return name, number + part.replace("and", "&")


def _rhythm(name: str, word: str, rng: random.Random) -> str:
    if word[-1] not in "ea":
        return rng.choice([rhythm for rhythm in RHYTHMS[name] if word in rhythm.split()])
    words = []
    for beat in range(1, METRES[name].beats + 1):
        if beat == int(word[0]):
            parts = rng.choice(["e&a", "e&", "ea"] if word[-1] == "e" else ["e&a", "&a", "a"])
        else:
            parts = rng.choice(["", "", "&"])
        words += [f"{beat}{part}" for part in ("", *parts)]
    return " ".join(words)


def beat_options(metre: Metre, stage: int) -> tuple[Option, ...]:
    """The keys of a beat, by what the stage asks for: a digit for a whole beat, a letter for each half; none where
    there are sixteenths, so that the beat is typed as it is counted."""
    if metre.unit == 8 or stage == Stage.BARS:
        return tuple(Option(str(n), "", str(n)) for n in range(1, metre.beats + 1))
    if stage == Stage.FAST_BEATS:
        return ()
    words = [f"{beat}{half}" for beat in range(1, metre.beats + 1) for half in ("", "&")]
    return tuple(Option(key, word, word) for key, word in zip("abcdefgh", words, strict=False))


def show_beat(beats: int, answer: str) -> str:
    """``beat 2&``; what is no beat stays as it is."""
    return answer if answers.beat(beats)(answer) != answer else f"beat {answer}"


def _wrong_beat(view: StaffView, lit: At, word: str, metre: Metre, said: str) -> Feedback:
    colours = {lit: Role.TRUE}
    why = f"Straight below the marked number the count says {word}"
    if view.stems:
        before = sum((onset.length or Fraction(0) for onset in view.piece.bars[0].onsets[: lit.onset]), Fraction(0))
        why = f"What stands before the marked number lasts {_beats(before)}, so it falls on {word}"
    heard = answers.beat(metre.beats)(said)
    for index, onset in enumerate(view.piece.bars[0].onsets):
        if heard is not None and onset.beat == beat_of(heard):
            colours[At(0, index, onset.notes[0].string)] = Role.SAID
            why += f"; another number falls on {heard}"
    return Feedback(why + ".", Picture(replace(view, colours=colours, count=True)))


def _beats(length: Fraction) -> str:
    whole, half = divmod(length, 1)
    return f"{whole}{' 1/2' if half else ''} beat{'s' if length > 1 else ''}"
