"""Which chord shapes are taught in a tuning, and when."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Final, NamedTuple

from drills import resources
from drills.kinds.chord_search import has_short_string, open_shapes, playable, power_shapes
from drills.notation.chords import Chord, chords
from drills.notation.shape import WIDEST_MM, Shape, parse_shape, scale_of
from drills.notation.tuning import Tuning
from drills.stages import Stage

FIRST: Final = 7
"""Shapes that are met first, as pictures, before chords have names."""

FIRST_POWERS: Final = 5
"""Power chords that come with the first shapes; the other ones (``powers``) follow later."""

FOUND: Final = ("first", "open", "power", "powers")
"""Families of which a tuning without a table has its own."""

STAGES: Final = {
    "first": Stage.STACKS, "open": Stage.CHORDS, "power": Stage.STACKS, "powers": Stage.CHORDS, "seventh": Stage.NECK,
    "sus": Stage.NECK, "slash": Stage.NECK, "triad": Stage.NECK, "barre": Stage.RARE_SIGNS, "rare": Stage.RARE_SIGNS,
}  # fmt: skip
"""When a family is taught: its pictures first, where names follow later."""

HARD: Final = frozenset({"barre", "rare"})
"""Families that ask more of the hand than a beginner's can give at once."""


class Taught(NamedTuple):
    """One shape of one tuning.

    Attributes:
        shape: what is held.
        family: of its kind (``first``, ``open``, ``power``, ``barre`` ...).
        fingers: by string, the last first; empty where none are told.
    """

    shape: Shape
    family: str
    fingers: tuple[int, ...] = ()

    @property
    def hard(self) -> bool:
        """Whether the hand is warned."""
        return self.family in HARD


@cache
def taught(tuning: Tuning) -> tuple[Taught, ...]:
    """Every shape of a tuning in the order of teaching, each once; none that stretches the hand too far."""
    found: dict[Shape, Taught] = {}
    for entry in _found(tuning):
        if entry.shape.stretch(scale_of(tuning)) <= WIDEST_MM:
            found.setdefault(entry.shape, entry)
    return tuple(found.values())


@cache
def by_text(tuning: Tuning) -> dict[str, Taught]:
    """The same, as they are written."""
    return {entry.shape.text: entry for entry in taught(tuning)}


@cache
def readings(shape: Shape, tuning: Tuning) -> tuple[Chord, ...]:
    """Every chord that a shape is in a tuning, the plainest first."""
    return chords(shape.pitches(tuning), flats=tuning.flats, bass=tuning.gauge_ordered)


@cache
def classes(shape: Shape, tuning: Tuning) -> frozenset[int]:
    """The pitch classes of a shape."""
    return frozenset(pitch % 12 for pitch in shape.pitches(tuning))


def families(tuning: Tuning, *wanted: str) -> list[Taught]:
    """The shapes of some families, in the order of teaching."""
    return [entry for entry in taught(tuning) if entry.family in wanted]


def first_of(tuning: Tuning, family: str, count: int) -> list[Taught]:
    """The first few shapes of a family."""
    return families(tuning, family)[:count]


def _found(tuning: Tuning) -> Iterator[Taught]:
    table = _tables().get(_steps(tuning.strings), ())
    if table:
        yield from table
        return
    carried = [entry for guitar in _tables().values() for entry in _carried(guitar, tuning)]
    opened = [Taught(shape, "open") for shape in open_shapes(tuning)]
    first = [entry for entry in carried if entry.family == "first"] + opened
    yield from (entry._replace(family="first") for entry in first[:FIRST])
    yield from (entry for entry in carried if entry.family == "open")
    yield from opened
    for n, shape in enumerate(power_shapes(tuning)):
        yield Taught(shape, "power" if n < FIRST_POWERS else "powers")
    yield from (entry for entry in carried if entry.family not in FOUND)


def _carried(table: tuple[Taught, ...], tuning: Tuning) -> Iterator[Taught]:
    """Shapes of a table that lie on strings which a tuning shares with it, string 1 being the same step from the
    others: with a string more or less at the bottom, or the last one tuned down."""
    steps = _table_steps(table)
    mine = _steps(tuning.strings)
    same = 0
    while same < min(len(steps), len(mine)) and steps[len(steps) - 1 - same] == mine[len(mine) - 1 - same]:
        same += 1
    if same < 3 or has_short_string(tuning):
        return
    for entry in table:
        frets = entry.shape.frets
        left = len(frets) - (same + 1)
        if all(fret is None for fret in frets[:left]) and playable(entry.shape, tuning):
            more: tuple[None, ...] = (None,) * (tuning.lines - (same + 1))
            nothing = (0,) * len(more)
            yield Taught(Shape((*more, *frets[left:])), entry.family, (*nothing, *entry.fingers[left:]))


def _steps(strings: tuple[tuple[int], ...]) -> tuple[int, ...]:
    """Semitones from each string to the next, from the last string up."""
    upward = [pitch[0] for pitch in reversed(strings)]
    return tuple(high - low for low, high in pairwise(upward))


def _table_steps(table: tuple[Taught, ...]) -> tuple[int, ...]:
    return next(steps for steps, entries in _tables().items() if entries is table)


@cache
def _tables() -> dict[tuple[int, ...], tuple[Taught, ...]]:
    """The shipped shapes by the steps between the strings."""
    tables: dict[tuple[int, ...], list[Taught]] = {}
    for words in resources.read_table("shapes.txt"):
        if words[0].startswith("["):
            entries = tables.setdefault(tuple(int(word.strip("[]")) for word in words), [])
        else:
            family, shape, fingers = words
            entries.append(Taught(parse_shape(shape), family, tuple(map(int, fingers))))
    return {steps: tuple(entries) for steps, entries in tables.items()}
