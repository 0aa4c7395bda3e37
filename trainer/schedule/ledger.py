"""All that follows from the record, kept up to date answer by answer."""

from __future__ import annotations

from collections import deque
from typing import Any, Final

from trainer.schedule import fading, grading, state, stored
from trainer.schedule.event import Event
from trainer.schedule.lasting import Lasting
from trainer.schedule.pairs import Confusion
from trainer.schedule.parameters import Fit, model_of
from trainer.schedule.predicted import Predictions
from trainer.schedule.readings import Readings
from trainer.schedule.rid import Habit
from trainer.schedule.state import ItemState
from trainer.schedule.tally import DayTally

RECENT: Final = 30


class Ledger:
    """What the record says: replaying the same events gives the same ledger.

    Attributes:
        seed: of the spread of intervals; it belongs to the record, never to a machine.
        fit: the record's last fit of the memory to the learner, or None.
        model: of memory, which that leaves in use; it holds for every answer, those before the fit too.
        states: what is known of each item that was ever met.
        days: a tally for each day on which something was answered, in the order of their first answers.
        misreadings: kind -> item -> how often it alone explained a wrong answer.
        misread_on: kind -> the last day on which it did.
        habits: kind -> whether it is one, or one is rid of it.
        confusions: item -> answer that was given for it by one plain misreading -> how often, and when; good
            cold answers make up for it.
        recent: whether the last cold answers were right, newest last.
        lasting: how long reading lasts with this learner.
        readings: how often cold answers are right and fast of late.
        predictions: predicted against observed on cold answers.
        events: how many answers were applied.
    """

    def __init__(self, seed: int = 0, fit: Fit | None = None) -> None:
        self.seed = seed
        self.fit = fit
        self.model = model_of(fit)
        self.states: dict[str, ItemState] = {}
        self.days: dict[int, DayTally] = {}
        self.misreadings: dict[str, dict[str, int]] = {}
        self.misread_on: dict[str, int] = {}
        self.habits: dict[str, Habit] = {}
        self.confusions: dict[str, dict[str, Confusion]] = {}
        self.recent: deque[bool] = deque(maxlen=RECENT)
        self.lasting = Lasting()
        self.readings = Readings()
        self.predictions = Predictions()
        self.events = 0
        self._last_day: int | None = None

    @property
    def last_day(self) -> int | None:
        """The latest day with an answer, or None."""
        return self._last_day

    @property
    def cold(self) -> int:
        """How many cold answers there are."""
        return sum(each.cold for each in self.states.values())

    def apply(self, event: Event) -> None:
        """Take in one answer."""
        before = self.states.get(event.item)
        self.states[event.item] = state.after(before, event, self.seed, self.model, self.lasting.days)
        if before is not None and event.day > before.last:
            self._note_cold(before, event)
        self._tally(event)
        if len(event.misreadings) == 1 and not event.right:
            self._note_misreading(event, event.misreadings[0])
        self.events += 1

    def as_data(self) -> tuple[dict[str, Any], dict[str, Any]]:
        """Plain tables for ``memory.toml`` and ``history.toml``: strings and numbers, one line an item and a day."""
        return stored.memory_table(self), stored.history_table(self)

    @classmethod
    def from_data(cls, memory: dict[str, Any], history: dict[str, Any]) -> Ledger:
        """The ledger that ``as_data`` wrote.

        Raises:
            ValueError: a value is missing, of the wrong type or out of range; says which.
        """
        ledger = cls(fit=stored.read_fit(memory))
        stored.read_memory(ledger, memory)
        stored.read_history(ledger, history)
        ledger._last_day = max(ledger.days, default=None)
        return ledger

    def _note_cold(self, before: ItemState, event: Event) -> None:
        if fading.is_lifted(before, event):
            return
        self.recent.append(event.right)
        if event.timed and not event.help:
            fast = grading.is_fast(event)
            chance = before.chance(event.day, self.model) if before.cold else self.readings.first_share
            self.predictions.observe(chance, fast)
            self.readings.observe(before.cold, before.fast_run, fast)
            self.lasting.observe(event.day - before.last, fast)
        if event.right:
            self._make_up(event)

    def _make_up(self, event: Event) -> None:
        """A good cold answer makes up for half of the confusions of each sort, or the same pair would come back for
        ever; one that no help was needed for proves that nothing was misread."""
        confused = self.confusions.pop(event.item, None)
        if confused:
            left = {said: one._replace(times=one.times // 2) for said, one in confused.items() if one.times > 1}
            if left:
                self.confusions[event.item] = left
        if not event.help:
            for habit in self.habits.values():
                if event.item in habit.proofs:
                    habit.did_not(event.item, event.day, self.states)

    def _note_misreading(self, event: Event, kind: str) -> None:
        items = self.misreadings.setdefault(kind, {})
        items[event.item] = items.get(event.item, 0) + 1
        self.misread_on[kind] = max(event.day, self.misread_on.get(kind, event.day))
        self.habits.setdefault(kind, Habit()).happened(event.item, event.day)
        answers = self.confusions.setdefault(event.item, {})
        before = answers.get(event.said)
        times, day = (0, event.day) if before is None else (before.times, before.day)
        answers[event.said] = Confusion(kind, times + 1, max(day, event.day))

    def _tally(self, event: Event) -> None:
        last = self._last_day
        if last is None or event.day > last:
            if last is not None:
                self.days[last].close()
            self._last_day = last = event.day
        tally = self.days.get(event.day)
        if tally is None:
            tally = self.days[event.day] = DayTally()
        tally.add(event, current=event.day == last)
