"""Learners who remember by known parameters, and the records that they leave."""

from __future__ import annotations

import random
from collections.abc import Iterator

from trainer.schedule import memory, state
from trainer.schedule.event import Event
from trainer.schedule.memory import Memory
from trainer.schedule.parameters import PUBLISHED, Model, Parameters
from trainer.schedule.state import ItemState

FIRST_DAY = 20_000
FAST, QUICK, SLOW = 1.2, 0.7, 5.0
"""Seconds, with a base of .5 and a limit of 1.7."""

FORGETFUL: Parameters = (
    0.05, 0.4, 0.6, 2.0, *PUBLISHED[4:8], 1.0, *PUBLISHED[9:20], 0.35,
)  # fmt: skip
"""Forgets sooner than published, and what is learned lasts less."""


def answers(
    w: Parameters, *, cold: int, seed: int = 0, new: int = 12, worth: int = 60, first_day: int = FIRST_DAY
) -> list[Event]:
    """The record of somebody who truly remembers by ``w`` and is asked when the schedule says, by the usual memory.

    Args:
        w: the learner's own parameters.
        cold: it ends with that many cold answers.
        seed: of all draws.
        new: items met each day.
        worth: cold answers a day at most.
        first_day: the first practice day.
    """
    return list(_answers(w, cold, random.Random(seed), new, worth, first_day))


def _answers(
    w: Parameters, cold: int, rng: random.Random, new: int, worth: int, first_day: int
) -> Iterator[Event]:
    model = Model(w, 0.95)
    known: dict[str, ItemState] = {}
    truth: dict[str, Memory | None] = {}
    for day in range(first_day, first_day + 100_000):
        due = sorted((known[item].due, item) for item in known if known[item].due <= day)[:worth]
        for _, item in due:
            before, rest = truth[item], day - known[item].last
            chance = 0.5 if before is None else memory.recall(rest, before, model)
            hit = rng.random() < chance
            seconds = rng.choice((FAST, QUICK)) if hit else SLOW
            event = Event(day, item, True, "C", seconds, 0.5, 1.7)
            grade = 1 if not hit else 4 if seconds == QUICK else 3
            after = memory.after(before, rest, grade, model)
            truth[item] = after if hit or before is None else (min(after[0], before[0]), after[1])
            known[item] = state.after(known[item], event)
            yield event
            cold -= 1
            if not cold:
                return
        for number in range(len(known), len(known) + (new if len(due) < worth else 0)):
            event = Event(day, f"fret-to-note/standard/{number}", True, "C", FAST, 0.5, 1.7)
            known[event.item], truth[event.item] = state.after(None, event), None
            yield event
