"""What all simulated learners have in common."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import ClassVar, Final, NamedTuple

import numpy as np

from tests.bench.learning.subjects import EXAM, Floats, Subject

KEY: Final = 0.5
"""Seconds of pressing the key, before the learner's own pace."""

HELPED_RIGHT: Final = 0.85
HELPED_SECONDS: Final = 3.0
"""At first sight an item is explained and help is in sight: so often right, in so many seconds."""

GUESSED_RIGHT: Final = 0.2
GUESSED_SECONDS: Final = 3.0
MISREAD_SHARE: Final = 0.5
"""So many of the wrong answers are plain misreadings, where a model says nothing else."""

PACE_SPREAD: Final = 0.15
DRAWS: Final = 256


class Reply(NamedTuple):
    """How a learner answers: right or not, after how many seconds, and whether a wrong answer is a plain misreading."""

    right: bool
    seconds: float
    misread: bool = False


class Learner(ABC):
    """One learner. Everybody gets the same chances under every policy: draws belong to an item and its nth asking.

    Attributes:
        subjects: what can be asked.
        pace: the learner's own slowness, about 1.
        asked: how often each subject was asked so far.
    """

    name: ClassVar[str]

    def __init__(self, subjects: Sequence[Subject], seed: int) -> None:
        self.subjects = subjects
        rng = np.random.default_rng([seed, *self.name.encode()])
        self.pace = float(np.exp(rng.normal(0, PACE_SPREAD)))
        self.key = KEY * self.pace
        self.asked = [0] * len(subjects)
        self._uniform: list[list[float]] = rng.random((len(subjects), DRAWS)).tolist()
        self._second_uniform: list[list[float]] = rng.random((len(subjects), DRAWS)).tolist()
        self.look = np.array([subject.look for subject in subjects])
        self.limit = EXAM + self.look
        self.begin(rng)

    @abstractmethod
    def begin(self, rng: np.random.Generator) -> None:
        """Draw what this learner is like."""

    @abstractmethod
    def respond(self, subject: int, day: int, second: float, luck: float, more: float) -> Reply:
        """The answer of somebody who has met the subject before; ``luck`` and ``more`` are draws from [0, 1)."""

    @abstractmethod
    def learn(self, subject: int, day: int, second: float, *, right: bool) -> None:
        """Take in the subject: its answer was shown."""

    @abstractmethod
    def chances(self, day: int, second: float = 0.0) -> Floats:
        """P(right and within the exam's seconds) of each subject, asked cold then."""

    def answer(self, subject: int, day: int, second: float) -> Reply:
        """Answer and learn; ``second`` is counted from the start of the day's practice."""
        nth = self.asked[subject]
        self.asked[subject] += 1
        luck = self._uniform[subject][nth % DRAWS]
        more = self._second_uniform[subject][nth % DRAWS]
        if nth == 0:
            reply = Reply(luck < HELPED_RIGHT, HELPED_SECONDS * self.pace + self.subjects[subject].look)
        else:
            reply = self.respond(subject, day, second, luck, more)
        self.learn(subject, day, second, right=reply.right)
        return reply

    def guess(self, subject: int, luck: float, more: float) -> Reply:
        """What is said by somebody who does not know."""
        seconds = GUESSED_SECONDS * self.pace + self.subjects[subject].look
        return Reply(luck < GUESSED_RIGHT, seconds, more < MISREAD_SHARE)
