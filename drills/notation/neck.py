"""Places -> rows of styled cells: the neck as the player sees it, thickest string at the top."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from drills.notation.drawing import Drawing, Role

Place = tuple[int, int]
"""String and fret."""


@dataclass(frozen=True, slots=True)
class NeckView:
    """What to draw of a neck, in playing position: looking down at it, thickest string at the top.

    Attributes:
        strings: how many.
        first, last: the frets shown; the nut is drawn when first is 0 or 1 (open strings stand before it).
        left_handed: nut at the right; the thickest string is still at the top.
        dots: text and role of each place (``("●", Role.LIT)``); fret 0 is the open string.
        lit_strings: strings drawn in another role over their whole length.
        keys: a key at a place, with the answer that it stands for.
        string_keys: a key at the end of a string, with the answer that it stands for.
        labels: a text for each string, string 1 first, written beside the nut; empty for none.
    """

    strings: int
    first: int = 0
    last: int = 5
    left_handed: bool = False
    dots: Mapping[Place, tuple[str, Role]] = field(default_factory=dict)
    lit_strings: Mapping[int, Role] = field(default_factory=dict)
    keys: Mapping[Place, tuple[str, str]] = field(default_factory=dict)
    string_keys: Mapping[int, tuple[str, str]] = field(default_factory=dict)
    labels: tuple[str, ...] = ()


def draw_neck(view: NeckView) -> Drawing:
    """Draw a neck, with fret numbers under it and dots at 3, 5, 7, 9 and 12 where players find inlays."""
    raise NotImplementedError
