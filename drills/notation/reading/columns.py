"""Numbers that stand in one column are struck together."""

from __future__ import annotations

from itertools import pairwise

from drills.notation.reading.barlines import Ruler, Scored, Span
from drills.notation.reading.cells import Cell
from drills.notation.reading.rows import Row
from drills.notation.reading.shapes import Certainty, Doubts, weaker

Struck = list[list[list[Cell]]]
"""Bars of onsets of cells."""


def place_cells(cells: list[Cell], scored: Scored, ruler: Ruler, spans: list[Span]) -> list[list[Cell]]:
    """The cells of one row, bar by bar, each with its column in the system."""
    bars: list[list[Cell]] = [[] for _ in spans]
    bar, last = 0, len(spans) - 1
    for cell in cells:
        at = cell.at + scored.shift
        while bar < last and at >= ruler.starts[bar + 1]:
            bar += 1
        cell.column = at + ruler.shifts[bar]
        bars[bar].append(cell)
    return bars


def strike(rows: list[list[list[Cell]]], lines: tuple[Row, ...], rulers: list[Ruler], doubts: Doubts) -> Struck:
    """Put the rows together: bars of onsets in time."""
    struck: Struck = []
    uneven = any(ruler.odd or not ruler.fits for ruler in rulers)
    for bar in range(len(rows[0])):
        columns: dict[int, list[Cell]] = {}
        for row in rows:
            for cell in row[bar]:
                if cell.column in columns:
                    columns[cell.column].append(cell)
                else:
                    columns[cell.column] = [cell]
        order = sorted(columns)
        for one, later in pairwise(order):
            if later - one == 1:
                order = _joined(columns, order, lines, doubts)
                break
        if uneven and (odd := {n for n, ruler in enumerate(rulers) if bar in ruler.odd or not ruler.fits}):
            _doubt_alone(columns, order, odd)
        struck.append([columns[column] for column in order])
    return struck


def _doubt_alone(columns: dict[int, list[Cell]], order: list[int], odd: set[int]) -> None:
    """On a row whose bar has another width, a note that shares its column with no other row may be out of place."""
    if all(cell.row in odd for cells in columns.values() for cell in cells):
        return
    for column in order:
        if all(cell.row in odd for cell in columns[column]):
            for cell in columns[column]:
                cell.certainty = weaker(cell.certainty, Certainty.LIKELY)


def _joined(columns: dict[int, list[Cell]], order: list[int], lines: tuple[Row, ...], doubts: Doubts) -> list[int]:
    """Join onsets one column apart where a two-digit fret or a bracket is what moved them."""
    kept: list[int] = []
    two_digits: dict[int, int] = {}
    for column in order:
        before = kept[-1] if kept else None
        here = columns[column]
        if before == column - 1 and before is not None and _belong(columns[before], here, two_digits):
            for cell in here:
                cell.certainty = weaker(cell.certainty, Certainty.LIKELY)
                cell.column = before
            row = lines[here[0].row]
            doubts.note(
                row.line.number, row.line.column(row.start + here[0].at),
                "one column off the notes beside it, by a two-digit fret or a bracket: read as struck with them",
                "put the first digits of a chord in one column",
            )
            columns[before] += here
            columns[before].sort(key=lambda cell: cell.row)
        else:
            if before == column - 1 and before is not None:
                _doubt_digits(columns[before], lines, doubts)
            kept.append(column)
        for cell in here:
            if cell.digits == 2:
                two_digits[cell.row] = two_digits.get(cell.row, 0) + 1
    return kept


def _doubt_digits(cells: list[Cell], lines: tuple[Row, ...], doubts: Doubts) -> None:
    """Two digits whose second stands over a note of its own may be two notes."""
    wide = [cell for cell in cells if cell.digits == 2]
    if len(wide) == 1 < len(cells):
        cell, row = wide[0], lines[wide[0].row]
        cell.certainty = weaker(cell.certainty, Certainty.LIKELY)
        doubts.warn(
            row.line.number, row.line.column(row.start + cell.at),
            f"{cell.fret} may be two notes of one digit, as on the rows beside it: read as fret {cell.fret}",
            "put a dash between notes that follow one another",
        )


def _belong(one: list[Cell], later: list[Cell], two_digits: dict[int, int]) -> bool:
    """Whether notes in the column right of others are struck with them."""
    if not two_digits and not any(cell.digits == 2 or cell.opened for cell in (*one, *later)):
        return False
    if {cell.row for cell in one} & {cell.row for cell in later}:
        return False
    if all(cell.digits == 2 for cell in one) and all(cell.digits == 1 for cell in later):
        return True
    if all(cell.opened == 1 for cell in later) or all(cell.digits == 2 and cell.opened for cell in one):
        return True
    most = max(two_digits.get(cell.row, 0) - (cell.digits == 2) for cell in one)
    return all(two_digits.get(cell.row, 0) > most for cell in later)
