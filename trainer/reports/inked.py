"""A drawing on standard output: in colour on a terminal that wants it, else as plain rows."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable
from typing import Final

from drills.notation.drawing import Drawing, Role
from trainer.reports import knows_signs, print_lines

NARROWEST: Final = 40
WIDEST: Final = 400
"""Cells that a drawing is given at least and at most, whatever the terminal says."""

_STYLES: Final = {
    Role.LINE: "dim", Role.BAR: "dim", Role.LABEL: "dim", Role.FRET: "bold", Role.MARK: "cyan",
}  # fmt: skip
"""Out of the terminal's own colours, which fit its ground: lines stand back, numbers stand out."""


def room() -> int:
    """Cells in a row: the terminal's, or those that COLUMNS says, or 80."""
    return max(NARROWEST, min(shutil.get_terminal_size((80, 24)).columns, WIDEST))


def print_drawings(drawings: Iterable[tuple[str, Drawing]]) -> None:
    """Drawings one under another, each under its heading."""
    draw = _print_coloured if _coloured() else _print_plain
    for heading, drawing in drawings:
        print_lines(["", heading])
        draw(drawing if knows_signs() else drawing.ascii())


def _coloured() -> bool:
    """Whether somebody looks on who wants colours (https://no-color.org: a variable that is not empty)."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _print_plain(drawing: Drawing) -> None:
    print_lines(drawing.text())


def _print_coloured(drawing: Drawing) -> None:
    from rich.console import Console  # only where it is looked at
    from rich.text import Text

    console = Console(file=sys.stdout, highlight=False, markup=False, emoji=False)
    for row in drawing.rows:
        text = Text.assemble(*((span.text, _STYLES.get(span.role, "")) for span in row), no_wrap=True, end="\n")
        console.print(text, crop=False, overflow="ignore", soft_wrap=True)
