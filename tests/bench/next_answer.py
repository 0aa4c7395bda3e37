"""``next`` and ``answer`` of the real Practice object, the record left out."""

from __future__ import annotations

import random
import time
from datetime import UTC, datetime, timedelta
from statistics import median
from typing import NamedTuple

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Answer, Item, Manner
from trainer.practice import Practice
from trainer.schedule import memory
from trainer.schedule.ledger import Ledger

DAYS = 30


class Times(NamedTuple):
    """Seconds of every sitting's start, of every ``next`` and ``answer``, and of drawing each item once more."""

    start: list[float]
    next: list[float]
    answer: list[float]
    draw: list[float]


def main() -> None:
    """Print the median and the 99th percentile of both together, and the part of each stage."""
    memory.warm()
    items = len(catalogue(shipped()["standard"]).items)
    times = month()
    both = sorted(map(sum, zip(times.next, times.answer, strict=True)))
    print(
        f"next + answer over {DAYS} days, {items} items, {len(both)} answers: median {median(both) * 1000:.3f} ms, "
        f"99th percentile {both[int(len(both) * 0.99)] * 1000:.3f} ms (at most 0.1 and 2 ms); medians: next "
        f"{median(times.next) * 1000:.3f} ms, of which drawing the question {median(times.draw) * 1000:.3f} ms, answer "
        f"{median(times.answer) * 1000:.3f} ms; start of a sitting {median(times.start) * 1000:.1f} ms"
    )


def month() -> Times:
    """A month of practice."""
    rng = random.Random(1)
    ledger = Ledger()
    times = Times([], [], [], [])
    items: list[Item] = []
    now = datetime(2026, 11, 1, 8, tzinfo=UTC)
    questions, clock = catalogue(shipped()["standard"]), time.perf_counter
    for day in range(DAYS):
        at = now + timedelta(days=day)
        start = clock()
        practice = Practice(
            questions, ledger, keep=lambda event, at: ledger.apply(event),
            day=20758 + day, seed=1, sitting=0, minutes=10, manner=Manner(), started=at,
        )  # fmt: skip
        times.start.append(clock() - start)
        while True:
            start = clock()
            asked = practice.next(at)
            spent = clock() - start
            if asked is None:
                break
            times.next.append(spent)
            at += timedelta(seconds=4)
            text = asked.question.model if rng.random() < 0.9 else "-"
            start = clock()
            practice.answer(Answer(text, 1.2), at)
            times.answer.append(clock() - start)
            items.append(asked.item)
    for item in items:  # afterwards, so as not to stand in the way of what is measured
        start = clock()
        questions.ask(item, random.Random(item.id), Manner())
        times.draw.append(clock() - start)
    return times
