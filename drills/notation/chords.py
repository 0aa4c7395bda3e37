"""An onset -> every chord name that fits. Names follow from pitches and intervals alone, never from a shape.

Chord symbols are common practice, no single source; the tests hold them against two music libraries.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from typing import Final, NamedTuple

from drills.notation.pitch import FLAT_NAMES, LETTERS, SHARP_NAMES, Pitch, class_of

Degrees = tuple[tuple[int, int], ...]
"""Semitones above the root, and letters above it (2 is a third)."""

_ROOT, _FIFTH = (0, 0), (7, 4)


class Quality(NamedTuple):
    """A kind of chord.

    Attributes:
        suffix: what follows the root in its name.
        degrees: every tone, the root first.
        minor: whether its root is spelled as that of a minor key.
    """

    suffix: str
    degrees: Degrees
    minor: bool = False


def formula(suffix: str, degrees: str, minor: bool = False) -> Quality:
    """A kind of chord by its tones as musicians count them: ``1 b3 5 b7``."""
    return Quality(suffix, tuple(_degree(text) for text in degrees.split()), minor)


def _degree(text: str) -> tuple[int, int]:
    number = int(text.lstrip("b#"))
    shift = text.count("#") - text.count("b")
    return ((0, 2, 4, 5, 7, 9, 11)[(number - 1) % 7] + shift) % 12, (number - 1) % 7


QUALITIES: Final = (
    formula("5", "1 5"),
    formula("", "1 3 5"),
    formula("m", "1 b3 5", True),
    formula("7", "1 3 5 b7"),
    formula("maj7", "1 3 5 7"),
    formula("m7", "1 b3 5 b7", True),
    formula("sus4", "1 4 5"),
    formula("sus2", "1 2 5"),
    formula("6", "1 3 5 6"),
    formula("m6", "1 b3 5 6", True),
    formula("add9", "1 3 5 9"),
    formula("m(add9)", "1 b3 5 9", True),
    formula("dim", "1 b3 b5", True),
    formula("aug", "1 3 #5"),
    formula("m7b5", "1 b3 b5 b7", True),
    formula("dim7", "1 b3 b5 bb7", True),
    formula("7sus4", "1 4 5 b7"),
    formula("m(maj7)", "1 b3 5 7", True),
    formula("9", "1 3 5 b7 9"),
    formula("maj9", "1 3 5 7 9"),
    formula("m9", "1 b3 5 b7 9", True),
    formula("6/9", "1 3 5 6 9"),
    formula("7#9", "1 3 5 b7 #9"),
    formula("7b9", "1 3 5 b7 b9"),
    formula("9sus4", "1 4 5 b7 9"),
    formula("7#5", "1 3 #5 b7"),
    formula("7b5", "1 3 b5 b7"),
    formula("maj7#5", "1 3 #5 7"),
    formula("add11", "1 3 5 11"),
    formula("m(add11)", "1 b3 5 11", True),
    formula("m7(add11)", "1 b3 5 b7 11", True),
    # Players leave the fifth out where fingers are short.
    formula("7", "1 3 b7"),
    formula("maj7", "1 3 7"),
    formula("m7", "1 b3 b7", True),
    formula("9", "1 3 b7 9"),
    formula("maj9", "1 3 7 9"),
    formula("m9", "1 b3 b7 9", True),
    formula("7#9", "1 3 b7 #9"),
    formula("7b9", "1 3 b7 b9"),
)
"""Every kind of chord that is named, the simplest first."""

_BY_STEPS: Final = {frozenset(steps for steps, _ in quality.degrees): quality for quality in reversed(QUALITIES)}
_RANK: Final = {quality: n for n, quality in enumerate(QUALITIES)}
_TRIADS: Final = frozenset({"", "m"})
"""What may stand over a bass that is none of its tones, such as Am/G."""

_LETTERS_TO_BASS: Final = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)
"""Letters from a root up to a bass that is none of its chord's tones, by semitones: a minor seventh is six."""

