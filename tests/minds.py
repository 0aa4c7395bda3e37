"""Simulated learners for the real screen: they remember, forget and get faster. All numbers are our choice."""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import NamedTuple

from drills.question import Question
from trainer.practice import Asked


class Sort(NamedTuple):
    """What somebody is like.

    Attributes:
        half: days after which half of what was met is forgotten, at first.
        sure: the share right of what is remembered.
        guess: the share right of what is not.
        pace: seconds of thinking of a first answer, as a share of the thinking that is allowed.
        faster: the power by which that falls with practice; 0 for never.
        least: the least that it falls to.
    """

    half: float
    sure: float
    guess: float
    pace: float
    faster: float
    least: float


SORTS = {
    "usual": Sort(half=3.0, sure=0.96, guess=0.35, pace=1.5, faster=0.35, least=0.4),
    "quick": Sort(half=8.0, sure=0.99, guess=0.6, pace=0.9, faster=0.3, least=0.3),
    "slow": Sort(half=6.0, sure=0.98, guess=0.6, pace=2.0, faster=0.0, least=2.0),
    "wavering": Sort(half=1e9, sure=0.6, guess=0.6, pace=1.1, faster=0.2, least=0.6),
}
GROWS, SHRINKS = 2.2, 0.6
"""A half-life, after a right and after a wrong answer on a later day."""

TAPPED = 8.0
"""Seconds of a bar that is tapped, count-in included."""


@dataclass
class _Trace:
    """One item in one head."""

    half: float
    day: int
    practices: int


class Mind:
    """One learner: the same answers to the same questions, by the seed."""

    def __init__(self, sort: Sort, seed: int = 1) -> None:
        self._sort = sort
        self._rng = random.Random(seed)
        self._traces: dict[str, _Trace] = {}

    def answer(self, asked: Asked, day: int) -> tuple[str, float]:
        """What is said and after how many seconds; whatever it is, the right answer is seen and taken in."""
        sort, rng = self._sort, self._rng
        trace = self._traces.setdefault(asked.item.id, _Trace(sort.half, day, 0))
        recalled = 2.0 ** (-(day - trace.day) / trace.half)
        if not trace.practices and not asked.help:
            recalled = 0.9 if asked.lesson else 0.6
        share = sort.sure if rng.random() < recalled else sort.guess
        right = rng.random() < share
        if day > trace.day:
            trace.half *= GROWS if right else SHRINKS
        thinking = max(sort.least, sort.pace * (1 + trace.practices) ** -sort.faster) * rng.lognormvariate(0, 0.2)
        trace.day, trace.practices = day, trace.practices + 1
        said = asked.question.model if right else wrong_text(asked.question, rng)
        if asked.question.tapping is not None:
            return said, TAPPED
        base = min(0.5, asked.limit / 3)
        return said, round(base + thinking * (asked.limit - base), 2)


def wrong_text(question: Question, rng: random.Random) -> str:
    """A possible answer that is not right."""
    if not question.options:
        if question.model.isdigit():
            return "19"
        return next((sign for sign in "cdef" if question.parse(sign) not in (None, *question.answers)), "9")
    if question.length == 1:
        return rng.choice([option.answer for option in question.options if option.answer not in question.answers])
    parts = question.model.split() if question.joiner else list(question.model)
    spare = rng.choice([option.answer for option in question.options if option.answer != parts[0]])
    return question.joiner.join([spare] * question.length)
