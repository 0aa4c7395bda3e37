"""Tunings, names and frequencies, written down again from what players know."""

from __future__ import annotations

from functools import cache

from music21.pitch import Pitch

# From the last string to string 1, as tuners and method books print them (common practice, no source).
OPEN = {
    "standard": "E2 A2 D3 G3 B3 E4",
    "drop-d": "D2 A2 D3 G3 B3 E4",
    "half-step-down": "Eb2 Ab2 Db3 Gb3 Bb3 Eb4",
    "whole-step-down": "D2 G2 C3 F3 A3 D4",
    "drop-c": "C2 G2 C3 F3 A3 D4",
    "double-drop-d": "D2 A2 D3 G3 B3 D4",
    "dadgad": "D2 A2 D3 G3 A3 D4",
    "open-g": "D2 G2 D3 G3 B3 D4",
    "open-d": "D2 A2 D3 F#3 A3 D4",
    "open-c": "C2 G2 C3 G3 C4 E4",
    "open-e": "E2 B2 E3 G#3 B3 E4",
    "open-a": "E2 A2 E3 A3 C#4 E4",
    "7-string": "B1 E2 A2 D3 G3 B3 E4",
    "8-string": "F#1 B1 E2 A2 D3 G3 B3 E4",
    "bass": "E1 A1 D2 G2",
    "bass-5": "B0 E1 A1 D2 G2",
    "ukulele": "G4 C4 E4 A4",
    "banjo": "G4 D3 G3 B3 D4",
    "mandolin": "G3 D4 A4 E5",
}
# Two that a learner makes: a baritone guitar, and a re-entrant one a step over the ukulele's.
OWN = {"B1 E2 A2 D3 F#3 B3": "own-35-40-45-50-54-59", "re-entrant A4 D4 F#4 B4": "own-re-entrant-69-62-66-71"}
EVERY = (*OPEN, *OWN)
# Where the strings do not rise, players name a chord without its lowest note (common practice, no source).
RE_ENTRANT = {"ukulele", "banjo", "re-entrant A4 D4 F#4 B4"}

# Both names of the black keys, from a keyboard (common practice, no source).
NAMES = (["C"], ["C#", "Db"], ["D"], ["D#", "Eb"], ["E"], ["F"], ["F#", "Gb"], ["G"], ["G#", "Ab"], ["A"],
         ["A#", "Bb"], ["B"])  # fmt: skip


@cache
def open_strings(tuning: str) -> dict[int, int]:
    """MIDI numbers by string; music21 reads the names (C4 is middle C, 60), and writes flats as ``-``."""
    names = OPEN.get(tuning, tuning).removeprefix("re-entrant ").split()
    return {len(names) - n: int(Pitch(name.replace("b", "-")).midi) for n, name in enumerate(names)}


@cache
def class_of(name: str) -> int:
    """The pitch class of a name by music21; it writes flats as ``-``."""
    return int(Pitch(name[0] + name[1:].replace("b", "-")).pitchClass)


@cache
def hertz(midi: int) -> float:
    """Equal temperament, MIDI 69 is A4 = 440 Hz (ISO 16:1975, from memory); music21 must agree."""
    found = float(440.0 * 2.0 ** ((midi - 69) / 12))
    assert abs(float(Pitch(midi=midi).frequency) - found) < 0.001
    return found
