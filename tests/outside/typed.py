"""Reads signs of typed tab again: which notes are picked, and which pitches are heard, string by string.

Each rule with its source:
- ``h`` and ``p``: the note after them is not picked; ``b``, ``r`` and their frets are what the note then sounds like;
  ``/7`` and ``7\\`` glide from and to no written fret; ``x`` has no pitch; ``~`` changes none (H. Wright, "The Guide to
  TAB Notation", 1995);
- ``/`` and ``\\`` between numbers: picked again where the legend says shift slide, else not; a number in parentheses is
  what the legend says; ``g`` is a grace note, picked (common practice, no source);
- ``t``: tapped, not picked; ``tr`` goes to the other fret; ``pb`` is bent before it is picked (MusicXML 4.0: tap,
  trill-mark, pre-bend);
- ``<12>``: the overtone that rests there (overtone arithmetic, see ``PARTS``);
- P.H.: no fret tells what a pinched harmonic sounds (common practice, no source);
- ``|:`` and ``:|`` twice, with x3 three times in all (MusicXML 4.0, ``repeat`` and its ``times``).
"""

from __future__ import annotations

import re
from math import log2
from typing import NamedTuple

from tests.outside.rows import ROW, strings_of

# In how many equal parts a string swings when it is touched at a fret: the wire lies at 1 - 2 ** (-fret / 12) of the
# string, next to 1/2, 1/3 or 2/3, 1/4 or 3/4, 1/5, 2/5 or 3/5 of it (arithmetic).
PARTS = {12: 2, 7: 3, 19: 3, 5: 4, 24: 4, 4: 5, 9: 5, 16: 5}

TOKEN = re.compile(
    r"(?P<before>pb|tr|[hpbrgt/\\])?(?P<open>[(<])?(?P<fret>\d+|x)[)>]?(?P<after>~*)(?P<out>[/\\](?=-))?"
)


class Heard(NamedTuple):
    """What typed tab says: picked or not a note, and what is heard, as strings and frets above the open string."""

    picked: list[bool]
    sounds: list[tuple[int, int]]
    frets: list[int | None]


def heard(rows: list[str]) -> Heard:
    """All of one system, in the order of its columns."""
    pinched = any(re.match(r"\s*P\.H\.(?!:)", row) for row in rows)
    legend = " ".join(row for row in rows if re.match(r"\s*\S+: ", row) and not ROW.match(row))
    notes: list[tuple[int, bool, list[tuple[int, int]], int | None]] = []
    for string, row in enumerate(strings_of(rows), start=1):
        notes += _of_string(row, string, legend)
    notes.sort(key=lambda note: note[0])
    sounds = [sound for _, _, some, _ in notes for sound in some] if not pinched else []
    return Heard(
        [picked for _, picked, _, _ in notes], sounds * times(rows), [fret for _, _, _, fret in notes]
    )


def _of_string(row: str, string: int, legend: str) -> list[tuple[int, bool, list[tuple[int, int]], int | None]]:
    notes: list[tuple[int, bool, list[tuple[int, int]], int | None]] = []
    end = -1
    for match in TOKEN.finditer(row):
        before, fret = match["before"] or "", match["fret"]
        joined = match.start() == end
        end = match.end()
        if before in ("b", "r", "tr", "pb"):
            assert joined
            if before == "pb":
                notes[-1][2].clear()  # its written fret is never heard
            notes[-1][2].append((string, int(fret)))
            continue
        tied = match["open"] == "(" and re.search(r"tied|not struck again", legend) is not None
        slurred = joined and before in (("h", "p") if "shift" in legend else ("h", "p", "/", "\\"))
        sound: list[tuple[int, int]] = []
        if fret != "x" and not tied:
            above = int(fret) if match["open"] != "<" else overtone(int(fret))
            sound = [(string, above)]
        picked = not (slurred or tied or before == "t")
        notes.append((match.start("fret"), picked, sound, None if fret == "x" else int(fret)))
    return notes


def overtone(fret: int) -> int:
    """Semitones over the open string, to the nearest: the nth overtone is n times its frequency. Where none rests, as
    a pinched harmonic may be written, the fret's own."""
    return round(12 * log2(PARTS[fret])) if fret in PARTS else fret


def times(rows: list[str]) -> int:
    """How often in all a system is played."""
    if not any(":|" in row for row in rows):
        return 1
    counts = [match for row in rows if (match := re.fullmatch(r"\s*x(\d+)\s*", row))]
    return int(counts[0][1]) if counts else 2
