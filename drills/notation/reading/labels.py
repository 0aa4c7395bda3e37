"""What stands before a row: a letter, a letter with its octave, a string's number, in any of the usual ways."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final, NamedTuple

from drills.notation.pitch import LETTERS

PLAIN: Final = r"(?:[A-Ha-h](?:[#b]|is|es)?)"
"""A letter alone, before a dash: ``h2--`` is a hammered note."""
LETTER: Final = r"(?:[A-Ha-h](?:[#b]|is|es)?[0-9]?'{0,2})"
"""A label: ``e``, ``D#``, ``Eb``, ``h`` (B in German and Slavic files), ``E5``."""
NUMBER: Final = r"(?:[Ss]?[1-8])"
"""A label that is the string's number: ``1``, ``S1``; a bar line stands behind it."""

_LETTER: Final = re.compile(r"([A-Ha-h])(#|b|is|es)?([0-9])?")


class Label(NamedTuple):
    """What a label tells.

    Attributes:
        text: as written.
        letter: upper case with ``#`` or ``b``; ``H`` where the file says so; empty for a number.
        octave: None where it is not told.
        number: of the string, where it is a number.
        high: whether it is in lower case, as the highest string's often is.
    """

    text: str
    letter: str = ""
    octave: int | None = None
    number: int | None = None
    high: bool = False

    def pitch_class(self, german: bool) -> int | None:
        """0 for C to 11 for B; with ``german``, B is B flat and H is B."""
        if not self.letter:
            return None
        shift = {"#": 1, "b": -1}.get(self.letter[1:], 0)
        if self.letter[0] == "H":
            return (11 + shift) % 12
        if self.letter == "B" and german:
            return 10
        return (LETTERS[self.letter[0]] + shift) % 12


@lru_cache(256)
def parse_label(text: str) -> Label:
    """Read a label that fits ``LETTER`` or ``NUMBER``."""
    if text[-1:].isdigit() and text[:-1] in ("", "S", "s"):
        return Label(text, number=int(text[-1]))
    match = _LETTER.match(text)
    if match is None:
        return Label(text)
    sign = {"is": "#", "es": "b"}.get(match[2] or "", match[2] or "")
    octave = int(match[3]) if match[3] else None
    return Label(text, match[1].upper() + sign, octave, None, match[1].islower())
