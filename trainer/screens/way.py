"""How one kind of question takes its answer: the seam between a sitting and what the learner does."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Protocol

from textual import events

from drills.question import Question
from trainer.commands import INSIDE
from trainer.entry import Entry
from trainer.screens.messages import stamp
from trainer.widgets.answer_bar import AnswerBar

Answered = Callable[[str, float], Awaitable[None]]
"""Is given the whole answer and the seconds that it took."""


class Way(Protocol):
    """One question that waits for its answer. A new one is made whenever a question is shown (again)."""

    def drawn(self) -> None:
        """The question has been drawn: time begins."""

    async def key(self, event: events.Key) -> None:
        """Take a key, and stop the event where it means something here."""

    def wants(self, event: events.Key) -> bool:
        """Whether a key belongs to the answer that is being given, though a command has it."""

    async def click(self, answer: str, time: float) -> None:
        """Take a click on what stands for an answer, or for a part of one."""

    def interrupt(self) -> None:
        """The learner cannot see the question for a while: another screen is over it, or the program sleeps."""

    def stop(self) -> None:
        """The question is not open any more: it was answered, or it is being explained, or left."""


class Keyed:
    """Answered by keys and clicks, one or several, or by typing and Enter."""

    def __init__(self, question: Question, bar: AnswerBar, answered: Answered) -> None:
        bar.ask(question)
        self._bar = bar
        self._answered = answered
        self._entry = Entry(question, stamp())

    def drawn(self) -> None:
        """Only thinking is timed, and it begins with the picture."""
        if not self._entry.parts:
            self._entry.shown_at = stamp()

    async def key(self, event: events.Key) -> None:
        """A key of an answer, Backspace, or Enter after what was typed."""
        answer = None
        if event.key == "backspace":
            self._entry.erase()
        elif event.key == "enter":
            answer = self._entry.submit(event.time)
        elif event.character:
            answer = self._entry.press(event.character, event.time)
        else:
            return
        event.stop()
        await self._take(answer)

    def wants(self, event: events.Key) -> bool:
        """The slash of a chord name that has been begun, and other signs that stand inside an answer."""
        return event.character in INSIDE and bool(self._entry.parts) and not self._entry.question.options

    async def click(self, answer: str, time: float) -> None:
        """A click on a key, or on a part of the picture."""
        await self._take(self._entry.choose(answer, time))

    def interrupt(self) -> None:
        """What was typed stays."""

    def stop(self) -> None:
        """Nothing goes on by itself here."""

    async def _take(self, answer: str | None) -> None:
        """Show what has been entered so far, or give the answer that it makes."""
        if answer is None or self._entry.question.length > 1:
            self._bar.typed(self._entry.text)
        if answer is not None:
            await self._answered(answer, self._entry.seconds)


def way_of(question: Question, bar: AnswerBar, answered: Answered) -> Way:
    """How this question takes its answer, which ``answered`` is then given."""
    if question.tapping is not None:
        from trainer.screens.tapped import Tapped

        return Tapped(question.tapping, bar, answered)
    return Keyed(question, bar, answered)
