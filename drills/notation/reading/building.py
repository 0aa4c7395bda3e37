"""Read systems -> ``Reading``: notes with their marks, where they stand, and how sure they are."""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from drills.notation.reading.cells import Cell, Sign
from drills.notation.reading.shapes import (
    BarAt,
    Certainty,
    Doubts,
    Reading,
    ReadMark,
    Source,
    weaker,
)
from drills.notation.reading.stated import Stated
from drills.notation.reading.tunings import Strung
from drills.notation.score import SPANS, Bar, MarkKind, Note, Onset, Piece

if TYPE_CHECKING:
    from drills.notation.reading.assembly import Played


class _Numbered(NamedTuple):
    played: Played
    system: int
    first: int
    """Index of its first bar in the piece."""


def build(played: list[Played], strung: Strung, stated: Stated, pick_up: bool, doubts: Doubts) -> Reading:
    """Put everything together."""
    bars: list[Bar] = []
    places: list[BarAt] = []
    sources: list[tuple[tuple[Source, ...], ...]] = []
    notes: dict[tuple[int, int | None], Note] = {}
    marks: list[ReadMark] = []
    for number, one in enumerate(played, start=1):
        numbered = _Numbered(one, number, len(bars))
        chords = _chords(one)
        for bar in range(len(one.spans)):
            index = numbered.first + bar
            bars.append(_bar(numbered, bar, stated, pick_up and index == 0, sources, marks, notes))
            places.append(_place(numbered, bar, pick_up, chords.get(bar, ())))
            _repeat(numbered, bar, marks)
        _spans(numbered, marks)
    _open_repeats(bars, places, doubts)
    piece = Piece(strung.tuning, tuple(bars), stated.title)
    marks.sort(key=lambda mark: (mark.bar, 9999 if mark.onset is None else mark.onset))
    return Reading(piece, strung.origin, tuple(places), tuple(sources), tuple(marks), doubts.sorted(), len(played))


def _bar(
    numbered: _Numbered,
    bar: int,
    stated: Stated,
    pick_up: bool,
    sources: list[tuple[tuple[Source, ...], ...]],
    marks: list[ReadMark],
    known: dict[tuple[int, int | None], Note],
) -> Bar:
    """One bar; ``known`` holds the notes without marks, which are alike wherever they stand."""
    played = numbered.played
    rhythm, index = played.rhythms[bar], numbered.first + bar
    rows, strings, sure = played.system.rows, played.strings, played.sure
    turned = any(later < one for one, later in pairwise(strings))
    onsets: list[Onset] = []
    found: list[tuple[Source, ...]] = []
    for number, cells in enumerate(played.struck[bar]):
        notes: list[Note] = []
        places: list[Source] = []
        if turned and len(cells) > 1:
            cells.sort(key=lambda cell: strings[cell.row])
        for cell in cells:
            row, string = rows[cell.row], strings[cell.row]
            line = row.line
            column = row.start + cell.at
            column = column + 1 if line.columns is None else line.column(column)
            places.append(Source(line.number, column, cell.certainty if sure else Certainty.GUESS))
            if cell.signs is not None or cell.fret is None or cell.opened:
                cell.place = (index, number)
            if cell.signs is not None:
                notes.append(Note(string, cell.fret, tuple([sign.mark for sign in cell.signs])))
                _marks(numbered, cell, marks)
            else:
                key = (string, cell.fret)
                note = known.get(key)
                if note is None:
                    note = known[key] = Note(string, cell.fret)
                notes.append(note)
            if cell.fret is None:
                marks.append(_muted(numbered, cell))
            if cell.opened and cell.reached is not None:
                marks.append(_reached(numbered, cell, *cell.reached))
        beat = rhythm.beats[number] if rhythm.beats else None
        length = rhythm.lengths[number] if rhythm.lengths else None
        onsets.append(Onset(tuple(notes), beat, length))
        found.append(tuple(places))
    sources.append(tuple(found))
    span = played.spans[bar]
    times = played.times.get(bar, (1, True))
    opens = span.opens or (bar == 0 and bool(played.times) and not any(sign for _, sign in played.times.values()))
    return Bar(tuple(onsets), rhythm.metre or stated.metre, opens, times[0], pick_up)


