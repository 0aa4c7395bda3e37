"""One row at the top: how much of the sitting is left, and whether answers are being saved."""

from __future__ import annotations

from rich.text import Text
from textual.widgets import Static


class TimeLine(Static):
    """A quiet line that shortens as the sitting goes on; it gives way to a warning."""

    DEFAULT_CSS = "TimeLine { height: 1; width: 1fr; color: $foreground 60%; }"

    def __init__(self, total: float, *, ascii_only: bool = False, id: str | None = None) -> None:
        super().__init__(id=id, markup=False)
        self._total = max(total, 1.0)
        self._left = self._total
        self._warning: str | None = None
        self._signs = ("=", "-") if ascii_only else ("━", "─")

    def left(self, seconds: float) -> None:
        """So many seconds are left."""
        self._left = seconds
        self._draw()

    def warn(self, warning: str | None) -> None:
        """Say that something is wrong, until it is not."""
        self._warning = warning
        self._draw()

    def on_resize(self) -> None:
        self._draw()

    def _draw(self) -> None:
        if self._warning:
            self.update(Text(f" {self._warning}", style=f"bold {self.app.theme_variables['error']}", no_wrap=True))
            return
        minutes = round(self._left / 60)
        label = f" {minutes} min left " if minutes else " nearly done "
        room = max(0, self.size.width - len(label) - 1)
        done = round(room * (1 - min(1.0, self._left / self._total)))
        full, rest = self._signs
        self.update(Text.assemble((full * done, "bold"), rest * (room - done), label))
