"""Whether the seconds of an answer prove anything: only where the learner could look at the question all the time."""

from __future__ import annotations

from textual.screen import Screen

from trainer.screens.way import Way


class Attention:
    """Is lost when the window loses the focus, the program is suspended, or another screen comes over the question."""

    def __init__(self, screen: Screen[None]) -> None:
        self._screen = screen
        self._way: Way | None = None
        self.kept = True
        """Since the question was put."""

    def watch(self) -> None:
        """Begin to look out; call it once the screen is mounted."""
        self._screen.app.app_suspend_signal.subscribe(self._screen, lambda _: self.lose())
        self._screen.watch(self._screen.app, "app_focus", self._look_away, init=False)

    def begin(self, way: Way) -> None:
        """A question is put: it may be that nobody looks even now."""
        self._way = way
        self.kept = self._screen.app.app_focus and self._screen.app.screen is self._screen

    def lose(self) -> None:
        """The question cannot be seen: the seconds prove nothing any more, and a pulse beats for nobody."""
        self.kept = False
        if self._way is not None:
            self._way.interrupt()

    def _look_away(self, focus: bool) -> None:
        if not focus:
            self.kept = False
