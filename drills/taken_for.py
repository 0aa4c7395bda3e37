"""What an item is taken for when it is misread in one way: found by facts, without asking anything.

Pure functions on two items of one drill: whether the one looks like the other when it is read wrongly, and how much
else they have in common.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

from drills.question import Facts, Item, Kind, Misreading

OPPOSITES: Final = {
    one: other
    for pair in (
        ("hammer-on", "pull-off"), ("slide-up", "slide-down"), ("slide-in-up", "slide-in-down"),
        ("slide-out-up", "slide-out-down"),
    )
    for one, other in (pair, pair[::-1])
}  # fmt: skip
"""Marks that go the other way."""

_IN_COMMON: Final = (
    "marks", "mark", "frets", "string", "fret", "picked", "times", "amount", "metre", "bars", "capo", "shape", "range",
    "hand", "position", "rest",
)  # fmt: skip


def answers_of(item: Item, facts: Facts) -> tuple[str, ...] | None:
    """The right answers where the facts hold them, in normal form; None where only the question does.

    Args:
        item: which.
        facts: of it.
    """
    match item.kind, facts:
        case Kind.NOTE, {"names": [*names]}:
            return tuple(names)
        case Kind.STRING, {"string": int(string)}:
            return (str(string),)
        case Kind.LINE, {"line": int(line)}:
            return (str(line),)
        case Kind.PLACE, {"places": [*places]}:
            return tuple(places)
        case Kind.PLACE, {"string": int(string), "fret": int(fret)}:
            return (f"{string}/{fret}",)
        case Kind.FRET, {"frets": [*frets]}:
            return tuple(map(str, frets))
        case Kind.FRET, {"places": [*places]}:
            return tuple(place.partition("/")[2] for place in places)
        case Kind.PICKED, {"picked": [*picked]}:
            return ("".join("ny"[bool(struck)] for struck in picked),)
        case _:
            return None


def fits(kind: Misreading, item: Facts, other: Facts, said: str, lines: int) -> bool:
    """Whether an item, misread in this way, looks like another one of its drill.

    Args:
        kind: the misreading.
        item: facts of the one that was misread.
        other: facts of the one that it might be taken for.
        said: the wrong answer.
        lines: of the staff.
    """
    test = _TESTS.get(kind)
    return test is not None and test(item, other, said, lines)


def in_common(item: Facts, other: Facts) -> int:
    """How many facts two items share, beyond what they were mixed up by: notes, marks, string, metre ..."""
    return sum(name in item and item[name] is not None and item[name] == other.get(name) for name in _IN_COMMON)


def same_ending(item: Item, other: Item) -> int:
    """How many last parts of two subjects are the same: ``-text`` and ``-text``, ``-12`` and ``-12``."""
    count = 0
    for one, two in zip(reversed(item.subject.split("-")), reversed(other.subject.split("-")), strict=False):
        if one != two:
            break
        count += 1
    return count


def _mirrored(item: Facts, other: Facts, said: str, lines: int) -> bool:
    string = item.get("string")
    return isinstance(string, int) and other.get("string") == lines + 1 - string and _same(item, other, "fret")


def _neighbour(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return _apart(item, other, "string") == 1 and _same(item, other, "fret")


def _fret_off(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return _apart(item, other, "fret") == 1 and _same(item, other, "string")


def _swapped(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return "fret" in item and (item.get("string"), item["fret"]) == (other.get("fret"), other.get("string"))


def _octave(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return _apart(item, other, "midi") in (12, 24) and _same(item, other, "string")


def _other_way(item: Facts, other: Facts, said: str, lines: int) -> bool:
    """The same sign the other way, or the same notes backwards, or up for down from one place."""
    mark = item.get("mark")
    if mark is not None and OPPOSITES.get(mark) == other.get("mark") and _same(item, other, "picked"):
        return True
    sounds = item.get("sounds")
    if isinstance(sounds, list) and len(set(sounds)) > 1 and sounds[::-1] == other.get("sounds"):
        return True
    return _shift(item) == -_shift(other) != 0 and _same(item, other, "string") and _same(item, other, "fret")


def _shift(facts: Facts) -> int:
    sought, midi = facts.get("sought"), facts.get("midi")
    return sought - midi if isinstance(sought, int) and isinstance(midi, int) else 0


def _more_picked(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return _picks(item, other, more=True)


def _less_picked(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return _picks(item, other, more=False)


def _picks(item: Facts, other: Facts, *, more: bool) -> bool:
    """Whether as many notes are picked as in the first one and more, or fewer and no others."""
    one, two = item.get("picked"), other.get("picked")
    if not isinstance(one, list) or not isinstance(two, list) or len(one) != len(two) or one == two:
        return False
    return all((b or not a) if more else (a or not b) for a, b in zip(one, two, strict=True))


def _sharp_flat(item: Facts, other: Facts, said: str, lines: int) -> bool:
    return said in other.get("names", ()) and _same(item, other, "string")


def _reordered(item: Facts, other: Facts, said: str, lines: int) -> bool:
    one, two = item.get("strings"), other.get("strings")
    return isinstance(one, Sequence) and isinstance(two, Sequence) and sorted(one) == sorted(two) and one != two


def _same(item: Facts, other: Facts, name: str) -> bool:
    return bool(item.get(name) == other.get(name))


def _apart(item: Facts, other: Facts, name: str) -> int | None:
    one, two = item.get(name), other.get(name)
    return abs(one - two) if isinstance(one, int) and isinstance(two, int) else None


_TESTS: Final[Mapping[Misreading, Callable[[Mapping[str, Any], Mapping[str, Any], str, int], bool]]] = {
    Misreading.MIRRORED_LINE: _mirrored,
    Misreading.NEIGHBOUR_LINE: _neighbour,
    Misreading.OFF_BY_ONE_FRET: _fret_off,
    Misreading.SWAPPED: _swapped,
    Misreading.OCTAVE: _octave,
    Misreading.WRONG_DIRECTION: _other_way,
    Misreading.PICKED_FOR_SLURRED: _more_picked,
    Misreading.SLURRED_FOR_PICKED: _less_picked,
    Misreading.SHARP_FLAT: _sharp_flat,
    Misreading.WRONG_ORDER: _reordered,
}
