"""Every kind of misreading that fits a wrong answer: the wrong answers that each of them would give.

Pure functions from what is true to the answers of one misreading each, in the normal form of the kind.
A drill gathers those that can happen to it with :func:`traps`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from itertools import combinations, permutations
from typing import Final

from drills.notation.pitch import LETTERS, class_of
from drills.notation.tuning import Tuning
from drills.question import Misreading

Traps = Mapping[Misreading, frozenset[str]]
"""The wrong answers of each misreading. Those of an item stay the same: they are worked out at its first question."""

SPELLINGS: Final = {
    number: frozenset(
        name for letter in LETTERS for sign in ("", "#", "b") if class_of(name := letter + sign) == number
    )
    for number in range(12)
}
"""Every name with at most one sharp or flat, by pitch class: E#, Fb, B# and Cb too."""

SPOKEN: Final[Mapping[Misreading, str]] = {
    Misreading.MIRRORED_LINE: "That is the staff read upside down.",
    Misreading.NEIGHBOUR_LINE: "That is the line next to it.",
    Misreading.OFF_BY_ONE_FRET: "That is one fret off.",
    Misreading.SWAPPED: "That has string and fret the wrong way round.",
    Misreading.OCTAVE: "That is the same note in another octave.",
    Misreading.WRONG_DIRECTION: "That goes the other way.",
    Misreading.PICKED_FOR_SLURRED: "That picks a note which the fretting hand sounds.",
    Misreading.SLURRED_FOR_PICKED: "That leaves out a pick.",
    Misreading.MARK_CONFUSED: "That is another sign.",
    Misreading.TOO_MANY: "That is too many.",
    Misreading.TOO_FEW: "That is too few.",
    Misreading.WRONG_ORDER: "Those are the right ones in another order.",
    Misreading.SHARP_FLAT: "That is the right letter with the wrong sharp or flat.",
}
"""What the learner is told when just this misreading fits."""

HABITS: Final[Mapping[Misreading, str]] = {
    Misreading.MIRRORED_LINE: "reading the staff upside down",
    Misreading.NEIGHBOUR_LINE: "reading the line next to the right one",
    Misreading.OFF_BY_ONE_FRET: "landing one fret off",
    Misreading.SWAPPED: "mixing up string and fret",
    Misreading.OCTAVE: "taking a note for the same one in another octave",
    Misreading.WRONG_DIRECTION: "going up for down, or down for up",
    Misreading.PICKED_FOR_SLURRED: "picking notes which the fretting hand sounds",
    Misreading.SLURRED_FOR_PICKED: "leaving out a pick",
    Misreading.MARK_CONFUSED: "taking one sign for another",
    Misreading.TOO_MANY: "counting too many",
    Misreading.TOO_FEW: "counting too few",
    Misreading.WRONG_ORDER: "putting the right ones in another order",
    Misreading.SHARP_FLAT: "missing a sharp or a flat",
}
"""The same as something that one does: after ``a habit:``."""


def traps(found: Mapping[Misreading, Iterable[str]], right: Iterable[str]) -> Traps:
    """Drop what is right after all, and the misreadings that then explain nothing."""
    answers = frozenset(right)
    kept = {kind: frozenset(wrong) - answers for kind, wrong in found.items()}
    return {kind: wrong for kind, wrong in kept.items() if wrong}


@cache
def of_line(line: int, lines: int) -> Traps:
    """A line read upside down, or the one beside it."""
    return traps(
        {
            Misreading.MIRRORED_LINE: [str(lines + 1 - line)],
            Misreading.NEIGHBOUR_LINE: [str(n) for n in (line - 1, line + 1) if 1 <= n <= lines],
        },
        [str(line)],
    )


@cache
def of_place(string: int, fret: int, lines: int) -> Traps:
    """A place on the neck or the staff, as ``string/fret``."""
    neighbours = [n for n in (string - 1, string + 1) if 1 <= n <= lines]
    return traps(
        {
            Misreading.MIRRORED_LINE: [f"{lines + 1 - string}/{fret}"],
            Misreading.NEIGHBOUR_LINE: [f"{n}/{fret}" for n in neighbours],
            Misreading.OFF_BY_ONE_FRET: [f"{string}/{f}" for f in (fret - 1, fret + 1) if f >= 0],
            Misreading.SWAPPED: [f"{fret}/{string}"],
            Misreading.OCTAVE: [f"{string}/{f}" for f in (fret - 12, fret + 12) if f >= 0],
        },
        [f"{string}/{fret}"],
    )


@cache
def of_note(string: int, fret: int, tuning: Tuning) -> Traps:
    """The name of a place's note: what another line, another fret or a lost accidental would give."""
    right = tuning.sound(string, fret)

    def names(places: Iterable[tuple[int, int]]) -> set[str]:
        return {name for at, f in places if f >= 0 for name in SPELLINGS[tuning.sound(at, f).pitch_class]}

    neighbours = [n for n in (string - 1, string + 1) if 1 <= n <= tuning.lines]
    letters = {name[0] for name in right.names}
    sharp_flat = {letter + sign for letter in letters for sign in ("", "#", "b")}
    return traps(
        {
            Misreading.MIRRORED_LINE: names([(tuning.lines + 1 - string, fret)]),
            Misreading.NEIGHBOUR_LINE: names((n, fret) for n in neighbours),
            Misreading.OFF_BY_ONE_FRET: names([(string, fret - 1), (string, fret + 1)]),
            Misreading.SWAPPED: names([(fret, string)]) if 1 <= fret <= tuning.lines else set(),
            Misreading.SHARP_FLAT: {n for n in sharp_flat if class_of(n) != right.pitch_class},
        },
        SPELLINGS[right.pitch_class],
    )


