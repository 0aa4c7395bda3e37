"""The learner's own pace, from the record: how many cold answers are right and fast, how much comes new, which days."""

from __future__ import annotations

from math import exp, log
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule import sizes
from trainer.schedule.early import may_come
from trainer.schedule.formulas import first_memory
from trainer.schedule.grading import QUICK, READ
from trainer.schedule.intake import DAY_CAP, FIRST_DAYS_CAP, LONGER_BY
from trainer.schedule.ledger import Ledger
from trainer.schedule.parameters import Model
from trainer.schedule.predicted import Bin
from trainer.schedule.readings import GROUPS, LONGEST_RUN, Readings, group
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
ALIKE: Final = 8.0
"""How alike the items are: some are read from the first day on, others missed again and again (our choice)."""
MOST_SLIPS: Final = 6
LIKE_THE_LAST: Final = 3.0
GAINS: Final = 1.5
"""Before anything is known of what was read once more in a row, it is believed to be read with odds so many times as
high, as if so many answers had said so."""


USUALLY_RIGHT: Final = 0.9
"""Believed of somebody of whom little is known."""

FULL: Final = 0.8
"""Days are full where answers alone take this share of a sitting's minutes: verdicts and lessons take the rest."""


class Pace(NamedTuple):
    """How a learner practises.

    Attributes:
        reads: the share right and fast of cold answers, in each group of ``readings``.
        asked, lucky: the usual number of cold answers so far, and the usual luck, of the items in each group.
        later: the share right and fast of all cold answers.
        quick: the share of the quick ones among those right and fast.
        wrong: the share of the wrong ones among those that are not right and fast.
        comes: the share of days with practice.
        new: new items a day of practice.
        practised: days of practice so far.
        cold: cold answers so far, those counted that prove a speed.
        worth: items at most that are gone over in a sitting.
        questions: so many fit into a sitting.
        right: the share of right answers among the recent cold ones.
        lasting: the longest rest in days, and what tells whether it may be longer.
        step: how the learner's memory goes on.
    """

    reads: tuple[Beta, ...]
    asked: tuple[float, ...]
    lucky: tuple[float, ...]
    later: Beta
    quick: float
    wrong: float
    comes: Beta
    new: float
    practised: int
    cold: int
    worth: int
    questions: int
    right: float
    lasting: tuple[int, tuple[bool, ...]]
    step: Step

    def cap(self, nth: int) -> float:
        """New items on the nth day of practice, from 0."""
        return min(self.new, (FIRST_DAYS_CAP if nth < sizes.FIRST_DAYS else DAY_CAP) + LONGER_BY)


def pace_of(catalogue: Catalogue, ledger: Ledger, *, day: int, minutes: float) -> Pace:
    """The pace up to a practice day. Linear in items and days, never in answers."""
    states = [state for item in catalogue.items if (state := ledger.states.get(item.id)) is not None]
    whole = Bin()
    for each in ledger.predictions.bins:
        whole.n += each.n
        whole.observed += each.observed
    last = [state for state in states if state.last == ledger.last_day and state.cold]
    read, quick = _quick(states, ledger.model)
    later = _believed(last, whole)
    missed = 1 - mean(later)
    asked, lucky = _usual(states)
    recent = ledger.recent
    wrong = (recent.count(False) + 1) / (len(recent) + 4)
    return Pace(
        reads=reads_of(ledger.readings),
        asked=asked,
        lucky=lucky,
        later=later,
        quick=(quick + 1) / (read + 2),
        wrong=min(1.0, wrong / missed) if missed > 0 else 1.0,
        comes=_comes(sorted(ledger.days), day),
        new=_intake(states, sorted(ledger.days), day),
        practised=sizes.days_practised(ledger, day),
        cold=ledger.predictions.n,
        worth=sizes.sitting_worth(ledger, day, minutes),
        questions=sitting_questions(catalogue, ledger, day=day, minutes=minutes),
        right=right_share(ledger),
        lasting=(ledger.lasting.days, tuple(ledger.lasting.told)),
        step=steps_of(ledger.model),
    )


def mean(share: Beta) -> float:
    """The share itself."""
    return share[0] / (share[0] + share[1])


