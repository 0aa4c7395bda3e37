"""``next`` and ``answer`` of the real Practice object, the record left out: for a beginner, and for somebody who has
met everything and misreads a lot."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from statistics import median
from typing import Final, NamedTuple

from drills.catalogue import Catalogue, catalogue
from drills.notation.tuning import shipped
from drills.question import Answer, Item, Manner, Question, judge
from trainer.practice import Practice
from trainer.schedule import memory
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger

DAYS: Final = 30
FIRST: Final = 20758

Reply = Callable[[Question], str]
"""What is answered to a question."""


class Times(NamedTuple):
    """Seconds of every sitting's start, of every ``next`` and ``answer``, of taking an answer in, and of drawing each
    item once more."""

    start: list[float]
    next: list[float]
    answer: list[float]
    apply: list[float]
    draw: list[float]


def main() -> None:
    """Print the median and the 99th percentile of both together, and the part of each stage, for both learners."""
    memory.warm()
    questions = catalogue(shipped()["standard"])
    for who, ledger, reply in (
        ("a beginner, nine in ten right", Ledger(), beginner(random.Random(1))),
        ("85 % right, misreads the rest, has met all", all_met(questions), misreader(random.Random(3))),
    ):
        times = month(questions, ledger, reply)
        both = sorted(map(sum, zip(times.next, times.answer, strict=True)))
        print(
            f"next + answer over {DAYS} days ({who}), {len(questions.items)} items, {len(both)} answers: median "
            f"{median(both) * 1000:.3f} ms, 99th percentile {both[int(len(both) * 0.99)] * 1000:.3f} ms (at most 0.1 "
            f"and 2 ms), longest {both[-1] * 1000:.1f} ms; medians: next {median(times.next) * 1000:.3f} ms, of which "
            f"drawing the question {median(times.draw) * 1000:.3f} ms, answer {median(times.answer) * 1000:.3f} ms, of "
            f"which memory {median(times.apply) * 1000:.3f} ms; start of a sitting {median(times.start) * 1000:.1f} ms"
        )


def beginner(rng: random.Random) -> Reply:
    """Nine in ten right, the others no answer at all."""
    return lambda question: question.model if rng.random() < 0.9 else "-"


def misreader(rng: random.Random) -> Reply:
    """85 % right; each of the others a misreading where the question can be misread."""

    def reply(question: Question) -> str:
        if rng.random() < 0.85:
            return question.model
        offered = {option.answer for option in question.choices}
        wrong = sorted(said for kind in question.traps for said in question.traps[kind])
        found = [said for said in wrong if not offered or said in offered]
        return rng.choice(found) if found else "-"

    return reply


def all_met(questions: Catalogue) -> Ledger:
    """Every item met in the month before, and asked once more in its last days."""
    ledger, reply = Ledger(), misreader(random.Random(2))
    for day in range(FIRST - 30, FIRST):
        for at, item in enumerate(questions.items):
            if day - FIRST in (at % 25 - 30, at % 2 - 3):
                question = questions.ask(item, random.Random(at), Manner())
                verdict = judge(question, Answer(reply(question), 1.2))
                kinds = tuple(map(str, verdict.misreadings))
                ledger.apply(Event(day, item.id, verdict.right, verdict.said, 1.2, 0.5, 1.7, True, misreadings=kinds))
    return ledger


def month(questions: Catalogue, ledger: Ledger, reply: Reply) -> Times:
    """A month of practice."""
    times = Times([], [], [], [], [])
    items: list[Item] = []
    now = datetime(2026, 11, 1, 8, tzinfo=UTC)
    clock = time.perf_counter

    def keep(event: Event, at: datetime) -> None:
        began = clock()
        ledger.apply(event)
        times.apply.append(clock() - began)

    for day in range(DAYS):
        at = now + timedelta(days=day)
        start = clock()
        practice = Practice(
            questions, ledger, keep=keep, day=FIRST + day, seed=1, sitting=0, minutes=10, manner=Manner(), started=at
        )
        times.start.append(clock() - start)
        while True:
            start = clock()
            asked = practice.next(at)
            spent = clock() - start
            if asked is None:
                break
            times.next.append(spent)
            at += timedelta(seconds=4)
            text = reply(asked.question)
            start = clock()
            practice.answer(Answer(text, 1.2), at)
            times.answer.append(clock() - start)
            items.append(asked.item)
    for item in items:  # afterwards, so as not to stand in the way of what is measured
        start = clock()
        questions.ask(item, random.Random(item.id), Manner())
        times.draw.append(clock() - start)
    return times
