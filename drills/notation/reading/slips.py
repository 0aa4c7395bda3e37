"""What is likely a slip of the writer's hand: a stretch that no hand reaches, a harmonic where none sounds."""

from __future__ import annotations

from typing import Final

from drills.notation.reading.cells import Cell
from drills.notation.reading.rows import Row
from drills.notation.reading.shapes import Doubts
from drills.notation.score import NODES, MarkKind

SCALE: Final = 650.0
"""Millimetres from nut to saddle of a usual guitar (common practice, no source)."""
REACH: Final = 120.0
"""Millimetres between the outer fingers from which on a stretch is doubted (common practice, no source)."""
_PLACES: Final = tuple(SCALE * (1 - 2 ** (-fret / 12)) for fret in range(0, 50))


def stretch(frets: list[int], capo: int = 0) -> float:
    """Millimetres between the lowest and the highest fret that are held at once; a fret divides the string by
    2 ** (1/12) (arithmetic)."""
    return _PLACES[max(frets) + capo] - _PLACES[min(frets) + capo]


def doubt_onset(cells: list[Cell], rows: tuple[Row, ...], capo: int, bar: int, doubts: Doubts) -> None:
    """Warn of a stretch within one onset."""
    frets = [cell.fret for cell in cells if cell.fret]
    if not frets or max(frets) - min(frets) <= 3:
        return
    held = [cell.fret for cell in cells if cell.fret and not (cell.has(MarkKind.TAP) or cell.has(MarkKind.HARMONIC))]
    low, high = min(held, default=0), max(held, default=0)
    if (wide := stretch([low, high], capo)) > REACH:
        row = rows[cells[0].row]
        doubts.warn(
            row.line.number, row.line.column(row.start + cells[0].at),
            f"frets {low} and {high} at once in bar {bar} are {wide:.0f} mm apart, further than most hands reach",
            "check the frets, or whether both are struck together",
        )


def doubt_harmonic(cell: Cell, row: Row, doubts: Doubts) -> None:
    """Warn of a natural harmonic over a fret where the string has no node."""
    if cell.has(MarkKind.HARMONIC) and cell.fret not in NODES:
        doubts.note(
            row.line.number, row.line.column(row.start + cell.at),
            f"no natural harmonic sounds at fret {cell.fret}: its pitch is left open",
            "write one of the frets 4, 5, 7, 9, 12, 16, 19 or 24, or say that it is an artificial one",
        )