def right_share(ledger: Ledger) -> float:
    """The share of right answers among the recent cold ones; near to what is usual where there are few."""
    recent = ledger.recent
    return (sum(recent) + 2 * USUALLY_RIGHT) / (len(recent) + 2)


def sitting_questions(catalogue: Catalogue, ledger: Ledger, *, day: int, minutes: float) -> int:
    """So many fit into the sitting: those of the last days where these were full, else as many as the pace allows.

    They were full where answers alone took most of the minutes, or where the last one left something undone: for
    somebody who reads each verdict at leisure, or breaks off early.
    """
    worth = sizes.sitting_worth(ledger, day, minutes)
    before = [ledger.days[when] for when in sorted(ledger.days)[-sizes.DAYS_COUNTED :]]
    answers, spent = sum(tally.answers for tally in before), sum(tally.spent for tally in before)
    if not spent:
        return worth
    full = sum(min(tally.spent, minutes * 60_000) for tally in before) >= FULL * minutes * 60_000 * len(before)
    full = full or _left_some(catalogue, ledger)
    return min(worth, int(minutes * 60_000 * answers / spent), answers // len(before) if full else worth)


def _left_some(catalogue: Catalogue, ledger: Ledger) -> bool:
    """Whether something that was due on the last day of practice, or might have come before it was, did not come."""
    last = ledger.last_day or 0
    return any(
        state.last < last and state.rights > 0 and (state.due <= last or may_come(state, last))
        for item in catalogue.items
        if (state := ledger.states.get(item.id)) is not None
    )


def tried(state: ItemState) -> tuple[int, int]:
    """How often an item was read of late, and missed, as its state tells: its last run and what ended before it, or its
    slips since it was last read."""
    if state.fast_run:
        return min(state.fast_run, LONGEST_RUN), int(state.cold > state.fast_run)
    return 0, min(state.slips, MOST_SLIPS)


def _usual(states: list[ItemState]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The usual number of cold answers, a geometric mean, and the usual luck of what is asked in each group, or what
    there is in the group before where nothing is in one. What is due more often counts for more."""
    sums = [[0.0, 0.0, 0.0] for _ in range(GROUPS)]
    for state in states:
        weight = 1 / max(1, state.due - state.last)
        hits, misses = tried(state)
        each = sums[group(state.cold, state.fast_run)]
        each[0] += weight
        each[1] += weight * log(state.cold + 1)
        each[2] += weight * log((ALIKE / 2 + hits) / (ALIKE / 2 + misses))
    asked, lucky = [0.0], [1.0]
    for total, logs, lucks in sums[1:]:
        asked.append(exp(logs / total) - 1 if total else asked[-1])
        lucky.append(exp(lucks / total) if total else lucky[-1])
    return tuple(asked), tuple(lucky)


def _quick(states: list[ItemState], model: Model) -> tuple[int, int]:
    """How many items were right and fast, and how many of those quick: of them memory thinks that they are easier."""
    read, quick = (first_memory(model.parameters, grade)[1] for grade in (READ, QUICK))
    found = [state.memory[1] for state in states if state.memory is not None and state.fast_run]
    return len(found), sum(difficulty < (read + quick) / 2 for difficulty in found)


def _believed(last: list[ItemState], old: Bin) -> Beta:
    """The last day of practice in full, as its cold answers still stand in the states; what was before it in brief."""
    weight = min(1.0, OLD / old.n) if old.n else 0.0
    hits = sum(state.fast_run > 0 for state in last)
    return (
        USUAL[0] + hits + weight * old.observed,
        USUAL[1] + len(last) - hits + weight * (old.n - old.observed),
    )


def reads_of(readings: Readings) -> tuple[Beta, ...]:
    """What was observed in each group, with a little of what the group before lets believe."""
    prior, found = USUAL, list[Beta]()
    for told in readings.groups:
        hits = sum(told)
        found.append((prior[0] + hits, prior[1] + len(told) - hits))
        odds = GAINS * found[-1][0] / found[-1][1]
        prior = LIKE_THE_LAST * odds / (1 + odds), LIKE_THE_LAST / (1 + odds)
    return tuple(found)


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
