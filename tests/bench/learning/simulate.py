"""One learner under one policy, day after day."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Final, NamedTuple

import numpy as np

from tests.bench.learning.policy import Policy
from tests.bench.learning.subjects import MINUTES

READ: Final = 0.8
"""An item is read when its chance of being right and fast is at least this."""

LONGEST: Final = 10.0
AFTER_RIGHT: Final = 1.0
AFTER_WRONG: Final = 2.5
EXPLAINED: Final = 4.0
"""Seconds: an answer counts for at most so many; of verdict after a right and a wrong answer; of explanation."""

WEEK: Final = 7


class Run(NamedTuple):
    """What came of it.

    Attributes:
        read: by probe day, how many items are read cold a day later.
        answers: of all days.
        minutes: of practice, day by day (0 on a day that was missed).
    """

    read: tuple[int, ...]
    answers: int
    minutes: tuple[float, ...]


def practise(policy: Policy, day: int) -> tuple[int, float]:
    """One day's practice; how many answers, and how many seconds."""
    learner = policy.learner
    second, answers = 0.0, 0
    policy.start(day)
    while second < MINUTES * 60:
        subject = policy.next(day, second)
        if subject is None:
            break
        if not learner.asked[subject]:
            second += EXPLAINED
        reply = learner.answer(subject, day, second)
        second += min(reply.seconds, LONGEST)
        policy.observe(subject, reply, day, second)
        second += AFTER_RIGHT if reply.right else AFTER_WRONG
        answers += 1
    return answers, second


def run(policy: Policy, *, days: int, probes: Sequence[int], missed: Collection[int] = ()) -> Run:
    """Practise for so many days and look, after each of the probe days, what is read a day later."""
    read, minutes, answers = [], [], 0
    for day in range(days):
        many, seconds = (0, 0.0) if day in missed else practise(policy, day)
        answers += many
        minutes.append(seconds / 60)
        if day + 1 in probes:
            read.append(int((policy.learner.chances(day + 1) >= READ).sum()))
    return Run(tuple(read), answers, tuple(minutes))


def days_missed(days: int, share: float, seed: int) -> frozenset[int]:
    """Which days a learner misses; never the first."""
    draws = np.random.default_rng(seed).random(days)
    return frozenset(day for day in range(1, days) if draws[day] < share)


def until_kept(policy: Policy, *, days: int, but: int = 1) -> tuple[float, int] | None:
    """Minutes and days of practice until all items ``but`` so many would be read after a week's rest; None if never."""
    spent = 0.0
    for day in range(days):
        spent += practise(policy, day)[1]
        read = int((policy.learner.chances(day + WEEK) >= READ).sum())
        if read >= policy.count - but:
            return spent / 60, day + 1
    return None
