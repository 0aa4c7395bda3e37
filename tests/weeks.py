"""A learner who has practised for weeks: right and quick nearly always, every day but a few."""

from __future__ import annotations

import random
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from drills.question import Answer, Question
from trainer.clock import Clock
from trainer.opening import begin
from trainer.profile.store import Profile

NOW = datetime(2026, 11, 25, 8, tzinfo=UTC)
WEEKS = 5


def practised(home: Path, weeks: int = WEEKS, *, answers: int = 90, today: bool = False) -> Path:
    """A profile ``me`` that was made in so many weeks of sittings, the last of them yesterday, or ``today``.

    Args:
        home: where the profiles are.
        weeks: before ``NOW``.
        answers: a sitting at most.
        today: whether today's sitting is over too.
    """
    rng = random.Random(weeks)
    profile = Profile.open(home, "me", write=True)
    days = range(7 * weeks, 0 if not today else -1, -1)
    for back in (day for day in days if day % 7 != 4):
        _sit(profile, Clock(NOW - timedelta(days=back)), rng, answers)
    profile.new_baseline(0.41, NOW - timedelta(days=1), 20781)
    profile.close(NOW)
    return home


def _sit(profile: Profile, clock: Clock, rng: random.Random, answers: int) -> None:
    practice = begin(profile, clock, seed=1, limit=answers)
    while (asked := practice.next(clock.now())) is not None:
        seconds = round(rng.uniform(0.7, 1.3), 2)
        clock.advance(seconds + 2)
        said = wrong(asked.question) if rng.random() < 0.05 else asked.question.model
        practice.answer(Answer(said, seconds), clock.now())


def wrong(question: Question) -> str:
    """A possible answer that is not right: the last one that is offered, or else a 9."""
    others: Iterable[str] = (option.answer for option in reversed(question.options))
    one = next((other for other in others if other not in question.answers), "9")
    if question.length == 1:
        return one
    return question.joiner.join([one] * question.length)
