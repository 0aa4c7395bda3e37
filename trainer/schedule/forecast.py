"""The next 14 days as they are likely to come: what is known now with its returns, and what new items bring."""

from __future__ import annotations

import random
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule.ahead import DAYS, Ahead
from trainer.schedule.coming import askings_of_new
from trainer.schedule.intake import FORECAST_SHARE
from trainer.schedule.lasting import Lasting
from trainer.schedule.ledger import Ledger
from trainer.schedule.pace import Pace, mean
from trainer.schedule.sizes import usual_answers
from trainer.schedule.waiting import Odds, Waiting, answered, new_one, odds_of, waiting_of

RUNS: Final = 16
STEPS: Final = 3_000
"""Cold answers at most that are played through, some ten milliseconds of them; the first few runs are always done."""
LEAST_RUNS: Final = 3


class Coming(NamedTuple):
    """What a day is likely to bring, if it is one of practice.

    Attributes:
        due: items to go over at its start, at most a sitting's worth.
        asked: the share of those due for which there is time.
        early: the share of those that may come before they are due for which there is time.
        new: items that are met.
    """

    due: float
    asked: float
    early: float
    new: float


def forecast(
    catalogue: Catalogue, ledger: Ledger, pace: Pace, ahead: Ahead, *, day: int, minutes: float
) -> tuple[Coming, ...]:
    """Today, what is left of it, and the next 14 days. What a missed day leaves waits for the next one.

    What is gone over before it is due is not counted as due, neither then nor on the day on which it would have been.

    Args:
        catalogue: what can be asked.
        ledger: what the record says.
        pace: the learner's.
        ahead: what is known.
        day: today, a practice day; the rest of its sitting is taken to be done.
        minutes: the length of a sitting.
    """
    rng = random.Random(f"{ledger.seed}:{day}:{ledger.events}:ahead")
    known = [state for item in catalogue.items if (state := ledger.states.get(item.id)) is not None]
    unmet = len(catalogue.items) - len(known)
    room = FORECAST_SHARE * usual_answers(ledger, day, minutes)
    done = ledger.days[day].answers if day in ledger.days else 0
    parts = _parts(catalogue, ledger, day)
    sums = [_Sums() for _ in range(DAYS + 1)]
    runs = steps = 0
    while runs < RUNS and (runs < LEAST_RUNS or steps * (runs + 1) < STEPS * runs):
        items = [waiting_of(state, day, rng) for state in known]
        steps += _run(items, unmet, pace, ahead, room, done, parts, sums, rng)
        runs += 1
    return tuple(each.coming(runs) for each in sums)


class _Sums:
    """Counts of one day over all runs."""

    def __init__(self) -> None:
        self.due = self.days = self.wanted = self.asked = self.open = self.early = self.new = 0

    def coming(self, runs: int) -> Coming:
        return Coming(
            round(self.due / runs, 1),
            self.asked / self.wanted if self.wanted else 1.0,
            self.early / self.open if self.open else 1.0,
            self.new / self.days if self.days else 0.0,
        )


def _run(
    items: list[Waiting], unmet: int, pace: Pace, ahead: Ahead, room: float, done: int, parts: int,
    sums: list[_Sums], rng: random.Random,
) -> int:
    """One way in which the days may go, added to the sums; how many cold answers that was."""
    odds, comes = odds_of(pace, rng), mean(pace.comes)
    lasting = Lasting(*pace.lasting)
    again, for_new = 1 / max(pace.right, 0.2), askings_of_new(pace.right)
    steps, nth = 0, pace.practised
    for today, counted in enumerate(sums):
        due = [item for item in items if item.due <= today]
        queue, held = _todays(due, pace.worth if today else ahead.due, int(room / FORECAST_SHARE / 2))
        counted.due += min(pace.worth, pace.questions, len(queue) + parts)
        if today and rng.random() >= comes:
            continue
        time = pace.questions - (parts if today or not done else done)
        asked = queue[: max(0, int(time / again))]
        kept_back = {id(item) for item in asked}
        rest = [item for item in items if id(item) not in kept_back]
        come = [_answer(item, today, rng, odds, pace, lasting) for item in asked]
        time -= round(again * len(asked))
        tomorrow = sum(item.due <= today + 1 for item in rest) + sum(item.due <= today + 1 for item in come)
        new = min(round(pace.cap(nth)), unmet, int(room) - tomorrow, time // for_new) if today else ahead.new
        new = 0 if held else max(0, new)
        time -= new * for_new
        early = [item for item in rest if item.due > today and (at := item.early) is not None and at <= today]
        early.sort(key=lambda item: (item.due - today) / item.wait)
        first = early[: max(0, int(time / again))]
        moved = {id(item) for item in first}
        items = [item for item in rest if id(item) not in moved]
        items += come
        items += [_answer(item, today, rng, odds, pace, lasting) for item in first]
        items += [new_one(today, rng) for _ in range(new)]
        unmet -= new
        nth += 1
        steps += len(asked) + len(first)
        counted.days += 1
        counted.wanted += len(due)
        counted.asked += len(asked)
        counted.open += len(early)
        counted.early += len(first)
        counted.new += new
    return steps


def _parts(catalogue: Catalogue, ledger: Ledger, day: int) -> int:
    """So many items are gone over each day though they are not due, as long as what needs them is taken apart."""
    states, tomorrow = ledger.states, day + 1
    found = {
        need
        for item in catalogue.items
        if (state := states.get(item.id)) is not None and state.stuck and state.due <= tomorrow
        for need in item.needs
        if need in catalogue.by_id and (part := states.get(need)) is not None and part.due > tomorrow
    }
    return len(found)


def _todays(due: list[Waiting], worth: int, most_slow: int) -> tuple[list[Waiting], bool]:
    """What fits into a sitting, and whether more is due than that; as in ``due.todays``."""
    later = [item for item in due if item.always_slow][most_slow:]
    if later:
        behind = {id(item) for item in later}
        due = [item for item in due if id(item) not in behind]
    return (due + later)[:worth], len(due) > worth


def _answer(
    item: Waiting, today: int, rng: random.Random, odds: Odds, pace: Pace, lasting: Lasting
) -> Waiting:
    after = answered(item, today, rng, odds, pace, lasting.days)
    lasting.observe(today - item.last, after.run > 0)
    return after
