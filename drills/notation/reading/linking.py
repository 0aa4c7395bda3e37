"""Signs between two numbers of one row: hammer-ons, pull-offs, slides, held notes."""

from __future__ import annotations

from typing import Final

from drills.notation.reading.cells import Cell
from drills.notation.reading.rows import Row
from drills.notation.reading.shapes import Certainty, Doubts
from drills.notation.score import Mark, MarkKind

SURE, LIKELY, GUESS = Certainty.SURE, Certainty.LIKELY, Certainty.GUESS

_NEAR: Final = 3
"""Dashes between a number and a letter that still belongs to it."""
_UP: Final = {MarkKind.SLIDE_UP: MarkKind.SLIDE_DOWN, MarkKind.HAMMER_ON: MarkKind.PULL_OFF}
_DOWN: Final = {down: up for up, down in _UP.items()}
_WORDS: Final = {
    MarkKind.HAMMER_ON: "a hammer-on", MarkKind.PULL_OFF: "a pull-off",
    MarkKind.SLIDE_UP: "a slide up", MarkKind.SLIDE_DOWN: "a slide down",
}  # fmt: skip
_SIGNS: Final = {
    "h": MarkKind.HAMMER_ON, "p": MarkKind.PULL_OFF, "/": MarkKind.SLIDE_UP, "\\": MarkKind.SLIDE_DOWN,
}  # fmt: skip
_MARKS: Final = {kind: Mark(kind) for kind in (*_WORDS, MarkKind.TIE)}
_LETTERS: Final = {"hammer-on": MarkKind.HAMMER_ON, "pull-off": MarkKind.PULL_OFF}


