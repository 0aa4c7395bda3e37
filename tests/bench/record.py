"""A learner's folder with many answers in it, made by simulated practice that writes no file until its end."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from pathlib import Path

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from trainer.profile.store import Profile
from trainer.schedule.event import Event

DAY = 20782
NOW = "2026-11-25T08:00:00Z"


def fill(home: Path, answers: int) -> Path:
    """A profile ``me`` whose record holds so many answers, the last of them the day before ``NOW``.

    Some hundred a day over the last months; nine of ten are right and quick.
    """
    rng = random.Random(answers)
    items = catalogue(shipped()["standard"]).items
    a_day = 300
    days = max(1, -(-answers // a_day))
    profile = Profile.open(home, "me", write=True)
    for n in range(answers):
        back = days - n // a_day
        at = datetime(2026, 11, 25, 8, tzinfo=UTC) - timedelta(days=back) + timedelta(seconds=4 * (n % a_day))
        met = min(len(items) - 72, 12 + n // 40)
        item = items[rng.randrange(met)]
        right = rng.random() < 0.9
        seconds = round(rng.lognormvariate(0.2, 0.3), 2)
        event = Event(DAY - back, item.id, right, "x" if not right else "5", seconds, 0.5, 0.5 + item.think)
        profile.keep(event, at)
    profile.close(datetime(2026, 11, 24, 20, tzinfo=UTC))
    return home