_MAJOR_ROOTS: Final = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
_MINOR_ROOTS: Final = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
"""The key with the fewest sharps or flats of the two that sound alike; F# and Gb have six each."""


class Chord(NamedTuple):
    """One reading of an onset.

    Attributes:
        name: such as ``F#m7`` or ``C/E``.
        root: its pitch class.
        tones: name of every tone by pitch class, the root first, spelled as the chord's key has them.
        slash: whether a bass other than the root is named.
    """

    name: str
    root: int
    tones: dict[int, str]
    slash: bool


def chords(pitches: Iterable[int], *, flats: bool = False, bass: bool = True) -> tuple[Chord, ...]:
    """Every reading of what sounds together, the plainest first; empty where none is known.

    Args:
        pitches: MIDI numbers, in any order.
        flats: spell with flats where F# and Gb are equally good.
        bass: whether the lowest note counts. Where strings are not in the order of their pitch (a ukulele), players
            name a chord without it: names without a slash then fit as well.
    """
    sounding = sorted(set(pitches))
    if not sounding:
        return ()
    return _chords(frozenset(pitch % 12 for pitch in sounding), sounding[0] % 12, flats, bass)


def chord_names(pitches: Iterable[int], *, flats: bool = False, bass: bool = True) -> tuple[str, ...]:
    """The names alone of :func:`chords`."""
    return tuple(chord.name for chord in chords(pitches, flats=flats, bass=bass))


def tone_names(pitches: Sequence[int], *, flats: bool = False) -> dict[int, str]:
    """The name of every pitch class that sounds: as the plainest chord spells it, its root first, else from the
    lowest note up. Double sharps and flats, and B#, Cb, E#, Fb, give way to everyday names."""
    found = chords(pitches, flats=flats)
    tones = found[0].tones if found else {pitch % 12: "" for pitch in sorted(pitches)}
    flat = any("b" in name for name in tones.values()) if found else flats
    return {number: _everyday(number, name, flat) for number, name in tones.items()}


@cache
def chord_tones(name: str) -> frozenset[int]:
    """The pitch classes of a name without a slash (``F#m7``).

    Raises:
        ValueError: it is none that is known here.
    """
    root = name[:2] if name[1:2] in ("#", "b") else name[:1]
    for quality in QUALITIES:
        if quality.suffix == name[len(root) :] and root[:1] in LETTERS:
            return frozenset((class_of(root) + steps) % 12 for steps, _ in quality.degrees)
    raise ValueError(f"'{name}' is no chord name such as C, F#m or G7")


def spelled(root: int, quality: Quality, flats: bool = False) -> dict[int, str]:
    """The tones of a chord by pitch class, the root first: letters follow from the degrees."""
    name = (_MINOR_ROOTS if quality.minor else _MAJOR_ROOTS)[root]
    if flats and name == "F#":
        name = "Gb"
    numbers = (((root + steps) % 12, letters) for steps, letters in quality.degrees)
    return {number: _lettered(number, name[0], letters) for number, letters in numbers}


def symbol(root: int, quality: Quality, bass: int | None = None, *, flats: bool = False) -> str:
    """What a chord is called: ``F#m7``, or ``C/E`` with a bass other than its root, spelled as :func:`chords` does.

    Args:
        root: its pitch class.
        quality: its kind.
        bass: the pitch class of the lowest note where that is named, one of its tones or not.
        flats: spell with flats where F# and Gb are equally good.
    """
    tones = spelled(root, quality, flats)
    name = tones[root] + quality.suffix
    if bass is None or bass == root:
        return name
    return f"{name}/{_bass(root, bass, tones)}"


def _bass(root: int, bass: int, tones: dict[int, str]) -> str:
    """The name of a bass: as the chord spells it, else by the letter of its degree (F/Eb, never F/D#)."""
    name = tones.get(bass) or _lettered(bass, tones[root][0], _LETTERS_TO_BASS[(bass - root) % 12])
    return _everyday(bass, name, any("b" in tone for tone in tones.values()))


