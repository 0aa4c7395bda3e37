"""One practice day in numbers."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from trainer.schedule.event import Event

UNKNOWN_MS: Final = 3000
VERDICT_MS: Final = 1000
LONGEST_MS: Final = 30_000


@dataclass(slots=True)
class DayTally:
    """What was answered on one day.

    Attributes:
        answers, right: how many.
        spent: milliseconds of practice, from the answers alone: their seconds (at most 30 each, 3 where they are
            not known) and one second for each verdict.
        closed: the median of the timed answers once the day is over, else None.
        seconds: the timed answers of a day that is still going on; dropped at its close.
    """

    answers: int = 0
    right: int = 0
    spent: int = 0
    closed: float | None = None
    seconds: list[float] = field(default_factory=list)

    def add(self, event: Event, *, current: bool) -> None:
        """Count one answer; one that comes in after the day was closed leaves its median alone."""
        self.answers += 1
        self.right += event.right
        if event.seconds is None or not event.timed:
            self.spent += UNKNOWN_MS + VERDICT_MS
            return
        self.spent += min(round(event.seconds * 1000), LONGEST_MS) + VERDICT_MS
        if current:
            self.seconds.append(event.seconds)

    def close(self) -> None:
        """Keep the median, drop the single times."""
        self.closed = self.median_seconds
        self.seconds = []

    @property
    def median_seconds(self) -> float | None:
        """The median of the timed answers, in seconds."""
        from statistics import median  # late: not needed before the first question

        return round(median(self.seconds), 3) if self.seconds else self.closed

    @property
    def minutes(self) -> float:
        """About how long was practised."""
        return round(self.spent / 60_000, 1)
