"""The next 14 days as they are likely to come: what is known now with its returns, and what new items bring."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule.ahead import DAYS, Ahead
from trainer.schedule.event import Event
from trainer.schedule.grading import MISSED, QUICK, READ
from trainer.schedule.grading import grade as grade_of
from trainer.schedule.intake import FORECAST_SHARE
from trainer.schedule.ledger import Ledger
from trainer.schedule.pace import Pace, mean
from trainer.schedule.sizes import usual_answers
from trainer.schedule.state import FLUENT_RUN, STUCK, ItemState
from trainer.schedule.steps import UNSEEN, Place, place

RUNS: Final = 16
STEPS: Final = 6_000
"""Cold answers at most that are played through, some ten milliseconds of them; the first few runs are always done."""
LEAST_RUNS: Final = 3
ALIKE: Final = 4.0
"""How alike the items are: some are read from the first day on, others missed again and again (our choice)."""

LEARNS: Final = 0.07
"""By so much the odds of an item's being read grow with each cold answer, more or less: without that nobody who is
right in four of five would ever be fluent at anything, and they are (our choice; simulated learners bear it out)."""

SLOW: Final = grade_of(Event(day=0, item="", right=True, said="", seconds=2.0, base=0.5, limit=1.5, timed=True))
"""The grade of what is right but slow."""


class Waiting(NamedTuple):
    """An item between two cold answers.

    Attributes:
        at: its memory.
        last: the day of its last answer, counted from today.
        wait: the days until it is due, from then on.
        luck: how likely it is to be read, from 0 (never) to 1, beside the learner's other items.
    """

    at: Place
    last: int
    wait: int
    luck: float


class Answered(NamedTuple):
    """A cold answer, and how the item waits from then on."""

    hit: bool
    wrong: bool
    waiting: Waiting


def answered(
    item: Waiting, day: int, rng: random.Random, chance: float, pace: Pace, learns: float = LEARNS
) -> Answered:
    """Play through a cold answer that is right and fast with this chance."""
    hit = rng.random() < chance
    wrong = not hit and rng.random() < pace.wrong
    grade = MISSED if wrong else SLOW
    if hit:
        grade = QUICK if rng.random() < pace.quick else READ
    at, wait = pace.step(item.at, max(1, day - item.last), grade)
    wait = min(wait, pace.longest)
    if wait >= 3:
        wait += int(3 * rng.random()) - 1  # as intervals are spread
    if not hit:
        wait = min(wait, item.wait)
    return Answered(hit, wrong, Waiting(at, day, wait, item.luck * (1 + learns) / (1 + learns * item.luck)))


def drawn(hits: int, misses: int, rng: random.Random) -> float:
    """The luck of an item of which so much is known."""
    return rng.betavariate(ALIKE / 2 + hits, ALIKE / 2 + misses)


def tried(state: ItemState) -> tuple[int, int]:
    """How often an item was read of late, and missed: its last run, and what ended before, as its state tells."""
    return min(state.fast_run, FLUENT_RUN), int(state.cold > state.fast_run) + (state.slips >= STUCK // 2)


def expected(
    catalogue: Catalogue, ledger: Ledger, pace: Pace, ahead: Ahead, *, day: int, minutes: float
) -> tuple[float, ...]:
    """How many items are likely to be gone over on each of the next 14 days, if it is a day of practice.

    What a missed day leaves waits for the next one. Never less than what is known to fall due.

    Args:
        catalogue: what can be asked.
        ledger: what the record says.
        pace: the learner's.
        ahead: what is known.
        day: today, a practice day; the rest of its sitting is taken to be done.
        minutes: the length of a sitting.
    """
    rng = random.Random(f"{ledger.seed}:{day}:{ledger.events}:ahead")
    known = list(_known(catalogue, ledger, day))
    unmet = len(catalogue.items) - len(known)
    room = FORECAST_SHARE * usual_answers(ledger, day, minutes)
    totals, runs, steps = [0.0] * DAYS, 0, 0
    while runs < RUNS and (runs < LEAST_RUNS or steps * (runs + 1) < STEPS * runs):
        counts, taken = _run(known, unmet, pace, ahead, room, rng)
        totals = [total + count for total, count in zip(totals, counts, strict=True)]
        runs, steps = runs + 1, steps + taken
    return tuple(max(float(due), round(total / runs, 1)) for due, total in zip(ahead.days, totals, strict=True))


def _known(catalogue: Catalogue, ledger: Ledger, day: int) -> Iterator[tuple[tuple[int, int], Waiting]]:
    """What has been met, each with its ``tried``; its luck is for each run to say."""
    for item in catalogue.items:
        state = ledger.states.get(item.id)
        if state is not None:
            yield tried(state), Waiting(place(state.memory), state.last - day, max(1, state.due - state.last), 0.5)


def _run(
    known: list[tuple[tuple[int, int], Waiting]], unmet: int, pace: Pace, ahead: Ahead, room: float, rng: random.Random
) -> tuple[list[int], int]:
    """One way in which the days may go: how many there are to go over on each, and how many cold answers that was."""
    first, later = rng.betavariate(*pace.first), rng.betavariate(*pace.later)
    comes = mean(pace.comes)
    days: list[list[Waiting]] = [[] for _ in range(DAYS + 1)]
    for (hits, misses), item in known:
        if (due := max(0, item.last + item.wait)) <= DAYS:
            days[due].append(item._replace(luck=drawn(hits, misses, rng)))
    counts, steps, nth = [], 0, pace.practised
    for today, queue in enumerate(days):
        asked = queue[: pace.worth] if today else queue[: ahead.due]
        counts.append(len(asked))
        if today and rng.random() >= comes:
            if today < DAYS:
                days[today + 1].extend(queue)
            continue
        steps += len(asked)
        for item in asked:
            chance = first if item.at == UNSEEN else later
            item = answered(item, today, rng, tilted(chance, item.luck), pace).waiting
            if item.last + item.wait <= DAYS:
                days[item.last + item.wait].append(item)
        if today < DAYS:
            days[today + 1].extend(queue[len(asked) :])
            new = ahead.new if not today else min(round(pace.cap(nth)), unmet, int(room) - len(days[today + 1]))
            new = 0 if len(queue) > len(asked) else max(0, new)
            unmet -= new
            days[today + 1].extend(Waiting(UNSEEN, today, 1, drawn(0, 0, rng)) for _ in range(new))
        nth += 1
    return counts[1:], steps


def tilted(chance: float, luck: float) -> float:
    """The learner's chance for an item of this luck: odds times odds, so that even luck leaves it as it is."""
    odds = chance * luck
    return odds / (odds + (1 - chance) * (1 - luck))