def _lettered(number: int, letter: str, up: int) -> str:
    """The name of a pitch class so many letters above a letter."""
    upper = tuple(LETTERS)[(tuple(LETTERS).index(letter) + up) % 7]
    shift = (number - LETTERS[upper] + 6) % 12 - 6
    return upper + ("#" * shift if shift > 0 else "b" * -shift)


def _everyday(number: int, name: str, flats: bool) -> str:
    """The name itself if people use it."""
    return name if name in (SHARP_NAMES[number], FLAT_NAMES[number]) else (FLAT_NAMES if flats else SHARP_NAMES)[number]


@cache
def _chords(classes: frozenset[int], lowest: int, flats: bool, bass: bool) -> tuple[Chord, ...]:
    found: list[tuple[tuple[bool, int, int], Chord]] = []
    for root in sorted(classes):
        quality = _BY_STEPS.get(frozenset((number - root) % 12 for number in classes))
        if quality is not None:
            found += _named(quality, root, lowest, flats, bass)
    above = classes - {lowest}
    for root in sorted(above):
        quality = _BY_STEPS.get(frozenset((number - root) % 12 for number in above))
        if bass and quality is not None and quality.suffix in _TRIADS:
            tones = spelled(root, quality, flats)
            low = _bass(root, lowest, tones)
            rank = (True, len(QUALITIES) + _RANK[quality], root)
            name = f"{tones[root]}{quality.suffix}/{low}"
            found.append((rank, Chord(name, root, {**tones, lowest: low}, True)))
    found.sort(key=lambda entry: entry[0])
    plain: dict[str, Chord] = {}
    for _, chord in found:
        plain.setdefault(chord.name, chord)
    return tuple(plain.values())


def _named(
    quality: Quality, root: int, lowest: int, flats: bool, bass: bool
) -> Iterable[tuple[tuple[bool, int, int], Chord]]:
    """A chord's own name, with its bass after a slash where that is not the root."""
    tones = spelled(root, quality, flats)
    name, slash = tones[root] + quality.suffix, root != lowest
    if slash:
        low = _bass(root, lowest, tones)
        yield (True, _RANK[quality], root), Chord(f"{name}/{low}", root, tones, True)
    if not (slash and bass):
        yield (slash, _RANK[quality] - len(QUALITIES) * slash, root), Chord(name, root, tones, False)


INTERVALS: Final = (
    "unison", "minor second", "major second", "minor third", "major third", "fourth", "tritone", "fifth",
    "minor sixth", "major sixth", "minor seventh", "major seventh", "octave",
)  # fmt: skip
"""Names of 0 to 12 semitones (common practice; a distance alone does not tell a minor sixth from a raised fifth)."""


_LETTERS_UP: Final = ((0,), (1,), (1,), (2,), (2,), (3,), (3, 4), (4,), (5,), (5,), (6,), (6,), (7,))
"""Letters from the lower name of an interval to the upper one, by semitones; a tritone is a fourth or a fifth."""


def interval_spelled(low: int, semitones: int) -> tuple[str, str]:
    """Everyday names of two notes that are as many letters apart as their distance is called: C and Eb, never C and D#.

    Args:
        low: the lower pitch, a MIDI number.
        semitones: up to the higher one.

    Raises:
        ValueError: it is wider than an octave.
    """
    interval_name(semitones)
    letters = tuple(LETTERS)
    upper = Pitch(low + semitones).names
    for up in _LETTERS_UP[semitones]:
        for name in Pitch(low).names:
            letter = letters[(letters.index(name[0]) + up) % 7]
            for other in upper:
                if other[0] == letter:
                    return name, other
    return Pitch(low).names[0], upper[0]


def interval_name(semitones: int) -> str:
    """What a distance is called; within an octave.

    Raises:
        ValueError: it is wider than an octave.
    """
    if not 0 <= semitones <= 12:
        raise ValueError(f"{semitones} semitones have no name here: 0 to 12 do")
    return INTERVALS[semitones]
