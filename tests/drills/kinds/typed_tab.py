"""Typed tab read again from its characters, without the drills: what is picked and what sounds.

The rules, each with its source:
- the number after an h or a p is not picked, nor is one with a t before it; b, r and the fret after them is what the
  note sounds like (H. Wright, "The Guide to TAB Notation", 1995);
- the number after / or \\ is picked again or not as the legend says, a number in parentheses is what the legend says
  (common practice, no source);
- pb is bent before it is picked, tr goes to another fret, x has no pitch (MusicXML 4.0: pre-bend, trill-mark,
  notehead x);
- a harmonic sounds the overtone that rests at its fret (overtone arithmetic, see OVERTONES).
"""

from __future__ import annotations

import re
from math import log2
from typing import NamedTuple

# Which part of the string an overtone rests on: half of it at fret 12, a third at 7 and 19, a quarter at 5 and 24, a
# fifth at 4, 9 and 16 (a fret shortens the string by 2 ** (1/12): arithmetic). Its pitch is 12 log2 n over the open.
OVERTONES = {12: 2, 7: 3, 19: 3, 5: 4, 24: 4, 4: 5, 9: 5, 16: 5}

NOTE = re.compile(
    r"(?P<before>[tg/\\]?)(?P<open>[(<]?)(?P<fret>\d+|x)(?P<close>[)>]?)"
    r"(?P<after>(?:pb\d+|b\d+|r\d+|tr\d+|~+)*)(?P<out>[/\\](?=-))?"
)


class Read(NamedTuple):
    """What typed tab says: y or n a note, and the pitches as frets above the open string."""

    picked: str
    frets: list[int]


def read(rows: list[str]) -> Read:
    """Rows of one system, with anything over the lines and a legend under them; notes on one string at a time."""
    lines = [row for row in rows if row.startswith("|")]
    legend = " ".join(row for row in rows if ":" in row and not row.startswith("|"))
    found: list[tuple[int, str, list[int]]] = []
    for line in lines:
        before_end = -1
        for match in NOTE.finditer(line):
            joined = line[before_end : match.start()] if before_end >= 0 else "--"
            before = match["before"]
            if before in ("/", "\\") and match.start() == before_end:
                joined, before = before, ""
            found.append((match.start("fret"), *_note(match, before, joined, legend)))
            before_end = match.end()
    found.sort()
    frets = [fret for _, _, sounds in found for fret in sounds]
    return Read("".join(struck for _, struck, _ in found), frets * _times(rows))


def _note(match: re.Match[str], before: str, joined: str, legend: str) -> tuple[str, list[int]]:
    tied = match["open"] == "(" and "tied" in legend
    legato = joined in ("/", "\\") and "legato" in legend
    struck = "n" if joined in ("h", "p") or before == "t" or tied or legato else "y"
    if match["fret"] == "x" or tied:
        return struck, []
    fret = int(match["fret"])
    if match["open"] == "<":
        return struck, [round(12 * log2(OVERTONES[fret]))]
    turns = [int(n) for n in re.findall(r"\d+", match["after"])]
    return struck, turns if match["after"].startswith("pb") else [fret, *turns]


def _times(rows: list[str]) -> int:
    """``|: :|`` twice, with x3 beside it three times in all (MusicXML 4.0, ``repeat``, its ``times``)."""
    if not any(":|" in row for row in rows):
        return 1
    count = next((re.search(r"x(\d+)\s*$", row) for row in rows if re.search(r"x\d+\s*$", row)), None)
    return int(count[1]) if count else 2
