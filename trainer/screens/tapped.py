"""A written bar is tapped with the space bar, against a pulse that is seen."""

from __future__ import annotations

from typing import Final

from textual import events
from textual.timer import Timer

from drills.tapping import Tapping
from trainer.screens.messages import stamp
from trainer.screens.way import Answered
from trainer.widgets.answer_bar import AnswerBar

BOUNCE: Final = 0.04
"""Seconds within which a second tap is the same one: a key that repeats, or bounces. A sixteenth at the fastest
pulse that is asked lasts more than three times as long."""

START: Final = "Space starts the pulse. It counts you in; then tap every note with Space."
AGAIN: Final = "No tap came. Space starts the pulse again."


class Tapped:
    """One bar to tap: a key starts the pulse, which counts in; what is tapped after that is the answer.

    Only the wait before the pulse is counted as the learner's time.
    """

    def __init__(self, tapping: Tapping, bar: AnswerBar, answered: Answered) -> None:
        self._tapping = tapping
        self._bar = bar
        self._answered = answered
        self._shown_at = stamp()
        self._seconds: float | None = None
        self._began: float | None = None
        self._taps: list[float] = []
        self._pulses = 0
        self._timer: Timer | None = None
        bar.tell([START], "tap")

    def drawn(self) -> None:
        """The time begins with the picture."""
        self._shown_at = stamp()

    async def key(self, event: events.Key) -> None:
        """Space, or Enter, starts the pulse and then taps; Backspace starts over."""
        if event.key == "backspace":
            event.stop()
            self.interrupt()
        elif event.key in ("space", "enter"):
            event.stop()
            self._hit(event.time)

    def wants(self, event: events.Key) -> bool:
        """Nothing is typed here."""
        return False

    async def click(self, answer: str, time: float) -> None:
        """A click under the staff does what Space does."""
        self._hit(time)

    def interrupt(self) -> None:
        """Nobody taps what cannot be seen: the pulse stops, and can be started again."""
        if self._began is not None:
            self.stop()
            self._bar.tell([START], "tap")

    def stop(self) -> None:
        """The pulse stops, and what was tapped is forgotten."""
        if self._timer is not None:
            self._timer.stop()
        self._timer = self._began = None
        self._taps = []

    @property
    def _bar_begins(self) -> float:
        """When the written bar begins, after the count-in, in seconds after the pulse began."""
        return self._tapping.lead_in * self._tapping.pulse

    def _hit(self, time: float) -> None:
        if self._began is None:
            self._start(time)
            return
        tap = time - self._began
        early = tap < self._bar_begins - self._tapping.pulse / 2  # tapping along with the count-in is no answer
        if not early and (not self._taps or tap - self._taps[-1] > BOUNCE):
            self._taps.append(tap)
            self._draw()

    def _start(self, time: float) -> None:
        if self._seconds is None:
            self._seconds = round(max(0.0, time - self._shown_at), 3)
        self._began, self._pulses, self._taps = stamp(), 0, []
        self._draw()
        self._wait()

    def _wait(self) -> None:
        """Until the next pulse, counted from the first one, so that delays do not add up; then to the end."""
        began = self._began
        if began is not None:
            pulse, end = self._tapping.pulse, self._bar_begins + self._tapping.length
            due = (self._pulses + 1) * pulse
            due = due if due < end - pulse / 4 else end + pulse / 2
            self._timer = self._bar.set_timer(max(0.001, began + due - stamp()), self._beat)

    async def _beat(self) -> None:
        self._pulses += 1
        whole = self._tapping.lead_in + round(self._tapping.length / self._tapping.pulse)
        if self._pulses < whole:
            self._draw()
            self._wait()
        else:
            await self._finish()

    async def _finish(self) -> None:
        taps, begins = self._taps, self._bar_begins
        self.stop()
        if not taps:
            self._bar.tell([AGAIN], "tap")
            return
        # The offset is not judged, and times are never negative: a first tap before the bar moves them all.
        origin = min(begins, taps[0])
        await self._answered(" ".join(f"{tap - origin:.2f}" for tap in taps), self._seconds or 0.0)

    def _draw(self) -> None:
        counted_in = self._pulses < self._tapping.lead_in
        beats = self._tapping.lead_in
        word = "counting in" if counted_in else "tap"
        self._bar.pulse(self._pulses % beats + 1, beats, word, len(self._taps), live=not counted_in)
