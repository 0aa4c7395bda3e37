"""Tunings: which pitch each string sounds."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any, Final, NamedTuple

from drills import resources
from drills.notation.pitch import Naming, Pitch, spell

FRETS: Final = 24
"""The highest fret that is ever asked about or read."""


class Tuning(NamedTuple):
    """What the open strings sound.

    Attributes:
        name: as it stands in item ids (``standard``, ``drop-d``).
        title: for people.
        strings: open pitches, string 1 first (the top line of the staff). Not always falling:
            a ukulele is re-entrant.
        flats: whether open strings are spelled with flats (half step down: Eb Ab Db ...).
        capo: the fret of the capo; frets are counted from it and sound that much higher.
        short: strings that begin further up the neck (a banjo's fifth): typed tab numbers their frets in two
            ways, so only their open sound is asked about.
        remark: what a player should know first (string tension, a short string); empty for most.
    """

    name: str
    title: str
    strings: tuple[Pitch, ...]
    flats: bool = False
    capo: int = 0
    short: tuple[int, ...] = ()
    remark: str = ""

    @property
    def lines(self) -> int:
        """How many strings, and so how many lines on the staff (4 to 8)."""
        return len(self.strings)

    @property
    def gauge_ordered(self) -> bool:
        """Whether the lines run from the thinnest string to the thickest (not on re-entrant tunings)."""
        return all(high > low for high, low in zip(self.strings, self.strings[1:], strict=False))

    def open(self, string: int) -> Pitch:
        """What a string sounds open, capo included; 1 is the top line."""
        return self.strings[string - 1].up(self.capo)

    def sound(self, string: int, fret: int) -> Pitch:
        """What a place sounds: one semitone a fret (MusicXML 4.0, ``fret``), capo included.

        Raises:
            ValueError: there is no such string, or the fret is negative.
        """
        if not 1 <= string <= len(self.strings) or fret < 0:
            raise ValueError(f"there is no string {string}, fret {fret} in {self.name}")
        return Pitch(self.strings[string - 1].midi + self.capo + fret)

    @property
    def full(self) -> tuple[int, ...]:
        """The strings of full length, from the last (the bottom line) to string 1."""
        return tuple(string for string in range(self.lines, 0, -1) if string not in self.short)

    def frets(self, string: int, highest: int = FRETS) -> range:
        """The frets of a string that can be asked about, from 0: no more than the open string of a short one."""
        return range(1 if string in self.short else highest + 1)

    def letter(self, string: int, naming: Naming = Naming.LETTERS) -> str:
        """The note name of an open string without octave."""
        return _letters(self, naming)[string - 1]

    def string_name(self, string: int, naming: Naming = Naming.LETTERS) -> str:
        """What players call a string: its note, with low, middle or high where strings share it.

        Of four or more that share it, those between are counted from the lowest: second, third.
        """
        return _string_names(self, naming)[string - 1]

    def label(self, string: int, naming: Naming = Naming.LETTERS) -> str:
        """What stands before a line of typed tab: the letter, in lower case for the highest of two alike."""
        letter = self.letter(string, naming)
        return letter.lower() if self.string_name(string, naming).startswith("high ") else letter

    def with_capo(self, fret: int) -> Tuning:
        """The same strings with a capo at that fret: then sounds and letters are those that are heard.

        The drills ask on the strings without a capo, where names are those of the shapes; only the drill on the
        capo asks what is heard with one. A short string is not held by the capo of the others.
        """
        return self._replace(capo=fret)


@cache
def _letters(tuning: Tuning, naming: Naming) -> tuple[str, ...]:
    """The letters of the open strings, string 1 first. Every question asks for them, so they are kept."""
    names = [tuning.open(string).names for string in range(1, tuning.lines + 1)]
    return tuple(spell(name[-1] if tuning.flats else name[0], naming) for name in names)


@cache
def _string_names(tuning: Tuning, naming: Naming) -> tuple[str, ...]:
    """The letters with low, middle or high before those that strings share, string 1 first."""
    letters = _letters(tuning, naming)
    named = []
    for string, letter in enumerate(letters, start=1):
        sharing = sorted((n for n, other in enumerate(letters, start=1) if other == letter), key=tuning.open)
        which = _RANKS[len(sharing)][sharing.index(string)]
        named.append(f"{which} {letter}".strip())
    return tuple(named)


_BETWEEN: Final = ("second", "third", "fourth", "fifth", "sixth", "seventh")
_RANKS: Final = {
    1: ("",),
    2: ("low", "high"),
    3: ("low", "middle", "high"),
    **{count: ("low", *_BETWEEN[: count - 2], "high") for count in range(4, 9)},
}
"""How strings of one letter are told apart, by how many there are, from the lowest."""


def flats_fit(pitches: Sequence[Pitch]) -> bool:
    """Whether flats spell pitches more plainly than sharps.

    The names that lie closer together on the line of fifths (... Bb F C G D A E B F# ...) are taken, as key signatures
    do; then those nearer to its plain middle, D. Sharps where both are alike.
    """

    def reach(name: int) -> tuple[int, int]:
        at = [_FIFTHS.index(pitch.names[name]) for pitch in pitches]
        return max(at) - min(at), sum(abs(place - _FIFTHS.index("D")) for place in at)

    return bool(pitches) and reach(-1) < reach(0)


_FIFTHS: Final = ("Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#", "A#")


def parse_tuning(name: str, entry: dict[str, Any]) -> Tuning:
    """A tuning from its table: ``title``, ``strings`` from string 1 down to the last, maybe ``short`` and ``remark``.

    Raises:
        ValueError: says which value of it is wrong.
    """
    pitches: Sequence[str] = str(entry.get("strings", "")).split()
    if not 4 <= len(pitches) <= 8:
        raise ValueError(f"tuning {name} has {len(pitches)} strings: give 4 to 8")
    strings = tuple(Pitch.parse(pitch) for pitch in pitches)
    return Tuning(
        name=name,
        title=str(entry.get("title", name)),
        strings=strings,
        flats=flats_fit(strings),
        short=tuple(entry.get("short", ())),
        remark=str(entry.get("remark", "")),
    )


@cache
def shipped() -> dict[str, Tuning]:
    """Every shipped tuning by its name, in the order of the data file."""
    return {name: parse_tuning(name, entry) for name, entry in resources.read_toml("tunings.toml").items()}


def sentence_fits(sentence: str, tuning: Tuning, naming: Naming = Naming.LETTERS) -> str | None:
    """Whether a memory sentence spells the strings, one word a string, by initials.

    Returns:
        ``"up"`` when the words run from the last string to string 1, ``"down"`` when from string 1
        to the last, else None. Accidentals are not asked of a word.
    """
    words = sentence.split()
    if len(words) != tuning.lines:
        return None
    letters = [tuning.letter(string, naming)[0].upper() for string in range(1, tuning.lines + 1)]
    initials = [next((c for c in word if c.isalpha()), " ").upper() for word in words]
    if initials == letters[::-1]:
        return "up"
    return "down" if initials == letters else None
