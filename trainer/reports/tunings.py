"""``sixline tunings``."""

from __future__ import annotations

from typing import Any

from drills.notation.tuning import Tuning, shipped
from trainer.complaint import DONE
from trainer.reports import print_json, print_lines, table


def report(*, as_json: bool) -> int:
    """Print every tuning with its pitches; the exit code."""
    if as_json:
        print_json([document(tuning) for tuning in shipped().values()])
    else:
        print_lines(lines())
    return DONE


def document(tuning: Tuning) -> dict[str, Any]:
    """A tuning for programs: string 1 first, ``hz`` rounded to 3 decimals."""
    strings = range(1, tuning.lines + 1)
    pitches = [(string, tuning.open(string)) for string in strings]
    return {
        "name": tuning.name,
        "title": tuning.title,
        "strings": [
            {"string": string, "midi": pitch.midi, "name": pitch.spn(tuning.flats), "hz": round(pitch.hz, 3)}
            for string, pitch in pitches
        ],
    }


def lines() -> list[str]:
    """The same for people."""
    rows = [["NAME", "STRINGS, FROM 1", "TITLE"]]
    for tuning in shipped().values():
        names = [tuning.open(string).spn(tuning.flats) for string in range(1, tuning.lines + 1)]
        rows.append([tuning.name, " ".join(names), tuning.title])
    return table(rows)
