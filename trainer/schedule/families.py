"""Drills that feel alike to a learner: what a sitting mixes, and what takes turns in being met."""

from __future__ import annotations

from typing import Final

_FAMILIES: Final[dict[str, tuple[str, ...]]] = {
    "lines": ("line-to-string", "string-to-line", "neck-to-line"),
    "order": ("order",),
    "places": ("tab-to-place", "place-to-tab"),
    "signs": ("mark-name", "mark-hand", "name-to-mark", "mark-picked", "mark-sounds", "mark-wrong"),
    "time": (
        "bar-count", "bar-beat", "bar-missing", "bar-repeat", "bar-pick-up",
        "value-name", "value-find", "value-length", "value-fill", "value-tap",
    ),
    "chords": (
        "diagram-to-tab", "tab-to-diagram", "name-to-diagram",
        "chord-x", "chord-interval", "chord-tones", "chord-sounds", "chord-name", "chord-symbol", "chord-upper",
    ),
    "notes": ("fret-to-note", "note-to-fret", "same-pitch", "octave"),
    "hands": ("finger", "capo"),
}  # fmt: skip

_OF: Final[dict[str, str]] = {drill: family for family, drills in _FAMILIES.items() for drill in drills}


def family(drill: str) -> str:
    """The family of a drill; a drill that has none is one of its own."""
    return _OF.get(drill, drill)
