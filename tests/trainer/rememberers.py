"""Learners who remember by known parameters, and the records that they leave."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence

from trainer.schedule import grading, memory, state
from trainer.schedule.event import Event
from trainer.schedule.memory import Memory
from trainer.schedule.parameters import PUBLISHED, SHARES, Model, Parameters
from trainer.schedule.state import ItemState

FIRST_DAY = 20_000
FAST, QUICK = 1.2, 0.7
"""Seconds, with a base of .5 and a limit of 1.7; what is not read is answered wrong."""

NEW, WORTH = 12, 60
"""Items met each day, and cold answers a day at most."""

FORGETFUL: Parameters = (
    0.01, 0.1, 0.2, 0.6, *PUBLISHED[4:8], 0.8, *PUBLISHED[9:20], 0.45,
)  # fmt: skip
"""Forgets much sooner than published, and what is learned lasts less."""


def answers(
    w: Parameters, *, cold: int, seed: int = 0, items: Sequence[str] = (), last_day: int | None = None
) -> list[Event]:
    """The record of somebody who remembers by ``w`` and reads what is remembered as often as usual.

    Args:
        w: the learner's own parameters.
        cold: it ends with that many cold answers.
        seed: of all draws.
        items: what is asked; as many as it takes without.
        last_day: the day on which it ends; else it begins on ``FIRST_DAY``.
    """
    found = list(_answers(w, cold, random.Random(seed), items))
    later = 0 if last_day is None else last_day - found[-1].day
    return [event._replace(day=event.day + later) for event in found]


def _answers(w: Parameters, cold: int, rng: random.Random, items: Sequence[str]) -> Iterator[Event]:
    model = Model(w, 0.9)
    known: dict[str, ItemState] = {}
    truth: dict[str, Memory | None] = {}
    for day in range(FIRST_DAY, FIRST_DAY + 100_000):
        due = sorted((known[item].due, item) for item in known if known[item].due <= day)[:WORTH]
        for _, item in due:
            before, rest = truth[item], day - known[item].last
            recall = 0.5 if before is None else memory.recall(rest, before, model)
            reads = 1.0 if before is None else SHARES[min(known[item].fast_run, 3)]
            hit = rng.random() < recall * reads
            event = Event(day, item, hit, "C" if hit else "D", rng.choice((FAST, QUICK)), 0.5, 1.7)
            after = memory.after(before, rest, grading.grade(event), model)
            truth[item] = after if hit or before is None else (min(after[0], before[0]), after[1])
            known[item] = state.after(known[item], event)
            yield event
            cold -= 1
            if not cold:
                return
        for number in range(len(known), len(known) + (NEW if len(due) < WORTH else 0)):
            if items and number >= len(items):
                break
            item = items[number] if items else f"fret-to-note/standard/{number}"
            known[item], truth[item] = state.after(None, first := Event(day, item, True, "C", FAST, 0.5, 1.7)), None
            yield first
