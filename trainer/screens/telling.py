"""What is told before a question, a page at a time: a lesson, or what a placement has found."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final, NamedTuple

from textual.geometry import Size

from drills.question import Explanation, Picture
from trainer.widgets.fitting import fit
from trainer.widgets.heading import rows, wrapped

LOW: Final = 20
"""Rows below which a lesson is told a paragraph at a time."""
FLAT: Final = 14
"""Rows below which a lesson has no top row."""
ROUND: Final = 5
"""Rows of a high window that are neither picture nor text: its top and bottom, and what is free between."""
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
    line = max(10, min(width, WIDEST) - 2)
    if height >= LOW:
        least = fit(lesson.picture, width, 1, whole=True).height
        free = height - ROUND - rows(lesson.title, width - 2) - least - sum(rows(each, line) for each in lesson.lines)
        if free >= 0:
            apart = "\n\n" if free >= len(lesson.lines) - 1 else "\n"
            return [Told(lesson.picture, lesson.title, apart.join(lesson.lines))]
        return _gathered(lesson, line, max(2, height - ROUND - rows(lesson.title, width - 2) - least))
    top = 1 if height >= FLAT else 0
    picture = fit(lesson.picture, width, 1, whole=True).height
    room = max(2, height - 1 - top - rows(lesson.title, width - 2) - picture)
    return [
        Told(lesson.picture, lesson.title, part) for paragraph in lesson.lines for part in parts(paragraph, line, room)
    ]


def _gathered(lesson: Explanation, line: int, room: int) -> list[Told]:
    """As many paragraphs on each page as there is room for."""
    found: list[list[str]] = []
    for paragraph in lesson.lines:
        for part in parts(paragraph, line, room):
            if found and sum(rows(each, line) + 1 for each in found[-1]) + rows(part, line) <= room:
                found[-1].append(part)
            else:
                found.append([part])
    return [Told(lesson.picture, lesson.title, "\n\n".join(page)) for page in found]


class Reading:
    """What is being told: the pages, the one that is open, and how they are cut anew for another window."""

    def __init__(self, size: Size, lesson: Explanation | None, first: Sequence[Told] = ()) -> None:
        """Open the first page.

        Args:
            size: of the window.
            lesson: what is told, or None.
            first: pages before it, which are never cut.
        """
        self._lesson, self._first = lesson, list(first)
        self._pages = self._cut(size)
        self._at = 0

    @property
    def page(self) -> Told | None:
        """The open page, None after the last one."""
        return self._pages[self._at] if self._at < len(self._pages) else None

    def turn(self) -> None:
        """To the next page."""
        self._at += 1

    def cut_anew(self, size: Size) -> None:
        """For a window of that size, open where the page began that was open."""
        read = sum(len(page.words.split()) for page in self._pages[: self._at])
        self._pages = self._cut(size)
        self._at = 0
        while self._at + 1 < len(self._pages) and len(self._pages[self._at].words.split()) <= read:
            read -= len(self._pages[self._at].words.split())
            self._at += 1

    def _cut(self, size: Size) -> list[Told]:
        return [*self._first, *(pages(self._lesson, *size) if self._lesson else [])]


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
