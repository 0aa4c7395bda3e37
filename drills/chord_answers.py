"""What people type for the name of a chord -> the name as it is shown. None means: no chord name at all.

The ways to write one are common practice, no single source; the tests hold them against two music libraries.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import Final, NamedTuple

from drills.answers import Reader
from drills.notation.chords import QUALITIES, Quality, formula, symbol
from drills.notation.pitch import Naming, class_of, parse_note

LONGEST: Final = 40
"""Characters that a chord name can have."""

_HEARD_OF: Final = (
    formula("11", "1 3 5 b7 9 11"),
    formula("m11", "1 b3 5 b7 9 11", True),
    formula("13", "1 3 5 b7 9 13"),
    formula("m13", "1 b3 5 b7 9 13", True),
    formula("maj13", "1 3 5 7 9 13"),
    formula("7#11", "1 3 5 b7 #11"),
    formula("maj7#11", "1 3 5 7 #11"),
    formula("m6/9", "1 b3 5 6 9", True),
    formula("m(maj9)", "1 b3 5 7 9", True),
)
"""Kinds of chords that are never drawn. They are names all the same: wrong ones, not nonsense."""

_REWRITTEN: Final = tuple(
    (re.compile(pattern), written)
    for pattern, written in (
        # A capital M is major, a small one minor; after this, case means nothing.
        (r"[Δ∆△](?=9|13)", "maj"),
        (r"[Δ∆△]7?", "maj7"),
        (r"M(?=add|[^A-Za-z]|$)", "maj"),
    )
)
_WORDS: Final = tuple(
    (re.compile(pattern), written)
    for pattern, written in (
        (r"[\s(),\[\]]+", ""),
        (r"chord$", ""),
        (r"seventh|7th", "7"),
        (r"half-?dim(?:inished)?7?|ø7?", "m7b5"),
        (r"^-?dur", "maj"),
        (r"/(?=ma)", ""),
        (r"^(?:-?moll|-?minor|-?mineur|minore|menor|min|mi(?!n)|-)", "m"),
        (r"-?(?:major|majeur|maggiore|mayor|maior|maj|ma(?!d))", "maj"),
        (r"dominant|dom", ""),
        (r"diminished|^[°o]", "dim"),
        (r"augmented|^\+", "aug"),
        (r"suspended", "sus"),
        (r"power", "5"),
        (r"(?<=\d)-(?=5|9|11|13)", "b"),
        (r"(?<=\d)\+(?=5|9|11|13)", "#"),
        (r"sus4?$", "sus4"),
    )
)
_SAME: Final = {
    "maj": "", "maj6": "6", "55": "5", "no3": "5", "mb5": "dim", "aug5": "aug", "#5": "aug", "majadd9": "add9",
    "add2": "add9", "madd9": "m(add9)", "madd2": "m(add9)", "mmaj7": "m(maj7)", "mmaj9": "m(maj9)", "69": "6/9",
    "6add9": "6/9", "m69": "m6/9", "m6add9": "m6/9", "aug7": "7#5", "7aug": "7#5", "7+": "7#5", "augmaj7": "maj7#5",
    "add4": "add11", "madd4": "m(add11)", "madd11": "m(add11)", "m7add4": "m7(add11)", "m7add11": "m7(add11)",
}  # fmt: skip
"""Other ways to write what follows the root, after the words have been shortened."""


class Symbol(NamedTuple):
    """A chord name that was understood.

    Attributes:
        typed: its root as it was spelled, by its English name.
        quality: its kind.
        bass: the pitch class of the bass that is named, unless that is the root.
    """

    typed: str
    quality: Quality
    bass: int | None = None

    @property
    def root(self) -> int:
        """The pitch class of the root."""
        return class_of(self.typed)

    @property
    def tones(self) -> frozenset[int]:
        """The pitch classes of the chord, its bass among them."""
        own = frozenset((self.root + steps) % 12 for steps, _ in self.quality.degrees)
        return own if self.bass is None else own | {self.bass}

    def shown(self, *, flats: bool = False) -> str:
        """The name as it is shown."""
        return symbol(self.root, self.quality, self.bass, flats=flats)


def parse_symbol(text: str, naming: Naming = Naming.LETTERS) -> Symbol | None:
    """Read a chord name: ``Am7``, ``a minor 7``, ``A-7``, ``CΔ``, ``D/F#``; None where it is none.

    The root and the bass are said as the learner says notes, in any case.
    """
    text = text.strip().replace("♯", "#").replace("♭", "b").replace("−", "-").replace("–", "-").replace("º", "°")
    if len(text) > LONGEST:
        return None
    text = re.sub(r"[\s-]*\bsharp\b", "#", re.sub(r"[\s-]*\bflat\b", "b", text, flags=re.I), flags=re.I)
    over, slash, under = text.rpartition("/")
    low = parse_note(under, naming) if slash else None
    found = _rooted(text if low is None else over, naming)
    if found is None or low is None or class_of(low) == found.root:
        return found
    return found._replace(bass=class_of(low))


def chord(names: Sequence[str], naming: Naming, *, flats: bool = False) -> Reader:
    """A chord name in any of its writings, with its root and its bass by either spelling.

    Args:
        names: those that fit, the everyday one first. Where its bass is one of its tones, the name without it is read
            as the whole name.
        naming: how the learner says notes.
        flats: as :func:`drills.notation.chords.chords` was asked for the names.
    """
    whole = {bare: full for full in names[:1] if (bare := without_bass(full)) is not None and bare not in names}

    def read(text: str) -> str | None:
        found = parse_symbol(text, naming)
        if found is None:
            return None
        name = found.shown(flats=flats)
        return whole.get(name, name)

    return read


@cache
def without_bass(name: str) -> str | None:
    """``C`` for ``C/E``; None where no bass is named, or one that the chord alone does not have."""
    found = parse_symbol(name)
    if found is None or found.bass is None or found.bass not in found._replace(bass=None).tones:
        return None
    return name.rpartition("/")[0]


def _rooted(text: str, naming: Naming) -> Symbol | None:
    """The longest beginning that is a note, where the rest is a kind of chord: German ``Es`` is one, ``Esus4`` is E."""
    for length in range(len(text), 0, -1):
        root = parse_note(text[:length], naming)
        quality = None if root is None else _quality(text[length:])
        if root is not None and quality is not None:
            return Symbol(root, quality)
    return None


def _quality(text: str) -> Quality | None:
    """The kind of chord that is meant by what follows the root."""
    for pattern, written in _REWRITTEN:
        text = pattern.sub(written, text)
    text = text.lower()
    for pattern, written in _WORDS:
        text = pattern.sub(written, text)
    return _by_suffix().get(_SAME.get(text, text))


@cache
def _by_suffix() -> dict[str, Quality]:
    """Kinds of chords by their suffix: of several with the same one, the whole chord."""
    return {quality.suffix: quality for quality in reversed((*QUALITIES, *_HEARD_OF))}
