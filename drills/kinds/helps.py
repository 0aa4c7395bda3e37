"""What several drills show to whom an item is new, and how it goes: from much to little, in two steps.

Two, so that a new item is met with all of its help, then with less, then without any within a few askings. What goes
last is one landmark that the others are told from, never the answer itself.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeVar

from drills.kinds import pictures
from drills.notation.neck import NeckView
from drills.notation.pitch import Naming
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Help, Picture

T = TypeVar("T", covariant=True)

Labels = tuple[str, ...]
"""A text for each string, string 1 first; empty for none."""

Labelled = Callable[[Labels], T]
"""Draws something with those labels."""


def staff_alone(staff: Labelled[StaffView]) -> Labelled[Picture]:
    """A picture that is but a staff."""
    return partial(_staff_alone, staff)


def both(staff: Labelled[StaffView], neck: Labelled[NeckView]) -> Labelled[Picture]:
    """A staff and a neck with the same labels."""
    return partial(_both, staff, neck)


def numbers(draw: Labelled[Picture], tuning: Tuning, landmark: int) -> tuple[Help, ...]:
    """The numbers of all strings, then that of one."""
    return (
        Help(("numbers",), partial(_numbered, draw, tuning, range(1, tuning.lines + 1))),
        Help(("number",), partial(_numbered, draw, tuning, (landmark,))),
    )


def numbers_beside(draw: Labelled[Picture], tuning: Tuning, string: int) -> tuple[Help, ...]:
    """The numbers at both edges, then at one, where the number of this string is the answer: never its own."""
    top, bottom = 2 if string == 1 else 1, tuning.lines - 1 if string == tuning.lines else tuning.lines
    last = bottom if string == 1 else top
    return (
        Help(("numbers",), partial(_numbered, draw, tuning, (top, bottom))),
        Help(("number",), partial(_numbered, draw, tuning, (last,))),
    )


def letters(
    draw: Labelled[Picture], tuning: Tuning, naming: Naming, landmark: int, strings: Sequence[int] | None = None
) -> tuple[Help, ...]:
    """The letters of the open strings (of some alone, where others would tell too much), then that of one of them."""
    if strings is None:
        strings = range(1, tuning.lines + 1)
    one = Help(("letter",), partial(_lettered, draw, tuning, naming, (landmark,)))
    return (Help(("letters",), partial(_lettered, draw, tuning, naming, strings)), one) if len(strings) > 1 else (one,)


def letters_beside(draw: Labelled[Picture], tuning: Tuning, naming: Naming, string: int) -> tuple[Help, ...]:
    """The letters of the two nearest strings that have another one, then of the nearest, where the letter of this
    string is the answer or as good as that: it is told from those beside it."""
    return (
        Help(("letters",), partial(_lettered_beside, draw, tuning, naming, string, 2)),
        Help(("letter",), partial(_lettered_beside, draw, tuning, naming, string, 1)),
    )


def neck_then_letters(
    staff: Labelled[StaffView],
    neck: Labelled[NeckView],
    tuning: Tuning,
    naming: Naming,
    strings: Sequence[int] | None = None,
) -> tuple[Help, ...]:
    """The neck under the staff, both with the letters of the open strings (of some alone, where others would tell
    too much); then the letters on the staff alone."""
    if strings is None:
        strings = range(1, tuning.lines + 1)
    if not strings:
        return (Help(("neck",), partial(both(staff, neck), ())),)
    return (
        Help(("neck", "letters"), partial(_lettered, both(staff, neck), tuning, naming, strings)),
        Help(("letters",), partial(_lettered, staff_alone(staff), tuning, naming, strings)),
    )


def letters_on_neck(draw: Labelled[Picture], tuning: Tuning, naming: Naming) -> tuple[Help, ...]:
    """The letters along a neck that is a help itself, then those of its outer strings."""
    return (
        Help(("neck", "letters"), partial(_lettered, draw, tuning, naming, range(1, tuning.lines + 1))),
        Help(("neck",), partial(_lettered, draw, tuning, naming, (1, tuning.lines))),
    )


def only(labels: Labels, strings: Sequence[int]) -> Labels:
    """The labels of those strings, and none at the others."""
    return tuple(label if string in strings else "" for string, label in enumerate(labels, start=1))


def _staff_alone(staff: Labelled[StaffView], labels: Labels) -> Picture:
    return Picture(staff(labels))


def _both(staff: Labelled[StaffView], neck: Labelled[NeckView], labels: Labels) -> Picture:
    return Picture(staff(labels), neck(labels))


def _numbered(draw: Labelled[Picture], tuning: Tuning, strings: Sequence[int]) -> Picture:
    return draw(only(pictures.line_numbers(tuning), strings))


def _lettered(draw: Labelled[Picture], tuning: Tuning, naming: Naming, strings: Sequence[int]) -> Picture:
    return draw(only(pictures.line_letters(tuning, naming), strings))


def _lettered_beside(draw: Labelled[Picture], tuning: Tuning, naming: Naming, string: int, count: int) -> Picture:
    mine = tuning.open(string).pitch_class
    others = [n for n in range(tuning.lines, 0, -1) if tuning.open(n).pitch_class != mine]
    return _lettered(draw, tuning, naming, sorted(others, key=lambda n: abs(n - string))[:count])
