"""Chord shapes for tunings that have no table of their own: the lowest fret with a tone of the chord, string by string.

The search knows nothing but the open strings, so the same tuning has the same shapes for ever.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drills.notation.chords import chord_tones
from drills.notation.pitch import FLAT_NAMES
from drills.notation.shape import WIDEST_MM, Shape, scale_of
from drills.notation.tuning import Tuning

HIGHEST: Final = 4
"""The last fret of the first position."""
MOST: Final = 24
"""Shapes that are taught of one tuning at most."""


def open_shapes(tuning: Tuning) -> list[Shape]:
    """Major, minor and seventh chords of the first position, the easiest first."""
    found: dict[Shape, None] = {}
    for suffix in ("", "m", "7"):
        for root, name in enumerate(FLAT_NAMES):
            shape = _lowest(tuning, root, chord_tones(name + suffix))
            if shape is not None:
                found.setdefault(shape)
    return sorted(found, key=lambda shape: (len(shape.pressed), max(shape.pressed, default=0)))[:MOST]


def power_shapes(tuning: Tuning) -> Iterator[Shape]:
    """A root on each of the lowest strings, its fifth on the next one: open, then at frets 3, 5, 1 and 2."""
    if not tuning.gauge_ordered:
        return
    for fret in (0, 3, 5, 1, 2):
        for string in range(tuning.lines, max(tuning.lines - 3, 1), -1):
            fifth = fret + 7 - (tuning.open(string - 1).midi - tuning.open(string).midi)
            if fret == 0 or fret <= fifth <= fret + 3:
                places = {string: fret, string - 1: fifth}
                shape = Shape(tuple(places.get(n) for n in range(tuning.lines, 0, -1)))
                if fifth >= 0 and playable(shape, tuning):
                    yield shape


def playable(shape: Shape, tuning: Tuning) -> bool:
    """Whether a beginner's hand can hold it: a finger a fret, and no stretch beyond what is taught."""
    return not shape.barre and shape.stretch(scale_of(tuning)) <= WIDEST_MM


def has_short_string(tuning: Tuning) -> bool:
    """Whether the last string is a drone that begins further up the neck, as on a banjo of five strings.

    Tabs do not agree on how its frets are counted; only its open string is safe (common practice, no source).
    """
    return tuning.lines == 5 and tuning.open(5) > tuning.open(4)


def _lowest(tuning: Tuning, root: int, tones: frozenset[int]) -> Shape | None:
    """The chord in the first position, from its root up where the strings rise; None where it does not lie there."""
    frets: list[int | None] = []
    sounding = False
    for string in range(tuning.lines, 0, -1):
        opened = tuning.open(string).midi
        wanted = tones if sounding or not tuning.gauge_ordered else frozenset({root})
        highest = 0 if string == 5 and has_short_string(tuning) else HIGHEST if sounding else HIGHEST - 1
        fret = next((f for f in range(highest + 1) if (opened + f) % 12 in wanted), None)
        if fret is None and sounding and not has_short_string(tuning):
            return None
        sounding = sounding or fret is not None
        frets.append(fret)
    shape = Shape(tuple(frets))
    whole = {pitch % 12 for pitch in shape.pitches(tuning)} == tones
    return shape if whole and playable(shape, tuning) else None
