"""Where onsets, bar lines and count words stand from left to right, in either dialect."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import ceil
from typing import Final, NamedTuple

from drills.notation.score import Bar
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.values import beats_of, count_words, parts_of, start_of

OnsetAt = tuple[int, int]
"""Index of a bar, and of an onset in it."""

TICKS: Final = {Dialect.ENGRAVED: "·", Dialect.TEXT: "."}
"""Stands on a beat whose number would give an answer away."""


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
        words: count words, or ticks on the beats, and where they stand.
        taps: where each tap of ``StaffView.taps`` falls.
    """

    left: int
    right: int
    onsets: dict[OnsetAt, int]
    bar_lines: tuple[int, ...]
    words: tuple[tuple[int, str], ...] = ()
    taps: tuple[int, ...] = ()


def onset_counts(view: StaffView) -> list[int]:
    """How many onsets each bar shows, those counted in that only a key or a spot names."""
    counts = [len(bar.onsets) for bar in view.piece.bars]
    for bar, onset in [*view.keys, *((at.bar, at.onset) for at in view.spots)]:
        counts[bar] = max(counts[bar], onset + 1)
    return counts


def lay_out(view: StaffView, room: Room, left: int, width: int) -> Layout:
    """Space a piece from column ``left`` on, stretched to end before column ``width`` where it is shorter.

    Raises:
        ValueError: a count line, ticks or stems are asked for and a beat is unknown, or beats do not rise.
    """
    in_time = view.count or view.ticks or view.stems
    return _counted(view, room, left, width) if in_time else _in_order(view, room, left, width)


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
    """In proportion: every counted part of a beat takes the same number of cells."""
    bars = view.piece.bars
    parts = parts_of(view.piece)
    counted = [count_words(bar, parts) for bar in bars]
    times = [_times(bar, count, parts) for bar, count in zip(bars, onset_counts(view), strict=True)]
    word = max(len(str(beats_of(bar))) for bar in bars) if view.count else 1
    floor = room.half if parts < 4 else max(2, room.half // 2)
    part = max([floor, word + 1, *(_least(room, i, t, len(counted[i])) for i, t in enumerate(times))])
    shown = [i for i in range(len(bars)) if i not in view.hidden_bar_lines]
    fixed = left + room.lead * (1 + len([i for i in shown if i < len(bars) - 1])) + 1
    part = max(part, (width - fixed) // sum(map(len, counted)))
    onsets: dict[OnsetAt, int] = {}
    words: list[tuple[int, str]] = []
    firsts: list[int] = []
    bar_lines = [left]
    first = end = left + room.lead
    for bar, moments in enumerate(times):
        firsts.append(first)
        if view.ticks:
            whole = [n for n, (beat, _) in enumerate(counted[bar]) if beat.denominator == 1]
            words += [(first + n * part, TICKS[view.dialect]) for n in whole]
        elif view.count:
            words += [(first + n * part, word) for n, (_, word) in enumerate(counted[bar])]
        onsets.update({(bar, index): first + int(time * part) for index, time in enumerate(moments)})
        first = end = first + len(counted[bar]) * part
        if bar in shown:
            bar_lines.append(end)
            first += room.lead
    taps = tuple(_tap_column(tap * parts, [len(words) for words in counted], firsts, part) for tap in view.taps)
    return Layout(left, end, onsets, tuple(bar_lines), tuple(words), taps)


def _tap_column(time: float, lengths: list[int], firsts: list[int], part: int) -> int:
    """The column of a tap, ``time`` in counted parts from the start of the piece."""
    bar = 0
    while bar + 1 < len(lengths) and time >= lengths[bar] - 0.5:  # half a part early is still the beat it was meant for
        time -= lengths[bar]
        bar += 1
    return firsts[bar] + min(round(time * part), lengths[bar] * part - 1)


def _times(bar: Bar, count: int, parts: int) -> list[Fraction]:
    """When each onset of a bar falls, in counted parts from its start; those not in the piece take a beat each."""
    times = []
    for index in range(count):
        beat = bar.onsets[index].beat if index < len(bar.onsets) else Fraction(index + 1)
        if beat is None:
            raise ValueError(f"onset {index + 1} has no beat: a count line needs the beat of every onset")
        times.append((beat - start_of(bar)) * parts)
    if any(later <= earlier for earlier, later in pairwise(times)):
        raise ValueError("the beats of a bar do not rise from onset to onset")
    return times


def _least(room: Room, bar: int, times: list[Fraction], parts: int) -> int:
    """The fewest cells for a part of a beat that leave every onset of a bar its room."""
    least = [1]
    for index, time in enumerate(times):
        at = (bar, index)
        if index + 1 < len(times):
            least.append(ceil(room.steps[at] / (times[index + 1] - time)))
        elif time < parts:
            least.append(ceil((room.widths[at] + 1) / (parts - time)))
    return max(least)
