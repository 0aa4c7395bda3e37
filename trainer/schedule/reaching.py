"""When the current stage should be fluent at this pace: a small Monte Carlo over its items, by the learner's record."""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Sequence
from enum import StrEnum
from math import ceil, prod
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule.forecast import Coming
from trainer.schedule.intake import ENOUGH_COLD, LEAST_RIGHT
from trainer.schedule.ledger import Ledger
from trainer.schedule.pace import Pace, mean
from trainer.schedule.stages import current_stage
from trainer.schedule.standing import standing
from trainer.schedule.state import ItemState
from trainer.schedule.waiting import Waiting, answered, new_one, odds_of, waiting_of

YEAR: Final = 365
RUNS: Final = 60
LEAST_RUNS: Final = 16
STEPS: Final = 6_000
"""Cold answers at most that are played through, some ten milliseconds of them; the first few runs are always done."""
GIVEN_UP_AFTER: Final = 12_000
"""A run with more of them than this is given up."""
FAR: Final = 4
"""Where so many runs take more than a year, and more than every other one does, no more are needed."""
ENOUGH_DAYS: Final = 3
ENOUGH_ANSWERS: Final = 20
SAMPLE: Final = 60
"""Of a larger stage only so many items are played through, spread over it evenly."""
GETS_THERE: Final = 0.03
"""Where the chance of three right and fast in a row is less than this, they hardly ever come: no date is honest."""
RARELY: Final = 0.03
"""Where a smaller share than this is gone over before it is due, none is."""
A_WEEK: Final = 7


class Prospect(StrEnum):
    """What can be said of a stage."""

    DATED = "dated"
    TOO_EARLY = "too-early"
    OVER_A_YEAR = "over-a-year"
    WRONG = "wrong"
    """Too many answers are wrong."""
    SLOW = "slow"
    """Too many are right but slow."""
    UNTIMED = "untimed"
    """The seconds are not known, so that nothing shows whether it is read."""
    ALL_FLUENT = "all-fluent"


class StageAhead(NamedTuple):
    """The stage that the learner is at (see ``current_stage``), and when it should be fluent.

    Attributes:
        number, title: of the stage; the last one where all are fluent.
        items, met, fluent: how many of them.
        target: so many have to be fluent.
        prospect: what can be said.
        early, likely, late: practice days, the 10th, 50th and 90th percentile, a year from now at most; None
            without a date.
    """

    number: int
    title: str
    items: int
    met: int
    fluent: int
    target: int
    prospect: Prospect
    early: int | None = None
    likely: int | None = None
    late: int | None = None


def stage_ahead(
    catalogue: Catalogue, ledger: Ledger, pace: Pace, coming: Sequence[Coming], *, day: int
) -> StageAhead:
    """The current stage and its date, the same for the same record and day; ``coming`` is today and the next days."""
    stage = _current(catalogue, ledger)
    if stage.prospect is not Prospect.DATED:
        return stage
    doubt = _doubt(ledger, pace, unmet=stage.target - stage.met)
    if doubt is not None:
        return stage._replace(prospect=doubt)
    days = _days(catalogue, ledger, pace, coming, stage, day)
    early, likely, late = (days[int(share * len(days))] for share in (0.1, 0.5, 0.9))
    if likely > YEAR:
        return stage._replace(prospect=Prospect.OVER_A_YEAR)
    return stage._replace(early=day + early, likely=day + likely, late=day + min(late, YEAR))


def _current(catalogue: Catalogue, ledger: Ledger) -> StageAhead:
    now = current_stage(catalogue, ledger.states)
    prospect = Prospect.DATED if now.fluent < now.items else Prospect.ALL_FLUENT
    return StageAhead(*now, prospect)


def _doubt(ledger: Ledger, pace: Pace, *, unmet: int) -> Prospect | None:
    """Why no date can be given, or None."""
    recent = ledger.recent
    if len(ledger.days) < ENOUGH_DAYS or len(recent) < ENOUGH_ANSWERS:
        return Prospect.TOO_EARLY
    right = sum(recent) / len(recent)
    untimed = pace.cold < ENOUGH_COLD
    if untimed or prod(map(mean, pace.reads[1:4])) < GETS_THERE:
        if untimed and right >= LEAST_RIGHT:
            return Prospect.UNTIMED
        return Prospect.SLOW if pace.wrong < 0.5 else Prospect.WRONG
    if unmet > 0 and right < LEAST_RIGHT:
        return Prospect.WRONG  # nothing new comes until more is right
    return None


