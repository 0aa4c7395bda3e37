"""Plain-text tab as it is found in the wild -> the piece, how sure every note is, and every doubt at its place."""

from __future__ import annotations

from typing import Final

from drills.notation.reading.assembly import Assembly
from drills.notation.reading.decoding import decode
from drills.notation.reading.legend_words import legend_of
from drills.notation.reading.lines import split_lines
from drills.notation.reading.shapes import (
    BarAt,
    Certainty,
    Doubt,
    Doubts,
    Reading,
    ReadMark,
    Severity,
    Source,
    TuningFrom,
)
from drills.notation.reading.stated import stated_in
from drills.notation.reading.systems import find_systems
from drills.notation.reading.tunings import string_up
from drills.notation.score import Piece
from drills.notation.tuning import Tuning, shipped
from drills.uncollected import uncollected

__all__ = [
    "MOST_BYTES", "BarAt", "Certainty", "Doubt", "ReadMark", "Reading", "Severity", "Source", "TuningFrom",
    "read_bytes", "read_tab",
]  # fmt: skip

MOST_BYTES: Final = 16 * 1024 * 1024
"""Files beyond this are for the caller to refuse."""


def read_bytes(data: bytes, *, tuning: Tuning | None = None, capo: int | None = None) -> Reading:
    """Read a file of plain-text tab in whatever encoding; see ``read_tab``."""
    text, encoding = decode(data)
    doubts = Doubts()
    if encoding in ("windows-1252", "latin-1") or "\ufffd" in text:
        doubts.note(1, 1, f"the file is not sound UTF-8: read as {encoding}", "save it as UTF-8 where words look wrong")
    return _read(text, tuning, capo, doubts)


def read_tab(text: str, *, tuning: Tuning | None = None, capo: int | None = None) -> Reading:
    """Read plain-text tab.

    Args:
        text: anything at all; what is no tab is left out.
        tuning: of the strings, where the text cannot tell or is wrong; without a capo.
        capo: the fret of the capo, where the text does not tell or is wrong.

    Never raises, and takes time linear in the length of the text.
    """
    return _read(text.removeprefix("\ufeff"), tuning, capo, Doubts())


def _read(text: str, tuning: Tuning | None, capo: int | None, doubts: Doubts) -> Reading:
    with uncollected():
        return _reading(text, tuning, capo, doubts)


def _reading(text: str, tuning: Tuning | None, capo: int | None, doubts: Doubts) -> Reading:
    lines = split_lines(text)
    systems, prose = find_systems(lines, doubts)
    stated = stated_in(prose, systems[0].rows[0].line.number if systems else len(lines) + 1)
    if not systems:
        doubts.error(1, 1, "no tab was found",
                     "write three or more rows of dashes and frets under one another, such as e|--0--3--|")
        strings = (tuning or shipped()["standard"]).with_capo(capo or 0)
        origin = TuningFrom.UNKNOWN if tuning is None else TuningFrom.GIVEN
        return Reading(Piece(strings, (), stated.title), origin, (), (), (), doubts.sorted(), 0)
    strung = string_up(systems, stated, tuning, capo, doubts)
    assembly = Assembly(strung, stated, legend_of(prose), doubts)
    for system in systems:
        assembly.add(system)
    return assembly.reading()
