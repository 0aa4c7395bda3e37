"""What stands on the line for one note: its number, and the signs just before and after it, in either dialect.

Sources of the text dialect: ``b`` with the fret that it sounds like, ``r``, ``x``, ``~``, and ``/7`` or ``7\\`` for
a slide from or to nowhere are H. Wright's, "The Guide to TAB Notation", 1995; ``5tr7`` and ``t12`` are in the
encyclopedia article "ASCII tab"; ``(5)``, ``<12>``, ``pb`` and ``g5`` are common practice, no source. Of the
engraved one: angle brackets, parentheses, small numbers and short diagonals are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.drawing import SMALL
from drills.notation.score import Mark, MarkKind, Note
from drills.notation.staff_view import Dialect

BENDING: Final = frozenset({MarkKind.BEND, MarkKind.PRE_BEND, MarkKind.RELEASE})
"""Marks of one note that the arrow tells of."""

_PARTS: Final = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}
_SMALL: Final = str.maketrans("0123456789", SMALL)
_INTO: Final = {MarkKind.SLIDE_IN_UP: ("╱", "/"), MarkKind.SLIDE_IN_DOWN: ("╲", "\\")}
_OUT: Final = {MarkKind.SLIDE_OUT_UP: ("╱", "/"), MarkKind.SLIDE_OUT_DOWN: ("╲", "\\")}
_ANGLED: Final = frozenset({MarkKind.HARMONIC, MarkKind.PINCH_HARMONIC})


class Token(NamedTuple):
    """What is written on the line. ``number`` begins at the onset's column, ``before`` ends left of it."""

    before: str
    number: str
    after: str

    @property
    def width(self) -> int:
        """Cells from the onset's column on."""
        return len(self.number) + len(self.after)


def fret_text(note: Note) -> str:
    """The fret, or ``x`` for a muted string."""
    if note.fret is None or (note.marks and any(mark.kind is MarkKind.MUTE for mark in note.marks)):
        return "x"
    return str(note.fret)


def token(note: Note, dialect: Dialect, tied: bool = False) -> Token:
    """A note as it is written.

    Args:
        note: with its marks.
        dialect: engraved leaves bends to arrows, and writes grace notes small.
        tied: whether a tie leads to it: then it stands in parentheses, as a ghost note does.
    """
    number = fret_text(note)
    if not note.marks and not tied:
        return Token("", number, "")
    kinds = {mark.kind for mark in note.marks}
    text = dialect == Dialect.TEXT
    opened = "(" * (tied or MarkKind.GHOST in kinds) + "<" * bool(kinds & _ANGLED)
    before = "".join(sign[text] for kind, sign in _INTO.items() if kind in kinds)
    after = opened.translate(str.maketrans("(<", ")>"))[::-1]
    if text:
        before += "t" * (MarkKind.TAP in kinds) + "g" * (MarkKind.GRACE in kinds)
        after += "".join(_typed(mark, note.fret or 0) for mark in note.marks)
        after += "~~~" if MarkKind.VIBRATO in kinds else ""
    else:
        number = number.translate(_SMALL) if MarkKind.GRACE in kinds else number
        after += "".join(f"({mark.to})" for mark in note.marks if mark.kind is MarkKind.TRILL and mark.to is not None)
    after += "".join(sign[text] for kind, sign in _OUT.items() if kind in kinds)
    return Token(before + opened, number, after)


def typed_core(note: Note) -> str:
    """A number with the marks that go on in time, as typed: ``7b9r7``, ``5tr7``."""
    return fret_text(note) + "".join(_typed(mark, note.fret or 0) for mark in note.marks)


def _typed(mark: Mark, fret: int) -> str:
    """What typed tab writes behind a number for a mark that goes on in time: ``b9``, ``r7``, ``pb9``, ``tr7``."""
    if mark.kind is MarkKind.TRILL:
        return "tr" + ("" if mark.to is None else str(mark.to))
    if mark.kind is MarkKind.RELEASE:
        return f"r{fret}"
    if mark.kind not in BENDING:
        return ""
    letter = "pb" if mark.kind is MarkKind.PRE_BEND else "b"
    if mark.amount is None:
        return letter
    reached = fret + 2 * mark.amount
    return letter + (str(reached) if reached.denominator == 1 else f"{float(reached):g}")


def bends(note: Note) -> list[Mark]:
    """The bends and releases of a note, in the order in which they sound."""
    return [mark for mark in note.marks if mark.kind in BENDING] if note.marks else []


def amount_text(amount: Fraction | None) -> str:
    """A bend's amount as it is printed over its arrow: ``1``, ``½``, ``1½``; nothing where it is unknown."""
    if amount is None:
        return ""
    whole, part = divmod(amount, 1)
    if part and part not in _PARTS:
        return str(amount)
    return (str(whole) if whole or not part else "") + (_PARTS[part] if part else "")
