"""Note values drawn under the staff: stems, flags, beams and dots (engraved) or letters (text), and rests.

Engraved, as printed tab has it (common practice, no source): a whole note has no stem, a half a short one, a quarter
a long one; an eighth has one flag or beam, a sixteenth two; those of one beat share their beams. Printed rests are
signs that no terminal has; ours come near them and are explained where they are met: a block that hangs from the
middle line is a whole rest, one that sits on it a half rest, then ``}``, ``y`` with one hook and ``¥`` with two.
In text tab a letter stands in line with every number, ``w h q e s``, with a dot where the value has one; a rest is
the letter with an ``r`` behind it, and no number (common practice, no source; often over the staff, here under it, so
that the row of a string is where programs look for it).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from drills.notation.drawing import Canvas, Role
from drills.notation.score import At, Bar, Onset
from drills.notation.spacing import Layout
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.values import USUAL, Value, value_of

RESTS: Final = {"whole": "▄", "half": "▀", "quarter": "}", "eighth": "y", "sixteenth": "¥"}
"""How a rest is drawn on the middle line."""

UNDER: Final = {Dialect.ENGRAVED: 2, Dialect.TEXT: 1}
"""Rows that values take under the staff."""


def draw_stems(canvas: Canvas, view: StaffView, layout: Layout, *, first: int, step: int, under: int) -> None:
    """Draw the value of every onset.

    Args:
        canvas: with the lines and numbers on it.
        view: what is drawn.
        layout: where its onsets stand.
        first: the row of line 1.
        step: rows from line to line.
        under: the first free row under the staff.

    Raises:
        ValueError: the length of an onset is unknown or has no value.
    """
    middle = first + (view.piece.tuning.lines - 1) // 2 * step
    for index, bar in enumerate(view.piece.bars):
        columns = [layout.onsets[index, n] for n in range(len(bar.onsets))]
        if view.dialect == Dialect.TEXT:
            _letters(canvas, view, index, columns, under)
            continue
        for n, onset in enumerate(bar.onsets):
            if not onset.notes:
                value = value_of(onset, bar)
                role = view.colours.get(At(index, n, 0), Role.MARK)
                canvas.put(middle, columns[n], RESTS[value.name] + "." * value.dots, role)
        for group in beams(bar):
            _beam(canvas, [(columns[n], value_of(bar.onsets[n], bar)) for n in group], under)


def _letters(canvas: Canvas, view: StaffView, index: int, columns: list[int], under: int) -> None:
    bar = view.piece.bars[index]
    for n, onset in enumerate(bar.onsets):
        role = view.colours.get(At(index, n, 0), Role.BAR)
        canvas.put(under, columns[n], text_value(onset, bar), role)


def text_value(onset: Onset, bar: Bar) -> str:
    """What stands under an onset of text tab: ``q``, ``q.``, ``qr`` for a rest."""
    return value_of(onset, bar).letters + ("" if onset.notes else "r")


def beams(bar: Bar) -> Iterator[list[int]]:
    """The notes of a bar, those that share a beam together: eighths and sixteenths of one beat (of three eighths
    where the beat is an eighth), with no rest between them."""
    group: list[int] = []
    span = Fraction(3) if (bar.metre or USUAL).unit == 8 else Fraction(1)
    for n, onset in enumerate(bar.onsets):
        joins = (
            bool(group)
            and bool(onset.notes)
            and all(value_of(bar.onsets[each], bar).flags for each in (group[-1], n))
            and _unit(bar.onsets[group[0]], span) == _unit(onset, span)
        )
        if group and not joins:
            yield group
            group = []
        if onset.notes:
            group.append(n)
    if group:
        yield group


def _unit(onset: Onset, span: Fraction) -> int:
    return int(((onset.beat or Fraction(1)) - 1) // span)


def _beam(canvas: Canvas, notes: list[tuple[int, Value]], under: int) -> None:
    """Stems of one beam, or one stem alone: the second beam next to the staff, the first one at the stems' ends."""
    for n, (column, value) in enumerate(notes):
        flags = value.flags
        before = bool(flags == 2 and n and notes[n - 1][1].flags == 2)
        after = bool(flags == 2 and n + 1 < len(notes) and notes[n + 1][1].flags == 2)
        if value.name == "whole":
            continue
        # A sixteenth beside no other has half a second beam: on its left when it ends the beam, else on its right.
        stub = flags == 2 and not before and not after
        sign = {(True, True): "┼", (True, False): "┤", (False, True): "├"}.get(
            (before or (stub and n > 0), after or (stub and n == 0)), "│"
        )
        canvas.put(under, column, sign, Role.BAR)
        if after:
            canvas.put(under, column + 1, "─" * (notes[n + 1][0] - column - 1), Role.BAR)
        elif stub:
            canvas.put(under, column + (-1 if n else 1), "╶" if n else "╴", Role.BAR)
        if value.dots:
            canvas.put(under, column + 1, ".", Role.BAR)
        if value.name == "half":
            continue
        if len(notes) == 1:
            canvas.put(under + 1, column, "╰╴" if flags else "│", Role.BAR)
        elif n + 1 == len(notes):
            canvas.put(under + 1, column, "╯", Role.BAR)
        else:
            canvas.put(under + 1, column, "┴" if n else "╰", Role.BAR)
            canvas.put(under + 1, column + 1, "─" * (notes[n + 1][0] - column - 1), Role.BAR)