class Links:
    """The sign that waits for its second number, row by row."""

    def __init__(self, row: Row, legend: dict[str, str], doubts: Doubts) -> None:
        self._row, self._legend, self._doubts = row, legend, doubts
        self.body = ""
        self._kind: MarkKind | None = None
        self._sign = ""
        self._at = 0
        self._source: Cell | None = None
        self._certainty = SURE
        self._slurred = True

    @property
    def waiting(self) -> bool:
        """Whether a sign waits for its second number."""
        return self._kind is not None

    def letter(self, sign: str, at: int, source: Cell | None) -> None:
        """An h, a p, or a ^ that stands for either."""
        if sign == "^":
            meaning = self._legend.get("^", "")
            if meaning == "bend" and source is not None and source.end == at:
                source.add(Mark(MarkKind.BEND), GUESS, at)
                source.end = at + 1
                return
            if source is None or at - source.end > _NEAR:
                self._doubt(at, "the sign ^ is a bend, an accent or a slur: left out", "say in a legend what it is")
                return
            kind, sure = _LETTERS.get(meaning, MarkKind.HAMMER_ON), GUESS
        else:
            kind, sure = (MarkKind.HAMMER_ON if sign in "hH" else MarkKind.PULL_OFF), SURE
        self._wait(kind, sign, at, source, sure)

    def slide(self, sign: str, at: int, source: Cell | None) -> None:
        """A diagonal, or an s."""
        first = sign[0]
        if first in "sS" and self._legend.get(first, "slide") not in ("slide", "shift-slide"):
            self._doubt(at, "the letter s is no slide here, by the legend: left out", "read it by the legend")
            return
        kind = MarkKind.SLIDE_DOWN if first == "\\" else MarkKind.SLIDE_UP
        self._wait(kind, sign, at, source, SURE if first in "/\\" else LIKELY)
        self._slurred = self._legend.get(first) != "shift-slide"

    def pair(self, sign: str, at: int, source: Cell, cell: Cell) -> None:
        """A sign right between two numbers."""
        self._kind, self._sign, self._at = _SIGNS[sign], sign, at
        self._certainty, self._slurred = SURE, self._legend.get(sign) != "shift-slide"
        self._join(source, cell, SURE)
        self._kind = None

    def held(self, at: int, last: Cell | None) -> None:
        """An ``=`` that holds a note."""
        if last is not None:
            last.end = at + 1
            if self._kind is None:
                self._wait(MarkKind.TIE, "=", at, last, LIKELY)

    def _wait(self, kind: MarkKind, sign: str, at: int, source: Cell | None, certainty: Certainty) -> None:
        if self._kind not in (None, MarkKind.TIE):
            self._dangling()
        self._kind, self._sign, self._at, self._source = kind, sign, at, source
        self._certainty, self._slurred = certainty, True

    def note(self, cell: Cell) -> None:
        """The next number: the one that a waiting sign leads to, or not."""
        if self._kind is None:
            return
        start = cell.at - cell.opened
        before = self._gap(self._source.end, self._at) if self._source is not None else 99
        after = self._gap(self._at + len(self._sign), start)
        kind, source = self._kind, self._source
        if kind is MarkKind.TIE:
            if source is not None and source.fret == cell.fret and after <= 1:
                source.add(Mark(kind), LIKELY, self._at, cell)
        elif kind in (MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN):
            self._slide_to(cell, before, after)
        elif source is None or self._far(start) or (before > _NEAR and after == 0):
            self._from_nowhere(cell)
        else:
            self._join(source, cell, LIKELY if before > 1 and abs(before - after) > 2 else SURE)
        self._kind = None

    def _gap(self, start: int, end: int) -> int:
        """Characters between; a bar line and the dash beside it are not counted."""
        if end - start > 60:
            return end - start
        bars = self.body.count("|", start, end)
        return max(0, end - start - bars - (bars > 0))

    def _far(self, start: int) -> bool:
        """Whether a sign is too far from its first number to belong to it; half way to the second it does."""
        if self._source is None:
            return True
        before, after = self._at - self._source.end, start - self._at - len(self._sign)
        return before > 2 * _NEAR and abs(before - after) > 2

    def _slide_to(self, cell: Cell, before: int, after: int) -> None:
        source = self._source
        if source is not None and before == 0 and after >= 2:
            self._dangling()
        elif source is None or (after == 0 and before >= 2) or self._far(cell.at - cell.opened):
            kind = MarkKind.SLIDE_IN_DOWN if self._sign[0] == "\\" else MarkKind.SLIDE_IN_UP
            cell.add(Mark(kind), LIKELY if self._sign[0] in "/\\" else GUESS, self._at)
            cell.opened = max(cell.opened, cell.at - self._at)
        else:
            self._join(source, cell, SURE if before == after or before + after <= 1 else LIKELY)

    def _join(self, source: Cell, cell: Cell, certainty: Certainty) -> None:
        kind = self._kind or MarkKind.TIE
        sure = self._certainty if self._certainty is not SURE else certainty
        if source.fret is None or cell.fret is None:
            sure = GUESS
        elif source.fret == cell.fret:
            sure = GUESS
            if self._sign != "^":
                self._doubt(self._at, f"{_WORDS[kind]} from fret {source.fret} to the same fret",
                            "write the fret that it goes to")
        else:
            rises = cell.fret > source.fret
            other = (_DOWN if rises else _UP).get(kind)
            if other is not None:
                if self._sign == "^" or self._sign[0] in "sS":
                    kind = other
                else:
                    kind, sure = self._against(kind, other, source.fret, cell.fret), LIKELY
        source.add(_MARKS[kind] if self._slurred else Mark(kind, slurred=False), sure, self._at, cell)

    def _against(self, kind: MarkKind, other: MarkKind, start: int, to: int) -> MarkKind:
        """A sign against its frets: a slide goes where the frets go, a letter stays what the writer wrote."""
        slides = kind in (MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN)
        self._doubt(
            self._at,
            f"{_WORDS[kind]} that goes {'up' if to > start else 'down'}, from fret {start} to {to}"
            + (f": read as {_WORDS[other]}" if slides else ""),
            f"write {self._letter(other)}, or the frets the other way round",
        )
        return other if slides else kind

    @staticmethod
    def _letter(kind: MarkKind) -> str:
        return {MarkKind.HAMMER_ON: "h", MarkKind.PULL_OFF: "p", MarkKind.SLIDE_UP: "/"}.get(kind, "\\")

    def _from_nowhere(self, cell: Cell) -> None:
        cell.reached = (self._kind or MarkKind.HAMMER_ON, self._at)
        cell.opened = max(cell.opened, cell.at - self._at)
        self._doubts.note(
            self._row.line.number, self._row.line.column(self._row.start + self._at),
            f"{_WORDS[self._kind or MarkKind.HAMMER_ON]} without a note before it",
            "write the note that it comes from, or take it as sounded by the fretting hand alone",
        )

    def _dangling(self) -> None:
        """A sign that leads nowhere."""
        kind, source = self._kind, self._source
        slides = kind in (MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN)
        if slides and source is not None and self._gap(source.end, self._at) <= _NEAR:
            out = MarkKind.SLIDE_OUT_DOWN if self._sign[0] == "\\" else MarkKind.SLIDE_OUT_UP
            source.add(Mark(out), LIKELY if self._sign[0] in "/\\" else GUESS, self._at)
            source.end = max(source.end, self._at + len(self._sign))
        elif kind is not None and kind is not MarkKind.TIE and self._sign != "^":
            self._doubt(self._at, f"{_WORDS[kind]} that leads to no note: left out", "write the note that it leads to")
        elif self._sign == "^" and source is not None:
            self._doubt(self._at, "the sign ^ is a bend, an accent or a slur: left out", "say in a legend what it is")

    def end(self) -> None:
        """The row ends."""
        if self._kind is not None:
            self._dangling()
            self._kind = None

    def _doubt(self, at: int, message: str, mend: str) -> None:
        self._doubts.warn(self._row.line.number, self._row.line.column(self._row.start + at), message, mend)
