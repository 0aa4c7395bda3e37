"""Rows of text with a shade for each state, drawn line by line: a page of many short runs is quick to show."""

from __future__ import annotations

from typing import ClassVar, NamedTuple

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from trainer.schedule.status import Status


class Look(NamedTuple):
    """Styles: of each state's sign, of lines, of quiet text, of titles, of all other text."""

    shades: dict[Status, Style]
    line: Style
    label: Style
    title: Style
    text: Style


class Rows:
    """Rows of styled runs, written from left to right; every sign is one cell wide."""

    def __init__(self) -> None:
        self.rows: list[list[Segment]] = [[]]

    def add(self, text: str, style: Style) -> None:
        """Go on with a text; a line break in it begins a new row."""
        first, *more = text.split("\n")
        if first:
            self.rows[-1].append(Segment(first, style))
        for line in more:
            self.rows.append([Segment(line, style)] if line else [])

    def add_rows(self, other: Rows) -> None:
        """Go on with other rows, the first of them in a row of its own."""
        self.rows += other.rows


class Sheet(Widget):
    """As high as its rows."""

    DEFAULT_CSS = """
    Sheet { height: auto; width: 1fr; padding: 0 1; }
    Sheet > .shade--new { color: $foreground 60%; }
    Sheet > .shade--shaky { color: $foreground 90%; }
    Sheet > .shade--known { color: $accent; }
    Sheet > .shade--fluent { color: $primary; }
    Sheet > .shade--kept { color: $primary; text-style: bold; }
    Sheet > .shade--line { color: $foreground 50%; }
    Sheet > .shade--label { color: $foreground 70%; }
    Sheet > .shade--title { color: $foreground; text-style: bold; }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        *(f"shade--{state}" for state in Status), "shade--line", "shade--label", "shade--title",
    }  # fmt: skip

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._strips: list[Strip] = []

    def look(self) -> Look:
        """The styles of the theme that is on."""
        style = self.get_component_rich_style
        return Look(
            {state: style(f"shade--{state}") for state in Status},
            style("shade--line"), style("shade--label"), style("shade--title"), self.rich_style,
        )  # fmt: skip

    def show(self, rows: Rows) -> None:
        """Draw these from now on."""
        self._strips = [Strip(row, sum(len(run.text) for run in row)) for row in rows.rows]
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """One row each; none is wrapped."""
        return len(self._strips)

    def render_line(self, y: int) -> Strip:
        """One row, filled up to the width."""
        strip = self._strips[y] if y < len(self._strips) else Strip([], 0)
        return strip.adjust_cell_length(self.size.width, self.rich_style)
