"""What two music libraries call a chord: music21 (a figure for its spelled notes) and pychord (names for a list)."""

from __future__ import annotations

import re

from music21 import chord, harmony
from pychord import find_chords_from_notes

SHARPS = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
FLATS = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
CLASS = {name: number for names in (SHARPS, FLATS) for number, name in enumerate(names)} | {"Cb": 11, "B#": 0, "E#": 5,
        "Fb": 4, "F##": 7, "Bbb": 9, "Dbb": 0, "C##": 2, "Ebb": 2, "Abb": 7, "Gbb": 5}  # fmt: skip
# Other ways to write the same chord symbol (common practice, no source).
SAME = {
    "M7": "maj7", "+": "aug", "+5": "aug", "o": "dim", "o7": "dim7", "/o7": "m7b5", "m7-5": "m7b5", "sus": "sus4",
    "power": "5",
    "mM7": "m(maj7)", "mmaj7": "m(maj7)", "madd9": "m(add9)", "69": "6/9", "7+9": "7#9", "7-9": "7b9", "M9": "maj9",
    "7+5": "7#5", "7-5": "7b5", "m7add11": "m7(add11)", "madd4": "m(add11)", "add4": "add11", "add2": "add9",
    "M7+5": "maj7#5", "7sus": "7sus4", "ø7": "m7b5", "m7add4": "m7(add11)", "madd11": "m(add11)",
}  # fmt: skip


def plain(name: str) -> tuple[int, str, int | None]:
    """Root, suffix and bass of a chord symbol, so that spellings and ways to write it do not matter."""
    match = re.fullmatch(r"([A-G](?:##|#|bb|b)?)(.*?)(?:/([A-G](?:##|#|bb|b)?))?", name)
    assert match, name
    suffix = SAME.get(match[2], match[2])
    bass = CLASS[match[3]] if match[3] else None
    return CLASS[match[1]], suffix, None if bass == CLASS[match[1]] else bass


def by_music21(spelled: list[str]) -> str | None:
    """music21's figure for notes from low to high (``F#2``), or None where it knows none; it writes flats as ``-``."""
    figure = harmony.chordSymbolFigureFromChord(chord.Chord([name.replace("b", "-") for name in spelled]))
    text = str(figure)
    return None if "Cannot" in text else text.replace("-", "b")


def by_pychord(pitches: tuple[int, ...]) -> set[str]:
    """Every name that pychord gives a chord: from its pitch classes upward from the bass and as they lie, with sharps
    and with flats, because it takes the order of a list for the order of the chord."""
    names: set[str] = set()
    bass = min(pitches) % 12
    upward = sorted({pitch % 12 for pitch in pitches}, key=lambda number: (number - bass) % 12)
    raw = list(dict.fromkeys(pitch % 12 for pitch in sorted(pitches)))
    for order in (upward, raw):
        for spelling in (SHARPS, FLATS):
            names |= {str(found) for found in find_chords_from_notes([spelling[number] for number in order])}
    return names
