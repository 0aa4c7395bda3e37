"""The misreadings of chords: wrong shapes, tones, names of what sounds and distances, from what is true.

Pure functions like those of :mod:`drills.misreadings`, in the normal form of each answer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from itertools import combinations

from drills.chord_answers import parse_symbol
from drills.misreadings import Traps, traps
from drills.notation.chords import chord_names
from drills.notation.pitch import SHARP_NAMES, class_of
from drills.notation.shape import Shape
from drills.notation.tuning import FRETS, Tuning
from drills.question import Misreading


@cache
def variants(shape: Shape) -> dict[Misreading, tuple[Shape, ...]]:
    """What a shape becomes when it is read upside down, a line or a fret off, with a string too many or too few."""
    frets = shape.frets
    moved = [(*frets[1:], frets[0]), (frets[-1], *frets[:-1])]
    moved += [_swapped(frets, n) for n in range(len(frets) - 1) if frets[n] != frets[n + 1]]
    off = [_with(frets, n, fret + step) for n, fret in enumerate(frets) if fret for step in (-1, 1)]
    off += [tuple(fret + step if fret else fret for fret in frets) for step in (-1, 1)]
    found = {
        Misreading.MIRRORED_LINE: [frets[::-1]],
        Misreading.NEIGHBOUR_LINE: moved,
        Misreading.OFF_BY_ONE_FRET: [each for each in off if all(f is None or 0 <= f <= FRETS for f in each)],
        Misreading.TOO_MANY: [_with(frets, n, 0) for n, fret in enumerate(frets) if fret is None],
        Misreading.TOO_FEW: [
            _with(frets, n, None) for n, fret in enumerate(frets) if fret is not None and len(shape.places) > 2
        ],
    }
    return {kind: tuple(Shape(each) for each in shapes) for kind, shapes in found.items()}


@cache
def of_shape(shape: Shape) -> Traps:
    """A shape as it is written (``x32010``)."""
    found = {kind: [other.text for other in others] for kind, others in variants(shape).items()}
    return traps(found, [shape.text])


def of_tones(shape: Shape, tuning: Tuning, tones: Mapping[int, str]) -> Traps:
    """The notes of a chord, in the normal form of :func:`tones_text`."""
    right = set(tones)
    others = [number for number in range(12) if number not in right]

    def text(numbers: Iterable[int]) -> str:
        return tones_text(numbers, tones)

    lost = [
        (right - {number}) | {class_of(name[0] + sign)}
        for number, name in tones.items() for sign in ("", "#", "b") if name != name[0] + sign
    ]  # fmt: skip
    return traps(
        {
            Misreading.TOO_FEW: [text(some) for size in range(1, len(right)) for some in combinations(right, size)],
            Misreading.TOO_MANY: [
                text(right | set(more)) for size in (1, 2) for more in combinations(others, size)
            ],
            Misreading.MIRRORED_LINE: [text(pitch % 12 for pitch in shape.mirrored().pitches(tuning))],
            Misreading.SHARP_FLAT: [text(numbers) for numbers in lost],
        },
        [text(right)],
    )


def tones_text(numbers: Iterable[int], tones: Mapping[int, str]) -> str:
    """Pitch classes by name, counted up from the first tone of a chord: those of the chord as it spells them, others
    with sharps, each once."""
    first = next(iter(tones))
    ordered = sorted(set(numbers), key=lambda number: (number - first) % 12)
    return " ".join(tones.get(number, SHARP_NAMES[number]) for number in ordered)


def of_heard(shape: Shape, tuning: Tuning, say: Callable[[Iterable[int]], str]) -> Traps:
    """What sounds from low to high: read from the top line down, upside down, a fret or a line off.

    Args:
        shape: what is drawn.
        tuning: on which strings.
        say: pitches from low to high -> an answer.
    """
    right = shape.pitches(tuning)
    others = variants(shape)

    def each(kind: Misreading) -> list[str]:
        return [say(other.pitches(tuning)) for other in others[kind]]

    by_line = [tuning.sound(string, fret).midi for string, fret in shape.places]
    return traps(
        {
            Misreading.WRONG_ORDER: [say(right[::-1]), say(by_line), say(by_line[::-1])],
            Misreading.MIRRORED_LINE: each(Misreading.MIRRORED_LINE),
            Misreading.NEIGHBOUR_LINE: each(Misreading.NEIGHBOUR_LINE),
            Misreading.OFF_BY_ONE_FRET: each(Misreading.OFF_BY_ONE_FRET),
            Misreading.TOO_MANY: each(Misreading.TOO_MANY),
            Misreading.TOO_FEW: each(Misreading.TOO_FEW),
        },
        [say(right)],
    )


def of_name(shape: Shape, tuning: Tuning, names: Sequence[str]) -> Traps:
    """The name of a chord: what the shape would be if it were read upside down; the right letter with the wrong sharp
    or flat.

    Args:
        shape: what is drawn.
        tuning: on which strings.
        names: those that fit.
    """
    upside_down = shape.mirrored().pitches(tuning)
    roots = [
        found._replace(typed=found.typed[0] + sign).shown(flats=tuning.flats)
        for found in map(parse_symbol, names) if found is not None for sign in ("", "#", "b")
    ]  # fmt: skip
    return traps(
        {
            Misreading.MIRRORED_LINE: chord_names(upside_down, flats=tuning.flats, bass=tuning.gauge_ordered),
            Misreading.SHARP_FLAT: roots,
        },
        names,
    )


def of_distance(shape: Shape, tuning: Tuning, say: Callable[[int], str | None]) -> Traps:
    """How far apart two notes are, in semitones.

    Args:
        shape: two strings of it are played.
        tuning: on which strings.
        say: semitones -> an answer, or None where there is none.
    """
    right = _distance(shape, tuning)
    others = variants(shape)

    def said(distances: Iterable[int]) -> list[str]:
        return [answer for distance in distances if (answer := say(distance)) is not None]

    def each(kind: Misreading) -> list[str]:
        return said(_distance(other, tuning) for other in others[kind])

    found = {kind: each(kind) for kind in (Misreading.MIRRORED_LINE, Misreading.NEIGHBOUR_LINE)}
    return traps({**found, Misreading.OFF_BY_ONE_FRET: said([right - 1, right + 1])}, said([right]))


def _distance(shape: Shape, tuning: Tuning) -> int:
    low, high = shape.pitches(tuning)
    return high - low


def _with(frets: tuple[int | None, ...], n: int, fret: int | None) -> tuple[int | None, ...]:
    return (*frets[:n], fret, *frets[n + 1 :])


def _swapped(frets: tuple[int | None, ...], n: int) -> tuple[int | None, ...]:
    return (*frets[:n], frets[n + 1], frets[n], *frets[n + 2 :])
