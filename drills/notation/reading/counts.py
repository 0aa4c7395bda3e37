"""Count lines and letters for lengths: what tells the rhythm of a bar."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from drills.notation.values import BY_LETTER, LENGTHS

_TOKEN: Final = re.compile(r"[0-9]{1,2}|and|&|\+|[eEaAnu]|[^ \-|:.,'\x60]")
_METRE: Final = re.compile(r" *[0-9]{1,2}/[0-9]{1,2}(?= )")
_PARTS: Final = {"&": Fraction(1, 2), "+": Fraction(1, 2), "and": Fraction(1, 2), "n": Fraction(1, 2),
                 "u": Fraction(1, 2), "e": Fraction(1, 4), "a": Fraction(3, 4)}  # fmt: skip
_LENGTH: Final = re.compile(r"(?<![^ \-|])([WwHhQqEeSs])(\.?)(?![^ \-|.])")

Beats = list[tuple[int, Fraction]]
"""Column and beat, from left to right."""


def count_line(text: str) -> Beats | None:
    """The beat that each column of a count line stands for, or None where it is no count line.

    Digits run 1, 2, 3 ... and begin again with each bar; between them stand ``&`` or ``+``, ``e`` and ``a`` (common
    practice, no source).
    """
    if "1" not in text or "2" not in text:
        return None
    if (metre := _METRE.match(text)) is not None:
        text = " " * metre.end() + text[metre.end() :]
    beats: Beats = []
    beat, ones = 0, 0
    for match in _TOKEN.finditer(text):
        word = match.group()
        if word.isdigit():
            number = int(word)
            if number != 1 and number != beat + 1 and not (beat == 0 and number <= 12):
                return None
            beat = number
            ones += number == 1
            beats.append((match.start(), Fraction(number)))
            continue
        part = _PARTS.get(word.lower())
        if part is None:
            return None
        if beat:
            beats.append((match.start(), beat + part))
        elif not beats:
            beats.append((match.start(), part))
    whole = [number for _, number in beats if number.denominator == 1]
    if not ones or len(whole) < 2 or max(whole) < 2:
        return None
    return beats


def top_beats(beats: Beats) -> list[int]:
    """How far each bar of a count line counts."""
    tops: list[int] = []
    for _, beat in beats:
        if beat == 1 or not tops:
            tops.append(int(beat))
        tops[-1] = max(tops[-1], int(beat))
    return tops


def length_line(text: str) -> list[tuple[int, Fraction]] | None:
    """Column and length in quarters of each letter of a line of letters for lengths, or None where it is none.

    ``w h q e s``, a dot behind a dotted one; common practice, no source. Capital letters that are all names of notes
    are chords.
    """
    bare = text.replace("|", " ").replace("-", " ").split()
    if len(bare) < 2 or not all(len(word) <= 2 for word in bare):
        return None
    if all(word in "ABCDEFG" for word in bare):
        return None
    found = [
        (match.start(), LENGTHS[BY_LETTER[match[1].lower()]] * (Fraction(3, 2) if match[2] else 1))
        for match in _LENGTH.finditer(text)
    ]
    return found if len(found) == len(bare) else None
