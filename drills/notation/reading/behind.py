"""Signs behind a number that go on in its time: bends, releases, trills and vibrato."""

from __future__ import annotations

import re
from fractions import Fraction

from drills.notation.reading.amounts import bend_amount
from drills.notation.reading.cells import Cell
from drills.notation.reading.rows import Row
from drills.notation.reading.shapes import Certainty, Doubts, shown
from drills.notation.score import Mark, MarkKind

SURE, LIKELY, GUESS = Certainty.SURE, Certainty.LIKELY, Certainty.GUESS


class Behind:
    """Gives numbers the signs behind them."""

    def __init__(self, row: Row, doubts: Doubts) -> None:
        self._row, self._doubts = row, doubts

    def give(self, kind: str, match: re.Match[str], at: int, cell: Cell) -> None:
        """Give a number the sign that stands behind it: ``bend``, ``release``, ``trill`` or ``shake``."""
        if kind == "trill":
            other = match["other"]
            cell.add(Mark(MarkKind.TRILL, to=int(other) if other else None), LIKELY, at)
        elif kind == "shake":
            if not cell.has(MarkKind.VIBRATO):
                cell.add(Mark(MarkKind.VIBRATO), SURE if "~" in match.group() else LIKELY, at)
        elif kind == "bend":
            self._bend(cell, match, at)
        else:
            self._release(cell, match, at)

    def _bend(self, cell: Cell, match: re.Match[str], at: int) -> None:
        fret = cell.fret or 0
        written = match["amount"] or ""
        amount = bend_amount(written, fret)
        if written.strip("()") == str(fret) and cell.has(MarkKind.BEND):
            cell.add(Mark(MarkKind.RELEASE), LIKELY, at)
            return
        kind = MarkKind.PRE_BEND if match.group()[:2].lower() == "pb" else MarkKind.BEND
        if amount is None:
            if written:
                self._doubt(at, f"a bend from fret {fret} cannot be to {shown(written.strip('()'))[1:-1]}",
                            "write the fret that it is bent to sound like, such as 7b9")
            sure = GUESS
        else:
            sure = SURE if kind is MarkKind.BEND and amount * 2 == int(amount * 2) else LIKELY
            if not written.strip("()").isdigit() or int(written.strip("()")) <= fret:
                sure = LIKELY
        cell.add(Mark(kind, amount), sure, at)

    def _release(self, cell: Cell, match: re.Match[str], at: int) -> None:
        back = match.group()[1:].strip("()")
        bent = cell.has(MarkKind.BEND) or cell.has(MarkKind.PRE_BEND)
        fret = cell.fret or 0
        if bent and (not back or int(back) == fret):
            cell.add(Mark(MarkKind.RELEASE), SURE if back else LIKELY, at)
        elif bent:
            cell.add(Mark(MarkKind.RELEASE), GUESS, at)
            self._doubt(at, f"a bend of fret {fret} is released to fret {back}", f"release it to fret {fret}")
        elif back and 0 < fret - int(back) <= 6:
            cell.fret = int(back)
            cell.certainty = GUESS
            cell.add(Mark(MarkKind.PRE_BEND, Fraction(fret - int(back), 2)), GUESS, at)
            cell.add(Mark(MarkKind.RELEASE), GUESS, at)
        else:
            cell.add(Mark(MarkKind.RELEASE), GUESS, at)
            self._doubt(at, "a release without a bend before it", "write the bend too, such as 7b9r7")

    def _doubt(self, at: int, message: str, mend: str) -> None:
        self._doubts.warn(self._row.line.number, self._row.line.column(self._row.start + at), message, mend)
