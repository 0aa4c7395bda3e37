"""What both dialects share: the text of a number, which notes a mark joins, amounts of bends in words."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.score import LINKING, At, Mark, MarkKind, Note, Piece
from drills.notation.staff_view import Dialect, StaffView

BENDING: Final = frozenset({MarkKind.BEND, MarkKind.PRE_BEND, MarkKind.RELEASE})
"""Marks of one note that the arrow tells of."""

_PARTS: Final = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


class Link(NamedTuple):
    """A mark that leads from one note to the next on its string (to None where there is no next one)."""

    mark: Mark
    source: At
    target: At | None


def fret_text(note: Note) -> str:
    """What stands on the line: the fret, or ``x`` for a muted string."""
    return "x" if note.fret is None else str(note.fret)


def notes(piece: Piece) -> Iterator[tuple[At, Note]]:
    """Every note with its place, in time and from the top line down."""
    for bar, index, onset in piece.onsets():
        for note in sorted(onset.notes, key=lambda note: note.string):
            yield At(bar, index, note.string), note


def links(piece: Piece) -> list[Link]:
    """Every mark that joins two notes, in time."""
    found = []
    following: dict[int, At] = {}
    for at, note in reversed(list(notes(piece))):
        found += [Link(mark, at, following.get(at.string)) for mark in note.marks if mark.kind in LINKING]
        following[at.string] = at
    return found[::-1]


def bends(note: Note) -> list[Mark]:
    """The bends and releases of a note, in the order in which they sound."""
    return [mark for mark in note.marks if mark.kind in BENDING]


def amount_text(amount: Fraction | None) -> str:
    """A bend's amount as it is printed over its arrow: ``1``, ``½``, ``1½``; nothing where it is unknown."""
    if amount is None:
        return ""
    whole, part = divmod(amount, 1)
    if part and part not in _PARTS:
        return str(amount)
    return (str(whole) if whole or not part else "") + (_PARTS[part] if part else "")


def token(note: Note) -> str:
    """A note with its bends as it is typed: ``7``, ``7b9``, ``7b9r7``, ``7pb9``, ``7b`` where the amount is unknown."""
    return fret_text(note) + "".join(_bend(mark, note.fret or 0) for mark in bends(note))


def _bend(mark: Mark, fret: int) -> str:
    if mark.kind is MarkKind.RELEASE:
        return f"r{fret}"
    letter = "pb" if mark.kind is MarkKind.PRE_BEND else "b"
    if mark.amount is None:
        return letter
    reached = fret + 2 * mark.amount
    return letter + (str(reached) if reached.denominator == 1 else f"{float(reached):g}")


def spot_offset(view: StaffView, at: At) -> int:
    """How far right of its onset's column a spot stands, so as not to cover a note."""
    onsets = view.piece.bars[at.bar].onsets
    note = onsets[at.onset].on(at.string) if at.onset < len(onsets) else None
    if note is None:
        return 0
    return len(token(note) if view.dialect == Dialect.TEXT else fret_text(note)) + 1
