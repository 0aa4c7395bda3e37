"""Fingering: 1 to 4 and the thumb of the fretting hand, p i m a of the picking hand, and numbers under the staff."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, note_misreadings
from drills.kinds import pictures
from drills.kinds.finger_lessons import FRETTING, PICKING, finger_explanation, row_view
from drills.kinds.wording import choice_options, count_options, said_number
from drills.notation.drawing import Role
from drills.notation.score import At
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Help, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

POSITIONS: Final = {1: Stage.FIRST_NOTES, 2: Stage.HALF_BEATS, 5: Stage.TWELVE_FRETS, 7: Stage.NECK}
"""Where the first finger is, and when that is asked about (common practice: one finger a fret, no source)."""
ROWS: Final = {
    "5-7-8-7/4": Stage.HALF_BEATS, "2-3-5-3/1": Stage.HALF_BEATS, "4-3-6-5/3": Stage.HALF_BEATS,
    "7-5-8-6/2": Stage.TWELVE_FRETS, "4-2-3-2/1": Stage.TWELVE_FRETS, "9-10-12-9/3": Stage.NECK,
    "2-4-5-3/4": Stage.TWELVE_FRETS, "8-6-5-7/2": Stage.NECK,
}  # fmt: skip
"""Frets of a phrase and which note of it is asked about."""
FINGERS: Final = 4
NAMES: Final = ("thumb", *FRETTING.values())
NUMBERS: Final = count_options(FINGERS)


class Fingers:
    """Which finger is meant, which finger plays."""

    name = "finger"
    title = "Fingering"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for signs, lesson, stage, hand in (
            (FRETTING, "fretting", Stage.FIRST_NOTES, "fretting"), (PICKING, "picking", Stage.HALF_BEATS, "picking"),
        ):  # fmt: skip
            for sign in signs:
                title = f"{sign} of the {hand} hand"
                yield self._general(tuning, f"name-{sign}", Kind.CHOICE, stage, title, lesson)
            for sign, name in signs.items():
                kind = Kind.COUNT if sign.isdigit() else Kind.CHOICE
                title = f"The {name} of the {hand} hand"
                yield self._general(tuning, f"sign-{sign}", kind, stage, title, lesson)
        for position, stage in POSITIONS.items():
            for finger in range(2, FINGERS + 1):
                string, fret = tuning.full[(finger + position) % len(tuning.full)], position + finger - 1
                subject = f"position-{position}/{string}/{fret}"
                yield Item(
                    f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage,
                    f"First finger at fret {position}: string {string}, fret {fret}", "position",
                    (f"{self.name}/sign-1",),
                )  # fmt: skip
        for n, (row, stage) in enumerate(ROWS.items(), start=1):
            subject = f"row-{row}"
            yield Item(
                f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.COUNT, stage,
                f"Fingering under the staff, no. {n}", "row", (f"{self.name}/sign-1",), think=1.7,
            )  # fmt: skip

    def _general(self, tuning: Tuning, subject: str, kind: Kind, stage: Stage, title: str, lesson: str) -> Item:
        """An item that is the same on every instrument."""
        need = () if subject == "name-1" else (f"{self.name}/name-1",)
        return Item(f"{self.name}/{subject}", self.name, tuning, subject, kind, stage, title, lesson, need, think=1.7)

    def facts(self, item: Item) -> Facts:
        if item.lesson == "position":
            position, string, fret = _position(item)
            pitch = item.tuning.sound(string, fret)
            return {
                "position": position,
                "string": string,
                "fret": fret,
                "midi": pitch.midi,
                "names": list(pitch.names),
                "finger": fret - position + 1,
            }
        if item.lesson == "row":
            frets, n = _row(item)
            return {"frets": frets, "fingers": _fingers(frets), "note": n, "finger": _fingers(frets)[n - 1]}
        sign = _sign(item)
        return {"hand": item.lesson, "sign": sign, "finger": (FRETTING | PICKING)[sign]}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return finger_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        if item.lesson == "position":
            return _ask_position(item, manner)
        return _ask_row(item, manner) if item.lesson == "row" else _ask_sign(item, rng, manner)


def _sign(item: Item) -> str:
    return item.subject.partition("-")[2]


def _position(item: Item) -> tuple[int, int, int]:
    """Fret of the first finger, string and fret."""
    position, string, fret = item.subject.removeprefix("position-").split("/")
    return int(position), int(string), int(fret)


def _row(item: Item) -> tuple[list[int], int]:
    """Frets of the phrase, and which note is asked about."""
    frets, _, n = item.subject.removeprefix("row-").partition("/")
    return [int(fret) for fret in frets.split("-")], int(n)


def _fingers(frets: list[int]) -> list[int]:
    """One finger a fret, the first one at the lowest."""
    return [fret - min(frets) + 1 for fret in frets]


def _ask_sign(item: Item, rng: random.Random, manner: Manner) -> Question:
    sign, hand = _sign(item), f"the {item.lesson} hand"
    signs = FRETTING if item.lesson == "fretting" else PICKING
    picture = Picture(pictures.bare_staff(item.tuning, manner.dialect))
    wrong = partial(_wrong_sign, item, manner)
    if item.kind is Kind.COUNT:
        return Question(
            item, f"Which number does the {signs[sign]} of {hand} have?", picture, (sign,), answers.number(1, 9), wrong,
            options=NUMBERS, traps=note_misreadings.of_finger(int(sign), 0),
        )  # fmt: skip
    by_sign = item.subject.startswith("name")
    texts = list(NAMES) if by_sign else list(signs)
    rng.shuffle(texts)
    options = choice_options(texts)
    prompt = f"Which letter stands for the {signs[sign]} of {hand}?"
    if by_sign:
        prompt = f"Which finger of {hand} is {sign}?"
    return Question(
        item, prompt, picture, (signs[sign] if by_sign else sign,), answers.choice(options), wrong,
        options=options, choices=options,
    )  # fmt: skip


def _wrong_sign(item: Item, manner: Manner, said: str) -> Feedback:
    sign = _sign(item)
    signs = FRETTING if item.lesson == "fretting" else PICKING
    why = f"On the {item.lesson} hand {sign} is the {signs[sign]}"
    given = said if said in signs else next((other for other, name in signs.items() if name == said), None)
    if given is not None and given != sign:
        why += f", and {given} is the {signs[given]}"
    return Feedback(f"{why}.", finger_explanation(item, manner).picture)


def _ask_position(item: Item, manner: Manner) -> Question:
    position, string, fret = _position(item)
    tuning, finger = item.tuning, fret - position + 1
    numbers = pictures.line_numbers(tuning)
    notes = [(string, position, Role.FRET), (string, fret, Role.LIT)]
    staff = replace(pictures.row_of_notes(tuning, manner.dialect, notes), fingering={(0, 0): "1"})
    neck = partial(pictures.neck_with, tuning, left_handed=manner.left_handed, highest=POSITION_FRETS)
    first = {(string, position): Role.FRET}
    return Question(
        item,
        "One finger a fret: which finger plays the marked note?",
        Picture(staff),
        (str(finger),),
        answers.number(1, 9),
        partial(_wrong_position, item, manner),
        helps=(
            Help(("neck", "numbers"), lambda: Picture(staff, neck(first | {(string, fret): Role.LIT}, labels=numbers))),
            Help(("neck",), lambda: Picture(staff, neck(first))),
        ),
        options=NUMBERS,
        traps=note_misreadings.of_finger(finger, fret),
        show=_show_finger,
    )  # fmt: skip


POSITION_FRETS: Final = 12


def _wrong_position(item: Item, manner: Manner, said: str) -> Feedback:
    position, string, fret = _position(item)
    finger, tuning = fret - position + 1, item.tuning
    why = f"With the first finger at fret {position}, fret {fret} is under finger {finger}"
    notes = [(string, position, Role.FRET), (string, fret, Role.TRUE)]
    dots = {(string, position): Role.FRET, (string, fret): Role.TRUE}
    number = said_number(said, 1, FINGERS)
    if number is not None:
        there = position + number - 1
        why += f"; finger {number} is at fret {there}"
        notes.append((string, there, Role.SAID))
        dots[string, there] = Role.SAID
    neck = pictures.neck_with(tuning, dots, manner.left_handed, pictures.line_numbers(tuning), highest=POSITION_FRETS)
    staff = replace(pictures.row_of_notes(tuning, manner.dialect, notes), fingering={(0, 0): "1"})
    return Feedback(f"{why}.", Picture(staff, neck))


def _ask_row(item: Item, manner: Manner) -> Question:
    frets, n = _row(item)
    fingers = _fingers(frets)
    view = row_view(item.tuning, manner, frets, fingers)
    view = replace(view, colours={At(0, n - 1, _string(view)): Role.LIT})
    return Question(
        item,
        "Which finger plays the marked note?",
        Picture(view),
        (str(fingers[n - 1]),),
        answers.number(1, 99),
        partial(_wrong_row, item, view),
        options=count_options(9),
        traps=note_misreadings.of_finger(fingers[n - 1], frets[n - 1], 99),
        show=_show_finger,
    )


def _string(view: StaffView) -> int:
    return view.piece.bars[0].onsets[0].notes[0].string


def _wrong_row(item: Item, view: StaffView, said: str) -> Feedback:
    frets, n = _row(item)
    fret, finger = frets[n - 1], _fingers(frets)[n - 1]
    why = f"The number on the line is the fret, {fret}, and the one under the staff is the finger, {finger}"
    spots = {}
    if (number := said_number(said, 1, 99)) is not None and number not in (finger, fret):
        why += f"; there is no {number} in that column"
        spots = {At(0, len(frets), _string(view)): (str(number), Role.SAID)}
    colours = {At(0, n - 1, _string(view)): Role.TRUE}
    return Feedback(f"{why}.", Picture(replace(view, colours=colours, spots=spots)))


def _show_finger(answer: str) -> str:
    return answer if said_number(answer, 1, 99) is None else f"finger {answer}"
