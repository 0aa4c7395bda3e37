"""One row -> its numbers and their signs: a scanner that reads from left to right, as a player does."""

from __future__ import annotations

import re
from typing import Final

from drills.notation.reading.amounts import AMOUNT
from drills.notation.reading.behind import Behind
from drills.notation.reading.cells import Cell
from drills.notation.reading.linking import Links
from drills.notation.reading.rows import WORDS, Row
from drills.notation.reading.shapes import Certainty, Doubts, shown, weaker
from drills.notation.score import Mark, MarkKind
from drills.notation.tuning import FRETS

_SIGNED: Final = re.compile(r"[^-0-9| ]")
_DIGITS: Final = re.compile(r"[0-9]+")
_CLUMP: Final = re.compile(r"[^-| ]+")
_PAIR: Final = re.compile(r"([0-9]{1,2})([hp/\\])([0-9]{1,2})")
_TOKEN: Final = re.compile(
    rf"(?P<number>[0-9]+)"
    rf"|(?P<trill>tr\(?(?P<other>[0-9]{{1,2}}(?![0-9]))?\)?)"
    rf"|(?P<bend>(?:pb|PB|[bB]{{1,2}})(?P<amount>{AMOUNT})?)"
    rf"|(?P<release>[rR](?:\([0-9]{{1,2}}\)|[0-9]{{1,2}}(?![0-9]))?)"
    rf"|(?P<shake>~+|[/\\]{{3,}}|(?:[vVwW])+)"
    rf"|(?P<slide>sl\.?|[sS/\\]{{1,2}})"
    rf"|(?P<link>[hHpP^])"
    rf"|(?P<mute>[xX])"
    rf"|(?P<open>[(<\[{{])|(?P<close>[)>\]}}])"
    rf"|(?P<sign>[tTg=*.'+:oO])"
    rf"|(?P<other_sign>.)"
)
_HARMONIC_OPENERS: Final = {"<": Certainty.LIKELY, "[": Certainty.GUESS}
_FRETS: Final = {str(fret): fret for fret in range(FRETS + 1)}
SURE, LIKELY, GUESS = Certainty.SURE, Certainty.LIKELY, Certainty.GUESS


def scan_row(row: Row, index: int, body: str, legend: dict[str, str], doubts: Doubts) -> list[Cell]:
    """Every number of a row, with its marks; ``body`` is its music with bare bar lines. See ``Scanner``."""
    if not body.strip("-| "):
        return []
    if _SIGNED.search(body) is None:
        found = [(match.start(), match.group()) for match in _DIGITS.finditer(body)]
        if all(digits in _FRETS for _, digits in found):
            return [Cell(at, _FRETS[digits], len(digits), index) for at, digits in found]
    return Scanner(row, index, legend, doubts).scan(body)


