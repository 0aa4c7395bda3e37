"""Chord shapes: which fret each string is held at, which strings are open and which are not played."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Final, NamedTuple

from drills.notation.score import Note, Onset
from drills.notation.tuning import FRETS, Tuning

WIDEST_MM: Final = 120
"""Millimetres between the lowest and the highest finger beyond which no shape is taught: frets 1 to 5 of a neck
with 650 mm of string (arithmetic, and common practice for beginners' hands, no source)."""
WIDE_MM: Final = 90
"""Millimetres from which a shape is called wide."""
BASS_MM: Final = 860.0
"""About how long the strings of a bass are."""

_LETTERS: Final = re.compile(r"[x0-9]+")


class Shape(NamedTuple):
    """One chord shape.

    Attributes:
        frets: by string, the last string first, as players write it (``x32010``); 0 is open, None is not played.
    """

    frets: tuple[int | None, ...]

    @property
    def text(self) -> str:
        """As it is written: ``x32010``; with ``-`` between all of them where a fret has two digits."""
        signs = ["x" if fret is None else str(fret) for fret in self.frets]
        return ("-" if max(map(len, signs)) > 1 else "").join(signs)

    @property
    def lines(self) -> int:
        """How many strings the instrument has."""
        return len(self.frets)

    @property
    def places(self) -> tuple[tuple[int, int], ...]:
        """String and fret of every string that is played, the last string first."""
        strings = range(len(self.frets), 0, -1)
        return tuple([(string, fret) for string, fret in zip(strings, self.frets, strict=True) if fret is not None])

    @property
    def pressed(self) -> tuple[int, ...]:
        """The frets under fingers."""
        return tuple([fret for fret in self.frets if fret])

    def on(self, string: int) -> int | None:
        """The fret on a string; None where it is not played."""
        return self.frets[self.lines - string]

    def onset(self) -> Onset:
        """The shape as it stands on a staff: one column, without what is not played."""
        return Onset(tuple(Note(string, fret) for string, fret in reversed(self.places)))

    def pitches(self, tuning: Tuning) -> tuple[int, ...]:
        """What sounds, as MIDI numbers from low to high (not always the order of the strings)."""
        return tuple(sorted(tuning.sound(string, fret).midi for string, fret in self.places))

    def only(self, strings: Iterable[int]) -> Shape:
        """The same on some strings alone."""
        kept = set(strings)
        return Shape(tuple(fret if self.lines - n in kept else None for n, fret in enumerate(self.frets)))

    def mirrored(self) -> Shape:
        """The shape read from the wrong side."""
        return Shape(self.frets[::-1])

    def stretch(self, scale: float) -> float:
        """Millimetres of the neck from the lowest to the highest finger.

        Args:
            scale: millimetres from nut to bridge. A fret lies at ``scale * (1 - 2 ** (-fret / 12))`` (equal
                temperament).
        """
        if not self.pressed:
            return 0.0
        low, high = min(self.pressed), max(self.pressed)
        return scale * (math.pow(2, -low / 12) - math.pow(2, -high / 12))

    @property
    def barre(self) -> bool:
        """Whether one finger has to press several strings: more frets are held than there are fingers."""
        return len(self.pressed) > 4


@lru_cache(maxsize=2048)
def parse_shape(text: str) -> Shape:
    """Read ``x32010``, or ``x-10-12-12-x-x`` where a fret has two digits.

    Raises:
        ValueError: it is no shape of 4 to 8 strings, plays nothing, or goes beyond the last fret.
    """
    parts = text.split("-") if "-" in text else list(text)
    if not 4 <= len(parts) <= 8 or not all(_LETTERS.fullmatch(part) for part in parts):
        raise ValueError(f"'{text}' is no shape such as x32010 or x-10-12-12-x-x")
    frets = tuple(None if part == "x" else _fret(part, text) for part in parts)
    if all(fret is None for fret in frets):
        raise ValueError(f"'{text}' plays no string")
    return Shape(frets)


def _fret(part: str, text: str) -> int:
    if not part.isdigit() or int(part) > FRETS:
        raise ValueError(f"'{part}' in '{text}' is no fret from 0 to {FRETS}")
    return int(part)


def scale_of(tuning: Tuning) -> float:
    """About how long the strings are, in millimetres: bass 860, guitar 650, ukulele 350 (common practice, no source).

    A tuning does not tell its instrument; how high its highest string sounds comes near.
    """
    highest = max(pitch.midi for pitch in tuning.strings)
    if highest < 50:
        return BASS_MM
    return 350.0 if min(pitch.midi for pitch in tuning.strings) >= 58 else 650.0
