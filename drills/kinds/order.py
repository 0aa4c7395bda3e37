"""After one another or together, and in which order: reading a staff from left to right."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import helps, pictures
from drills.kinds.wording import count_options, said_number
from drills.notation.drawing import Role
from drills.notation.score import At, Bar, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

SEQUENCES: Final = {
    Stage.LINES: "4-2 1-3-2 3-4-1",
    Stage.PLACES: "4-1-3-2 1-2-1-4",
    Stage.NAMES: "2-4-3-1 5-2-3-1",
    Stage.BARS: "6-3-5-2 4-6-1-5",
    Stage.SLIDES: "5-3-6-2-4",
}
"""By stage, strings in order of time."""
STROKES: Final = {
    Stage.LINES: "1-2 3.4 1-2.3",
    Stage.PLACES: "1.2-3.4 2-3.4-1",
    Stage.NAMES: "1.2.3-4-2 4.5-3-2.1",
    Stage.BARS: "6.5.4-3-2-1 2-3-4.5.6-1",
    Stage.SLIDES: "1.2-3.4-2-5.6",
}
"""By stage, onsets; a dot joins strings that are struck together."""
TOGETHER: Final = {
    Stage.PLACES: "1.3 2.4",
    Stage.NAMES: "1.2.4 2.3.4",
    Stage.BARS: "4.5 1.5 3.5.6",
    Stage.SLIDES: "1.3.4.6",
}
"""By stage, the strings of one onset."""


class Order:
    """What is struck together, how often the hand strikes, which string comes when."""

    name = "order"
    title = "Order in time"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for prefix, kind, patterns, lesson in (
            ("hit", Kind.COUNT, STROKES, "together"),
            ("seq", Kind.ORDER, SEQUENCES, "order"),
            ("set", Kind.SET, TOGETHER, "together"),
        ):
            numbered = Counter[str]()
            for stage, pattern in ((stage, each) for stage, found in patterns.items() for each in found.split()):
                strings = [string for onset in _onsets(pattern) for string in onset]
                if max(strings) > tuning.lines:
                    continue
                what = _what(prefix, pattern)
                numbered[what] += 1
                needs = tuple(f"line-to-string/{tuning.name}/{n}" for n in sorted(set(strings)))
                yield Item(
                    f"{self.name}/{tuning.name}/{prefix}-{pattern}", self.name, tuning, f"{prefix}-{pattern}",
                    kind, stage, f"{what}, no. {numbered[what]}", lesson, () if prefix == "hit" else needs,
                    think=_think(kind, pattern),
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        onsets = _onsets(_pattern(item))
        return {"onsets": len(onsets), "strings": [sorted(onset) for onset in onsets]}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        tuning = item.tuning
        together = item.lesson == "together"
        onsets = _draw(tuning, _onsets("4-3-2-1.2.3" if together else "3-1-4-2"), random.Random(7))
        if together:
            title = "Numbers in one column"
            lines: tuple[str, ...] = (
                "Tab is read from left to right. Numbers one after another are struck one after another.",
                "Numbers that stand one above the other, in one column, are struck together: one movement of the "
                "picking hand. Two are a double stop, more are a chord.",
                "Here the hand strikes four times: three single notes, then three strings at once. Press the number "
                "of strokes; or, asked which strings, press the numbers of their lines in any order.",
            )
        else:
            title = "From left to right"
            lines = (
                "Time runs from left to right, whatever the line. Do not read down the lines: take the leftmost "
                "number first, wherever it stands.",
                "A number on a line is a fret; which string it is, its line says. Here the strings are struck in the "
                "order 3, 1, 4, 2. Press the numbers of the strings in that order.",
            )
        view = StaffView(Piece(tuning, (Bar(onsets),)), manner.dialect, pictures.line_numbers(tuning))
        return Explanation(title, lines, pictures.with_neck(view, manner))

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        onsets = _onsets(_pattern(item))
        drawn = _draw(tuning, onsets, rng)
        view = StaffView(Piece(tuning, (Bar(drawn),)), manner.dialect)
        numbered = helps.numbers(partial(_labelled, view), tuning, 1)
        wrong = partial(_wrong, item, view, manner)
        numbers = count_options(tuning.lines)
        if item.kind is Kind.COUNT:
            count = len(onsets)
            return Question(
                item, "How many times does the picking hand strike the strings?", Picture(view), (str(count),),
                answers.number(1, 99), wrong,
                options=count_options(9),
                traps=misreadings.of_count(count, 99),
            )  # fmt: skip
        if item.kind is Kind.ORDER:
            strings = [onset[0] for onset in onsets]
            return Question(
                item, "Which strings are struck, in order?", Picture(view), (_text(strings),),
                answers.sequence(len(strings), tuning.lines), wrong, helps=numbered,
                options=numbers, length=len(strings), joiner=" ",
                traps=misreadings.of_order(strings, tuning.lines), show=_show,
            )  # fmt: skip
        return Question(
            item, "Which strings are struck together?", Picture(view), (_text(sorted(onsets[0])),),
            answers.collection(tuning.lines), wrong, helps=numbered,
            options=numbers, length=len(onsets[0]), joiner=" ",
            traps=misreadings.of_set(onsets[0], tuning.lines), show=_show,
        )  # fmt: skip


def _labelled(view: StaffView, labels: helps.Labels) -> Picture:
    return Picture(replace(view, labels=labels))


def _pattern(item: Item) -> str:
    return item.subject.partition("-")[2]


def _onsets(pattern: str) -> list[list[int]]:
    """``2-3.4`` -> string 2, then strings 3 and 4 together."""
    return [[int(n) for n in onset.split(".")] for onset in pattern.split("-")]


def _draw(tuning: Tuning, onsets: list[list[int]], rng: random.Random) -> tuple[Onset, ...]:
    """The pattern with frets of the first position, which are no part of the question."""
    return tuple(
        Onset(tuple(Note(string, rng.choice(tuning.frets(string, 3))) for string in sorted(onset))) for onset in onsets
    )


def _what(prefix: str, pattern: str) -> str:
    """What is asked for, without the answer; items that ask alike are told apart by a number."""
    onsets = _onsets(pattern)
    return {
        "hit": "Strokes of the picking hand",
        "seq": f"{len(onsets)} strings in order",
        "set": f"{len(onsets[0])} strings at once",
    }[prefix]


def _think(kind: Kind, pattern: str) -> float:
    """One symbol 1.2 s, half a second for each further note to look at, .35 s for each further key."""
    onsets = _onsets(pattern)
    notes = sum(len(onset) for onset in onsets)
    keys = 1 if kind is Kind.COUNT else notes
    return round(1.2 + 0.5 * (notes - 1) + 0.35 * (keys - 1), 2)


def _text(strings: list[int]) -> str:
    return " ".join(map(str, strings))


def _show(answer: str) -> str:
    parts = answer.split()
    return ", ".join(parts) if parts and all(said_number(part, 1, 8) for part in parts) else answer


def _wrong(item: Item, view: StaffView, manner: Manner, said: str) -> Feedback:
    tuning = item.tuning
    onsets = _onsets(_pattern(item))
    colours = {At(0, i, string): Role.TRUE for i, onset in enumerate(onsets) for string in onset}
    if item.kind is Kind.COUNT:
        keys = {(0, i): (str(i + 1), str(i + 1)) for i in range(len(onsets))}
        columns = "there is 1 column" if len(onsets) == 1 else f"there are {len(onsets)} columns"
        why = f"Each column is one stroke, however many numbers stand in it, and {columns} here."
        return Feedback(why, Picture(replace(view, keys=keys, colours=colours)))
    labels = pictures.line_numbers(tuning)
    truth = ", ".join(str(n) for onset in onsets for n in sorted(onset))
    if item.kind is Kind.ORDER:
        why = f"From left to right, whatever the line: strings {truth}"
    else:
        why = f"Every number in the column is struck at once: strings {truth}"
    frets = [str(note.fret) for onset in view.piece.bars[0].onsets for note in onset.notes]
    if said.split() == frets or (item.kind is Kind.SET and set(said.split()) == set(frets) and len(set(frets)) > 1):
        why += "; what you gave are the numbers on the lines, which are frets"
    spots = {}
    parts = [said_number(part, 1, tuning.lines) for part in said.split()]
    if item.kind is Kind.ORDER and len(parts) == len(onsets):
        spots = {
            At(0, i, n): ("×", Role.SAID) for i, n in enumerate(parts) if n is not None and [n] != onsets[i]
        }
    elif item.kind is Kind.SET:
        spots = {At(0, 0, n): ("×", Role.SAID) for n in parts if n is not None and n not in onsets[0]}
    return Feedback(why + ".", Picture(replace(view, labels=labels, colours=colours, spots=spots)))
