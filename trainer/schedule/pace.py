"""The learner's own pace, from the record: how many cold answers are right and fast, how much comes new, which days."""

from __future__ import annotations

from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule import sizes
from trainer.schedule.formulas import first_memory
from trainer.schedule.grading import QUICK, READ
from trainer.schedule.intake import DAY_CAP, FIRST_DAYS_CAP
from trainer.schedule.ledger import Ledger
from trainer.schedule.memory import MAX_INTERVAL
from trainer.schedule.parameters import Model
from trainer.schedule.predicted import BINS, Bin
from trainer.schedule.state import ItemState
from trainer.schedule.steps import Step, steps_of

Beta = tuple[float, float]
"""What is known of a share: hits and misses counted, each with a little to begin with."""

RECENT_DAYS: Final = 14
RECENT_INTAKE: Final = 7
OLD: Final = 40.0
"""Cold answers of the whole record count together for so many at most, beside those of the last day: people change."""
USUAL: Final = (2.0, 1.0)
"""Believed of somebody of whom nothing is known: two of three cold answers right and fast (our choice)."""
_FIRST_COLD: Final = 0.5


class Pace(NamedTuple):
    """How a learner practises.

    Attributes:
        first: the share right and fast of the first cold answers of items.
        later: that of all other cold answers.
        quick: the share of the quick ones among those right and fast.
        wrong: the share of the wrong ones among those that are not right and fast.
        comes: the share of days with practice.
        new: new items a day of practice.
        practised: days of practice so far.
        cold: cold answers so far, those counted that prove a speed.
        worth: items at most that are gone over in a sitting.
        longest: the longest rest in days.
        step: how the learner's memory goes on.
    """

    first: Beta
    later: Beta
    quick: float
    wrong: float
    comes: Beta
    new: float
    practised: int
    cold: int
    worth: int
    longest: int
    step: Step

    def cap(self, nth: int) -> float:
        """New items on the nth day of practice, from 0."""
        return min(self.new, FIRST_DAYS_CAP if nth < sizes.FIRST_DAYS else DAY_CAP)


def pace_of(catalogue: Catalogue, ledger: Ledger, *, day: int, minutes: float) -> Pace:
    """The pace up to a practice day. Linear in items and days, never in answers."""
    states = [state for item in catalogue.items if (state := ledger.states.get(item.id)) is not None]
    firsts, laters = ledger.predictions.bins[int(_FIRST_COLD * BINS)], Bin()
    for each in ledger.predictions.bins:
        if each is not firsts:
            laters.n += each.n
            laters.observed += each.observed
    last = [state for state in states if state.last == ledger.last_day and state.cold]
    read, quick = _quick(states, ledger.model)
    first = _believed([state for state in last if state.cold == 1], firsts)
    later = _believed([state for state in last if state.cold > 1], laters, prior=_scaled(first, sum(USUAL)))
    missed = 1 - mean(later)
    recent = ledger.recent
    wrong = (recent.count(False) + 1) / (len(recent) + 4)
    return Pace(
        first=first,
        later=later,
        quick=(quick + 1) / (read + 2),
        wrong=min(1.0, wrong / missed) if missed > 0 else 1.0,
        comes=_comes(sorted(ledger.days), day),
        new=_intake(states, sorted(ledger.days), day),
        practised=sizes.days_practised(ledger, day),
        cold=ledger.predictions.n,
        worth=sizes.sitting_worth(ledger, day, minutes),
        longest=min(ledger.lasting.days, MAX_INTERVAL),
        step=steps_of(ledger.model),
    )


def mean(share: Beta) -> float:
    """The share itself."""
    return share[0] / (share[0] + share[1])


def _quick(states: list[ItemState], model: Model) -> tuple[int, int]:
    """How many items were right and fast, and how many of those quick: of them memory thinks that they are easier."""
    read, quick = (first_memory(model.parameters, grade)[1] for grade in (READ, QUICK))
    found = [state.memory[1] for state in states if state.memory is not None and state.fast_run]
    return len(found), sum(difficulty < (read + quick) / 2 for difficulty in found)


def _believed(last: list[ItemState], old: Bin, prior: Beta = USUAL) -> Beta:
    """The last day of practice in full, as its cold answers still stand in the states; what was before it in brief."""
    weight = min(1.0, OLD / old.n) if old.n else 0.0
    hits = sum(state.fast_run > 0 for state in last)
    return (
        prior[0] + hits + weight * old.observed,
        prior[1] + len(last) - hits + weight * (old.n - old.observed),
    )


def _scaled(share: Beta, weight: float) -> Beta:
    total = sum(share)
    return share[0] * weight / total, share[1] * weight / total


def _comes(days: list[int], day: int) -> Beta:
    """Days with practice and days without among the recent ones; a long rest counts as a short one."""
    recent = days[-RECENT_DAYS:]
    if not recent:
        return 1.0, 0.25
    until = max(day, recent[-1] + 1)  # today is not over: it is no missed day
    steps = (after - before for before, after in zip(recent, [*recent[1:], until], strict=True))
    missed = sum(min(step - 1, sizes.LONG_REST) for step in steps)
    return len(recent) + 1.0, missed + 0.25


def _intake(states: list[ItemState], days: list[int], day: int) -> float:
    """New items a day of practice, of late; first lessons count only where there is nothing else."""
    over = [when for when in days if when < day]
    over = (over[sizes.FIRST_DAYS :] or over or days)[-RECENT_INTAKE:]
    if not over:
        return FIRST_DAYS_CAP
    met = sum(over[0] <= state.met <= over[-1] for state in states)
    return (met + DAY_CAP / 2) / (len(over) + 0.5)
