"""What became better in one sitting."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from trainer.schedule import grading
from trainer.schedule.event import Event
from trainer.schedule.state import ItemState
from trainer.schedule.status import Status, status


class Summary(NamedTuple):
    """One sitting in numbers.

    Attributes:
        answers, right, slow: how many; slow ones are right too.
        median_seconds: of the timed answers, or None.
        minutes: of practice, breaks left out.
        new: ids of the items that were met for the first time.
        rose: items that became known, fluent or kept, with what they became, in the order of asking.
        misreading: the one that alone explained most wrong answers, with how many, or None.
        rid_of: the kinds of misreading that were a habit when the sitting began, and are not any more.
    """

    answers: int
    right: int
    slow: int
    median_seconds: float | None
    minutes: float
    new: tuple[str, ...]
    rose: tuple[tuple[str, Status], ...]
    misreading: tuple[str, int] | None
    rid_of: tuple[str, ...] = ()


class SittingTally:
    """Counts a sitting as it goes."""

    def __init__(self) -> None:
        self.answers = self.right = self.slow = 0
        self._seconds: list[float] = []
        self._before: dict[str, Status] = {}
        self._now: dict[str, Status] = {}
        self._misreadings: Counter[str] = Counter()

    def add(self, event: Event, before: ItemState | None, state: ItemState) -> None:
        """Count one answer, with its item before and after it."""
        self.answers += 1
        self.right += event.right
        self.slow += grading.is_slow(event)
        if event.timed and event.seconds is not None:
            self._seconds.append(event.seconds)
        if event.item not in self._before:
            self._before[event.item] = status(before)
        self._now[event.item] = status(state)
        if len(event.misreadings) == 1 and not event.right:
            self._misreadings[event.misreadings[0]] += 1

    def summary(self, minutes: float, rid_of: tuple[str, ...] = ()) -> Summary:
        """The sitting so far, with the habits that it has ended."""
        from statistics import median  # late: not needed before the first question

        most = self._misreadings.most_common(1)
        return Summary(
            answers=self.answers,
            right=self.right,
            slow=self.slow,
            median_seconds=round(median(self._seconds), 3) if self._seconds else None,
            minutes=minutes,
            new=tuple(item for item, was in self._before.items() if was is Status.NEW),
            rose=tuple(
                (item, now)
                for item, now in self._now.items()
                if now.rank > max(self._before[item].rank, Status.SHAKY.rank)
            ),
            misreading=most[0] if most else None,
            rid_of=rid_of,
        )
