"""Music as a handbook has it, written down again without the drills: strings, names, semitones."""

from __future__ import annotations

from music21.pitch import Pitch as Outside

# Open strings from string 1 on, MIDI note numbers, as guitar books print them (common practice, no source).
OPEN = {
    "standard": (64, 59, 55, 50, 45, 40),
    "drop-d": (64, 59, 55, 50, 45, 38),
    "half-step-down": (63, 58, 54, 49, 44, 39),
    "whole-step-down": (62, 57, 53, 48, 43, 38),
    "drop-c": (62, 57, 53, 48, 43, 36),
    "double-drop-d": (62, 59, 55, 50, 45, 38),
    "dadgad": (62, 57, 55, 50, 45, 38),
    "open-g": (62, 59, 55, 50, 43, 38),
    "open-d": (62, 57, 54, 50, 45, 38),
    "open-c": (64, 60, 55, 48, 43, 36),
    "open-e": (64, 59, 56, 52, 47, 40),
    "open-a": (64, 61, 57, 52, 45, 40),
    "7-string": (64, 59, 55, 50, 45, 40, 35),
    "8-string": (64, 59, 55, 50, 45, 40, 35, 30),
    "bass-5": (43, 38, 33, 28, 23),
    "banjo": (62, 59, 55, 50, 67),
    "mandolin": (76, 69, 62, 55),
    "bass": (43, 38, 33, 28),
    "ukulele": (69, 64, 60, 67),
}
# Both names of the twelve pitch classes from C on, from a keyboard chart (common practice, no source).
NAMES = (
    ["C"], ["C#", "Db"], ["D"], ["D#", "Eb"], ["E"], ["F"], ["F#", "Gb"],
    ["G"], ["G#", "Ab"], ["A"], ["A#", "Bb"], ["B"],
)  # fmt: skip


def midi_of(tuning: str, string: int, fret: int) -> int:
    """One semitone a fret (MusicXML 4.0, ``fret``)."""
    return OPEN[tuning][string - 1] + fret


def hertz_of(midi: int) -> float:
    """Equal temperament from A4 = 440 Hz, MIDI note 69 (ISO 16:1975, from memory)."""
    return float(440.0 * 2.0 ** ((midi - 69) / 12))


def outside_class(name: str) -> int:
    """The pitch class that music21 gives a name; it writes flats as ``-``."""
    return int(Outside(name[0] + name[1:].replace("b", "-")).pitchClass)
