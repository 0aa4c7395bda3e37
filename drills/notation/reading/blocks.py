"""Systems that stand side by side on the same lines, with blanks between."""

from __future__ import annotations

import re
from typing import Final

from drills.notation.reading.rows import Row, find_row

_GAP: Final = re.compile(r"(?<! ) {2,}")
_MOST: Final = 6
"""Blocks on one line; what stands further right stays with the last."""


def blocks(rows: tuple[Row, ...]) -> list[tuple[Row, ...]]:
    """The rows cut where all of them have a gap with a row of tab behind it; uncut where they have none."""
    cut: list[tuple[Row, ...]] = []
    while len(cut) < _MOST - 1 and len(rows) > 2 and (pair := _cut(rows)) is not None:
        cut.append(pair[0])
        rows = pair[1]
    return [*cut, rows]


def _cut(rows: tuple[Row, ...]) -> tuple[tuple[Row, ...], tuple[Row, ...]] | None:
    """The rows before and behind the first gap, or None."""
    if not all("  " in row.body for row in rows):
        return None
    left: list[Row] = []
    right: list[Row] = []
    for row in rows:
        gap = _GAP.search(row.line.text, row.start)
        if gap is None or gap.end() >= row.end:
            return None
        behind = find_row(row.line._replace(text=" " * gap.end() + row.line.text[gap.end() :]))
        if behind is None:
            return None
        left.append(row._replace(end=gap.start(), remark=""))
        right.append(behind)
    reach = max(row.end for row in left)
    telling = all(row.label is not None or row.body.startswith("|") for row in right)
    if not telling or any(row.start <= reach - 4 for row in right):
        return None
    return tuple(left), tuple(right)
