"""An item between two cold answers, as a look ahead plays it through: by the rules of ``state``, in large steps."""

from __future__ import annotations

import random
from typing import Final, NamedTuple

from trainer.schedule.early import rest_before
from trainer.schedule.event import Event
from trainer.schedule.grading import MISSED, QUICK, READ
from trainer.schedule.grading import grade as grade_of
from trainer.schedule.pace import ALIKE, Pace, tried
from trainer.schedule.readings import LONGEST_RUN
from trainer.schedule.state import FLUENT_REST, FLUENT_RUN, KEPT_REST, SLOW_RUN, ItemState
from trainer.schedule.steps import UNSEEN, Place, place

LEARNS: Final = (0.3, 1.5)
"""The odds of an item's being read grow with a power between these of the number of its cold answers, as learning by
practice goes (simulated learners of three kinds bear it out): without that nobody who is right in four of five would
ever be fluent at everything, and they are."""
_MOST: Final = 200
"""Cold answers of an item from which on nothing more is gained."""

SLOW: Final = grade_of(Event(day=0, item="", right=True, said="", seconds=2.0, base=0.5, limit=1.5, timed=True))
"""The grade of what is right but slow."""


class Odds(NamedTuple):
    """Of being read, as they may be for a learner.

    Attributes:
        groups: for an item of even luck in each group of ``readings``.
        gains: what its number of cold answers does to them.
    """

    groups: tuple[float, ...]
    gains: tuple[float, ...]


class Waiting(NamedTuple):
    """An item between two cold answers.

    Attributes:
        at: its memory.
        last: the day of its last answer, counted from today.
        wait: the days until it is due, from then on.
        luck: the odds of its being read, as a multiple of those of the learner's other items.
        cold: its cold answers so far.
        run, slow: cold answers in a row that were right and fast, and right but slow.
        fluent, kept: see ``status``.
    """

    at: Place
    last: int
    wait: int
    luck: float
    cold: int = 0
    run: int = 0
    slow: int = 0
    fluent: bool = False
    kept: bool = False

    @property
    def due(self) -> int:
        """The day on which it is due."""
        return self.last + self.wait

    @property
    def early(self) -> int | None:
        """The day from which it may come before it is due, or None."""
        rest = rest_before(self.run, kept=self.kept)
        return None if rest is None or rest >= self.wait else self.last + rest

    @property
    def always_slow(self) -> bool:
        """Whether it is right and slow again and again."""
        return self.slow >= SLOW_RUN


def waiting_of(state: ItemState, day: int, rng: random.Random) -> Waiting:
    """An item as the record leaves it; its luck is drawn by what its answers tell of it."""
    return Waiting(
        place(state.memory), state.last - day, max(1, state.due - state.last), _drawn(*tried(state), rng),
        min(state.cold, _MOST), state.fast_run, state.slow_run, state.fluent, state.kept,
    )  # fmt: skip


def new_one(today: int, rng: random.Random) -> Waiting:
    """An item that is met today."""
    return Waiting(UNSEEN, today, 1, _drawn(0, 0, rng))


def odds_of(pace: Pace, rng: random.Random) -> Odds:
    """What the learner's odds may be, drawn by what is known of them.

    Among the items that were just read are more of the lucky ones: that is taken out, as each item's luck comes again;
    and so is how often they have been asked.
    """
    learns = rng.uniform(*LEARNS)
    gains = tuple((cold + 1) ** learns for cold in range(_MOST + 1))
    chances = (min(0.999, rng.betavariate(*share)) for share in pace.reads)
    groups = (
        chance / (1 - chance) / lucky / (asked + 1) ** learns
        for chance, lucky, asked in zip(chances, pace.lucky, pace.asked, strict=True)
    )
    return Odds(tuple(groups), gains)


def answered(item: Waiting, day: int, rng: random.Random, odds: Odds, pace: Pace, longest: int) -> Waiting:
    """The item after a cold answer on that day; ``longest`` is the longest rest."""
    at, last, before, luck, cold, run, slow, fluent, kept = item
    rest, draw = day - last, rng.random
    for_it = odds.groups[(1 + run if run < LONGEST_RUN else 1 + LONGEST_RUN) if cold else 0] * odds.gains[cold] * luck
    hit = draw() < for_it / (1 + for_it)
    wrong = not hit and draw() < pace.wrong
    if hit:
        run, slow = run + 1, 0
        grade = QUICK if draw() < pace.quick else READ
        if fluent and not kept and longest <= KEPT_REST:
            longest = KEPT_REST + 1
    else:
        run, slow = 0, 0 if wrong else slow + 1
        grade = MISSED if wrong else SLOW
    at, wait = pace.step(at, rest if rest > 0 else 1, grade)
    if wait > longest:
        wait = longest
    if wait >= 3:
        wait += int(3 * draw()) - 1  # as intervals are spread
    if not hit and wait > before:
        wait = before
    fluent = (fluent and slow < 2 and not wrong) or (run >= FLUENT_RUN and rest >= FLUENT_REST)
    kept = fluent and (kept or (hit and rest >= KEPT_REST))
    return Waiting(at, day, wait, luck, cold + 1 if cold < _MOST else _MOST, run, slow, fluent, kept)


def _drawn(hits: int, misses: int, rng: random.Random) -> float:
    """The luck of an item of which so much is known."""
    chance = min(0.999, rng.betavariate(ALIKE / 2 + hits, ALIKE / 2 + misses))
    return chance / (1 - chance)
