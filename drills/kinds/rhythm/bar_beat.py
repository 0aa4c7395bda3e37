"""On which beat does a number fall?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final, NamedTuple

from drills import answers
from drills.kinds.rhythm.bars import RHYTHMS, bar_explanation
from drills.kinds.rhythm.written import METRES, amount, struck_bar, written_bar
from drills.kinds.wording import count_options
from drills.notation.drawing import Role
from drills.notation.score import At, Metre, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.notation.values import beat_of
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

SUMMED: Final = {
    "4-4/3": ("h q q", "q q h", "q q q q", "e e q h", "q. e h"),
    "4-4/4": ("h. q", "h q q", "q h q", "q q q q", "e e h q"),
    "4-4/2-and": ("q. e h", "q. e q q", "q e e h", "q e e q q"),
    "4-4/3-and": ("h e e q", "q q e e q", "e e q e e q", "q. e e e q"),
    "3-4/2": ("q h", "q q q", "e e h", "e e q q", "q q e e"),
    "3-4/3": ("h q", "q q q", "h e e", "q. e q"),
}
"""Bars in which the beat has to be added up from the values, with no count under them; each beat is one item."""


class Asked(NamedTuple):
    """Beats of one metre that are asked for in the same way.

    Attributes:
        metre: by its name.
        stage: when they are taught.
        lesson: which explains them.
        title: what they have in common.
        think: seconds.
        beats: what ids write of them, in an order of their own, so that no place in it tells a beat. Among half
            beats and sixteenths whole ones are asked for too (``halves/2``), or the part of a beat would be known
            before the tab is read.
    """

    metre: str
    stage: Stage
    lesson: str
    title: str
    think: float
    beats: tuple[str, ...]


ASKED: Final = (
    Asked("4-4", Stage.BARS, "beats", "The beat of a number", 1.7, ("3", "1", "4", "2")),
    Asked("3-4", Stage.BARS, "beats", "The beat of a number", 1.7, ("2", "3", "1")),
    Asked("4-4", Stage.HALF_BEATS, "beats", "The beat among half beats", 2.05,
          ("3-and", "4-and", "halves/2", "1-and", "halves/3", "2-and")),
    Asked("3-4", Stage.HALF_BEATS, "beats", "The beat among half beats", 2.05,
          ("2-and", "halves/3", "1-and", "halves/2", "3-and")),
    Asked("4-4", Stage.HALF_BEATS, "summed", "The beat by adding up values", 3.2,
          ("values/3", "values/4", "values/2-and", "values/3-and")),
    Asked("3-4", Stage.HALF_BEATS, "summed", "The beat by adding up values", 3.2, ("values/2", "values/3")),
    Asked("2-4", Stage.TWELVE_FRETS, "beats", "The beat among half beats", 2.05, ("2", "1-and", "1", "2-and")),
    Asked("6-8", Stage.FAST_BEATS, "six-eight", "The eighth of a number", 1.7, ("4", "1", "6", "3", "2", "5")),
    Asked("4-4", Stage.FAST_BEATS, "sixteenths", "The beat among sixteenths", 2.4,
          ("3-e", "1-a", "sixteenths/4-and", "2-e", "sixteenths/1", "4-a", "1-e", "3-a", "sixteenths/2-and", "4-e",
           "sixteenths/3", "2-a")),
    Asked("3-4", Stage.FAST_BEATS, "sixteenths", "The beat among sixteenths", 2.4,
          ("2-a", "3-e", "sixteenths/1-and", "1-e", "sixteenths/2", "3-a", "2-e", "sixteenths/3-and", "1-a")),
)  # fmt: skip
"""Every beat that is asked for; each is one item."""

SHAPES: Final = ("", "&", "e&a", "e&", "ea", "&a", "a")
"""What is struck of a beat beside its number, where sixteenths are."""


class BarBeat:
    """On which beat does a number fall?"""

    name = "bar-beat"
    title = "The beat of a number"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for metre, stage, lesson, title, think, beats in ASKED:
            for n, beat in enumerate(beats, start=1):
                subject = f"{metre}/{beat}"
                yield Item(
                    f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.BEAT, stage,
                    f"{title} in {METRES[metre]}, no. {n}", lesson, (f"bar-count/{tuning.name}/{metre}/beats",), think,
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
            bar = struck_bar(_rhythm(item, name, word, rng), metre, tuning, rng)
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


def _rhythm(item: Item, name: str, word: str, rng: random.Random) -> str:
    """Beats of a bar with that one among them."""
    if item.lesson == "sixteenths":
        return _sixteenths(METRES[name].beats, word, rng)
    fit = [rhythm for rhythm in RHYTHMS[name] if word in rhythm.split()]
    if "/halves/" in item.subject:
        fit = [rhythm for rhythm in fit if "&" in rhythm]
    return rng.choice(fit)


def _sixteenths(beats: int, word: str, rng: random.Random) -> str:
    """Sixteenths on one beat or two, on the one that is asked for or on others."""
    asked, part = int(word[0]), word[1:]
    shapes = {beat: rng.choice(("", "", "&")) for beat in range(1, beats + 1)}
    shapes[rng.randint(1, beats)] = rng.choice(SHAPES[2:])
    shapes[asked] = rng.choice([shape for shape in SHAPES if part in shape])
    if not any(set(shape) & set("ea") for shape in shapes.values()):
        shapes[asked % beats + 1] = rng.choice(SHAPES[2:])
    return " ".join(f"{beat}{part}" for beat, shape in shapes.items() for part in ("", *shape))


def beat_options(metre: Metre, stage: int) -> tuple[Option, ...]:
    """The keys of a beat, by what the stage asks for: a digit for a whole beat, a letter for each half; none where
    there are sixteenths, so that the beat is typed as it is counted."""
    if metre.unit == 8 or stage == Stage.BARS:
        return count_options(metre.beats)
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
        beats = f"{amount(before)} beat{'s' if before > 1 else ''}"
        why = f"What stands before the marked number lasts {beats}, so it falls on {word}"
    heard = answers.beat(metre.beats)(said)
    for index, onset in enumerate(view.piece.bars[0].onsets):
        if heard is not None and onset.beat == beat_of(heard):
            colours[At(0, index, onset.notes[0].string)] = Role.SAID
            why += f"; another number falls on {heard}"
    return Feedback(why + ".", Picture(replace(view, colours=colours, count=True)))
