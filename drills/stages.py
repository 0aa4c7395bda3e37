"""The stages of the catalogue: what is taught after what, in a spiral as beginners meet it."""

from __future__ import annotations

from enum import IntEnum
from typing import Final


class Stage(IntEnum):
    """When an item is taught: the lowest first. Items of one stage take turns by drill."""

    LINES = 1
    PLACES = 2
    NAMES = 3
    BARS = 4
    STACKS = 5
    FIRST_NOTES = 6
    SLIDES = 7
    HALF_BEATS = 8
    TOUCH = 9
    TWELVE_FRETS = 10
    CHORDS = 11
    NECK = 12
    RARE_SIGNS = 13
    FAST_BEATS = 14
    HIGH_FRETS = 15


TITLES: Final[dict[int, str]] = {
    Stage.LINES: "The lines",
    Stage.PLACES: "Places on the neck",
    Stage.NAMES: "Names and first signs",
    Stage.BARS: "Bars and order",
    Stage.STACKS: "First chords and note values",
    Stage.FIRST_NOTES: "Notes of the first position",
    Stage.SLIDES: "Slides and bends",
    Stage.HALF_BEATS: "Sharps, flats and half beats",
    Stage.TOUCH: "Held, muted and released",
    Stage.TWELVE_FRETS: "Up to the twelfth fret",
    Stage.CHORDS: "Chords and their names",
    Stage.NECK: "The whole neck, and the capo",
    Stage.RARE_SIGNS: "Rarer signs",
    Stage.FAST_BEATS: "Sixteenths, pick-ups and 6/8",
    Stage.HIGH_FRETS: "Beyond the twelfth fret",
}
"""What each stage is about."""
