"""The beats and lengths of a system's onsets, from a count line or letters next to it."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from drills.notation.reading.barlines import Span
from drills.notation.reading.counts import Beats, count_line, length_line
from drills.notation.reading.lines import Line
from drills.notation.reading.over import Staff
from drills.notation.score import Metre


class Rhythm(NamedTuple):
    """What is known of a bar's time.

    Attributes:
        beats: of each onset; empty where they are not all known.
        lengths: of each onset in beats; empty where they are not all known.
        metre: or None.
        pick_up: whether the bar begins after its first beat.
    """

    beats: tuple[Fraction, ...] = ()
    lengths: tuple[Fraction, ...] = ()
    metre: Metre | None = None
    pick_up: bool = False


def rhythm_of(lines: list[Line], staff: Staff, spans: list[Span], base: int) -> list[Rhythm]:
    """The rhythm of each bar of a system, as far as a line next to it tells."""
    for line in lines:
        if (beats := count_line(line.text)) is not None and (counted := _counted(beats, staff, spans, base)):
            return counted
    for line in lines:
        if (lengths := length_line(line.text)) is not None:
            return _lengths(dict(lengths), staff, spans)
    return [Rhythm() for _ in spans]


def _by_bar(staff: Staff, bars: int) -> list[list[int]]:
    found: list[list[int]] = [[] for _ in range(bars)]
    for column, (bar, _) in zip(staff.columns, staff.places, strict=True):
        found[bar].append(column)
    return found


def _counted(beats: Beats, staff: Staff, spans: list[Span], base: int) -> list[Rhythm]:
    onsets = _by_bar(staff, len(spans))
    counted: list[Beats] = [[] for _ in spans]
    ends = [base + span.end for span in spans]
    for column, beat in beats:
        bar = min(bisect_right(ends, column), len(spans) - 1)
        counted[bar].append((column, beat))
    if all(len(bar) < 2 for bar in counted):  # numbers of bars
        return []
    tops = [max((int(beat) for _, beat in bar), default=0) for bar in counted]
    full = Counter(top for top, bar in zip(tops, counted, strict=True) if bar and bar[0][1] == 1 and top > 1)
    metre = Metre(full.most_common(1)[0][0]) if len(full) == 1 else None
    found = []
    for columns, words in zip(onsets, counted, strict=True):
        placed = _beats(columns, words)
        late = bool(words) and words[0][1] > 1
        if any(later <= one for one, later in pairwise(placed)):
            placed = ()
        found.append(Rhythm(placed, (), metre, late and bool(placed)))
    return found


def _beats(columns: list[int], counted: Beats) -> tuple[Fraction, ...]:
    """The beat of each onset: that of its column, of a column beside it, or a quarter of a beat between two."""
    exact = dict(counted)
    words = [column for column, _ in counted]
    taken = set(columns)
    placed: list[Fraction] = []
    for column in columns:
        beat = exact.get(column)
        if beat is None and not (column - 1 in taken or column + 1 in taken):
            beat = exact.get(column - 1, exact.get(column + 1))
        if beat is None:
            beat = _between(column, counted, words)
        if beat is None:
            return ()
        placed.append(beat)
    return tuple(placed)


def _between(column: int, counted: Beats, words: list[int]) -> Fraction | None:
    """The beat of a column between two counted ones, where it falls on a sixteenth."""
    at = bisect_right(words, column)
    if not 0 < at < len(counted):
        return None
    (left, one), (right, other) = counted[at - 1], counted[at]
    beat = one + (other - one) * Fraction(column - left, right - left)
    return beat if beat.denominator in (1, 2, 4) else None


def _lengths(lengths: dict[int, Fraction], staff: Staff, spans: list[Span]) -> list[Rhythm]:
    found = []
    for columns in _by_bar(staff, len(spans)):
        values = [lengths.get(c, lengths.get(c + 1, lengths.get(c - 1))) for c in columns]
        known = tuple(value for value in values if value is not None)
        if len(known) != len(columns):
            found.append(Rhythm())
            continue
        beats, at = [], Fraction(1)
        for value in known:
            beats.append(at)
            at += value
        found.append(Rhythm(tuple(beats), known, None))
    sums = Counter(sum(rhythm.lengths) for rhythm in found if rhythm.lengths)
    if len(sums) == 1 and len([r for r in found if r.lengths]) > 0:
        whole = next(iter(sums))
        if whole == int(whole) and 1 < whole <= 12:
            found = [rhythm._replace(metre=Metre(int(whole))) if rhythm.lengths else rhythm for rhythm in found]
    return found
