"""One row at the top: the day, or how much of the sitting is left, or that answers are not being saved."""

from __future__ import annotations

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from trainer import themes


class TimeLine(Widget):
    """A quiet line that shortens as the sitting goes on; it gives way to a warning."""

    DEFAULT_CSS = "TimeLine { height: 1; width: 1fr; color: $foreground 60%; }"

    def __init__(self, *, ascii_only: bool = False, id: str | None = None) -> None:
        super().__init__(id=id)
        self._total = self._left = 1.0
        self._said: str | None = None
        self._words: tuple[str, ...] = ()
        self._warning: str | None = None
        self._signs = ("=", "-") if ascii_only else ("━", "─")

    def say(self, text: str) -> None:
        """Show a text instead of the time."""
        self._said = text
        self.refresh()

    def left(self, seconds: float, total: float) -> None:
        """So many seconds are left of so many."""
        self._said, self._left, self._total, self._words = None, seconds, max(total, 1.0), ()
        self.refresh()

    def remark(self, *words: str) -> None:
        """A word on the question, at the other end of the line: the first that is not too long for it, else as much of
        the last as there is room for; the time gives way to it."""
        if words != self._words:
            self._words = words
            self.refresh()

    def warn(self, warning: str | None) -> None:
        """Say that something is wrong, until it is not."""
        self._warning = warning
        self.refresh()

    def render_line(self, y: int) -> Strip:
        width, style = self.size.width, self.rich_style
        if self._warning or self._said is not None:
            text = f" {_as_fits(self._warning, width - 1) if self._warning else self._said}"[:width]
            look = themes.bold(self.app.theme_variables["error"]) if self._warning else Style()
            return Strip([Segment(text, style + look)]).adjust_cell_length(width, style)
        minutes = round(self._left / 60)
        label = f" {minutes} min left " if minutes else " nearly done "
        words = [f" {word} " for word in self._words if word]
        word = next((word for word in words if cell_len(word) <= width), words[-1] if words else "")
        if cell_len(word) + cell_len(label) > width:
            label = ""
        room = max(0, width - cell_len(word) - cell_len(label))
        done = round(room * (1 - min(1.0, self._left / self._total)))
        line = self._signs[0] * done + self._signs[1] * (room - done)
        return Strip([Segment(word + line + label, style)]).adjust_cell_length(width, style)


def _as_fits(warning: str, width: int) -> str:
    """What is wrong, where, and how to mend it; as much of it as is whole in so many cells."""
    for end in ("", " (", ", "):
        part = warning.partition(end)[0] if end else warning
        if len(part) <= width:
            return part
    return warning
