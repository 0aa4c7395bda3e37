"""An x on a staff (struck and damped) against an x over a diagram (not played): how many strings are struck?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from itertools import zip_longest
from typing import Final

from drills import answers, misreadings
from drills.kinds import chord_lessons, chord_pictures, pictures
from drills.kinds.chord_diagrams import drawn_first
from drills.kinds.chord_shapes import STAGES, families
from drills.kinds.wording import count_options
from drills.notation.score import Bar, Onset, Piece
from drills.notation.shape import Shape, parse_shape
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

DIAGRAM, STAFF = "diagram", "staff"
ASKED: Final = 6
"""Shapes that are asked about, each both ways."""


class ChordX:
    """How many strings does the picking hand strike?"""

    name = "chord-x"
    title = "Two kinds of x"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        known = families(tuning, "first") + families(tuning, "power") + families(tuning, "open")
        crossed = [entry for entry in known if None in entry.shape.frets]
        # Shapes that leave out one string and those that leave out more take turns, so that the count is never known.
        few = [entry for entry in crossed if entry.shape.frets.count(None) == 1]
        more = [entry for entry in crossed if entry not in few]
        turns = [entry for pair in zip_longest(few, more) for entry in pair if entry is not None]
        for n, entry in enumerate(turns[:ASKED]):
            for where in (DIAGRAM, STAFF):
                subject = f"{where}-{entry.shape.text}"
                stage = max(STAGES[entry.family], Stage.STACKS if n < ASKED // 2 else Stage.TOUCH)
                yield Item(
                    f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage,
                    f"Strings struck: {entry.shape.text} {'as a diagram' if where == DIAGRAM else 'on the staff'}",
                    "cross", drawn_first(entry, tuning), think=2.5,
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return {**chord_pictures.chord_facts(_shape(item), item.tuning), "struck": _struck(item)}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.crosses(next(iter(self.items(item.tuning))), manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        lines = item.tuning.lines
        return Question(
            item, "How many strings does the picking hand strike?", _picture(item, manner), (str(_struck(item)),),
            answers.number(1, 99), partial(_wrong, item, manner),
            options=count_options(9),
            traps=misreadings.of_count(_struck(item), max(lines, 9)),
        )  # fmt: skip


def _shape(item: Item) -> Shape:
    return parse_shape(item.subject.partition("-")[2])


def _on_staff(item: Item) -> bool:
    return item.subject.startswith(STAFF)


def _struck(item: Item) -> int:
    shape = _shape(item)
    return len(chord_pictures.struck(shape) if _on_staff(item) else shape.places)


def _picture(item: Item, manner: Manner, labels: tuple[str, ...] = ()) -> Picture:
    shape = _shape(item)
    if not _on_staff(item):
        return Picture(diagram=chord_pictures.one_box(shape, manner, labels=labels))
    piece = Piece(item.tuning, (Bar((Onset(chord_pictures.struck(shape)),)),))
    return Picture(StaffView(piece, manner.dialect, labels))


def _wrong(item: Item, manner: Manner, said: str) -> Feedback:
    shape = _shape(item)
    numbers = pictures.line_numbers(item.tuning)
    if _on_staff(item):
        all_struck, damped = _struck(item), _struck(item) - len(shape.places)
        why = f"On a staff an x is struck too, with the string damped: {all_struck} strings, {damped} of them damped."
        return Feedback(why, _picture(item, manner, numbers))
    silent = shape.lines - len(shape.places)
    strings = "1 string is" if silent == 1 else f"{silent} strings are"
    why = f"Over a diagram an x means not played: {strings} left out, and {len(shape.places)} are struck."
    picture = _picture(item, manner, numbers)
    staff = chord_pictures.stack(item.tuning, manner.dialect, [shape], labels=numbers)
    return Feedback(why, picture._replace(staff=staff))
