"""Words that several drills share."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
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
    "DGDGBD": ("Damp Geese Doze, Grey Bears Dream",),
    "DADFAD": ("Dark Alleys Do Frighten All Dogs",),
    "DADGAD": ("Deep Autumn Days Glow Amber Daily",),
    "DADGBD": ("Dogs And Donkeys Gallop By Day",),
    "CGCFAD": ("Cold Gales Carry Foam And Driftwood",),
    "CGCGCE": ("Calm Gulls Circle Grey Chalky Edges",),
    "EBEGBE": ("Each Boat Enters, Gliding By Evening",),
    "EAEACE": ("Every Apple Eaten Adds Cheerful Energy",),
    "BEADGBE": ("Bakers Eat Almond Dough, Grinning Before Everyone",),
    "FBEADGBE": ("Five Badgers Eat Acorns, Digging Greedily Before Eight",),
    "BEADG": ("Brown Eels Always Dive Gracefully",),
    "GDGBD": ("Grey Doves Glide Between Domes",),
    "GDAE": ("Garden Doors Are Expensive", "Green Dragonflies Attract Everybody"),
    "GCEA": ("Grand Canals End Abroad", "Green Caterpillars Eat Asters"),
}
"""Memory sentences of our own, by the initials of the strings from the last to string 1."""


def initials_upward(tuning: Tuning, naming: Naming) -> str:
    """The first letters of the strings' names from the last string to string 1, in capitals."""
    return "".join(tuning.letter(string, naming)[0].upper() for string in range(tuning.lines, 0, -1))


def sentence_hint(tuning: Tuning, naming: Naming) -> str:
    """What a memory sentence of the learner's own has to look like: ``six words that begin with E, A, D, G, B, E``.

    Words begin with letters, so the accidentals of the strings are left out, and syllables give their first letter.
    """
    initials = initials_upward(tuning, naming)
    plain = all(tuning.letter(string, naming) == letter for string, letter in enumerate(reversed(initials), start=1))
    names = " ".join(tuning.letter(string, naming) for string in range(tuning.lines, 0, -1))
    meant = "" if plain else f" (for {names})"
    return (
        f"That does not spell the strings: give {_COUNTS[len(initials)]} words that begin with "
        f"{', '.join(initials)}{meant}, in this order or backwards."
    )


_COUNTS: Final = {4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight"}


def from_top(line: int, lines: int) -> str:
    """Where a line lies on the staff: ``the top line``, ``the second line from the bottom``."""
    return from_edge(line, lines, "line")


def on_neck(string: int, lines: int) -> str:
    """Where a string lies on the neck in playing position: ``the second string from the top of the neck``."""
    edge = from_edge(lines + 1 - string, lines, "string")
    return f"{edge} of the neck"


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


@cache
def count_options(highest: int) -> tuple[Option, ...]:
    """The keys 1 to ``highest``, at most 9, which answer what they say."""
    return tuple(Option(str(n), "", str(n)) for n in range(1, highest + 1))


def choice_options(texts: Sequence[str]) -> tuple[Option, ...]:
    """Keys 1 to 9 beside texts; letters where the texts are numbers, so that neither is taken for the other."""
    keys = "abcdefghi" if any(text[:1].isdigit() for text in texts) else "123456789"
    return tuple(Option(key, text, text) for key, text in zip(keys, texts, strict=False))
