"""Sixline's row: the real ``Practice`` object, driven by simulated answers and their seconds."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Answer, Manner
from tests.bench.learning.learner import Learner, Reply
from tests.bench.learning.policy import Policy
from tests.bench.learning.subjects import MINUTES
from trainer.practice import Practice
from trainer.schedule.ledger import Ledger

FIRST_DAY: Final = 20_782
_START: Final = datetime(2026, 11, 25, 8, tzinfo=UTC)


class Sixline(Policy):
    """One sitting a day, as long as it lasts by itself."""

    name = "Sixline"

    def __init__(self, learner: Learner, seed: int, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        super().__init__(learner, seed)

    def begin(self) -> None:
        """An empty record."""
        self.ledger = Ledger(self.seed)
        self._index = {subject.item.id: at for at, subject in enumerate(self.learner.subjects)}
        self._practice: Practice | None = None

    def start(self, day: int) -> None:
        """Begin a sitting."""
        self._practice = Practice(
            self._catalogue,
            self.ledger,
            keep=lambda event, at: self.ledger.apply(event),
            day=FIRST_DAY + day,
            seed=self.seed,
            sitting=0,
            minutes=MINUTES,
            manner=Manner(),
            started=_at(day, 0.0),
            base=round(self.learner.key, 3),
        )

    def next(self, day: int, second: float) -> int | None:
        """What it asks."""
        assert self._practice is not None
        asked = self._practice.next(_at(day, second))
        return None if asked is None else self._index[asked.item.id]

    def observe(self, subject: int, reply: Reply, day: int, second: float) -> None:
        """Type the answer."""
        assert self._practice is not None
        about = self.learner.subjects[subject]
        wrong = about.misread if reply.misread and about.misread is not None else "-"
        self._practice.answer(Answer(about.answer if reply.right else wrong, reply.seconds), _at(day, second))


def _at(day: int, second: float) -> datetime:
    return _START + timedelta(days=day, seconds=second)
