"""What a file's own legend says of the letters that people use in more ways than one."""

from __future__ import annotations

import re
from typing import Final

from drills.notation.reading.lines import Line

_ENTRY: Final = re.compile(
    r"^[ *|]*(?:[0-9x-]*)(?P<sign>\^|[sSvVwbBtThHpP=+*~/\\]|\([0-9nx#]*\)|\[[0-9nx#]*\]|<[0-9nx#]*>)(?:[0-9-]*)"
    r"[ .]*(?:[-=:]|\.\.+|  ) *(?P<words>[A-Za-z].*)$"
)
_MEANINGS: Final = (
    ("pull", "pull-off"),
    ("hammer", "hammer-on"),
    ("pre", "pre-bend"),
    ("release", "release"),
    ("bend", "bend"),
    ("bent", "bend"),
    ("shift", "shift-slide"),
    ("slide", "slide"),
    ("vibrato", "vibrato"),
    ("artificial", "pinch-harmonic"),
    ("pinch", "pinch-harmonic"),
    ("harmonic", "harmonic"),
    ("ghost", "ghost"),
    ("option", "ghost"),
    ("quiet", "ghost"),
    ("tie", "tie"),
    ("hold", "tie"),
    ("sustain", "tie"),
    ("tap", "tap"),
    ("slap", "slap"),
    ("accent", "accent"),
    ("trill", "trill"),
)


def legend_of(prose: list[Line]) -> dict[str, str]:
    """Sign -> what the legend calls it, by the trade's name; brackets as their first character."""
    found: dict[str, str] = {}
    for line in prose:
        if len(line.text) > 120 or ("=" not in line.text and "-" not in line.text and ":" not in line.text
                                    and "  " not in line.text and "." not in line.text):
            continue
        match = _ENTRY.match(line.text)
        if match is None:
            continue
        words = match["words"].lower()
        for word, meaning in _MEANINGS:
            if word in words:
                sign = match["sign"]
                found.setdefault(sign[0] if sign[0] in "([<" else sign, meaning)
                break
    return found
