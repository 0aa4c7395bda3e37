"""Reads chord diagrams again: the nut or a number of a fret, strings side by side, the thickest at the left.

As songbooks draw them (common practice, no source; MusicXML 4.0, ``frame``, has the same parts): x and o over the top,
a row a fret, ``=`` for the nut, a number at the right where the first row is not fret 1.
"""

from __future__ import annotations

import re

NUT = re.compile(r"\+(?:[=-]\+){2,}|\+{3,}")
"""The line over the first fret; of eight strings close together, without the signs between."""


def shapes(rows: list[str]) -> list[tuple[int | None, ...]]:
    """Frets from the last string to string 1 of every diagram, from left to right; None is not played."""
    top = next(n for n, row in enumerate(rows) if NUT.search(row))
    frets = [row for row in rows[top + 1 :] if ("|" in row or "o" in row) and re.fullmatch(r"[|_o\d ]+", row)]
    return [_shape(rows[top - 1], match[0], match.start(), frets) for match in NUT.finditer(rows[top])]


def _shape(over: str, nut: str, left: int, frets: list[str]) -> tuple[int | None, ...]:
    cells = [row.ljust(left + len(nut)) for row in frets]
    number = re.match(r" ?(\d+)", cells[0][left + len(nut) :])
    first = int(number[1]) if number else 1
    assert ("=" in nut) <= (first == 1) <= ("-" not in nut)
    found: list[int | None] = []
    for column in range(left, left + len(nut), 2 if set(nut) - {"+"} else 1):
        held = [n for n, row in enumerate(cells) if row[column] == "o"]
        sign = over.ljust(column + 1)[column]
        if held:
            assert (len(held), sign) == (1, " ")
            found.append(first + held[0])
        else:
            assert sign in "xo"
            found.append(None if sign == "x" else 0)
    return tuple(found)


def shape_of(text: str) -> tuple[int | None, ...]:
    """A shape as it is typed, ``x32010`` or ``x-10-12-12-x-x``."""
    return tuple(None if sign == "x" else int(sign) for sign in (text.split("-") if "-" in text else text))
