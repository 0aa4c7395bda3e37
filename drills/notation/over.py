"""Signs over the staff: how much room they need, and which row each takes so that none stands on another."""

from __future__ import annotations

from itertools import groupby
from typing import NamedTuple

from drills.notation.drawing import Canvas, Role
from drills.notation.repeats import Count
from drills.notation.signs import Run, Signs
from drills.notation.spacing import Layout, OnsetAt


class Placed(NamedTuple):
    """A sign over the staff: ``height`` 0 is the row next to the staff, 1 the one above it."""

    height: int
    column: int
    text: str


class Dash(NamedTuple):
    """How a dialect writes the length of a run: ``P.M.╌╌╌┤`` or ``PM---``."""

    sign: str
    end: str


def widen(signs: Signs, widths: dict[OnsetAt, int], steps: dict[OnsetAt, int], trail: int) -> None:
    """Give each sign's onsets so much room that its word ends before the next onset without it, or the bar line."""
    for run in signs.runs:
        length = len(run.text)
        if length == 1:
            continue
        if len(run.onsets) == 1:
            at = run.onsets[0]
            steps[at] = max(steps[at], length + 1)
            widths[at] = max(widths[at], length + 1 - trail)
        for at in run.onsets[:-1]:
            steps[at] = max(steps[at], -(-(length + 2) // (len(run.onsets) - 1)))


def stack(
    signs: Signs, layout: Layout, dash: Dash, taken: dict[int, int], counts: list[Count]
) -> list[Placed]:
    """Rows for every sign, as near to the staff as can be, above all that stands in its columns; words that run
    over several onsets keep one row.

    Args:
        signs: what is written.
        layout: where onsets stand.
        dash: how a run is drawn.
        taken: column -> rows over it that arcs and arrows need.
        counts: of repeats; they come on top.
    """
    heights = dict(taken)
    placed: list[Placed] = []

    def free(column: int, text: str) -> int:
        return max(heights.get(c, 0) for c in range(column - 1, column + len(text) + 1))

    def put(column: int, text: str, least: int = 0) -> None:
        height = max(least, max(heights.get(c, 0) for c in range(column, column + len(text))))
        placed.append(Placed(height, column, text))
        heights.update(dict.fromkeys(range(column, column + len(text)), height + 1))

    for _, group in groupby(signs.runs, key=lambda run: run.kind):
        found = [(layout.onsets[run.onsets[0]], _drawn(run, signs, layout, dash), len(run.text) > 1) for run in group]
        level = max((free(column, text) for column, text, word in found if word), default=0)
        for column, text, word in found:
            put(column, text, level if word else free(column, text))
    for count in counts:
        start = count.column - len(count.text) + 1
        put(start, count.text, free(start, count.text))
    return placed


def _drawn(run: Run, signs: Signs, layout: Layout, dash: Dash) -> str:
    """The word, with dashes to the end of the last number where there is more than one onset."""
    last = run.onsets[-1]
    if len(run.onsets) == 1:
        return run.text
    digits = max((len(token.number) for at, token in signs.tokens.items() if (at.bar, at.onset) == last), default=1)
    whole = layout.onsets[last] + digits - layout.onsets[run.onsets[0]]
    return run.text + (dash.sign * (whole - len(run.text) - len(dash.end)) + dash.end if whole > len(run.text) else "")


def draw_over(canvas: Canvas, placed: list[Placed], top: int) -> None:
    """Write the signs over the staff, whose line 1 stands in row ``top``."""
    for sign in placed:
        canvas.put(top - 1 - sign.height, sign.column, sign.text, Role.MARK)


def height(placed: list[Placed]) -> int:
    """Rows over the staff that the signs reach to."""
    return max((sign.height + 1 for sign in placed), default=0)
