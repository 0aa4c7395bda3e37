"""Reads rows of typed tab again: numbers and their columns, bars, what stands under them.

Rows and columns as H. Wright, "The Guide to TAB Notation", 1995, has them: the thickest string at the bottom, one
column struck together. The letters of values and the dots of beats are common practice, no source.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from music21.duration import Duration
from music21.meter import TimeSignature

ROW = re.compile(r"([A-Ga-g][#b]?)?\s?\|(?=[-:])")
VALUE = re.compile(r"(?<!\S)([whqes])(\.?)(r?)(?!\S)")
TYPES = {"w": "whole", "h": "half", "q": "quarter", "e": "eighth", "s": "16th"}


class Number(NamedTuple):
    """A number (``x`` is None) on a string, at the column of its first character."""

    column: int
    string: int
    fret: int | None


class Value(NamedTuple):
    """A written value at a column, in quarters; a rest is not struck."""

    column: int
    quarters: Fraction
    rest: bool


def strings_of(rows: list[str]) -> list[str]:
    """The rows of the strings, string 1 first."""
    return [row for row in rows if ROW.match(row)]


def labels_of(rows: list[str]) -> list[str]:
    """The letters at the left, as they stand; empty where there are none."""
    found = [ROW.match(row) for row in rows]
    return [match[1] for match in found if match is not None and match[1]]


def numbers(rows: list[str]) -> list[Number]:
    """Every number and x, in the order of columns, then strings."""
    found = [
        Number(match.start(), string, None if match[0] == "x" else int(match[0]))
        for string, row in enumerate(strings_of(rows), start=1)
        for match in re.finditer(r"\d+|x", row)
    ]
    return sorted(found, key=lambda number: number[:2])


def columns(rows: list[str]) -> list[dict[int, int | None]]:
    """What is struck together: frets by string."""
    grouped: dict[int, dict[int, int | None]] = {}
    for number in numbers(rows):
        grouped.setdefault(number.column, {})[number.string] = number.fret
    return list(grouped.values())


def bar_lines(rows: list[str]) -> list[int]:
    """Columns of the lines that end a bar, each the same on every row."""
    found = [[match.start() for match in re.finditer(r"\|", row)][1:] for row in strings_of(rows)]
    assert all(line == found[0] for line in found)
    return found[0]


def under(rows: list[str]) -> list[str]:
    """The lines that stand under the strings."""
    return rows[max(n for n, row in enumerate(rows) if ROW.match(row)) + 1 :]


def marked(rows: list[str], pattern: str) -> list[tuple[int, str]]:
    """Columns and words of the first line under the strings that has nothing but words of a pattern."""
    for line in under(rows):
        words = [(match.start(), match[0]) for match in re.finditer(r"\S+", line)]
        if words and all(re.fullmatch(pattern, word) for _, word in words):
            return words
    return []


def values(rows: list[str]) -> list[Value]:
    """The written values; music21 says how long each lasts."""
    return [
        Value(column, quarters(word), word.endswith("r")) for column, word in marked(rows, r"[whqes]\.?r?")
    ]


def quarters(word: str) -> Fraction:
    """Length of a written value (``q.``, ``er``) in quarters, by music21."""
    match = VALUE.fullmatch(word)
    assert match, word
    return Fraction(Duration(TYPES[match[1]], dots=len(match[2])).quarterLength)


def bar_length(metre: str) -> Fraction:
    """What a bar of a metre holds in quarters, by music21."""
    return Fraction(TimeSignature(metre).barDuration.quarterLength)


def beats_of(metre: str) -> int:
    """What is counted in a bar: the upper number, for six eighths are counted as six here."""
    return int(TimeSignature(metre).numerator)


def per_bar(rows: list[str], at: list[int]) -> list[list[int]]:
    """Columns in the bars that they stand in."""
    ends = bar_lines(rows)
    return [[c for c in at if start < c < end] for start, end in zip([-1, *ends], ends, strict=False)]