@cache
def of_fret(name: str, string: int, frets: range, tuning: Tuning) -> Traps:
    """The fret of a note on a named string: one fret off, or the note's fret on another string."""

    def places(pitch_class: int, at: int) -> list[str]:
        return [str(fret) for fret in frets if tuning.sound(at, fret).pitch_class == pitch_class]

    wanted = class_of(name)
    right = places(wanted, string)
    neighbours = [n for n in (string - 1, string + 1) if 1 <= n <= tuning.lines]
    return traps(
        {
            Misreading.MIRRORED_LINE: places(wanted, tuning.lines + 1 - string),
            Misreading.NEIGHBOUR_LINE: [fret for n in neighbours for fret in places(wanted, n)],
            Misreading.OFF_BY_ONE_FRET: [
                str(f) for fret in right for f in (int(fret) - 1, int(fret) + 1) if f in frets
            ],
        },
        right,
    )


@cache
def of_count(count: int, highest: int) -> Traps:
    """Counted too many, or too few."""
    return traps(
        {
            Misreading.TOO_MANY: [str(n) for n in range(count + 1, highest + 1)],
            Misreading.TOO_FEW: [str(n) for n in range(count)],
        },
        [str(count)],
    )


def of_picked(picked: Iterable[bool]) -> Traps:
    """A slurred note taken for a picked one, or a picked one for a slurred one, and nothing else wrong."""
    return _of_picked(tuple(picked))


@cache
def _of_picked(picked: tuple[bool, ...]) -> Traps:
    true = "".join("y" if struck else "n" for struck in picked)
    every = {""}
    for _ in true:
        every = {start + mark for start in every for mark in "yn"}
    more = {said for said in every if all(s == "y" or t == "n" for s, t in zip(said, true, strict=True))}
    less = {said for said in every if all(s == "n" or t == "y" for s, t in zip(said, true, strict=True))}
    return traps({Misreading.PICKED_FOR_SLURRED: more, Misreading.SLURRED_FOR_PICKED: less}, [true])


def of_sign(
    key: str, answer_of: Mapping[str, str], told: Mapping[Misreading, Iterable[str]]
) -> Traps:
    """One sign taken for another.

    Args:
        key: of the right sign.
        answer_of: the answer that stands for each sign that is offered, by the sign's key.
        told: the signs that a misreading of their own leads to (the opposite way, no second pick); taking any
            other for the right one is a sign confused.
    """
    special = {other for keys in told.values() for other in keys}
    found = {kind: [answer_of[other] for other in keys if other in answer_of] for kind, keys in told.items()}
    found[Misreading.MARK_CONFUSED] = [
        answer for other, answer in answer_of.items() if other not in special and other != key
    ]
    return traps(found, [answer_of[key]])


def of_heard(heard: Sequence[int], say: Callable[[Sequence[int]], str]) -> Traps:
    """What sounds, heard backwards, one fret off at one place, cut short or begun again.

    Args:
        heard: the frets that sound alike, in order.
        say: them in words, as an answer.
    """
    off = [[fret + by * (i == at) for i, fret in enumerate(heard)] for at in range(len(heard)) for by in (-1, 1)]
    return traps(
        {
            Misreading.WRONG_DIRECTION: [say(heard[::-1])],
            Misreading.OFF_BY_ONE_FRET: map(say, off),
            Misreading.TOO_FEW: [say(heard[:size]) for size in range(1, len(heard))],
            Misreading.TOO_MANY: [say([*heard, heard[0]])],
        },
        [say(heard)],
    )


def of_times(times: int, say: Callable[[int], str], highest: int) -> Traps:
    """A part played too often or not often enough, from once to ``highest`` times."""
    return traps(
        {
            Misreading.TOO_MANY: [say(n) for n in range(times + 1, highest + 1)],
            Misreading.TOO_FEW: [say(n) for n in range(1, times)],
        },
        [say(times)],
    )


def of_order(strings: Iterable[int], lines: int) -> Traps:
    """The same strings in another order, or every line read upside down."""
    return _of_order(tuple(strings), lines)


@cache
def _of_order(true: tuple[int, ...], lines: int) -> Traps:
    return traps(
        {
            Misreading.WRONG_ORDER: {" ".join(map(str, order)) for order in permutations(true)},
            Misreading.MIRRORED_LINE: [" ".join(str(lines + 1 - n) for n in true)],
        },
        [" ".join(map(str, true))],
    )


def of_set(strings: Iterable[int], lines: int) -> Traps:
    """Strings struck together: some left out, some more, or every line read upside down."""
    return _of_set(frozenset(strings), lines)


@cache
def _of_set(true: frozenset[int], lines: int) -> Traps:
    others = [n for n in range(1, lines + 1) if n not in true]

    def text(numbers: Iterable[int]) -> str:
        return " ".join(map(str, sorted(numbers)))

    return traps(
        {
            Misreading.MIRRORED_LINE: [text(lines + 1 - n for n in true)],
            Misreading.TOO_FEW: [text(some) for size in range(1, len(true)) for some in combinations(true, size)],
            Misreading.TOO_MANY: [
                text(true | set(more)) for size in range(1, len(others) + 1) for more in combinations(others, size)
            ],
        },
        [text(true)],
    )
