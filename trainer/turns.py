"""A sitting turn by turn, whoever is asked: a person who types, or a program."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from drills.question import Answer
from trainer.clock import Clock
from trainer.practice import Asked, Outcome, Practice
from trainer.schedule import grading
from trainer.stopping import Stopped


class Mouth(Protocol):
    """How a question is put, its answer taken and its verdict told."""

    def ask(self, asked: Asked) -> Answer | None:
        """Put a question, explained first where a lesson is due, and take its answer; None where no more come.

        Raises:
            Stopped: a signal asked to stop.
        """

    def tell(self, asked: Asked, outcome: Outcome) -> None:
        """Tell what became of the answer."""


def take_turns(practice: Practice, clock: Clock, mouth: Mouth, kept: Callable[[], None]) -> str:
    """Ask until the sitting or the input ends.

    Args:
        practice: the sitting.
        clock: moved on by each answer's seconds where it was set.
        mouth: how to ask.
        kept: called after each verdict, to make the answer survive a power cut.

    Returns:
        Why it ended: ``stop`` (a signal), ``end-of-input``, or the sitting's own reason.
    """
    while (asked := practice.next(clock.now())) is not None:
        try:
            answer = mouth.ask(asked)
        except Stopped:
            return "stop"
        if answer is None:
            return "end-of-input"
        clock.advance(grading.usable(answer.seconds))
        mouth.tell(asked, practice.answer(answer, clock.now()))
        kept()
    return practice.reason or "nothing-left"