class Scanner:
    """Scans one row.

    Args:
        row: the row.
        index: which one of its system, from 0.
        legend: what the file says of its signs.
        doubts: where doubts go.
    """

    def __init__(self, row: Row, index: int, legend: dict[str, str], doubts: Doubts) -> None:
        self._row, self._index, self._legend, self._doubts = row, index, legend, doubts
        self.cells: list[Cell] = []
        self._body = ""
        self._links = Links(row, legend, doubts)
        self._behind = Behind(row, doubts)
        self._bracket = ""
        self._bracket_at = 0
        self._before: list[tuple[MarkKind, Certainty, int]] = []

    def scan(self, body: str) -> list[Cell]:
        """Every number of the row, with its marks; ``body`` is its music with bare bar lines."""
        if "(" in body:
            body = self._without_words(body)
        self._body = self._links.body = body
        cells, links, row = self.cells, self._links, self._index
        for match in _CLUMP.finditer(body):
            clump = match.group()
            plain = not (links.waiting or self._bracket or self._before)
            if clump in _FRETS:
                if plain:
                    cells.append(Cell(match.start(), _FRETS[clump], len(clump), row))
                else:
                    self._number(match.start(), clump)
            elif not (plain and (pair := _PAIR.fullmatch(clump)) and self._pair(pair, match.start())):
                self._clump(clump, match.start())
        if self._bracket:
            self._doubt(self._bracket_at, "a bracket is opened and not closed", "close it behind its number")
        self._links.end()
        return self.cells

    def _without_words(self, body: str) -> str:
        """Dashes for words in brackets, which are a remark."""
        for match in WORDS.finditer(body):
            self._doubts.note(
                self._row.line.number, self._row.line.column(self._row.start + match.start()),
                "words in brackets on a row of tab: left out", "write them over the rows",
            )
        return WORDS.sub(lambda found: "-" * len(found.group()), body)

    def _pair(self, pair: re.Match[str], start: int) -> bool:
        """Two numbers and what joins them: ``5h7``, ``7/9``; whether they are frets."""
        first, sign, second = pair.groups()
        if first not in _FRETS or second not in _FRETS:
            return False
        at = start + len(first)
        one = Cell(start, _FRETS[first], len(first), self._index)
        two = Cell(at + 1, _FRETS[second], len(second), self._index)
        self.cells += (one, two)
        self._links.pair(sign, at, one, two)
        return True

    def _clump(self, clump: str, start: int) -> None:
        for match in _TOKEN.finditer(clump):
            kind, at = str(match.lastgroup), start + match.start()
            if kind == "number":
                self._number(at, match.group())
            elif kind == "mute":
                self._add(at, None, 1)
            elif kind == "link":
                self._links.letter(match.group(), at, self.cells[-1] if self.cells else None)
            elif kind == "slide":
                self._links.slide(match.group(), at, self.cells[-1] if self.cells else None)
            elif kind in ("open", "close"):
                self._brackets(match.group(), at)
            elif kind == "other_sign":
                self._unknown(match.group(), at)
            elif kind == "sign":
                self._sign(match.group(), at)
            else:
                self._after(kind, match, at)
            if self.cells and kind not in ("number", "mute", "link", "slide", "open"):
                last = self.cells[-1]
                if last.end == at:
                    last.end = start + match.end()

    def _number(self, at: int, digits: str) -> None:
        """One fret up to 24, else a fret a digit: more than 24 frets no neck has."""
        if digits in _FRETS:
            self._add(at, _FRETS[digits], len(digits))
            return
        high = f"fret {shown(digits)[1:-1]}, and no neck goes beyond {FRETS}"
        what = "frets that begin with 0" if digits[0] == "0" else high
        self._doubts.warn(
            self._row.line.number, self._row.line.column(self._row.start + at),
            f"{what}: read as {len(digits)} notes of one digit each",
            "put a dash between notes that follow one another",
        )
        for offset, digit in enumerate(digits):
            self._add(at + offset, int(digit), 1).certainty = GUESS

    def _add(self, at: int, fret: int | None, digits: int) -> Cell:
        cell = Cell(at, fret, digits, self._index)
        if self._bracket:
            cell.opened = at - self._bracket_at
            self._bracketed(cell)
        for kind, certainty, place in self._before:
            cell.add(Mark(kind), certainty, place)
            cell.opened = max(cell.opened, at - place)
        self._before.clear()
        if self.cells and self.cells[-1].fret is None and self.cells[-1].end == at and fret is not None:
            cell.certainty = weaker(cell.certainty, GUESS)
        self._links.note(cell)
        self.cells.append(cell)
        return cell

    def _bracketed(self, cell: Cell) -> None:
        at, meaning = self._bracket_at, self._legend.get(self._bracket, "")
        last = self.cells[-1] if self.cells else None
        if meaning in ("harmonic", "pinch-harmonic", "ghost") or (self._bracket in _HARMONIC_OPENERS and not meaning):
            kind = MarkKind(meaning) if meaning else MarkKind.HARMONIC
            cell.add(Mark(kind), LIKELY if meaning else _HARMONIC_OPENERS[self._bracket], at)
        elif last is not None and last.fret == cell.fret and cell.fret is not None and self._held(last, at):
            last.add(Mark(MarkKind.TIE), GUESS if meaning != "tie" else LIKELY, at, cell)
        else:
            cell.add(Mark(MarkKind.GHOST), GUESS, at)

    def _held(self, last: Cell, at: int) -> bool:
        """Whether a bracket follows so close on a number that it holds it: one dash between, or a bar line."""
        between = self._body[last.end : at] if at - last.end < 12 else ""
        return between in ("-", "=", "==") or ("|" in between and not between.strip("-|:"))

    def _brackets(self, sign: str, at: int) -> None:
        if sign in "(<[{" and self._bracket == "":
            if sign == "<" and not self._closes(at):
                self._before.append((MarkKind.HARMONIC, GUESS, at))
                return
            self._bracket, self._bracket_at = sign, at
        elif sign in ")>]}" and self._bracket:
            self._bracket = ""
        elif sign == ">":
            self._accent(at)
        else:
            self._doubt(at, "a bracket is closed that was not opened", "open it before its number")

    def _closes(self, at: int) -> bool:
        return ">" in self._body[at : at + 8]

    def _accent(self, at: int) -> None:
        if self.cells and self.cells[-1].end == at:
            self.cells[-1].add(Mark(MarkKind.ACCENT), LIKELY, at)
        else:
            self._before.append((MarkKind.ACCENT, LIKELY, at))

    def _sign(self, sign: str, at: int) -> None:
        last = self.cells[-1] if self.cells and self.cells[-1].end == at else None
        digit_next = self._body[at + 1 : at + 2].isdigit()
        if sign in "tT" and (digit_next or last is None):
            self._before.append((MarkKind.TAP, LIKELY, at))
        elif sign in "tT" and last is not None:
            last.add(Mark(MarkKind.TAP), GUESS, at)
        elif sign == "g" and digit_next:
            self._before.append((MarkKind.GRACE, LIKELY, at))
        elif sign == "*" and (last is not None or digit_next):
            self._star(at, last)
        elif sign == "=":
            self._links.held(at, last)
        elif sign == "." and last is not None and not last.has(MarkKind.STACCATO):
            last.add(Mark(MarkKind.STACCATO), GUESS, at)
        elif sign == "+" and (last is not None or digit_next):
            self._plus(at, last)
        elif sign in "oO" and last is None and not digit_next:
            self._add(at, 0, 1).certainty = GUESS
            self._doubt(at, "the letter o stands for a number: read as 0", "write the digit 0")
        elif sign in ".':":
            return
        else:
            self._unknown(sign, at)

    def _star(self, at: int, last: Cell | None) -> None:
        kind = MarkKind.PINCH_HARMONIC if self._legend.get("*") == "pinch-harmonic" else MarkKind.HARMONIC
        if last is None:
            self._before.append((kind, GUESS, at))
        elif not last.has(kind):
            last.add(Mark(kind), LIKELY, at)

    def _plus(self, at: int, last: Cell | None) -> None:
        if last is None:
            self._before.append((MarkKind.TAP, GUESS, at))
        else:
            last.add(Mark(MarkKind.TAP), GUESS, at)

    def _after(self, kind: str, match: re.Match[str], at: int) -> None:
        """Bends, releases, trills and vibrato, which belong to the number before them."""
        last = self.cells[-1] if self.cells and 0 <= at - self.cells[-1].end <= (0 if kind == "trill" else 2) else None
        if last is None or last.fret is None:
            self._from_nowhere(kind, match, at)
        else:
            self._behind.give(kind, match, at, last)

    def _from_nowhere(self, kind: str, match: re.Match[str], at: int) -> None:
        """A sign without its number: read with the number after it where it says one, else left out."""
        written = (match["amount"] or "") if kind == "bend" else (match["other"] or "") if kind == "trill" else ""
        written = match.group()[1:] if kind == "release" else written
        number = written.strip("()")
        if number.isdigit() and number.isascii() and int(number) <= FRETS:
            place = at + match.group().index(number)
            mark = {"bend": MarkKind.BEND, "trill": MarkKind.TRILL, "release": MarkKind.RELEASE}[kind]
            cell = self._add(place, int(number), len(number))
            cell.certainty = GUESS
            cell.add(Mark(mark), GUESS, at)
            cell.end = at + len(match.group())
            return
        if kind == "shake" and "~" in match.group():
            return
        self._doubt(at, f"{shown(match.group())} has no number before it", "write it right behind its number")

    def _unknown(self, sign: str, at: int) -> None:
        self._doubts.error(
            self._row.line.number, self._row.line.column(self._row.start + at),
            f"the sign {shown(sign)} is not known on a row of tab: left out",
            "say in a legend what it means, or write a usual one",
        )

    def _doubt(self, at: int, message: str, mend: str) -> None:
        self._doubts.warn(self._row.line.number, self._row.line.column(self._row.start + at), message, mend)
