"""Which string a line stands for: by number, by name, by thickness, and from the neck to the staff."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from functools import cache, partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import helps, pictures
from drills.kinds.string_lessons import line_explanation, name_explanation, neck_explanation
from drills.kinds.wording import (
    capital,
    count_options,
    from_top,
    named,
    on_neck,
    said_number,
    thickness,
)
from drills.notation.drawing import Role
from drills.notation.pitch import Naming
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Help, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage


def number_options(tuning: Tuning) -> tuple[Option, ...]:
    """One key a line: its number."""
    return count_options(tuning.lines)


@cache
def name_options(tuning: Tuning, naming: Naming) -> tuple[Option, ...]:
    """One key a string: its label as in typed tab (``e`` high, ``E`` low), or a number if labels clash.

    They stand in the order of the alphabet (or of do re mi): in the order of the lines the place of a name would
    tell the answer.
    """
    strings = sorted(range(1, tuning.lines + 1), key=lambda n: _alphabetical(tuning, n, naming))
    keys = [tuning.label(n, naming)[:1] for n in strings]
    if len(set(keys)) < len(keys):
        keys = [str(place) for place in range(1, tuning.lines + 1)]
    return tuple(Option(key, tuning.string_name(n, naming), str(n)) for n, key in zip(strings, keys, strict=True))


def _alphabetical(tuning: Tuning, string: int, naming: Naming) -> tuple[int | str, int]:
    pitch = tuning.open(string)
    letter: int | str = pitch.pitch_class if naming is Naming.SOLFEGE else tuning.letter(string, naming)
    return letter, pitch.midi


class _OfStrings:
    """What the drills on strings have in common: facts and lessons."""

    def facts(self, item: Item) -> Facts:
        """String, open pitch and its names."""
        n = _string(item)
        pitch = item.tuning.open(n)
        return {
            "string": n,
            "line": n,
            "midi": pitch.midi,
            "names": list(pitch.names),
            "name": item.tuning.string_name(n),
        }

    def explain(self, item: Item, manner: Manner) -> Explanation:
        """The lesson of an item."""
        return _LESSONS[item.lesson](item, manner)


_LESSONS: Final = {"lines": line_explanation, "names": name_explanation, "neck": neck_explanation}


class LineToString(_OfStrings):
    """A line of the staff is lit: which string is it, by number or by name?"""

    name = "line-to-string"
    title = "Line to string"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        lines = tuning.lines
        for n in _outside_in(lines):
            title = f"{capital(from_top(n, lines))}, by number"
            yield _item(self.name, tuning, str(n), Kind.STRING, Stage.LINES, title, "lines")
        for n in _outside_in(lines):
            title = f"{capital(from_top(n, lines))}, by name"
            yield _item(self.name, tuning, f"{n}-name", Kind.STRING, Stage.NAMES, title, "names")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, n = item.tuning, _string(item)
        by_name = item.subject.endswith("-name")
        staff = partial(pictures.bare_staff, tuning, manner.dialect, {n: Role.LIT})
        draw = helps.staff_alone(staff)
        return Question(
            item,
            "What is this string called?" if by_name else "Which string is this line?",
            draw(()),
            (str(n),),
            answers.string(tuning, manner.naming, names=by_name),
            partial(_wrong_line, item, manner),
            helps=(
                helps.letters_beside(draw, tuning, manner.naming, n)
                if by_name
                else helps.numbers_beside(draw, tuning, n)
            ),
            options=name_options(tuning, manner.naming) if by_name else number_options(tuning),
            traps=misreadings.of_line(n, tuning.lines),
            show=partial(_show, tuning, manner.naming, by_name),
        )


class StringToLine(_OfStrings):
    """A string by its name or its thickness: which line of the staff is it?"""

    name = "string-to-line"
    title = "String to line"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        lines = tuning.lines
        if tuning.gauge_ordered:
            for n in _outside_in(lines):
                stage = Stage.LINES if n in (1, lines) else Stage.PLACES
                title = capital(thickness(n, lines))
                yield _item(self.name, tuning, f"{n}-gauge", Kind.LINE, stage, title, "lines")
        for n in _outside_in(lines):
            title = f"The {tuning.string_name(n)} string"
            yield _item(self.name, tuning, f"{n}-name", Kind.LINE, Stage.NAMES, title, "names")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, n = item.tuning, _string(item)
        if item.subject.endswith("-name"):
            asked = f"the {tuning.string_name(n, manner.naming)} string"
        else:
            asked = thickness(n, tuning.lines)
        keys = {line: (str(line), str(line)) for line in range(1, tuning.lines + 1)}
        staff = pictures.bare_staff(tuning, manner.dialect, line_keys=keys)
        return Question(
            item,
            f"Which line is {asked}?",
            Picture(staff),
            (str(n),),
            answers.number(1, tuning.lines),
            partial(_wrong_line, item, manner),
            helps=_neck_in_sight(item, manner, staff),
            options=number_options(tuning),
            traps=misreadings.of_line(n, tuning.lines),
            show=partial(_show_line, tuning.lines),
        )


class NeckToLine(_OfStrings):
    """A string is lit on the neck in playing position: which line of the staff is it?"""

    name = "neck-to-line"
    title = "Neck to line"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for n in _outside_in(tuning.lines):
            title = capital(on_neck(n, tuning.lines))
            yield _item(self.name, tuning, str(n), Kind.LINE, Stage.LINES, title, "neck")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, n = item.tuning, _string(item)
        keys = {line: (str(line), str(line)) for line in range(1, tuning.lines + 1)}
        staff = pictures.bare_staff(tuning, manner.dialect, line_keys=keys)
        draw = partial(_on_neck, staff, tuning, {n: Role.LIT}, manner)
        return Question(
            item,
            "This string, as you look down at the neck: which line of the staff is it?",
            draw(()),
            (str(n),),
            answers.number(1, tuning.lines),
            partial(_wrong_line, item, manner),
            helps=helps.numbers_beside(draw, tuning, n),
            options=number_options(tuning),
            traps=misreadings.of_line(n, tuning.lines),
            show=partial(_show_line, tuning.lines),
        )


def _on_neck(
    staff: StaffView, tuning: Tuning, strings: Mapping[int, Role], manner: Manner, labels: helps.Labels = ()
) -> Picture:
    """A staff, and the neck under it with whole strings pointed at."""
    return Picture(staff, pictures.neck_strings(tuning, strings, manner.left_handed, labels))


def _neck_in_sight(item: Item, manner: Manner, staff: StaffView) -> tuple[Help, ...]:
    """The neck that a string's name or thickness is looked up on, first with all letters and then with those of the
    outer strings: which line it is still has to be read."""
    draw = partial(_on_neck, staff, item.tuning, {}, manner)
    if item.subject.endswith("-gauge"):
        return (Help(("neck",), draw),)
    return helps.letters_on_neck(draw, item.tuning, manner.naming)


def _item(
    drill: str, tuning: Tuning, subject: str, kind: Kind, stage: Stage, title: str, lesson: str
) -> Item:
    """An item about one string; all but the first of each string need its line by number."""
    first = f"line-to-string/{tuning.name}/{subject.partition('-')[0]}"
    item_id = f"{drill}/{tuning.name}/{subject}"
    return Item(
        item_id, drill, tuning, subject, kind, stage, title, lesson, () if item_id == first else (first,)
    )


def _string(item: Item) -> int:
    return int(item.subject.partition("-")[0])


def _outside_in(lines: int) -> list[int]:
    """The edges first, then inward: landmarks before what is told from them."""
    order: list[int] = []
    for low, high in zip(range(1, lines + 1), range(lines, 0, -1), strict=True):
        order += [high, low]
    return list(dict.fromkeys(order[:lines]))


def _show(tuning: Tuning, naming: Naming, by_name: bool, answer: str) -> str:
    n = said_number(answer, 1, tuning.lines)
    if n is None:
        return answer
    return f"{tuning.string_name(n, naming)} (string {n})" if by_name else f"string {n}"


def _show_line(lines: int, answer: str) -> str:
    return answer if said_number(answer, 1, lines) is None else f"line {answer}"


def _wrong_line(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, n = item.tuning, _string(item)
    wrong = said_number(said, 1, tuning.lines)
    roles = ({wrong: Role.SAID} if wrong else {}) | {n: Role.TRUE}
    by_name = item.subject.endswith("-name")
    labels = (
        pictures.line_letters(tuning, manner.naming) if by_name else pictures.line_numbers(tuning)
    )
    name = partial(named, tuning=tuning, naming=manner.naming) if by_name else "string {}".format
    why = f"{capital(name(n))} is {from_top(n, tuning.lines)}"
    if item.subject.endswith("-gauge"):
        why = f"{capital(thickness(n, tuning.lines))} is string {n}, {from_top(n, tuning.lines)}"
    if item.drill == NeckToLine.name:
        why = f"{capital(on_neck(n, tuning.lines))} is string {n}, {from_top(n, tuning.lines)}"
        if wrong:
            why += f"; {from_top(wrong, tuning.lines)} is {on_neck(wrong, tuning.lines)}"
    elif wrong:
        why += f"; {name(wrong)} is {from_top(wrong, tuning.lines)}"
    return Feedback(
        why + ".",
        Picture(
            pictures.bare_staff(tuning, manner.dialect, roles, labels),
            pictures.neck_strings(tuning, roles, manner.left_handed, labels),
        ),
    )
