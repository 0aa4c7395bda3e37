"""A learner's own tuning, from what they write or from its name."""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from drills.notation.pitch import Pitch
from drills.notation.tuning import FRETS, Tuning, flats_fit, shipped

OWN: Final = "own-"
"""What the name of an own tuning begins with; MIDI numbers from the last string to string 1 follow."""

RE_ENTRANT: Final = "re-entrant"
"""The word before pitches that do not rise from string to string, as on a ukulele."""

_EXAMPLE: Final = "such as E2 A2 D3 G3 B3 E4"
_LOWEST_HZ: Final = 20.0
"""About where hearing begins; it ends at 20 kHz (common practice, no source), above the highest MIDI note."""
_LOWEST: Final = next(Pitch(midi) for midi in range(128) if Pitch(midi).hz >= _LOWEST_HZ)
_HIGHEST: Final = Pitch(127 - FRETS)
"""The open string that still has a MIDI number at the last fret, where it can be heard too."""

_NAME: Final = re.compile(rf"{OWN}({RE_ENTRANT}-)?(\d{{1,3}}(?:-\d{{1,3}})*)")
_PITCH: Final = re.compile(r"([A-Ga-g])([#b]?)(-?\d{1,2})")


def own_tuning(text: str) -> Tuning:
    """A tuning from its pitches, from the last string (the lowest) to string 1, as people say them.

    Args:
        text: letters with their octaves, ``D2 A2 D3 G3 B3 D4``, sharps and flats as ``#`` and ``b``; blanks, commas
            or dashes between them. ``re-entrant`` before them allows pitches that do not rise.

    Raises:
        ValueError: one line that says what is wrong and how to mend it.
    """
    words = re.sub(r"(?<=\d)\s*-\s*(?=[^\d\s])", " ", text.replace("♯", "#").replace("♭", "b"))
    parts = words.replace(",", " ").replace(";", " ").split()
    rises = not (parts and parts[0].lower() == RE_ENTRANT)
    parts = parts if rises else parts[1:]
    if not 4 <= len(parts) <= 8:
        raise ValueError(
            f"{_count(len(parts))}: give 4 to 8 pitches, from the lowest string to the highest, {_EXAMPLE}"
        )
    return _tuning([_pitch(part) for part in parts], rises)


def tuning_named(name: str) -> Tuning:
    """A shipped tuning, or an own one by its name, such as ``own-38-45-50-55-59-64``.

    Raises:
        ValueError: there is none, or its pitches cannot be; one line that says how to mend it.
    """
    found = shipped().get(name)
    return found if found is not None else _own(name)


@cache
def _own(name: str) -> Tuning:
    match = _NAME.fullmatch(name) if name.isascii() else None
    if match is None:
        raise ValueError(
            f"there is no tuning {_shown(name)}: `sixline tunings` lists them, and your own is given by its pitches, "
            f"{_EXAMPLE}"
        )
    numbers = [int(number) for number in match[2].split("-")]
    if not 4 <= len(numbers) <= 8:
        raise ValueError(f"{_count(len(numbers))}: give 4 to 8, such as own-40-45-50-55-59-64")
    return _tuning([Pitch(number) for number in numbers], rises=match[1] is None)


def _tuning(upward: list[Pitch], rises: bool) -> Tuning:
    """The tuning of pitches from the last string to string 1.

    Raises:
        ValueError: a pitch cannot be heard, two are alike, or they do not rise where they should.
    """
    flats = flats_fit(upward)
    names = [pitch.spn(flats) for pitch in upward]
    for pitch, name in zip(upward, names, strict=True):
        if pitch < _LOWEST:
            raise ValueError(
                f"{name} is {pitch.hz:.1f} Hz, too low to hear: give {_LOWEST.spn()} ({_LOWEST.hz:.1f} Hz) or higher"
            )
        if pitch > _HIGHEST:
            raise ValueError(
                f"{name} is too high, beyond {Pitch(127).spn()} (MIDI 127) at fret {FRETS}: "
                f"give {_HIGHEST.spn()} or lower"
            )
    for place, name in enumerate(names):
        if name in names[:place]:
            raise ValueError(
                f"two strings sound {name}: give each a pitch of its own, for questions could not tell them apart"
            )
    if rises and upward != sorted(upward):
        if upward == sorted(upward, reverse=True):
            raise ValueError(f"these pitches fall: give the lowest first, {' '.join(reversed(names))}")
        low = next(n for n in range(1, len(upward)) if upward[n] < upward[n - 1])
        raise ValueError(
            f"{names[low]} is lower than {names[low - 1]} before it: give the lowest first, "
            f"{' '.join(_sorted(upward))}; or begin with the word {RE_ENTRANT} where the strings really lie so"
        )
    return Tuning(
        name=OWN + ("" if rises else f"{RE_ENTRANT}-") + "-".join(str(pitch.midi) for pitch in upward),
        title=f"Own: {' '.join(names)}",
        strings=tuple(reversed(upward)),
        flats=flats,
    )


def _sorted(pitches: list[Pitch]) -> list[str]:
    flats = flats_fit(pitches)
    return [pitch.spn(flats) for pitch in sorted(pitches)]


def _count(strings: int) -> str:
    return f"a tuning of {strings} string{'' if strings == 1 else 's'}" if strings else "a tuning without pitches"


def _pitch(word: str) -> Pitch:
    match = _PITCH.fullmatch(word) if word.isascii() else None
    if match is not None:
        return Pitch.parse(match[1].upper() + match[2] + match[3])
    if re.fullmatch(r"[A-Ga-g][#b]?", word):
        letter = word[0].upper() + word[1:]
        raise ValueError(
            f"{_shown(word)} has no octave: write {letter}2, {letter}3 or {letter}4 (the strings of a guitar are "
            "E2 A2 D3 G3 B3 E4)"
        )
    near = _nearest(word)
    mend = f"did you mean {near}?" if near else "write a letter from A to G, maybe # or b, and the octave, such as E2"
    raise ValueError(f"{_shown(word)} is no pitch: {mend}")


def _nearest(word: str) -> str | None:
    """The pitch that somebody meant who wrote H for B, or a sign too many or too few."""
    if re.fullmatch(r"[Hh]\d", word):
        return f"B{word[1]}"
    from difflib import get_close_matches  # wanted only where something is wrong

    plain = word[:1].upper() + word[1:20].lower()
    heard = [Pitch(midi) for midi in range(_LOWEST.midi, _HIGHEST.midi + 1)]
    known = [pitch.spn(flats) for flats in (False, True) for pitch in heard]
    return next(iter(get_close_matches(plain, known, n=1, cutoff=0.6)), None)


def _shown(word: str) -> str:
    """A word as it was written, short and without what a terminal must not be told."""
    return ascii(word[:24] + ("..." if len(word) > 24 else ""))
