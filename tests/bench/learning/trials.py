"""What is tried: every policy with every sort of learner, the same learners for all."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from tests.bench.learning.act_r import ActR
from tests.bench.learning.half_life import HalfLife
from tests.bench.learning.learner import Learner
from tests.bench.learning.model_policies import EaseFactor, Package
from tests.bench.learning.multiscale import Multiscale
from tests.bench.learning.oracle import Oracle
from tests.bench.learning.plain_policies import Boxes, Random, RoundRobin
from tests.bench.learning.policy import Policy
from tests.bench.learning.simulate import days_missed, run, until_kept
from tests.bench.learning.sixline import Sixline
from tests.bench.learning.subjects import Subject, first_items, first_position, subjects

DAYS: Final = 90
PROBES: Final = (7, 14, 30, 60, 90)
MISSED: Final = 0.3
"""The share of days on which those learners do not practise who miss some."""

DAYS_FOR_THIRTY: Final = 90
"""So many days at most for the thirty notes of the first position."""

LEARNERS: Final[dict[str, type[Learner]]] = {each.name: each for each in (ActR, HalfLife, Multiscale)}
OTHERS: Final[dict[str, type[Policy]]] = {
    each.name: each for each in (Random, RoundRobin, Boxes, EaseFactor, Package, Oracle)
}
POLICIES: Final = (*OTHERS, Sixline.name)
STUDIES: Final = ("every day", "days missed", "first position")


class Trial(NamedTuple):
    """One learner under one policy.

    Attributes:
        study: ``every day`` and ``days missed`` (600 items, 90 days), or ``first position`` (thirty items until kept).
        learner: its sort.
        policy: by name.
        seed: which learner of that sort.
    """

    study: str
    learner: str
    policy: str
    seed: int


class Found(NamedTuple):
    """What came of a trial.

    Attributes:
        read: items read at each of the probe days.
        answers: in all.
        first: minutes of the first day.
        minutes: of practice until the thirty were kept, or None where they never were.
        days: the same in days.
    """

    read: tuple[int, ...] = ()
    answers: int = 0
    first: float = 0.0
    minutes: float | None = None
    days: int | None = None


def trials(seeds: Sequence[int], learners: Sequence[str] = tuple(LEARNERS)) -> list[Trial]:
    """All that are to be run."""
    some = (RoundRobin.name, Package.name, Sixline.name)
    found = [Trial("every day", who, policy, seed) for who in learners for policy in POLICIES for seed in seeds]
    found += [Trial("days missed", who, policy, seed) for who in learners for policy in some for seed in seeds]
    found += [Trial("first position", who, policy, seed) for who in learners for policy in POLICIES for seed in seeds]
    return found


def tried(trial: Trial, days: int = DAYS) -> Found:
    """Run one."""
    part, about = _part(trial.study == "first position")
    learner = LEARNERS[trial.learner](about, trial.seed)
    policy = (
        Sixline(learner, trial.seed, part) if trial.policy == Sixline.name
        else OTHERS[trial.policy](learner, trial.seed)
    )  # fmt: skip
    if trial.study == "first position":
        kept = until_kept(policy, days=min(days, DAYS_FOR_THIRTY))
        return Found(minutes=kept and kept[0], days=kept and kept[1])
    missed = days_missed(days, MISSED, trial.seed) if trial.study == "days missed" else ()
    came = run(policy, days=days, probes=PROBES, missed=missed)
    return Found(came.read, came.answers, came.minutes[0])


@cache
def _part(small: bool) -> tuple[Catalogue, tuple[Subject, ...]]:
    part = first_position() if small else first_items()
    return part, subjects(part)
