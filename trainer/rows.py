"""Drawings as plain rows of text: what colour says on the screen is said here by signs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drills.kinds.pictures import CROSS, DOT
from drills.notation.diagram import DiagramView, draw_diagram
from drills.notation.drawing import PARTS, TO_ASCII, Drawing, Role, Span
from drills.notation.neck import draw_neck
from drills.notation.staff import StaffView, draw_staff, note_columns
from drills.question import Picture

_ENDS: Final = {Role.LIT: "<-- this line", Role.TRUE: "<-- right", Role.SAID: "<-- your answer"}
_STRING_ENDS: Final = {Role.LIT: "<-- this string", Role.TRUE: "<-- right", Role.SAID: "<-- your answer"}
_SIGNS: Final = {Role.LIT: "^", Role.TRUE: "o", Role.SAID: "x"}
_WIDEST: Final = 76
_WHOLE: Final = 5
"""A run of so many cells in one role is a line, not a number."""


@dataclass(frozen=True, slots=True)
class Lit:
    """What a question points at in its staff.

    Attributes:
        string: of the note, or the line.
        column: of its first digit in the row, from 1; None for a whole line.
    """

    string: int
    column: int | None


def staff_rows(view: StaffView) -> list[str]:
    """A staff as it is drawn, for programs."""
    return draw_staff(view).text()


def lit_of(view: StaffView) -> list[Lit]:
    """Every lit line, then every lit note from left to right."""
    columns = note_columns(view)
    notes = sorted(
        (columns[at][1] + 1, at.string) for at, role in view.colours.items() if role is Role.LIT and at in columns
    )
    lines = [Lit(line, None) for line, role in sorted(view.lines.items()) if role is Role.LIT]
    return lines + [Lit(string, column) for column, string in notes]


def marked_rows(picture: Picture, *, plain: bool) -> list[str]:
    """A picture for people, with signs for what is lit, right, or was answered.

    Args:
        picture: a staff, a neck, diagrams, or several of these, one above the other.
        plain: draw in ASCII alone.
    """
    rows: list[str] = []
    if picture.staff is not None:
        rows += _marked(draw_staff(picture.staff), plain, _ENDS)
    if picture.neck is not None:
        rows += ([""] if rows else []) + _marked(_dotted(draw_neck(picture.neck)), plain, _STRING_ENDS)
    if picture.diagram is not None:
        rows += ([""] if rows else []) + diagram_rows(picture.diagram, plain=plain)
    return rows


def diagram_rows(view: DiagramView, *, plain: bool) -> list[str]:
    """Chord diagrams beside each other; which is right, or was answered, their captions say."""
    drawing = draw_diagram(view, width=_WIDEST, tall=not plain)
    return (drawing.ascii() if plain else drawing).text()


def _marked(drawing: Drawing, plain: bool, ends: dict[Role, str]) -> list[str]:
    drawing = drawing.ascii() if plain else drawing
    texts = drawing.text()
    out: list[str] = []
    last = 0
    signs: dict[int, Role] = {}
    for row, text in zip(drawing.rows, texts, strict=True):
        column = 0
        taps = {span.role for span in row} <= {Role.SAID, Role.BLANK}  # a row of taps is signs already
        whole = next((span.role for span in row if span.role in ends and len(span.text) >= _WHOLE), None)
        for span in row:
            if whole is None and span.role in _SIGNS and not taps:
                signs |= _cells(column, span)
            column += len(span.text)
        out.append(text if whole is None else f"{text} {ends[whole]}")
        if any(span.role in (Role.LINE, Role.BAR) for span in row):
            last = len(out)
    told = set(signs.values())
    others = any(span.role is Role.FRET for row in drawing.rows for span in row)
    if not signs or (not others and told in ({Role.LIT}, {Role.TRUE})):
        return out  # nobody can ask which is meant
    under = "".join(_SIGNS[signs[n]] if n in signs else " " for n in range(max(signs) + 1))
    return [*out[:last], under + _legend(told), *out[last:]]


def _cells(column: int, span: Span) -> dict[int, Role]:
    """A sign under every number of a span: under its first digit."""
    return {
        column + n: span.role
        for n, sign in enumerate(span.text)
        if sign.strip() and (n == 0 or not span.text[n - 1].strip())
    }


def _legend(roles: set[Role]) -> str:
    words = {Role.TRUE: "o right", Role.SAID: "x your answer"}
    told = ", ".join(word for role, word in words.items() if role in roles)
    return f"   ({told})" if told else ""


def _dotted(drawing: Drawing) -> Drawing:
    """The dots of a neck by sign: what was answered gets a cross, what is right a ring."""
    signs = {Role.SAID: "x", Role.TRUE: "o"}
    return Drawing(
        tuple(
            tuple(
                Span(signs[span.role], Role.FRET) if span.role in signs and span.text in (DOT, CROSS) else span
                for span in row
            )
            for row in drawing.rows
        )
    )


def ascii_text(text: str) -> str:
    """Our own words in ASCII: quotes, signs and parts of a step as people type them."""
    for part, typed in PARTS.items():
        text = text.replace(part, typed)
    return text.translate(TO_ASCII)


def indent(rows: Sequence[str]) -> list[str]:
    """Rows set off from the text around them."""
    return [f"  {row}".rstrip() for row in rows]
