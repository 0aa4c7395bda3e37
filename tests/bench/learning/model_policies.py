"""Published rules as they come: the ease-factor rule of 1990, and the memory package that Sixline fences in."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from typing import Final

from fsrs import Card, Rating, Scheduler

from tests.bench.learning.learner import Reply
from tests.bench.learning.policy import Policy

FIRST_FACTOR: Final = 2.5
LEAST_FACTOR: Final = 1.3
QUICK: Final = 2.0
STEADY: Final = 4.0
"""Right within so many seconds is quality 5, then 4, then 3; wrong is 2."""

_START: Final = datetime(2026, 1, 1, 8, tzinfo=UTC)


class EaseFactor(Policy):
    """Wozniak's rule of 1990 (Optimization of learning, chapter 3.2), from memory.

    Intervals 1, 6, then times a factor that quality moves; what was below quality 4 comes again the same day.
    """

    name = "ease-factor rule (1990)"

    def begin(self) -> None:
        """All are new."""
        self._factor = [FIRST_FACTOR] * self.count
        self._interval = [0] * self.count
        self._run = [0] * self.count
        self._due: dict[int, int] = {}
        self._again: dict[int, None] = {}
        self._last_day = [-1] * self.count
        self._fresh = 0
        self._last = -1

    def start(self, day: int) -> None:
        """A day like any other."""

    def next(self, day: int, second: float) -> int:
        """What is due, then what was poor today, then a new one, then what is due soonest."""
        subject = self._choose(day)
        self._last = subject
        return subject

    def _choose(self, day: int) -> int:
        due = [(when, subject) for subject, when in self._due.items() if subject != self._last]
        soonest = min(due, default=None)
        if soonest is not None and soonest[0] <= day:
            return soonest[1]
        again = [subject for subject in self._again if subject != self._last]
        if len(again) > 5 or (again and self._fresh >= self.count):
            return again[0]
        if self._fresh < self.count:
            self._fresh += 1
            return self._fresh - 1
        return soonest[1] if soonest is not None else self._last

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """The rule, once a day; later answers of a day only say whether it comes again."""
        quality = 2 if not reply.right else 5 if reply.seconds <= QUICK else 4 if reply.seconds <= STEADY else 3
        self._again.pop(subject, None)
        if quality < 4:
            self._again[subject] = None
        if self._last_day[subject] == day:
            return
        self._last_day[subject] = day
        if quality < 3:
            self._run[subject] = 0
            self._interval[subject] = 1
        else:
            self._run[subject] += 1
            run = self._run[subject]
            grown = round(self._interval[subject] * self._factor[subject])
            self._interval[subject] = 1 if run == 1 else 6 if run == 2 else grown
        lack = 5 - quality
        self._factor[subject] = max(LEAST_FACTOR, self._factor[subject] + 0.1 - lack * (0.08 + lack * 0.02))
        self._due[subject] = day + self._interval[subject]


class Package(Policy):
    """The package with all its defaults (retention .90, steps of minutes, spread): right is Good, wrong Again."""

    name = "memory package as it comes, .90"

    def begin(self) -> None:
        """All are new; the package draws its spread from the global generator."""
        random.seed(self.seed)
        self._scheduler = Scheduler()
        self._items: dict[int, Card] = {}
        self._fresh = 0
        self._last = -1

    def start(self, day: int) -> None:
        """A day like any other."""

    def next(self, day: int, second: float) -> int:
        """What is due by now, longest first, then a new one, then what is due soonest."""
        now = _at(day, second)
        due = [(item.due, subject) for subject, item in self._items.items() if subject != self._last]
        soonest = min(due, default=None)
        if soonest is not None and soonest[0] <= now:
            self._last = soonest[1]
        elif self._fresh < self.count:
            self._last = self._fresh
            self._fresh += 1
        elif soonest is not None:
            self._last = soonest[1]
        return self._last

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """Have the package take it in."""
        now = _at(day, second)
        item = self._items.get(subject) or Card(card_id=subject, due=now)
        rating = Rating.Good if reply.right else Rating.Again
        self._items[subject], _ = self._scheduler.review_card(item, rating, now)


def _at(day: int, second: float) -> datetime:
    return _START + timedelta(days=day, seconds=second)
