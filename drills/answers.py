"""What people type -> the normal form of an answer, one reader a kind. None means: no possible answer."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from drills.notation.pitch import Naming, class_of, parse_note
from drills.notation.tuning import Tuning
from drills.question import Option

Reader = Callable[[str], str | None]

_PLACE = re.compile(r"\D*(\d{1,2})\D+(\d{1,2})\D*")
_BEAT = re.compile(r"(\d{1,2})\s*(&|\+|and|n|e|a|\.25|\.50?|\.75)?")
_PARTS = {"e": "e", ".25": "e", "a": "a", ".75": "a"}
_TIME = re.compile(r"\d{1,3}(\.\d{1,6})?|\.\d{1,6}")

MOST_TAPS = 64
"""Taps that an answer may hold."""


def number(low: int, high: int) -> Reader:
    """A whole number in a range, as ``line``, ``count`` and ``fret`` take it."""

    def read(text: str) -> str | None:
        text = text.strip()
        if not (text.isascii() and text.isdigit() and len(text) <= 3):
            return None
        return str(int(text)) if low <= int(text) <= high else None

    return read


def string(tuning: Tuning, naming: Naming, *, names: bool) -> Reader:
    """A string by number or, where the prompt asks for its name, by name (``A``, ``low E``, ``high e``).

    A letter that two strings share proves neither of them.
    """
    by_number = number(1, tuning.lines)
    known = {
        " ".join(tuning.string_name(n, system).lower().split()): str(n)
        for system in (Naming.LETTERS, naming)
        for n in range(1, tuning.lines + 1)
    }

    def read(text: str) -> str | None:
        found = by_number(text)
        if found is None and names:
            found = known.get(" ".join(text.lower().split()))
        return found

    return read


def note(answers: Sequence[str], naming: Naming) -> Reader:
    """A note name; every spelling of a right pitch becomes the everyday one (B# becomes C)."""
    right = {class_of(name) for name in answers}

    def read(text: str) -> str | None:
        name = parse_note(text, naming)
        if name is None:
            return None
        return name if name in answers or class_of(name) not in right else answers[0]

    return read


def place(lines: int, highest: int) -> Reader:
    """A string and a fret, in this order: ``5/3``, ``5 3``, ``string 5, fret 3``."""

    def read(text: str) -> str | None:
        match = _PLACE.fullmatch(text.strip()) if text.isascii() else None
        if match is None:
            return None
        at, fret = int(match[1]), int(match[2])
        return f"{at}/{fret}" if 1 <= at <= lines and fret <= highest else None

    return read


def choice(choices: Sequence[Option]) -> Reader:
    """The text of one choice, or its key; text wins."""

    def read(text: str) -> str | None:
        wanted = " ".join(text.split()).casefold()
        for option in choices:
            if option.answer.casefold() == wanted:
                return option.answer
        for option in choices:
            if option.key.casefold() == wanted:
                return option.answer
        return None

    return read


def picked(notes: int) -> Reader:
    """Yes or no for each note from left to right: ``yn``, ``y n``, ``10``."""

    def read(text: str) -> str | None:
        marks = "".join(text.lower().replace(",", " ").split()).translate(str.maketrans("10", "yn"))
        return marks if len(marks) == notes and set(marks) <= {"y", "n"} else None

    return read


def sequence(length: int, lines: int) -> Reader:
    """String numbers in order: ``5 3 4``, ``5,3,4`` or ``534``."""
    one = number(1, lines)

    def read(text: str) -> str | None:
        parts = text.replace(",", " ").split()
        if len(parts) == 1:
            parts = list(parts[0])
        numbers = [one(part) for part in parts]
        if len(numbers) != length or None in numbers:
            return None
        return " ".join(found for found in numbers if found)

    return read


def collection(lines: int) -> Reader:
    """String numbers in any order, doublings ignored; the normal form counts upward."""
    one = number(1, lines)

    def read(text: str) -> str | None:
        parts = text.replace(",", " ").split()
        if len(parts) == 1:
            parts = list(parts[0])
        numbers = {one(part) for part in parts}
        if not numbers or None in numbers:
            return None
        return " ".join(sorted(found for found in numbers if found))

    return read


def beat(beats: int) -> Reader:
    """A beat of the bar, its half or its quarters: ``2``, ``2e``, ``2&``, ``2a``; also ``2and``, ``2.25``, ``2.5``."""

    def read(text: str) -> str | None:
        match = _BEAT.fullmatch(text.strip().lower())
        if match is None or not 1 <= int(match[1]) <= beats:
            return None
        return str(int(match[1])) + (_PARTS.get(match[2], "&") if match[2] else "")

    return read


def taps(text: str) -> str | None:
    """Times of taps in seconds, each after the one before: ``0.00 0.52 1.01``, with spaces or commas."""
    parts = text.replace(",", " ").split()
    if not 1 <= len(parts) <= MOST_TAPS or not all(part.isascii() and _TIME.fullmatch(part) for part in parts):
        return None
    times = [float(part) for part in parts]
    if any(later <= earlier for earlier, later in pairwise(times)):
        return None
    return " ".join(f"{time:.2f}" for time in times)
