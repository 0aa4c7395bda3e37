"""Places -> rows of styled cells: the neck as the player sees it, thickest string at the top."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final, NamedTuple

from drills.notation.drawing import Canvas, Drawing, Role, Target

EMPTY: Final[Mapping[Any, Any]] = MappingProxyType({})

CAPO: Final = "┃"
WRONG_CAPO: Final = "×"
"""Texts of dots that stand for a capo across the strings: the right one, and where the learner put it."""

Place = tuple[int, int]
"""String and fret."""

INLAYS: Final = {3: "•", 5: "•", 7: "•", 9: "•", 12: "••", 15: "•", 17: "•", 19: "•", 21: "•", 24: "••"}
"""Where players find dots on the neck: common practice, no source."""

_ROOM: Final = 66
"""Cells for all the frets together, so that a neck of 12 frets fits beside its labels in 76."""
_HEAD: Final = 3
"""Cells before the nut, where open strings stand."""


class NeckView(NamedTuple):
    """What to draw of a neck, in playing position: looking down at it, thickest string at the top.

    Attributes:
        strings: how many.
        first, last: the frets shown; the nut is drawn when first is 0 or 1 (open strings stand before it).
        left_handed: nut at the right; the thickest string is still at the top.
        dots: text and role of each place (``("●", Role.LIT)``); fret 0 is the open string.
        lit_strings: strings drawn in another role over their whole length.
        keys: a key at a place, with the answer that it stands for.
        string_keys: a key at the end of a string, with the answer that it stands for.
        labels: a text for each string, string 1 first, written beside the nut; empty for none.
        heavy: how many of the last strings are drawn heavy, as wound strings are; None for all but three of
            six or more, and none of fewer.
    """

    strings: int
    first: int = 0
    last: int = 5
    left_handed: bool = False
    dots: Mapping[Place, tuple[str, Role]] = EMPTY
    lit_strings: Mapping[int, Role] = EMPTY
    keys: Mapping[Place, tuple[str, str]] = EMPTY
    string_keys: Mapping[int, tuple[str, str]] = EMPTY
    labels: tuple[str, ...] = ()
    heavy: int | None = None


def draw_neck(view: NeckView, *, width: int = 0) -> Drawing:
    """Draw a neck, with fret numbers under it and a dot at those where players find inlays.

    Places outside of ``first`` to ``last`` are left out, but for open strings where the nut is drawn.

    Args:
        view: what to draw.
        width: cells that there are; frets are drawn closer where they would not fit (0: as wide as is good).
    """
    board = _Board(view, width)
    for string in range(1, view.strings + 1):
        board.string(string)
    board.numbers()
    for (string, fret), (text, role) in view.dots.items():
        board.dot(string, fret, text, role)
    for (string, fret), (key, answer) in view.keys.items():
        board.key(string, fret, key, answer)
    for string, (key, answer) in view.string_keys.items():
        board.string_key(string, key, answer)
    return board.canvas.drawing()


class _Board:
    """The grid of a neck: columns are counted from the labels on, and mirrored last for left-handed."""

    def __init__(self, view: NeckView, width: int) -> None:
        self.view = view
        self.canvas = Canvas()
        self.frets = range(max(view.first, 1), view.last + 1)
        self.pitch = max(3, min(6, _ROOM // max(len(self.frets), 1)))
        self.has_nut = view.first <= 1
        self.label = max(map(len, view.labels), default=-1) + 1
        self.nut = self.label + (_HEAD if self.has_nut else 1)
        keys = max((len(key) + 1 for key, _ in view.string_keys.values()), default=0)
        if width:
            self.pitch = max(2, min(self.pitch, (width - self.nut - 2 - keys) // max(len(self.frets), 1)))
        self.end = self.nut + self.pitch * len(self.frets)
        self.width = self.end + 2 + keys

    def row(self, string: int) -> int:
        """The last string is at the top."""
        return self.view.strings - string

    def put(self, row: int, column: int, text: str, role: Role) -> None:
        """Write, mirrored where the player is left-handed."""
        self.canvas.put(row, self.place(column, len(text)), text, role)

    def place(self, column: int, width: int) -> int:
        """The left column of something that wide."""
        return self.width - column - width if self.view.left_handed else column

    def cell(self, fret: int) -> tuple[int, int]:
        """First column and width of a fret's space; of the room before the nut for fret 0."""
        if fret == 0:
            return self.label, _HEAD
        return self.nut + 1 + (fret - self.frets[0]) * self.pitch, self.pitch - 1

    def shows(self, fret: int) -> bool:
        """Whether that fret is in the picture."""
        return fret in self.frets or (fret == 0 and self.has_nut)

    def string(self, string: int) -> None:
        """A string from the nut on, with the wires that it crosses."""
        view, row = self.view, self.row(string)
        heavy = view.heavy if view.heavy is not None else max(0, view.strings - 3) * (view.strings >= 6)
        role = view.lit_strings.get(string, Role.LINE)
        line, cross = ("─", "┼") if string <= view.strings - heavy else ("━", "┿")
        if role is not Role.LINE:
            line, cross = ("┄", "┼") if role is Role.SAID else ("═", "╪")
        if view.labels:
            self.put(row, 0, view.labels[string - 1], Role.LABEL)
        self.put(row, self.label, " " * (self.nut - self.label), Role.BLANK)
        start = self.nut if self.has_nut else self.nut - 1
        self.put(row, start, line * (self.end + 2 - start), role)
        for number in range(len(self.frets) + 1):
            self.put(row, self.nut + number * self.pitch, cross, Role.BAR)
        if self.has_nut:
            self.put(row, self.nut, "║", Role.BAR)

    def numbers(self) -> None:
        """Fret numbers under the spaces, with the inlays beside them."""
        for fret in self.frets:
            column, width = self.cell(fret)
            if len(str(fret)) > width and fret not in INLAYS:
                continue
            self.centred(self.view.strings, fret, str(fret), Role.LABEL)
            middle = column + (width - len(str(fret))) // 2
            inlay = INLAYS.get(fret, "")
            if len(str(fret) + inlay) <= width:
                after = middle + len(str(fret)) if not self.view.left_handed else middle - len(inlay)
                self.put(self.view.strings, after, inlay, Role.LINE)

    def centred(self, row: int, fret: int, text: str, role: Role) -> None:
        """Write in the middle of a fret's space."""
        column, width = self.cell(fret)
        self.put(row, column + (width - len(text)) // 2, text, role)

    def dot(self, string: int, fret: int, text: str, role: Role) -> None:
        """A dot or a text on a string."""
        if self.shows(fret):
            self.centred(self.row(string), fret, text, role)

    def key(self, string: int, fret: int, key: str, answer: str) -> None:
        """A key on a string, clickable over its whole space."""
        if self.shows(fret):
            self.centred(self.row(string), fret, key, Role.KEY)
            column, width = self.cell(fret)
            self.canvas.target(Target(self.row(string), self.place(column, width), 1, width, answer))

    def string_key(self, string: int, key: str, answer: str) -> None:
        """A key at the free end of a string, clickable over the whole string."""
        self.put(self.row(string), self.end + 3, key, Role.KEY)
        self.canvas.target(Target(self.row(string), 0, 1, self.width, answer))
