"""What decides which subject is asked next."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from typing import ClassVar

from tests.bench.learning.learner import Learner, Reply


class Policy(ABC):
    """One way of choosing, for one learner over all days."""

    name: ClassVar[str]

    def __init__(self, learner: Learner, seed: int) -> None:
        self.learner = learner
        self.count = len(learner.subjects)
        self.seed = seed
        self.begin()

    @abstractmethod
    def begin(self) -> None:
        """Nothing has been asked yet."""

    @abstractmethod
    def next(self, day: int, second: float) -> int | None:
        """The subject to be asked now, or None where the day's practice is over before its time."""

    @abstractmethod
    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """Take in an answer that was given by that second."""

    @abstractmethod
    def start(self, day: int) -> None:
        """A day's practice begins."""


Maker = Callable[[Learner, int], Policy]
