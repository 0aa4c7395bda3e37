"""What somebody who reads already is told of the placement: how far it is, and what it found."""

from __future__ import annotations

from textual.geometry import Size

from drills.question import Picture
from trainer.learner import Learner
from trainer.practice import Asked, Outcome
from trainer.schedule.placement import QUESTIONS
from trainer.screens.telling import Reading, Told
from trainer.screens.today import opening_phrase


class Placing:
    """Counts a placement as it goes."""

    def __init__(self) -> None:
        self._asked = self._read = 0

    @staticmethod
    def so_far(asked: Asked) -> str:
        """How far it is: it comes before all else, so the number of the question tells."""
        return f"Finding out what you read: {asked.n} of {QUESTIONS}"

    def add(self, outcome: Outcome) -> None:
        """Count an answer."""
        self._asked += 1
        self._read += outcome.verdict.right and not outcome.slow

    def before(self, asked: Asked, learner: Learner, size: Size) -> Reading:
        """What is told before a question: at the end of a placement what it found, then the lesson that is due."""
        found = [] if asked.placement or not self._asked else [self._found(asked, learner)]
        return Reading(size, asked.lesson, found)

    def _found(self, asked: Asked, learner: Learner) -> Told:
        picture, n, read = Picture(opening_phrase(learner)), self._asked, self._read
        self._asked = self._read = 0
        if not read:
            return Told(picture, "Nothing of it was read at once yet.", "So it begins at the beginning, step by step.")
        goes_on = learner.catalogue.stages[asked.item.stage]
        known = "What these rest on is taken as read, and is not taught again."
        return Told(picture, f"You read {read} of {n} at once.", f"{known} It goes on with: {goes_on}.")
