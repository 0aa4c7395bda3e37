"""Rows -> systems: which lines of tab belong together, and which lines stand over and under them."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from drills.notation.reading.blocks import blocks
from drills.notation.reading.lines import Line
from drills.notation.reading.rows import Row, find_rows, is_rule, looks_counted
from drills.notation.reading.shapes import Doubts

MOST: Final = 8
_OVER: Final = 6
"""Lines over or under a system that may tell about it."""
_EXPLAINS: Final = re.compile(
    r"\b(?:hammer|pull(?:ed|ing)?[ -]?off|slide|bend|bent|release|vibrato|mute|harmonic|trill|tap(?:ped|ping)?|ghost|"
    r"let ring|tremolo)",
    re.IGNORECASE,
)


_WORDY: Final = re.compile(r"[a-z]{3}")


class System(NamedTuple):
    """Rows that sound together.

    Attributes:
        rows: the top one first.
        above: lines right over them, from the rows upwards.
        below: lines right under them, downwards.
    """

    rows: tuple[Row, ...]
    above: tuple[Line, ...]
    below: tuple[Line, ...]


def find_systems(lines: list[Line], doubts: Doubts) -> tuple[list[System], list[Line]]:
    """Every system, and the lines of prose."""
    found = find_rows(lines)
    _join_spaced(lines, found)
    groups = _groups(lines, found)
    usual = _usual(groups)
    systems: list[System] = []
    taken: set[int] = set()
    for group in groups:
        at = {id(row.line): index for index, row in group}
        for part in _parts([row for _, row in group], usual, doubts):
            kept = _kept(part, doubts)
            if not kept:
                continue
            places = [at[id(row.line)] for row in kept]
            first, last = places[0], places[-1]
            taken.update(places)
            above, below = _near(lines, found, first, -1), _near(lines, found, last, 1)
            systems += [System(block, above, below) for block in blocks(tuple(kept))]
    prose = [line for index, line in enumerate(lines) if index not in taken and line.text.strip()]
    return systems, prose


def _near(lines: list[Line], found: list[Row | None], index: int, step: int) -> tuple[Line, ...]:
    """Lines next to a system, up to an empty line or another row."""
    near: list[Line] = []
    index += step
    while 0 <= index < len(lines) and len(near) < _OVER and lines[index].text.strip():
        row = found[index]
        if row is not None and (row.strong or not looks_counted(row)):
            break
        near.append(lines[index])
        index += step
    return tuple(near)


def _join_spaced(lines: list[Line], found: list[Row | None]) -> None:
    """Take out the empty line after each row of a text that was spaced out: then its rows follow one another."""
    index = 0
    while index < len(lines):
        run = [index]
        while run[-1] + 2 < len(lines) and _spaced(lines, found, run[-1]):
            run.append(run[-1] + 2)
        if len(run) > 2 and all(found[place] is not None for place in run):
            for place in run[:-1]:
                lines[place + 1] = lines[place + 1]._replace(text="\x00")
        index = run[-1] + 1


def _spaced(lines: list[Line], found: list[Row | None], index: int) -> bool:
    return found[index] is not None and not lines[index + 1].text.strip() and found[index + 2] is not None


def _groups(lines: list[Line], found: list[Row | None]) -> list[list[tuple[int, Row]]]:
    """Rows that follow one another, with their places."""
    groups: list[list[tuple[int, Row]]] = []
    together = False
    for index, row in enumerate(found):
        if row is not None:
            if not together:
                groups.append([])
            groups[-1].append((index, row))
            together = True
        elif lines[index].text != "\x00":
            together = False
    return groups


def _usual(groups: list[list[tuple[int, Row]]]) -> int:
    """How many rows most systems of the file have."""
    counts: dict[int, int] = {}
    for group in groups:
        if 3 <= len(group) <= MOST:
            counts[len(group)] = counts.get(len(group), 0) + 1
    return max(counts, key=lambda count: (counts[count], count), default=6)


def _parts(rows: list[Row], usual: int, doubts: Doubts) -> list[list[Row]]:
    """One system a part: a new one begins where labels begin again, or after the usual number of rows."""
    rows = _edges(rows, usual)
    if (wrapped := _wrapped(rows)) is not None:
        return wrapped
    parts: list[list[Row]] = []
    labels = [row.label.text if row.label is not None else "" for row in rows]
    begun = 0
    for index, row in enumerate(rows):
        if index == 0 or _begins_again(labels, begun, index):
            parts.append([])
            begun = index
        parts[-1].append(row)
    return [piece for part in parts for piece in _cut(part, usual, doubts)]


def _wrapped(rows: list[Row]) -> list[list[Row]] | None:
    """Rows whose ends a mail put on lines of their own: the ends are a system of the same strings."""
    half = len(rows) // 2
    if not 3 <= half <= MOST or len(rows) % 2:
        return None
    if any((row.label is None) != bool(index % 2) for index, row in enumerate(rows)):
        return None
    return [rows[::2], [end._replace(label=row.label) for row, end in zip(rows[::2], rows[1::2], strict=True)]]


def _begins_again(labels: list[str], begun: int, index: int) -> bool:
    """Whether labels from ``index`` on are those that the system at ``begun`` begins with; a letter alone may come
    twice in one system."""
    if not labels[index] or labels[index] != labels[begun]:
        return False
    if index - begun < 3:
        return index - begun == 1
    return labels[index : index + 3] == labels[begun : begun + 3]


def _cut(part: list[Row], usual: int, doubts: Doubts) -> list[list[Row]]:
    """Too many rows for one system are several of equal size."""
    if len(part) <= MOST:
        return [part]
    for size in dict.fromkeys((usual, 6, 4, 7, 5, 8)):
        if len(part) % size == 0:
            return [part[at : at + size] for at in range(0, len(part), size)]
    line = part[0].line
    doubts.error(
        line.number,
        line.column(part[0].start),
        f"{len(part)} rows stand together, and no system has more than {MOST}",
        "put an empty line between systems",
    )
    return []


def _edges(rows: list[Row], usual: int) -> list[Row]:
    """Without count lines and rules at the edges of a group."""
    labelled = sum(row.label is not None for row in rows)
    mostly = labelled > 2 and labelled >= len(rows) - 2
    while len(rows) > 3 and rows[-1].label is None and (mostly or len(rows) == usual + 1) and looks_counted(rows[-1]):
        rows = rows[:-1]
    while len(rows) > 3 and rows[0].label is None and (mostly or len(rows) == usual + 1) and looks_counted(rows[0]):
        rows = rows[1:]
    complete = mostly and labelled in (4, 6, 7, 8)
    for edge in (0, -1):
        odd = len(rows) > 3 and is_rule(rows[edge]) and (
            complete or (labelled == 0 and len(rows) in (usual + 1, 7) and any("|" in row.body for row in rows))
        )
        if odd:
            rows = rows[1:] if edge == 0 else rows[:-1]
    return rows


def _kept(part: list[Row], doubts: Doubts) -> list[Row]:
    """The rows of a part that are music: three or more, or one or two with labels; none of a legend's."""
    explained = sum(_EXPLAINS.search(row.line.text) is not None for row in part if _WORDY.search(row.line.text))
    if explained and explained * 2 >= len(part):
        return []
    if len(part) >= 3 and any(row.strong or "--" in row.body for row in part):
        return part
    if all(row.label is not None and row.body.startswith("|") and row.body.count("-") > 3 for row in part):
        line = part[0].line
        doubts.note(
            line.number,
            line.column(part[0].start),
            f"only {len(part)} row{'s' if len(part) > 1 else ''} of a system",
            "write all strings, the silent ones as dashes",
        )
        return part
    return []
