"""Learners who practise for weeks, and what was foretold of it on one day."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field
from functools import cache
from math import exp, log

from drills.catalogue import Catalogue
from drills.question import Answer
from tests.trainer.fakes import TODAY, Learner, Reply, make_catalogue
from trainer.practice import Asked
from trainer.schedule.ahead import DAYS, Ahead, look_ahead
from trainer.schedule.outlook import Outlook, outlook

LOOK = 8
"""The day on which the outlook is taken, from the first one on."""
LONGEST = 120
SECONDS = 3.5
CATALOGUE = make_catalogue(roots=4, frets=3)


@dataclass
class Story:
    """What was foretold of a learner, and what came.

    Attributes:
        found: the outlook.
        reached: days from then until the stage was fluent to that degree, or None.
        due: days from then -> what was to be gone over, on days with practice.
        new: new items as foretold at the start of a sitting, and as they came, of every day.
    """

    found: Outlook
    reached: int | None = None
    due: dict[int, int] = field(default_factory=dict)
    new: list[tuple[int, int]] = field(default_factory=list)


def one_who_learns(seed: int) -> Reply:
    """Somebody for whom some items are harder than others, and who gets better at each with every answer."""
    rng = random.Random(seed)
    chance, gain, slow = rng.uniform(0.75, 0.97), rng.uniform(0.05, 0.5), rng.random()
    luck: dict[str, float] = {}
    asked_before: Counter[str] = Counter()

    def reply(asked: Asked) -> Answer:
        name = asked.item.id
        asked_before[name] += 1
        odds = log(chance / (1 - chance)) + luck.setdefault(name, rng.gauss(0, 0.8)) + gain * log(asked_before[name])
        if rng.random() < 1 / (1 + exp(-odds)):
            return Answer(asked.question.model, rng.choice((0.8, 1.0, 1.3)))
        return Answer(asked.question.model, 3.0) if rng.random() < slow else Answer("nothing", 2.0)

    return reply


@cache
def story(seed: int) -> Story:
    """One learner's, who practises every day, or all but a few."""
    rng = random.Random(f"days {seed}")
    comes, reply = rng.choice((1.0, 0.85, 0.6)), one_who_learns(seed)
    learner, new = Learner(CATALOGUE), list[tuple[int, int]]()
    told: Story | None = None
    for nth in range(LONGEST):
        day = TODAY + nth
        ahead = look_ahead(CATALOGUE, learner.ledger, day=day)
        if nth == LOOK:
            told = Story(looked(learner, ahead, day), new=new)
        if nth and rng.random() >= comes:
            continue
        learner.practise(reply, day, seconds=SECONDS)
        whys = Counter(str(asked.why) for asked in learner.asked)
        new.append((ahead.new, whys["new"]))
        if told is None:
            continue
        if 1 <= nth - LOOK <= DAYS:
            told.due[nth - LOOK] = ahead.due
        if told.reached is None and fluent(learner) >= told.found.stage.target:
            told.reached = nth - LOOK
        if told.reached is not None and nth > LOOK + DAYS:
            break
    assert told is not None
    return told


def looked(learner: Learner, ahead: Ahead, day: int, catalogue: Catalogue = CATALOGUE) -> Outlook:
    """The outlook on a day."""
    return outlook(catalogue, learner.ledger, ahead, day=day, minutes=10)


def fluent(learner: Learner) -> int:
    """How many items are fluent."""
    return sum(state.fluent for state in learner.ledger.states.values())