def _days(
    catalogue: Catalogue, ledger: Ledger, pace: Pace, coming: Sequence[Coming], stage: StageAhead, day: int
) -> list[int]:
    """The days from today until enough of the stage is fluent, one for each run, in rising order."""
    rng = random.Random(f"{ledger.seed}:{day}:{ledger.events}:stage")
    every = ceil(stage.items / SAMPLE)
    met = [state for item in catalogue.items if item.stage == stage.number and (state := ledger.states.get(item.id))]
    met, turns = met[::every], _turns(catalogue, ledger, stage.number)[::every]
    share = ceil(stage.target / stage.items * (len(met) + len(turns)))
    target = max(share, sum(state.fluent for state in met) + 1)  # it is not there yet, whatever the sample says
    today_over = ledger.last_day == day and not any(state.due <= day for state in met)
    found: list[int] = []
    steps = late = 0
    while len(found) < RUNS and (len(found) < LEAST_RUNS or steps * (len(found) + 1) < STEPS * len(found)):
        when, taken = _run(met, turns, pace, coming, target, day, rng, today_over=today_over)
        found.append(when)
        steps += taken
        late += when > YEAR
        if late >= FAR and late > len(found) / 2:
            break
    return sorted(found)


def _turns(catalogue: Catalogue, ledger: Ledger, stage: int) -> list[int]:
    """For each item of the stage that is not met: how many new items come before it. What it needs comes first."""
    items, order = catalogue.items, standing(catalogue.items)
    unmet = [at for at, item in enumerate(items) if item.id not in ledger.states]
    after: dict[int, int] = {}

    def turn(at: int) -> int:
        if at not in after:
            needs = (order.at[need] for need in items[at].needs if need in order.at and need not in ledger.states)
            after[at] = max([order.turn[at], *map(turn, needs)])
        return after[at]

    ranked = sorted(unmet, key=lambda at: (turn(at), order.turn[at]))
    return [nth for nth, at in enumerate(ranked) if items[at].stage == stage]


def _run(
    met: list[ItemState], turns: list[int], pace: Pace, coming: Sequence[Coming], target: int, day: int,
    rng: random.Random, *, today_over: bool,
) -> tuple[int, int]:
    """One way in which it may go: the days until the stage is fluent (more than a year: a year and a day), and the
    number of cold answers until then. With more of them than any run should take it is given up as more than a year."""
    odds, comes = odds_of(pace, rng), rng.betavariate(*pace.comes)
    longest, usual = pace.lasting[0], _usual(coming)
    days: dict[int, list[Waiting]] = defaultdict(list)
    for state in met:
        item = waiting_of(state, day, rng)
        days[max(0, _next(item))].append(item)
    fluent = sum(state.fluent for state in met)
    steps, introduced, begun = 0, 0.0, 0
    for today in range(YEAR + 1):
        queue = days.pop(today, [])
        if (today_over and not today) or (today and rng.random() >= comes):
            days[today + 1].extend(queue)
            continue
        now = coming[today] if today < len(coming) else usual
        for item in queue:
            is_due = item.due <= today
            if not is_due and now.early < RARELY:
                days[item.due].append(item)
                continue
            if rng.random() >= (now.asked if is_due else now.early):
                days[today + 1].append(item)
                continue
            after = answered(item, today, rng, odds, pace, longest)
            fluent += after.fluent - item.fluent
            days[_next(after)].append(after)
            steps += 1
        if fluent >= target:
            return today, steps
        if steps > GIVEN_UP_AFTER:
            break
        introduced += now.new
        while begun < len(turns) and turns[begun] < introduced:
            begun += 1
            days[today + 1].append(new_one(today, rng))
    return YEAR + 1, steps


def _next(item: Waiting) -> int:
    """The day on which it may be asked next."""
    early = item.early
    return item.due if early is None else early


def _usual(coming: Sequence[Coming]) -> Coming:
    """What comes after the days that were looked at: the usual day of their last week."""
    return Coming(*(sum(each) / A_WEEK for each in zip(*coming[-A_WEEK:], strict=True)))
