"""Rows of styled cells: what a staff or a neck looks like, before any screen knows of it."""

from __future__ import annotations

from enum import StrEnum
from typing import Final, NamedTuple


class Role(StrEnum):
    """What a cell is; the screen gives each role its look."""

    BLANK = "blank"
    LINE = "line"
    """A line of the staff, or a string of the neck."""
    BAR = "bar"
    """A bar line, a fret wire, the nut, a stem or a beam."""
    FRET = "fret"
    """A number on the staff, a dot on the neck."""
    MARK = "mark"
    """An arc and its letter, a diagonal, an arrow and its amount."""
    LABEL = "label"
    """Names or numbers beside the lines, fret numbers under the neck."""
    COUNT = "count"
    """The count line under the staff."""
    LIT = "lit"
    """What the question is about."""
    SAID = "said"
    """What the learner answered, where it was wrong."""
    TRUE = "true"
    """What was right."""
    KEY = "key"
    """A key that may be pressed, or clicked, for this place."""


class Span(NamedTuple):
    """A run of characters of one role."""

    text: str
    role: Role


class Target(NamedTuple):
    """A part of a drawing that stands for an answer: clicking it gives that answer.

    Rows and columns count from 0; ``height`` rows by ``width`` columns.
    """

    row: int
    column: int
    height: int
    width: int
    answer: str


Row = tuple[Span, ...]


class Drawing(NamedTuple):
    """A drawn staff or neck.

    Attributes:
        rows: top row first; every character is one cell wide.
        targets: the clickable parts; where two overlap the first counts.
    """

    rows: tuple[Row, ...]
    targets: tuple[Target, ...] = ()

    @property
    def width(self) -> int:
        """Cells in the longest row."""
        return max((sum(len(span.text) for span in row) for row in self.rows), default=0)

    @property
    def height(self) -> int:
        """Rows."""
        return len(self.rows)

    def text(self) -> list[str]:
        """The bare characters, a string a row, without trailing blanks."""
        return ["".join(span.text for span in row).rstrip() for row in self.rows]

    def ascii(self) -> Drawing:
        """The same in plain ASCII, for terminals that know nothing else."""
        return Drawing(tuple(_plain(row) for row in self.rows), self.targets)


class Canvas:
    """A growing grid of cells to draw on. Later strokes cover earlier ones."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], tuple[str, Role]] = {}
        self._targets: list[Target] = []

    def put(self, row: int, column: int, text: str, role: Role) -> None:
        """Write characters from (row, column) on to the right; negative places are left out."""
        for offset, character in enumerate(text):
            if row >= 0 and column + offset >= 0:
                self._cells[row, column + offset] = (character, role)

    def at(self, row: int, column: int) -> str:
        """The character that stands there; a blank where nothing was drawn."""
        return self._cells.get((row, column), (" ", Role.BLANK))[0]

    @property
    def height(self) -> int:
        """Rows from row 0 to the last one that was written to."""
        return max((row for row, _ in self._cells), default=-1) + 1

    def target(self, target: Target) -> None:
        """Make a part of the drawing clickable."""
        self._targets.append(target)

    def drawing(self) -> Drawing:
        """What has been drawn, from row 0 to the last row that was written to."""
        rows: list[list[tuple[int, str, Role]]] = [[] for _ in range(self.height)]
        for (row, column), (character, role) in self._cells.items():
            rows[row].append((column, character, role))
        return Drawing(tuple(_spans(sorted(cells)) for cells in rows), tuple(self._targets))


def _spans(cells: list[tuple[int, str, Role]]) -> Row:
    """One row's cells, gaps filled with blanks, as runs of one role."""
    spans: list[Span] = []
    run: list[str] = []
    kind = Role.BLANK
    end = 0
    for column, character, role in cells:
        if role is not kind or column != end:
            if run:
                spans.append(Span("".join(run), kind))
            if column > end:
                spans.append(Span(" " * (column - end), Role.BLANK))
            run, kind = [], role
        run.append(character)
        end = column + 1
    if run:
        spans.append(Span("".join(run), kind))
    return tuple(spans)


def _plain(row: Row) -> Row:
    """A row in ASCII. A part of a step takes the place of blanks at its right, and the ``g`` that tells a small number
    that of the line at its left, so that columns stay."""
    cells: list[tuple[int, str, Role]] = []
    end = 0
    for column, (character, role) in enumerate((c, span.role) for span in row for c in span.text):
        text = character.translate(TO_ASCII)
        text = text if text.isascii() else "?"
        if character in PARTS:
            text = (" " if cells and cells[-1][1].isdigit() and end == column else "") + PARTS[character]
        if character in SMALL and cells and cells[-1][1] in "- ":
            cells[-1] = (cells[-1][0], "g", Role.MARK)
        if character == " " and column < end:
            continue
        for offset, sign in enumerate(text):
            cells.append((max(column, end) + offset, sign, role))
        end = max(column, end) + len(text)
    return _spans(cells)


PARTS: Final = {"¼": "1/4", "½": "1/2", "¾": "3/4"}
"""How ASCII writes a part of a whole step."""

SMALL: Final = "⁰¹²³⁴⁵⁶⁷⁸⁹"
"""Digits of a grace note."""

TO_ASCII: Final = str.maketrans(
    {
        "─": "-", "━": "-", "═": "=", "│": "|", "┃": "|", "║": "|", "╭": ".", "╮": ".", "╯": "'", "╰": "`",
        "╱": "/", "╲": "\\", "▲": "^", "△": "^", "●": "o", "○": "o", "┼": "+", "╫": "|", "╂": "|", "┿": "+",
        "╪": "+", "├": "|", "┤": "|", "┬": "+", "┴": "+", "┌": "+", "┐": "+", "└": "+", "┘": "+", "·": ".",
        "╒": "+", "╤": "+", "╕": "+",
        "•": "*", "✓": "+", "✗": "x", "→": ">", "←": "<", "↑": "^", "↓": "v",
        "▌": "|", "▐": "|", "█": "#", "░": ".", "▒": ":", "▓": "%", "…": ".", "—": "-", "–": "-", "▼": "v",
        "╌": "-", "╴": "-", "╶": "-", "┄": "~", "♯": "#", "♭": "b",
        **{small: str(digit) for digit, small in enumerate(SMALL)},
        "’": "'", "“": '"', "”": '"', "×": "x", "▸": ">", "◂": "<", "▄": "w", "▀": "h", "¥": "z",
    }
)  # fmt: skip
"""One ASCII character for each sign that we draw. A heavy line is only a hint and may vanish, a double may not."""
