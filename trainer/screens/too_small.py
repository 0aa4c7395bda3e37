"""What stands in a window that is too small for a staff."""

from __future__ import annotations

from typing import Final

from textual.app import ComposeResult
from textual.screen import ModalScreen

from trainer import commands
from trainer.screens.base import Plain, bindings

WIDTH: Final = 40
HEIGHT: Final = 12


class TooSmall(ModalScreen[None]):
    """Says what is needed; it goes away as soon as there is room."""

    BINDINGS = bindings(commands.SMALL)
    _gone = False

    def compose(self) -> ComposeResult:
        yield Plain(id="small")

    def on_mount(self) -> None:
        self.on_resize()

    def on_resize(self) -> None:
        width, height = self.app.size
        self.query_one("#small", Plain).update(f"Sixline needs {WIDTH}x{HEIGHT}; this is {width}x{height}. q leaves.")
        self._leave()

    def on_screen_resume(self) -> None:
        """Another screen that was over this one is gone."""
        self._leave()

    async def action_quit(self) -> None:
        """Quit; the app keeps everything."""
        await self.app.action_quit()

    def _leave(self) -> None:
        if self.app.screen is self and fits(*self.app.size) and not self._gone:
            self._gone = True
            self.dismiss()


def fits(width: int, height: int) -> bool:
    """Whether a window is large enough."""
    return width >= WIDTH and height >= HEIGHT
