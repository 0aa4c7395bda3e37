"""Ten keys: how fast the hand is, so that only the thinking is timed."""

from __future__ import annotations

import random
from statistics import median

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical

from trainer import commands
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.messages import stamp
from trainer.widgets.heading import balanced
from trainer.widgets.hints import Hints

TRIALS = 10
KEYS = "123456abcdefg"
CAP = "╭─────╮\n│  {}  │\n╰─────╯"
"""A key, as it is drawn."""
TOLD = (
    "Press the key that is shown, as soon as you see it. "
    "It measures the hand, so that a slow key is never taken for slow reading."
)


WEEK = 7
"""Days after which the hand is measured again."""


def due(measured: int | None, day: int) -> bool:
    """Whether it is time to measure, with the practice day on which that was last done, if ever."""
    return measured is None or day - measured >= WEEK


class Baseline(Place):
    """Press the key that is shown, ten times. Dismissed with the median in seconds, or None."""

    PLACES = (commands.KEY_SPEED,)
    BINDINGS = bindings(*PLACES)

    def __init__(self, rng: random.Random) -> None:
        super().__init__()
        self._rng = rng
        self._seconds: list[float] = []
        self._key = ""
        self._shown = 0.0

    def compose(self) -> ComposeResult:
        yield Plain("Sixline   how fast are your keys?", id="date")
        with Vertical(id="middle"):
            yield Plain(id="key")
            yield Plain(id="told")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        self._key = self._rng.choice([key for key in KEYS if key != self._key])
        self.query_one("#key", Plain).update(CAP.format(self._key))
        told = "\n".join(balanced(TOLD, min(76, self.app.size.width - 2)))
        self.query_one("#told", Plain).update(f"{told}\n\n{TRIALS - len(self._seconds)} to go")
        self._shown = stamp()
        self.call_after_refresh(self._start)

    def _start(self) -> None:
        self._shown = stamp()

    def on_key(self, event: events.Key) -> None:
        if event.character != self._key:
            return
        event.stop()
        self._seconds.append(max(0.0, event.time - self._shown))
        if len(self._seconds) < TRIALS:
            self._show()
        else:
            self.dismiss(round(median(self._seconds), 2))

    def action_leave(self) -> None:
        self.dismiss(None)
