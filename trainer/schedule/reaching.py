"""When the current stage should be fluent at this pace: a small Monte Carlo over its items, by the learner's record."""

from __future__ import annotations

import random
from collections import defaultdict
from enum import StrEnum
from math import ceil
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule.forecast import LEARNS, Waiting, answered, drawn, tilted, tried
from trainer.schedule.intake import ENOUGH_COLD, LEAST_RIGHT
from trainer.schedule.ledger import Ledger
from trainer.schedule.pace import Pace, mean
from trainer.schedule.standing import standing
from trainer.schedule.state import FLUENT_REST, FLUENT_RUN, ItemState
from trainer.schedule.status import Status, status
from trainer.schedule.steps import UNSEEN, place

NEARLY_ALL: Final = 0.9
"""A stage counts as fluent with nine tenths of its items: the last few, missed today or met late, would make any date a
matter of chance. Where so many are fluent already, the date is that of all of them."""

YEAR: Final = 365
RUNS: Final = 60
LEAST_RUNS: Final = 16
STEPS: Final = 12_000
"""Cold answers at most that are played through, some ten milliseconds of them."""
FAR: Final = 4
"""Where so many runs take more than a year, and more than one in five does, no more are needed."""
ENOUGH_DAYS: Final = 3
ENOUGH_ANSWERS: Final = 20
SAMPLE: Final = 60
"""Of a larger stage only so many items are played through, spread over it evenly."""
GETS_THERE: Final = 0.4
"""Where fewer cold answers than this are right and fast, three in a row hardly ever come: no date is honest."""


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
    """The first stage that is not fluent, and when it should be.

    Attributes:
        number, title: of the stage; the last one where all are fluent.
        items, met, fluent: how many of them.
        target: so many have to be fluent.
        prospect: what can be said.
        early, likely, late: practice days, the 10th, 50th and 90th percentile; None without a date.
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


def stage_ahead(catalogue: Catalogue, ledger: Ledger, pace: Pace, *, day: int) -> StageAhead:
    """The current stage and its date, the same for the same record and day."""
    stage = _current(catalogue, ledger)
    if stage.prospect is not Prospect.DATED:
        return stage
    doubt = _doubt(ledger, pace, unmet=stage.items - stage.met)
    if doubt is not None:
        return stage._replace(prospect=doubt)
    days = _days(catalogue, ledger, pace, stage, day)
    early, likely, late = (days[int(share * len(days))] for share in (0.1, 0.5, 0.9))
    if late > YEAR:
        return stage._replace(prospect=Prospect.OVER_A_YEAR)
    return stage._replace(early=day + early, likely=day + likely, late=day + late)


def _current(catalogue: Catalogue, ledger: Ledger) -> StageAhead:
    states, found = ledger.states, None
    for number, title in catalogue.stages.items():
        here = [states.get(item.id) for item in catalogue.items if item.stage == number]
        fluent = sum(status(state).rank >= Status.FLUENT.rank for state in here)
        met = sum(state is not None for state in here)
        target = ceil(NEARLY_ALL * len(here))
        target = len(here) if fluent >= target else target
        prospect = Prospect.DATED if fluent < len(here) else Prospect.ALL_FLUENT
        found = StageAhead(number, title, len(here), met, fluent, target, prospect)
        if fluent < len(here):
            break
    return found or StageAhead(0, "", 0, 0, 0, 0, Prospect.ALL_FLUENT)


def _doubt(ledger: Ledger, pace: Pace, *, unmet: int) -> Prospect | None:
    """Why no date can be given, or None."""
    recent = ledger.recent
    if len(ledger.days) < ENOUGH_DAYS or len(recent) < ENOUGH_ANSWERS:
        return Prospect.TOO_EARLY
    right = sum(recent) / len(recent)
    if mean(pace.later) < GETS_THERE:
        if right >= LEAST_RIGHT and pace.cold < ENOUGH_COLD:
            return Prospect.UNTIMED
        return Prospect.SLOW if pace.wrong < 0.5 else Prospect.WRONG
    if unmet and pace.new < 1 and right < LEAST_RIGHT:
        return Prospect.WRONG  # nothing new comes until more is right
    return None


class _Item(NamedTuple):
    """An item of the stage on its way; ``run`` and ``slow`` are cold answers in a row."""

    waiting: Waiting
    run: int
    slow: int
    fluent: bool


def _days(catalogue: Catalogue, ledger: Ledger, pace: Pace, stage: StageAhead, day: int) -> list[int]:
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
        when, taken = _run(met, turns, pace, target, day, rng, today_over=today_over)
        found.append(when)
        steps += taken
        late += when > YEAR
        if late >= FAR and late > len(found) / 5:
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


def _begun(state: ItemState, pace: Pace, day: int, rng: random.Random) -> _Item:
    luck = drawn(*tried(state), rng)
    waiting = Waiting(place(state.memory), state.last - day, max(1, state.due - state.last), luck)
    return _Item(waiting, state.fast_run, state.slow_run, state.fluent)


def _run(
    met: list[ItemState], turns: list[int], pace: Pace, target: int, day: int, rng: random.Random, *, today_over: bool
) -> tuple[int, int]:
    """One way in which it may go: the days until the stage is fluent (more than a year: a year and a day), and the
    number of cold answers until then. With more of them than any run should take it is given up as more than a year."""
    first, later, comes = (rng.betavariate(*share) for share in (pace.first, pace.later, pace.comes))
    learns = rng.uniform(0, 2 * LEARNS)
    days: dict[int, list[_Item]] = defaultdict(list)
    for state in met:
        item = _begun(state, pace, day, rng)
        days[max(0, item.waiting.last + item.waiting.wait)].append(item)
    fluent = sum(state.fluent for state in met)
    steps, introduced, begun, nth = 0, 0.0, 0, pace.practised
    for today in range(YEAR + 1):
        queue = days.pop(today, [])
        if (today_over and not today) or (today and rng.random() >= comes):
            days[today + 1].extend(queue)
            continue
        for item in queue:
            item, gained = _asked(item, today, rng, first if item.waiting.at == UNSEEN else later, learns, pace)
            fluent += gained
            days[item.waiting.last + item.waiting.wait].append(item)
        steps += len(queue)
        if fluent >= target:
            return today, steps
        if steps > STEPS:
            break
        introduced += pace.cap(nth)
        while begun < len(turns) and turns[begun] < introduced:
            begun += 1
            days[today + 1].append(_Item(Waiting(UNSEEN, today, 1, drawn(0, 0, rng)), 0, 0, False))
        nth += 1
    return YEAR + 1, steps


def _asked(
    item: _Item, day: int, rng: random.Random, chance: float, learns: float, pace: Pace
) -> tuple[_Item, int]:
    """An item after a cold answer, by the rules of ``state``; and whether one more is fluent (1) or one less (-1)."""
    rest = day - item.waiting.last
    hit, wrong, waiting = answered(item.waiting, day, rng, tilted(chance, item.waiting.luck), pace, learns)
    run, slow = (item.run + 1, 0) if hit else (0, item.slow + 1)
    keeps = item.fluent and slow < 2 and not wrong
    fluent = keeps or (run >= FLUENT_RUN and rest >= FLUENT_REST)
    return _Item(waiting, run, slow, fluent), fluent - item.fluent