def _marks(numbered: _Numbered, cell: Cell, marks: list[ReadMark]) -> None:
    played = numbered.played
    row, string = played.system.rows[cell.row], played.strings[cell.row]
    for sign in cell.signs or ():
        if sign.mark.kind in SPANS:
            continue
        at = sign.at if sign.at >= 0 else cell.at
        marks.append(
            ReadMark(
                sign.mark.kind, *cell.place, string, cell.fret, _leads_to(sign), sign.mark.amount, 1,
                weaker(sign.certainty, cell.certainty if played.sure else Certainty.GUESS),
                row.line.number, row.line.column(row.start + at),
            )
        )


def _leads_to(sign: Sign) -> int | None:
    return sign.to.fret if sign.to is not None else sign.mark.to


def _muted(numbered: _Numbered, cell: Cell) -> ReadMark:
    played = numbered.played
    row = played.system.rows[cell.row]
    return ReadMark(
        MarkKind.MUTE, *cell.place, played.strings[cell.row], None, None, None, 1, cell.certainty,
        row.line.number, row.line.column(row.start + cell.at),
    )


def _reached(numbered: _Numbered, cell: Cell, kind: MarkKind, at: int) -> ReadMark:
    """A hammer-on or pull-off from no written note: the piece has no note to bear it."""
    played = numbered.played
    row = played.system.rows[cell.row]
    return ReadMark(
        kind, *cell.place, played.strings[cell.row], None, cell.fret, None, 1, Certainty.LIKELY,
        row.line.number, row.line.column(row.start + at),
    )


def _spans(numbered: _Numbered, marks: list[ReadMark]) -> None:
    for span in numbered.played.spanned:
        bar, onset = span.first
        marks.append(
            ReadMark(span.kind, numbered.first + bar, onset, None, None, None, None, 1, span.certainty,
                     span.line.number, span.line.column(span.at))
        )


def _repeat(numbered: _Numbered, bar: int, marks: list[ReadMark]) -> None:
    times = numbered.played.times.get(bar)
    if times is None:
        return
    row = numbered.played.system.rows[0]
    at = numbered.played.spans[bar].end
    marks.append(
        ReadMark(MarkKind.REPEAT, numbered.first + bar, None, None, None, None, None, times[0],
                 Certainty.SURE if times[1] else Certainty.LIKELY, row.line.number, row.line.column(row.start + at))
    )


def _chords(played: Played) -> dict[int, tuple[tuple[int, str], ...]]:
    """The chord names over each bar, by its index in the system; one before the first bar belongs to it."""
    lefts = [played.base + span.start for span in played.spans]
    found: dict[int, list[tuple[int, str]]] = {}
    for at, name in played.chords:
        found.setdefault(max(0, bisect_right(lefts, at) - 1), []).append((at + 1, name))
    return {bar: tuple(names) for bar, names in found.items()}


def _place(numbered: _Numbered, bar: int, pick_up: bool, chords: tuple[tuple[int, str], ...]) -> BarAt:
    played = numbered.played
    row, span = played.system.rows[0], played.spans[bar]
    number = numbered.first + bar + (0 if pick_up else 1)
    return BarAt(number, numbered.system, row.line.number, row.line.column(row.start + span.start), chords)


def _open_repeats(bars: list[Bar], places: list[BarAt], doubts: Doubts) -> None:
    """Warn of repeats that are opened and not closed."""
    opened: int | None = None
    for index, bar in enumerate(bars):
        if bar.opens_repeat:
            opened = index
        if bar.times > 1:
            opened = None
    if opened is not None:
        place = places[opened]
        doubts.warn(place.line, place.column, f"a repeat begins with bar {place.number} and does not end",
                    "close it with :|")


