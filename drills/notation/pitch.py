"""Pitches, their names and their frequencies.

Names are scientific pitch notation (R. W. Young, JASA 11, 1939: C4 is middle C, MIDI note 60); frequencies
follow ISO 16:1975 (A4 = 440 Hz) in twelve-tone equal temperament.
"""

from __future__ import annotations

import math
import re
from enum import StrEnum
from typing import Final, NamedTuple

LETTERS: Final = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
SHARP_NAMES: Final = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
FLAT_NAMES: Final = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
NATURALS: Final = frozenset(LETTERS.values())

_NAMES: Final = tuple(
    (sharp,) if sharp == flat else (sharp, flat) for sharp, flat in zip(SHARP_NAMES, FLAT_NAMES, strict=True)
)

_SYLLABLES: Final = {"C": "do", "D": "re", "E": "mi", "F": "fa", "G": "sol", "A": "la", "B": "si"}
_IN_GERMAN: Final = {"Bb": "B", "Eb": "Es", "Ab": "As", "Ebb": "Eses", "Abb": "Asas"}
_GERMAN_ENDINGS: Final = {"": "", "#": "is", "##": "isis", "b": "es", "bb": "eses"}
_SPN: Final = re.compile(r"([A-G])(##|#|bb|b)?(-?\d+)")
_SPELLED: Final = re.compile(r"([A-Ga-g])(##|#|bb|b)?")
_GERMAN: Final = re.compile(r"([A-Ha-h])(is|es|s|#|b)?", re.IGNORECASE)
_SOLFEGE: Final = re.compile(r"(do|ut|re|mi|fa|sol|so|la|si|ti)(#|b)?")
_SHARPENED: Final = re.compile(r"\s*\b(diesis|di[eè]se|sostenido|sustenido)\b", re.IGNORECASE)
_FLATTENED: Final = re.compile(r"\s*\b(bemolle|b[eé]mol)\b", re.IGNORECASE)
_SHIFT: Final = {None: 0, "": 0, "#": 1, "##": 2, "b": -1, "bb": -2, "is": 1, "es": -1, "s": -1}


class Naming(StrEnum):
    """A way of saying note names aloud."""

    LETTERS = "letters"
    """C D E F G A B, as in English."""
    GERMAN = "german"
    """C D E F G A H, where B is B flat: Germany, Poland, Czechia, Scandinavia."""
    SOLFEGE = "solfege"
    """do re mi fa sol la si, fixed: France, Italy, Spain and others."""


class Pitch(NamedTuple):
    """One sounding pitch.

    Attributes:
        midi: MIDI note number; 60 is C4, one a semitone.
    """

    midi: int

    @property
    def pitch_class(self) -> int:
        """0 for C to 11 for B, whatever the octave."""
        return self.midi % 12

    @property
    def hz(self) -> float:
        """Frequency in hertz, from A4 = 440 Hz."""
        return 440.0 * math.pow(2.0, (self.midi - 69) / 12)

    @property
    def names(self) -> tuple[str, ...]:
        """The everyday spellings without octave: ``("C",)``, or ``("A#", "Bb")`` for a black key."""
        return _NAMES[self.midi % 12]

    @property
    def is_natural(self) -> bool:
        """Whether it has a plain letter."""
        return self.pitch_class in NATURALS

    def spn(self, flats: bool = False) -> str:
        """Scientific pitch notation, such as ``C#3`` (or ``Db3`` with flats)."""
        name = (FLAT_NAMES if flats else SHARP_NAMES)[self.pitch_class]
        return f"{name}{self.midi // 12 - 1}"

    def up(self, semitones: int) -> Pitch:
        """The pitch that many semitones higher (lower, if negative)."""
        return Pitch(self.midi + semitones)

    @classmethod
    def parse(cls, text: str) -> Pitch:
        """Read scientific pitch notation: ``E2``, ``Bb3``, ``F#4``.

        Raises:
            ValueError: it is no such name.
        """
        match = _SPN.fullmatch(text)
        if match is None:
            raise ValueError(f"'{text}' is no pitch such as E2, Bb3 or F#4")
        letter, accidental, octave = match.groups()
        return cls(LETTERS[letter] + _SHIFT[accidental] + 12 * (int(octave) + 1))


def spell(name: str, naming: Naming) -> str:
    """An English note name (``A#``, ``Bb``, ``B``) as the naming system says it (``Ais``, ``B``, ``H``)."""
    letter, accidental = name[0], name[1:]
    if naming is Naming.SOLFEGE:
        return _SYLLABLES[letter] + accidental
    if naming is Naming.GERMAN:
        return _IN_GERMAN.get(name) or letter.replace("B", "H") + _GERMAN_ENDINGS[accidental]
    return name


def parse_note(text: str, naming: Naming = Naming.LETTERS) -> str | None:
    """The English name of a note without octave, as a person types it, or None.

    Any case; ``♯`` and ``♭`` or the words sharp and flat, and those of the languages that say do re mi; a lone ``b``
    is B, ``bb`` is B flat.
    """
    text = text.strip().replace("♯", "#").replace("♭", "b")
    text = re.sub(r"[\s-]*\bsharp\b", "#", text, flags=re.IGNORECASE)
    text = re.sub(r"[\s-]*\bflat\b", "b", text, flags=re.IGNORECASE)
    if naming is Naming.SOLFEGE:
        text = _SHARPENED.sub("#", _FLATTENED.sub("b", text))
    if naming is Naming.SOLFEGE and (match := _SOLFEGE.fullmatch(_plain(text))):
        syllable = {"ut": "do", "so": "sol", "ti": "si"}.get(match[1], match[1])
        letter = next(key for key, value in _SYLLABLES.items() if value == syllable)
        return letter + (match[2] or "")
    if naming is Naming.GERMAN and (match := _GERMAN.fullmatch(text)):
        return _parse_german(match[1].upper(), (match[2] or "").lower())
    if match := _SPELLED.fullmatch(text[:1] + text[1:].lower()):
        return match[1].upper() + (match[2] or "")
    return None


def _plain(text: str) -> str:
    """Lower case, accents of re and fa dropped, no blanks."""
    return "".join(text.lower().replace("é", "e").split())


def _parse_german(letter: str, accidental: str) -> str | None:
    if letter == "H":
        return {"": "B", "is": "B#", "#": "B#", "b": "Bb", "es": "Bb"}.get(accidental)
    if letter == "B":
        return {"": "Bb", "b": "Bb", "es": "Bbb"}.get(accidental)
    if accidental == "s" and letter not in "AE":
        return None
    if accidental == "es" and letter in "AE":
        return None
    return letter + {1: "#", -1: "b", 0: ""}[_SHIFT[accidental]]


def class_of(name: str) -> int:
    """The pitch class of an English note name.

    Raises:
        ValueError: it is none.
    """
    match = _SPELLED.fullmatch(name)
    if match is None:
        raise ValueError(f"'{name}' is no note name")
    return (LETTERS[match[1].upper()] + _SHIFT[match[2]]) % 12
