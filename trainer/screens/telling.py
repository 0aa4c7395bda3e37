"""What is told before a question, a page at a time: a lesson, or what a placement has found."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from drills.question import Explanation, Picture
from trainer.widgets.fitting import fit
from trainer.widgets.heading import rows, wrapped

LOW: Final = 20
"""Rows below which a lesson is told a paragraph at a time."""
FLAT: Final = 14
"""Rows below which a lesson has no top row."""
WIDEST: Final = 76
"""Cells of a line of text at most; a cell is left free on either side."""


class Told(NamedTuple):
    """One page.

    Attributes:
        picture: what is drawn.
        title: in bold, under it.
        words: below that.
    """

    picture: Picture
    title: str
    words: str


def pages(lesson: Explanation, width: int, height: int) -> list[Told]:
    """A lesson in as many pages as a window of that size needs, so that the picture is whole on each of them."""
    if height >= LOW:
        return [Told(lesson.picture, lesson.title, "\n".join(lesson.lines))]
    line = max(10, min(width, WIDEST) - 2)
    top = 1 if height >= FLAT else 0
    picture = fit(lesson.picture, width, 1, whole=True).height
    room = max(2, height - 1 - top - rows(lesson.title, width - 2) - picture)
    return [
        Told(lesson.picture, lesson.title, part) for paragraph in lesson.lines for part in parts(paragraph, line, room)
    ]


def parts(paragraph: str, width: int, room: int) -> list[str]:
    """A paragraph in parts of so many lines at most, cut between sentences where that is possible."""
    found: list[str] = []
    for sentence in re.split(r"(?<=[.!?:;]) +", paragraph):
        joined = f"{found[-1]} {sentence}" if found else sentence
        if found and rows(joined, width) <= room:
            found[-1] = joined
            continue
        lines = wrapped(sentence, width)
        found.extend(" ".join(lines[at : at + room]) for at in range(0, len(lines), room))
    return found
