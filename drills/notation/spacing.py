"""Where onsets, bar lines and count words stand from left to right, in either dialect."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import ceil
from typing import Final, NamedTuple

from drills.notation.score import Bar
from drills.notation.staff_view import StaffView

OnsetAt = tuple[int, int]
"""Index of a bar, and of an onset in it."""

USUAL_BEATS: Final = 4
"""Counted in a bar that does not tell its metre."""


class Room(NamedTuple):
    """How many cells a dialect's signs need.

    Attributes:
        lead: from a bar line's column to the first onset's.
        trail: from the last cell of an onset to the bar line, counted from the cell after it.
        empty: from bar line to bar line where nothing is played.
        half: the least for half a beat, under a count line.
        widths: what each onset takes, from its column on.
        steps: the least from each onset's column to the next one's.
        tight: onsets that stay close to the next one when the staff is stretched.
    """

    lead: int
    trail: int
    empty: int
    half: int
    widths: dict[OnsetAt, int]
    steps: dict[OnsetAt, int]
    tight: frozenset[OnsetAt] = frozenset()


class Layout(NamedTuple):
    """Columns, from 0.

    Attributes:
        left: where the lines begin: the left edge.
        right: where they end.
        onsets: where each onset's numbers begin.
        bar_lines: where bar lines are drawn, the left edge among them.
        words: count words and where they stand.
    """

    left: int
    right: int
    onsets: dict[OnsetAt, int]
    bar_lines: tuple[int, ...]
    words: tuple[tuple[int, str], ...] = ()


def onset_counts(view: StaffView) -> list[int]:
    """How many onsets each bar shows, those counted in that only a key or a spot names."""
    counts = [len(bar.onsets) for bar in view.piece.bars]
    for bar, onset in [*view.keys, *((at.bar, at.onset) for at in view.spots)]:
        counts[bar] = max(counts[bar], onset + 1)
    return counts


def lay_out(view: StaffView, room: Room, left: int, width: int) -> Layout:
    """Space a piece from column ``left`` on, stretched to end before column ``width`` where it is shorter.

    Raises:
        ValueError: a count line is asked for and a beat is unknown, or beats do not rise.
    """
    return _counted(view, room, left, width) if view.count else _in_order(view, room, left, width)


def _in_order(view: StaffView, room: Room, left: int, width: int) -> Layout:
    """Evenly, one onset after another, as the order alone is known."""
    stops: list[OnsetAt | int] = []
    gaps: list[int] = []
    loose: list[bool] = []
    before: OnsetAt | None = None
    pending = 0
    counts = onset_counts(view)
    for bar, count in enumerate(counts):
        for index in range(count):
            stops.append((bar, index))
            gaps.append(pending + (room.lead if before is None else room.steps[before]))
            loose.append(before not in room.tight)
            before, pending = (bar, index), 0
        pending += 0 if count else room.empty
        if bar not in view.hidden_bar_lines or bar == len(counts) - 1:
            stops.append(bar)
            gaps.append(pending + (0 if before is None else room.widths[before] + room.trail))
            loose.append(True)
            before, pending = None, 0
    column = left
    onsets: dict[OnsetAt, int] = {}
    bar_lines = [left]
    for stop, gap in zip(stops, _stretch(gaps, loose, width - 1 - left - sum(gaps)), strict=True):
        column += gap
        if isinstance(stop, tuple):
            onsets[stop] = column
        elif stop not in view.hidden_bar_lines:
            bar_lines.append(column)
    return Layout(left, column, onsets, tuple(bar_lines))


def _stretch(gaps: list[int], loose: list[bool], spare: int) -> list[int]:
    """The gaps with the spare cells shared out evenly among the loose ones."""
    share, shared = sum(loose), 0
    out = []
    for gap, is_loose in zip(gaps, loose, strict=True):
        if is_loose and spare > 0:
            out.append(gap + (shared + 1) * spare // share - shared * spare // share)
            shared += 1
        else:
            out.append(gap)
    return out


def _counted(view: StaffView, room: Room, left: int, width: int) -> Layout:
    """In proportion: every half beat takes the same number of cells."""
    times = [_times(bar, count) for bar, count in zip(view.piece.bars, onset_counts(view), strict=True)]
    halves = [2 * _beats(bar) for bar in view.piece.bars]
    word = max(len(str(_beats(bar))) for bar in view.piece.bars)
    half = max([room.half, word + 1, *(_least(room, i, t, halves[i]) for i, t in enumerate(times))])
    shown = [i for i in range(len(times)) if i not in view.hidden_bar_lines]
    fixed = left + room.lead * (1 + len([i for i in shown if i < len(times) - 1])) + 1
    half = max(half, (width - fixed) // sum(halves))
    onsets: dict[OnsetAt, int] = {}
    words: list[tuple[int, str]] = []
    bar_lines = [left]
    first = left + room.lead
    for bar, moments in enumerate(times):
        words += [(first + n * half, "&" if n % 2 else str(n // 2 + 1)) for n in range(halves[bar])]
        onsets.update({(bar, index): first + int(time * half) for index, time in enumerate(moments)})
        end = first + halves[bar] * half
        first = end
        if bar in shown:
            bar_lines.append(end)
            first += room.lead
    return Layout(left, end, onsets, tuple(bar_lines), tuple(words))


def _beats(bar: Bar) -> int:
    """Beats in a bar: its metre's, or the usual number and as many more as its onsets ask for."""
    if bar.metre is not None:
        return bar.metre.beats
    return max([USUAL_BEATS, *(int(onset.beat) for onset in bar.onsets if onset.beat is not None)])


def _times(bar: Bar, count: int) -> list[Fraction]:
    """When each onset of a bar falls, in half beats from its start; those not in the piece take a beat each."""
    times = []
    for index in range(count):
        beat = bar.onsets[index].beat if index < len(bar.onsets) else Fraction(index + 1)
        if beat is None:
            raise ValueError(f"onset {index + 1} has no beat: a count line needs the beat of every onset")
        times.append((beat - 1) * 2)
    if any(later <= earlier for earlier, later in pairwise(times)):
        raise ValueError("the beats of a bar do not rise from onset to onset")
    return times


def _least(room: Room, bar: int, times: list[Fraction], halves: int) -> int:
    """The fewest cells for half a beat that leave every onset of a bar its room."""
    least = [room.half]
    for index, time in enumerate(times):
        at = (bar, index)
        if index + 1 < len(times):
            least.append(ceil(room.steps[at] / (times[index + 1] - time)))
        elif time < halves:
            least.append(ceil((room.widths[at] + 1) / (halves - time)))
    return max(least)
