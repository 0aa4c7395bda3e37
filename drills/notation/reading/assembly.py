"""Systems -> the piece: scans, aligns and joins the rows of each, and numbers the bars."""

from __future__ import annotations

from collections import Counter
from statistics import median
from typing import NamedTuple

from drills.notation.reading.barlines import Known, Scored, Span, bar_spans, doubt_bars, rulers_of, score_rows
from drills.notation.reading.building import build
from drills.notation.reading.columns import Struck, place_cells, strike
from drills.notation.reading.labels import Label
from drills.notation.reading.lines import Line
from drills.notation.reading.over import Spanned, read_over, staff_of, times_of, times_over
from drills.notation.reading.rhythm import Rhythm, rhythm_of
from drills.notation.reading.rows import Row
from drills.notation.reading.scanner import scan_row
from drills.notation.reading.shapes import Doubts, Reading
from drills.notation.reading.slips import doubt_harmonic, doubt_onset
from drills.notation.reading.stated import Stated
from drills.notation.reading.stringing import strings_of
from drills.notation.reading.systems import System
from drills.notation.reading.tunings import Strung, labels_of
from drills.notation.score import NODES


class Played(NamedTuple):
    """A system as it was read.

    Attributes:
        system: its rows.
        strings: the string of each row.
        sure: whether that is sure.
        base: the character at which its left edge stands.
        spans: its bars.
        struck: bars of onsets of cells.
        rhythms: of each bar.
        spanned: signs over several onsets.
        chords: names over it, with their columns.
        times: how often each bar's repeated part is played, by the index of the bar; with whether a sign says so.
    """

    system: System
    strings: tuple[int, ...]
    sure: bool
    base: int
    spans: list[Span]
    struck: Struck
    rhythms: list[Rhythm]
    spanned: list[Spanned]
    chords: list[tuple[int, str]]
    times: dict[int, tuple[int, bool]]


class Assembly:
    """Puts systems together, one after another."""

    def __init__(self, strung: Strung, stated: Stated, legend: dict[str, str], doubts: Doubts) -> None:
        self._strung, self._stated, self._legend, self._doubts = strung, stated, legend, doubts
        self._played: list[Played] = []
        self._bars = 0
        self._known: Known = {}
        self._strings: dict[tuple[Label | None, ...], tuple[tuple[int, ...], bool]] = {}

    def add(self, system: System) -> None:
        """Read one system."""
        labels = labels_of(system)
        if labels not in self._strings:
            self._strings[labels] = strings_of(system, self._strung)
        strings, sure = self._strings[labels]
        lines = self._strung.tuning.lines
        if max(strings) > lines:
            row = system.rows[0]
            self._doubts.error(
                row.line.number, row.line.column(row.start),
                f"{len(system.rows)} rows, and the piece has {lines} strings: the lowest are left out",
                "take away the row that is none, or give --tuning",
            )
            kept = [index for index, string in enumerate(strings) if string <= lines]
            system = system._replace(rows=tuple(system.rows[index] for index in kept))
            strings, sure = tuple(strings[index] for index in kept), False
        elif not sure:
            row = system.rows[0]
            self._doubts.warn(
                row.line.number, row.line.column(row.start),
                f"{len(system.rows)} rows of {lines} strings without labels: which strings they are is a guess",
                "write the letters of the strings before the rows",
            )
        self._played.append(self._play(system, strings, sure))
        self._bars += len(self._played[-1].spans)

    def _play(self, system: System, strings: tuple[int, ...], sure: bool) -> Played:
        rows, doubts = system.rows, self._doubts
        base = rows[0].start
        if any(row.start != base for row in rows):
            base = Counter(row.start for row in rows).most_common(1)[0][0]
        scored = score_rows(rows, [_shift(row, base) for row in rows], self._known)
        spans, closed = bar_spans(scored)
        rulers = rulers_of(scored, spans, closed)
        if any(ruler.odd or not ruler.fits for ruler in rulers):
            doubt_bars(rows, rulers, self._bars, doubts)
        placed = [
            place_cells(scan_row(row, index, one.body, self._legend, doubts), one, ruler, spans)
            for index, (row, one, ruler) in enumerate(zip(rows, scored, rulers, strict=True))
        ]
        struck = strike(placed, rows, rulers, doubts)
        staff = staff_of(struck, base)
        spanned: list[Spanned] = []
        chords: list[tuple[int, str]] = []
        near = [*system.above, *system.below]
        rhythms = rhythm_of([*system.below, *system.above], staff, spans, base)
        for line in near:
            found, names = read_over(line, staff)
            spanned += found
            chords = chords or names
        capo = self._strung.tuning.capo
        for bar, onsets in enumerate(struck):
            for cells in onsets:
                if len(cells) > 1:
                    doubt_onset(cells, rows, capo, self._bars + bar + 1, doubts)
                for cell in cells:
                    if cell.signs is not None and cell.fret not in NODES:
                        doubt_harmonic(cell, rows[cell.row], doubts)
        times = _times(scored, system, spans, near, base)
        return Played(system, strings, sure, base, spans, struck, rhythms, spanned, chords, times)

    def reading(self) -> Reading:
        """The whole piece."""
        pick_up = self._pick_up()
        return build(self._played, self._strung, self._stated, pick_up, self._doubts)

    def _pick_up(self) -> bool:
        """Whether the piece begins with a bar that is not full: counted so, or before the first bar line and much
        narrower as the bars after it."""
        first = self._played[0]
        if first.rhythms[0].pick_up:
            return True
        if len(first.spans) < 2 or all(row.body.startswith("|") for row in first.system.rows):
            return False
        widths = [span.end - span.start for span in first.spans]
        return bool(first.struck[0]) and widths[0] <= 0.6 * median(widths[1:])


def _shift(row: Row, base: int) -> int:
    """How far right of the system's left edge a row begins that has neither label nor bar line to tell."""
    bare = row.start > base and row.label is None and not row.body.startswith("|")
    return row.start - base if bare else 0


def _times(
    scored: list[Scored], system: System, spans: list[Span], near: list[Line], base: int
) -> dict[int, tuple[int, bool]]:
    """How often repeated parts are played, by the bar that closes them."""
    times: dict[int, tuple[int, bool]] = {bar: (2, True) for bar, span in enumerate(spans) if span.closes}
    said: list[tuple[int | None, int]] = []
    for row, one in zip(system.rows, scored, strict=True):
        said += one.times[:1]
        if row.remark and (number := times_of(row.remark)) is not None:
            said.append((None, number))
    for line in near:
        if (over := times_over(line.text)) is not None:
            said.append((over[0] - base, over[1]))
        elif (number := times_of(line.text)) is not None and len(line.text.strip()) < 40:
            said.append((None, number))
    for column, number in said[:8]:
        bar = _closed_near(column, spans, times)
        times[bar] = (number, bar in times and times[bar][1])
    return times


def _closed_near(column: int | None, spans: list[Span], times: dict[int, tuple[int, bool]]) -> int:
    """The bar whose repeat sign a count belongs to: the nearest, or the last bar where there is no sign."""
    signs = [bar for bar, (_, sign) in times.items() if sign]
    if column is None:
        return signs[-1] if signs else len(spans) - 1
    return min(signs or range(len(spans)), key=lambda bar: abs(spans[bar].end - column))
