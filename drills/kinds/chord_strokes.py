"""An x on a staff (struck and damped) against an x over a diagram (not played): how many strings are struck?"""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial

from drills import answers, misreadings
from drills.kinds import chord_lessons, chord_pictures, pictures
from drills.kinds.chord_diagrams import drawn_first, picture_stage
from drills.kinds.chord_shapes import families
from drills.notation.score import Bar, Onset, Piece
from drills.notation.shape import Shape, parse_shape
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question

DIAGRAM, STAFF = "diagram", "staff"


class ChordX:
    """How many strings does the picking hand strike?"""

    name = "chord-x"
    title = "Two kinds of x"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        crossed = [entry for entry in families(tuning, "first", "power", "open") if None in entry.shape.frets]
        for n, entry in enumerate(crossed[:12]):
            for where in (DIAGRAM, STAFF):
                subject = f"{where}-{entry.shape.text}"
                stage = max(picture_stage(entry), picture_stage(crossed[0])) if n else picture_stage(entry)
                yield Item(
                    f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage,
                    f"Strings struck: {entry.shape.text} {'as a diagram' if where == DIAGRAM else 'on the staff'}",
                    f"cross-{where}", (drawn_first(entry, tuning),), think=2.5,
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return {**chord_pictures.chord_facts(_shape(item), item.tuning), "struck": _struck(item)}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        first = next(other for other in self.items(item.tuning) if other.lesson == item.lesson)
        return chord_lessons.crosses(first, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        lines = item.tuning.lines
        return Question(
            item, "How many strings does the picking hand strike?", _picture(item, manner), (str(_struck(item)),),
            answers.number(1, 99), partial(_wrong, item, manner),
            options=tuple(Option(str(n), "", str(n)) for n in range(1, 10)),
            traps=misreadings.of_count(_struck(item), max(lines, 9)),
        )  # fmt: skip


def _shape(item: Item) -> Shape:
    return parse_shape(item.subject.partition("-")[2])


def _on_staff(item: Item) -> bool:
    return item.subject.startswith(STAFF)


def _struck(item: Item) -> int:
    shape = _shape(item)
    return shape.lines if _on_staff(item) else len(shape.places)


def _picture(item: Item, manner: Manner, labels: tuple[str, ...] = ()) -> Picture:
    shape = _shape(item)
    if not _on_staff(item):
        return Picture(diagram=chord_pictures.one_box(shape, manner, labels=labels))
    piece = Piece(item.tuning, (Bar((Onset(chord_pictures.struck(shape)),)),))
    return Picture(StaffView(piece, manner.dialect, labels))


def _wrong(item: Item, manner: Manner, said: str) -> Feedback:
    shape = _shape(item)
    silent = shape.lines - len(shape.places)
    numbers = pictures.line_numbers(item.tuning)
    if _on_staff(item):
        why = f"On a staff an x is struck too, with the string damped: {shape.lines} strings, {silent} of them damped."
        return Feedback(why, _picture(item, manner, numbers))
    strings = "1 string is" if silent == 1 else f"{silent} strings are"
    why = f"Over a diagram an x means not played: {strings} left out, and {len(shape.places)} are struck."
    picture = _picture(item, manner, numbers)
    staff = chord_pictures.stack(item.tuning, manner.dialect, [shape], labels=numbers)
    return Feedback(why, picture._replace(staff=staff))
