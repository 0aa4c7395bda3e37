"""Words that several drills share."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drills.notation.pitch import Naming
from drills.notation.spoken import ORDINALS as ORDINALS
from drills.notation.spoken import from_edge
from drills.notation.tuning import Tuning
from drills.question import Option

SENTENCES: Final = {
    "EADGBE": (
        "Every Amber Dusk Glows Behind Elms",
        "Eager Anglers Drift Gently Beyond Estuaries",
        "Empty Attics Delight Grey Barn Efts",
    ),
    "EADGHE": ("Every Amber Dusk Glows Half Empty",),
    "MLRSSM": ("Many Lazy Rabbits Sleep Some Mornings",),
    "EADG": ("Every Amber Dusk Glows", "Eager Anglers Drift Gently"),
    "DADGBE": ("Dry August Days Give Bees Energy", "Distant Apples Drop, Grandma Bakes Everything"),
    "DGCFAD": ("Dozy Geese Cross Frosty Acres Daily",),
    "GCEA": ("Grand Canals End Abroad", "Green Caterpillars Eat Asters"),
}
"""Memory sentences of our own, by the initials of the strings from the last to string 1."""


def initials_upward(tuning: Tuning, naming: Naming) -> str:
    """The first letters of the strings' names from the last string to string 1, in capitals."""
    return "".join(tuning.letter(string, naming)[0].upper() for string in range(tuning.lines, 0, -1))


def from_top(line: int, lines: int) -> str:
    """Where a line lies on the staff: ``the top line``, ``the second line from the bottom``."""
    return from_edge(line, lines, "line")


def thickness(string: int, lines: int) -> str:
    """A string by its gauge: ``the thickest string``, ``the second thinnest string``."""
    if string <= lines // 2:
        return f"the {ORDINALS[string] + ' ' if string > 1 else ''}thinnest string"
    place = lines + 1 - string
    return f"the {ORDINALS[place] + ' ' if place > 1 else ''}thickest string"


def named(string: int, tuning: Tuning, naming: Naming) -> str:
    """``string 5 (A)``."""
    return f"string {string} ({tuning.string_name(string, naming)})"


def capital(sentence: str) -> str:
    """With its first letter large, the rest as it is."""
    return sentence[:1].upper() + sentence[1:]


def said_number(said: str, low: int, high: int) -> int | None:
    """The number that an answer in normal form holds, if it is one in the range."""
    if said.isascii() and said.isdigit() and len(said) <= 3 and low <= int(said) <= high:
        return int(said)
    return None


def choice_options(texts: Sequence[str]) -> tuple[Option, ...]:
    """Keys 1 to 9 beside texts; letters where the texts are numbers, so that neither is taken for the other."""
    keys = "abcdefghi" if any(text[:1].isdigit() for text in texts) else "123456789"
    return tuple(Option(key, text, text) for key, text in zip(keys, texts, strict=False))
