"""How far a bend goes: ``b9``, ``b(9)``, ``bfull``, ``b1/2``, ``b1``, from the fret that is bent."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

AMOUNT: Final = (
    r"\(?(?:full|half|[0-3]?(?:1/2|1/4|3/4)(?![0-9])|[0-3]?[½¼¾]|[0-9]{1,2}\.[0-9]{1,2}(?![0-9])|[0-9]{1,2}(?![0-9]))\)?"
)
"""What may stand behind the ``b``."""

_WORDS: Final = {"full": Fraction(1), "half": Fraction(1, 2)}
_PARTS: Final = {
    "1/2": Fraction(1, 2), "1/4": Fraction(1, 4), "3/4": Fraction(3, 4),
    "½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4),
}  # fmt: skip
_WIDEST: Final = 3
"""Whole steps: no written bend goes further."""


def bend_amount(text: str, fret: int) -> Fraction | None:
    """Whole steps, or None where the text does not tell.

    A number over the fret is the fret that it is bent to sound like (H. Wright, "The Guide to TAB Notation", 1995);
    a number up to 3 that is not over it, a part, and the words tell whole steps (common practice, no source).
    """
    text = text.strip("()")
    if not text:
        return None
    if text in _WORDS:
        return _WORDS[text]
    for part, value in _PARTS.items():
        if text.endswith(part):
            return value + int(text[: -len(part)] or 0)
    number = Fraction(text)
    if number > fret:
        steps = (number - fret) / 2
        if steps <= _WIDEST:
            return steps
    return number if 0 < number <= _WIDEST else None
