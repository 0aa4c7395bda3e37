"""Lines over and under a system: what is muted, rings, is accented, tapped, bent how far, and which chords."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from fractions import Fraction
from typing import Final, NamedTuple

from drills.notation.reading.amounts import bend_amount
from drills.notation.reading.cells import Cell
from drills.notation.reading.columns import Struck
from drills.notation.reading.lines import Line
from drills.notation.reading.shapes import Certainty
from drills.notation.score import Mark, MarkKind

SURE, LIKELY, GUESS = Certainty.SURE, Certainty.LIKELY, Certainty.GUESS

_RUN: Final = r"(?:(?: ?[-_.~=–]){1,400})?[|>+]?"
_SPANS: Final = (
    (re.compile(rf"(?<![A-Za-z])(?:P\.? ?M\.?|p\.m\.|pm|palm[ -]?muted?)(?![A-Za-z]){_RUN}"), MarkKind.PALM_MUTE),
    (re.compile(rf"(?<![A-Za-z])l(?:et|\.) ?r(?:ing|\.)(?![A-Za-z]){_RUN}", re.I), MarkKind.LET_RING),
    (re.compile(rf"(?<![A-Za-z])(?:N\.? ?H\.?|[Hh]arm(?:\.|onics?)?)(?![A-Za-z]){_RUN}"), MarkKind.HARMONIC),
    (re.compile(rf"(?<![A-Za-z])(?:[PA]\.? ?H\.?)(?![A-Za-z]){_RUN}"), MarkKind.PINCH_HARMONIC),
)
_WORDS: Final = re.compile(r"[PpNA]\.? ?[MmHh]|[Pp]alm|[Ll](?:et|\.) ?[Rr]|[Hh]arm", re.I)
"""What every one of them begins with, or holds."""
_WORTH: Final = re.compile(r"[PpNAlLhHsS~>^.TtfF/½¼0-9]")
_CHORD: Final = re.compile(
    r"\(?(?:N\.?C\.?|[A-H][#b]?(?:maj|min|mi|m|M|dim|aug|sus|add|no|[0-9]|\+|-|#|b|\(|\)|°|ø|Δ)*(?:/[A-H][#b]?)?)\)?\*?"
)
_TOKEN: Final = re.compile(r"[^ ]+")
_BEND: Final = re.compile(r"full|half|[0-3]?(?:1/2|1/4|3/4)|[1-3]?[½¼¾]|[12]")
_TIMES: Final = re.compile(r"[(\[]?(?:[xX] ?([0-9]{1,2})|([0-9]{1,2}) ?(?:[xX]|times))[)\]]?")
_PLAYED: Final = re.compile(
    r"(?:\b[Pp]lay|\b[Rr]epeat)[^0-9\n]{0,16}([0-9]{1,2}) ?(?:x|times)"
    r"|(?<![A-Za-z0-9])[(\[]?(?:[xX] ?([0-9]{1,2})|([0-9]{1,2}) ?[xX])[)\]]?(?![A-Za-z0-9])"
)


_SLURS: Final[dict[str, tuple[MarkKind | None, MarkKind | None]]] = {
    **dict.fromkeys(("h", "H"), (MarkKind.HAMMER_ON, None)),
    **dict.fromkeys(("p", "P"), (None, MarkKind.PULL_OFF)),
    **dict.fromkeys(("sl.", "sl", "S.", "s"), (MarkKind.SLIDE_UP, MarkKind.SLIDE_DOWN)),
}
"""Letters over an arc -> the mark where the second note is higher, and where it is lower."""


class Spanned(NamedTuple):
    """A sign over several onsets: from one place to another, bar and onset in the system."""

    kind: MarkKind
    first: tuple[int, int]
    certainty: Certainty
    line: Line
    at: int


class Staff(NamedTuple):
    """Where the onsets of a system stand.

    Attributes:
        struck: bars of onsets of cells.
        columns: the column of each onset, in the file's characters, rising.
        places: bar and onset of each.
    """

    struck: Struck
    columns: list[int]
    places: list[tuple[int, int]]

    def cells(self, index: int) -> list[Cell]:
        """The notes of an onset by its index in ``columns``."""
        bar, onset = self.places[index]
        return self.struck[bar][onset]

    def nearest(self, column: int, reach: int = 1) -> int | None:
        """The index of the onset nearest to a column, within reach."""
        at = bisect_left(self.columns, column)
        found = [i for i in (at - 1, at) if 0 <= i < len(self.columns) and abs(self.columns[i] - column) <= reach]
        return min(found, key=lambda i: abs(self.columns[i] - column), default=None)


def staff_of(struck: Struck, base: int) -> Staff:
    """The onsets of a system whose left edge stands at character ``base``."""
    columns: list[int] = []
    places: list[tuple[int, int]] = []
    for bar, onsets in enumerate(struck):
        for index, cells in enumerate(onsets):
            columns.append(base + cells[0].column)
            places.append((bar, index))
    return Staff(struck, columns, places)


def read_over(line: Line, staff: Staff) -> tuple[list[Spanned], list[tuple[int, str]]]:
    """Give the notes of a system the signs of a line next to it.

    Returns:
        The signs that stand over several onsets, and the chord names with their columns.
    """
    text = line.text
    if not staff.columns or _WORTH.search(text) is None:
        return [], chords_of(text)
    spanned: list[Spanned] = []
    for pattern, kind in _SPANS if _WORDS.search(text) is not None else ():
        for match in pattern.finditer(text):
            found = _span(match, kind, staff)
            if found:
                spanned.append(Spanned(kind, staff.places[found[0]], found_certainty(match), line, match.start()))
        text = pattern.sub(lambda found: " " * len(found.group()), text) if spanned else text
    chords = chords_of(text)
    if not chords:
        _signs(text, staff)
    return [span for span in spanned if span.kind in (MarkKind.PALM_MUTE, MarkKind.LET_RING)], chords


def found_certainty(match: re.Match[str]) -> Certainty:
    """A span with its dashes is sure, a bare word may mean more than the note under it."""
    return SURE if match.group()[-1] in "-_.~=|>" and len(match.group()) > 4 else LIKELY


def _span(match: re.Match[str], kind: MarkKind, staff: Staff) -> list[int]:
    """Mark the notes from the first letter of a word to the end of its dashes; a bare word marks the nearest onset."""
    start, end = match.start(), match.end()
    first = bisect_left(staff.columns, start)
    exact = first < len(staff.columns) and staff.columns[first] <= start + 1
    if first and staff.columns[first - 1] == start - 1 and not exact:
        first -= 1
    found = list(range(first, max(first, bisect_left(staff.columns, end))))
    if match.group().rstrip(".")[-1:].isalpha():
        near = staff.nearest(start, 2)
        found = [near] if near is not None else found[:1]
    for index in found:
        for cell in staff.cells(index):
            _give(cell, kind, match)
    return found


def _give(cell: Cell, kind: MarkKind, match: re.Match[str]) -> None:
    harmonic = kind in (MarkKind.HARMONIC, MarkKind.PINCH_HARMONIC)
    if cell.signs is not None and harmonic:
        cell.signs = [
            sign for sign in cell.signs if sign.mark.kind not in (MarkKind.GHOST, MarkKind.HARMONIC)
        ] or None
    if not cell.has(kind):
        cell.add(Mark(kind), LIKELY if harmonic else found_certainty(match), -1)


def chords_of(text: str) -> list[tuple[int, str]]:
    """Chord names and their columns, where a line holds nothing else."""
    found = [(match.start(), match.group()) for match in _TOKEN.finditer(text)] if len(text) < 2000 else []
    names = [(at, word) for at, word in found if word not in ("|", "||", "-", "/", "%", "x2")]
    if names and all(_CHORD.fullmatch(word) and len(word) < 16 for _, word in names):
        return names
    return []


def _signs(text: str, staff: Staff) -> None:
    """Accents, dots, taps, waves, trills and amounts of bends, where a line holds nothing else."""
    words = [(match.start(), match.group()) for match in _TOKEN.finditer(text)]
    if not words or not all(_known(word) for _, word in words):
        return
    for at, word in words:
        index = staff.nearest(at, 1)
        if _BEND.fullmatch(word):
            _amount(word, at, staff)
        elif word in _SLURS:
            _slur(word, at, staff)
        elif index is None or word == "|":
            continue
        elif word == ">":
            _each(staff, index, Mark(MarkKind.ACCENT), LIKELY)
        elif word == "." and staff.columns[index] == at:
            _each(staff, index, Mark(MarkKind.STACCATO), GUESS)
        elif word in ("T", "t"):
            _each(staff, index, Mark(MarkKind.TAP), LIKELY)
        elif word.startswith("tr"):
            _each(staff, index, Mark(MarkKind.TRILL), LIKELY)
        elif word.startswith("~"):
            _each(staff, index, Mark(MarkKind.VIBRATO), LIKELY)


def _known(word: str) -> bool:
    if word in (">", ".", "T", "t", "|", "^") or word in _SLURS or word.startswith("~"):
        return True
    return _BEND.fullmatch(word) is not None or (word.startswith("tr") and not word[2:].strip("~."))


def _slur(word: str, at: int, staff: Staff) -> None:
    """A letter between two notes of one string, or over the first or the second of them, as print has it on an arc."""
    for right in dict.fromkeys((bisect_right(staff.columns, at), bisect_left(staff.columns, at))):
        if 0 < right < len(staff.columns):
            first, second = staff.cells(right - 1), staff.cells(right)
            if len(first) == len(second) == 1 and _slurred(word, first[0], second[0]):
                return


def _slurred(word: str, first: Cell, second: Cell) -> bool:
    if first.row != second.row or first.signs is not None or first.fret is None or second.fret is None:
        return False
    up, down = _SLURS[word]
    kind = up if second.fret > first.fret else down if second.fret < first.fret else None
    if kind is None:
        return False
    first.add(Mark(kind), LIKELY, -1, second)
    return True


def _each(staff: Staff, index: int, mark: Mark, certainty: Certainty) -> None:
    for cell in staff.cells(index):
        if not cell.has(mark.kind):
            cell.add(mark, certainty, -1)


def _amount(word: str, at: int, staff: Staff) -> None:
    """The amount of a bend that does not tell its own, in reach of a word such as ``full``."""
    first, end = bisect_left(staff.columns, at - 5), bisect_left(staff.columns, at + 3)
    for index in sorted(range(first, end), key=lambda index: abs(staff.columns[index] - at)):
        for cell in staff.cells(index):
            for sign in cell.signs or ():
                if sign.mark.kind in (MarkKind.BEND, MarkKind.PRE_BEND) and sign.mark.amount is None:
                    amount = Fraction(word) if word.isdigit() else bend_amount(word, 99)
                    sign.mark, sign.certainty = sign.mark._replace(amount=amount), LIKELY
                    return


def times_of(text: str) -> int | None:
    """How often a system is played, by a remark such as ``x4``, ``(2x)`` or ``play 3 times``."""
    match = _PLAYED.search(text[:200])
    number = next((int(group) for group in match.groups() if group), None) if match else None
    return number if number is not None and 2 <= number <= 64 else None


def times_over(text: str) -> tuple[int, int] | None:
    """The column of a bare ``x4`` over a system, and its number."""
    words = [(match.start(), match.group()) for match in _TOKEN.finditer(text)] if len(text) < 2000 else []
    for at, word in words:
        match = _TIMES.fullmatch(word)
        if match and 2 <= int(match[1] or match[2]) <= 64:
            return at, int(match[1] or match[2])
    return None
