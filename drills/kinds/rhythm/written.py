"""Bars from written values, as the drills of time draw them."""

from __future__ import annotations

import random
from fractions import Fraction
from functools import cache
from itertools import accumulate
from typing import Final

from drills.notation.score import Bar, Mark, MarkKind, Metre, Note, Onset
from drills.notation.tuning import Tuning
from drills.notation.values import BY_LETTER, Value, beat_of

METRES: Final = {"4-4": Metre(4), "3-4": Metre(3), "2-4": Metre(2), "6-8": Metre(6, 8)}
"""Most music has four beats a bar, then three (common practice, no source); 6/8 is counted in eighths."""

HIGHEST: Final = 3
"""The highest fret that rhythms are written with: one digit, first position."""


@cache
def values(text: str) -> tuple[tuple[Value, bool, bool], ...]:
    """``q. e hr q~ e`` -> each value, whether it is a rest (``r``) and whether it is tied to the next (``~``)."""
    return tuple((Value(BY_LETTER[word[0]], word.count(".")), "r" in word, "~" in word) for word in text.split())


def written_bar(text: str, metre: Metre, tuning: Tuning, rng: random.Random, *, pick_up: bool = False) -> Bar:
    """A bar of single notes in the first position with those values; a pick-up ends with its last beat.

    The notes of a tie are the same place; two struck notes that follow each other are not.
    """
    place: tuple[int, int] | None = None
    held = False
    onsets = []
    for (_, rest, tied), (beat, length) in zip(values(text), _times(text, metre, pick_up), strict=True):
        if rest:
            onsets.append(Onset((), beat, length))
        else:
            place = place if held and place is not None else _another(place, tuning, rng)
            onsets.append(Onset((Note(*place, (Mark(MarkKind.TIE),) if tied else ()),), beat, length))
        held = tied
    return Bar(tuple(onsets), metre, pick_up=pick_up)


@cache
def _times(text: str, metre: Metre, pick_up: bool) -> tuple[tuple[Fraction, Fraction], ...]:
    """Beat and length of each value of a bar."""
    lengths = [value.quarters * metre.unit / 4 for value, _, _ in values(text)]
    beat = 1 + metre.beats - sum(lengths, Fraction(0)) if pick_up else Fraction(1)
    return tuple(zip(accumulate(lengths, initial=beat), lengths, strict=False))


def struck_bar(rhythm: str, metre: Metre, tuning: Tuning, rng: random.Random) -> Bar:
    """A bar of single notes in the first position on those beats (``1 2& 3``), their lengths not told."""
    low = max(1, min(4, tuning.lines))
    beats = map(beat_of, rhythm.split())
    return Bar(tuple([Onset((Note(rng.randint(1, low), rng.randrange(4)),), beat) for beat in beats]), metre)


def amount(beats: Fraction) -> str:
    """A number of beats as it is said: ``3``, ``2 1/2``, ``3/4``."""
    whole, part = divmod(beats, 1)
    return " ".join(str(each) for each in (whole, part) if each) or "0"


def _another(place: tuple[int, int] | None, tuning: Tuning, rng: random.Random) -> tuple[int, int]:
    low = max(1, min(4, tuning.lines))
    while (found := (rng.randint(1, low), rng.randrange(HIGHEST + 1))) == place:
        pass
    return found
