"""``next`` and ``answer`` of the real Practice object, the record left out."""

from __future__ import annotations

import random
import time
from datetime import UTC, datetime, timedelta
from statistics import median

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Answer, Manner
from trainer.practice import Practice
from trainer.schedule import memory
from trainer.schedule.ledger import Ledger

DAYS = 30


def main() -> None:
    """Print the median and the 99th percentile."""
    memory.warm()
    found = sorted(month())
    print(
        f"next + answer over {DAYS} days, {len(found)} answers: median {median(found) * 1000:.3f} ms, 99th percentile "
        f"{found[int(len(found) * 0.99)] * 1000:.3f} ms (at most 1 ms)"
    )


def month() -> list[float]:
    """Seconds of each next and answer over a month of practice."""
    rng = random.Random(1)
    ledger = Ledger()
    found: list[float] = []
    now = datetime(2026, 11, 1, 8, tzinfo=UTC)
    for day in range(DAYS):
        at = now + timedelta(days=day)
        practice = Practice(
            catalogue(shipped()["standard"]), ledger, keep=lambda event, at: ledger.apply(event),
            day=20758 + day, seed=1, sitting=0, minutes=10, manner=Manner(), started=at,
        )  # fmt: skip
        while True:
            start = time.perf_counter()
            asked = practice.next(at)
            middle = time.perf_counter()
            if asked is None:
                break
            at += timedelta(seconds=4)
            text = asked.question.model if rng.random() < 0.9 else "-"
            again = time.perf_counter()
            practice.answer(Answer(text, 1.2), at)
            found.append(middle - start + time.perf_counter() - again)
    return found
