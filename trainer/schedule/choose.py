"""What comes next in a sitting: repeat, due, new, contrast, second pass; the first that applies."""

from __future__ import annotations

import random
from collections.abc import Callable, Collection, Iterator, Sequence
from itertools import islice
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from drills.question import Kind, Manner
from trainer.schedule import grading, sizes
from trainer.schedule.contrast import Contrast
from trainer.schedule.due import due_queue, in_turn, todays, warm_up
from trainer.schedule.early import early_queue
from trainer.schedule.event import Event
from trainer.schedule.intake import Intake
from trainer.schedule.ledger import Ledger
from trainer.schedule.placement import Placement
from trainer.schedule.repeats import GAP_OF_FEW, MOST_ASKINGS, Repeats, comes_again, gap
from trainer.schedule.second import SecondPass
from trainer.schedule.standing import standing
from trainer.schedule.state import ItemState
from trainer.schedule.traits import SAME_ITEM, THIRD_ANSWER, TOO_MUCH, WINDOW, Apart, Traits
from trainer.schedule.why import Choice, Why

OVERTIME: Final = 6
"""So many questions at most, all of them repeats, come after the minutes are over: a natural stop."""

THIRD: Final = THIRD_ANSWER // TOO_MUCH
"""How hard an answer clashes that would come for the third time in a row."""

Source = tuple[Why, Sequence[str], bool, bool]
"""What for, ids in their order, whether strings are to take turns, and whether a run of one drill is to be broken."""


class _Found(NamedTuple):
    """What might be asked next, and how hard it clashes with the last questions (0 for not at all)."""

    why: Why
    item: str
    hard: int


class Chooser:
    """The queue of one sitting, the same for the same record, seed, day and sitting.

    Attributes:
        traits: strings and answers of items.
        away: days since the last practice: 1 after yesterday, 0 for somebody new.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        ledger: Ledger,
        manner: Manner,
        *,
        day: int,
        seed: int,
        sitting: int,
        minutes: float,
        placement: bool = False,
        reader: bool = False,
        first: Collection[str] = (),
        tells: Callable[[str], bool] = lambda item: False,
    ) -> None:
        self._seed = f"{seed}:{day}:{sitting}"
        rng = random.Random(self._seed)
        self._catalogue = catalogue
        self._ledger = ledger
        self._day = day
        self._n = 0
        self._overtime = 0
        self._asked: dict[str, None] = {}  # longest ago first
        self._fillers = 0
        self._introduced: set[str] = set()
        self.traits = Traits(catalogue, manner)
        self.away = sizes.days_away(ledger, day)
        self._apart = Apart(self.traits, tells)
        self._repeats = Repeats()
        self._second = SecondPass(day)
        self._goes_on = sizes.in_first_weeks(ledger, day)
        self._reader = reader
        self._intake = Intake(catalogue, ledger, day=day, minutes=minutes, reader=reader, first=first)
        due = due_queue(catalogue, ledger, self._intake, day, rng)
        worth = sizes.sitting_worth(ledger, day, minutes)
        due, later, more = todays(due, ledger, worth, sizes.slow_worth(ledger, day, minutes))
        if more:
            self._intake.hold()
        self._due = dict.fromkeys(due)
        self._later = dict.fromkeys(later)
        self._early: dict[str, None] | None = None
        self._warm_up = dict.fromkeys(warm_up(catalogue, ledger, day) if self.away >= sizes.LONG_REST else ())
        self._contrast = Contrast(catalogue, ledger, self.traits, rng)
        self._placement = Placement(catalogue, ledger) if placement else None
        self._resume()

    def _resume(self) -> None:
        """Take up what an earlier sitting of the same day left open."""
        index, states = standing(self._catalogue.items).at, self._ledger.states
        today = [name for name, state in states.items() if state.last == self._day and name in index]
        for name in sorted(today, key=index.__getitem__):
            state = states[name]
            if state.met == self._day:
                self._introduced.add(name)
            if not self.traits.is_tap(name):
                self._second.note(name, state)
            if comes_again(state, self._day, introduced=name in self._introduced, reader=self._reader):
                self._repeats.put(name, 0)

    def go_on(self) -> None:
        """The learner chose to go on: the second pass is open, and time begins anew."""
        self._goes_on = True
        self._overtime = 0

    def choose(self, *, over: bool) -> Choice | None:
        """The next item, or None when nothing is left; ``over`` once the minutes have been used up."""
        found = self._find(over)
        if not over:
            if (found is None or found.hard >= THIRD) and self._intake.lengthen(nothing_left=found is None):
                found = self._find(over)
            if (found is None or found.hard) and self._go_over_more():
                found = self._find(over)
        found = found or self._find(over, twice=True)
        return None if found is None else self._take(found.why, found.item, over)

    def _find(self, over: bool, *, twice: bool = False) -> _Found | None:
        """What the first source has that does not clash hard, else what clashes least; the last item once more only
        where ``twice`` says so."""
        least: _Found | None = None
        for why, items, strings, runs in self._closing() if over else self._sources():
            best = self._apart.best(items, strings=strings, runs=runs) if items else None
            if best is None:
                continue
            item, cost = best
            found = _Found(why, item, cost // TOO_MUCH)
            if not found.hard:
                return found
            if (twice or cost < SAME_ITEM) and (least is None or found.hard < least.hard):
                least = found
        return self._between(least) if least is not None and least.hard >= THIRD and not over else least

    def _between(self, found: _Found) -> _Found:
        """What would be an answer for the third time in a row, or something asked long ago to stand before it."""
        best = self._apart.best(self._idle())
        if best is None or best[1] // TOO_MUCH >= found.hard:
            return found
        return _Found(Why.SECOND, best[0], best[1] // TOO_MUCH)

    def _go_over_more(self) -> bool:
        """While new items have to wait for another day, what is not fluent fills the minutes; whether it can."""
        return self._goes_on and self._intake.leaves_some() and self._second.widen()

    def comes_again(self, item: str) -> bool:
        """Whether it is sure to come again in this sitting."""
        return item in self._repeats

    def _closing(self) -> Iterator[Source]:
        if self._overtime < OVERTIME:
            states = self._ledger.states
            last = next(reversed(self._asked), None)
            missed = [item for item in self._repeats.early() if states[item].missed and item != last]
            yield Why.REPEAT, missed, True, False

    def _sources(self) -> Iterator[Source]:
        if self._placement is not None:
            yield Why.NEW, self._placement.candidates(), False, False
        if self._warm_up:
            yield Why.DUE, list(self._warm_up), True, False
        yield Why.CONTRAST, self._contrast.ready(self._n), False, False
        ready = self._repeats.ready(self._n)
        if ready:
            yield Why.REPEAT, [item for item in ready if self._ledger.states[item].missed], True, False
            yield Why.REPEAT, ready, True, True
        if self._due:
            yield Why.DUE, in_turn(self._due, self._catalogue, self._ledger, WINDOW), True, True
        elif self._intake.allows(len(self._repeats)):
            # A string's very first items come together: strings do not take turns in what is new.
            yield Why.NEW, list(self._intake.upcoming()), False, True
        if self._later and not self._due:
            yield Why.DUE, in_turn(self._later, self._catalogue, self._ledger, WINDOW), True, True
        yield Why.CONTRAST, self._contrast.candidates(), False, False
        if not self._due and not self._later:
            yield Why.SECOND, self._before_time(), True, True
        if self._goes_on:
            second = self._second.candidates(self._n, self._repeats)
            yield Why.SECOND, second, True, True
            if second:  # all of one drill: something else in between
                yield Why.SECOND, self._second.others(self._n, self._repeats), True, True
        early = self._repeats.early()
        if early and self._fillers < GAP_OF_FEW:
            yield Why.SECOND, self._idle(), True, True
        yield Why.REPEAT, early, True, True
        yield Why.CONTRAST, self._contrast.early(self._n), False, False
        if early or self._contrast.second:
            yield Why.SECOND, self._idle(), True, True

    def _before_time(self) -> list[str]:
        """The next few of what is gone over before it is due; looked for once that is wanted."""
        if self._early is None:
            rng = random.Random(f"{self._seed}:early")
            self._early = dict.fromkeys(early_queue(self._catalogue, self._ledger, self._intake, self._day, rng))
        return list(islice(self._early, WINDOW))

    def _idle(self) -> list[str]:
        """A few items that were asked longest ago, to stand between a miss and its repeat when all else is done."""
        states = self._ledger.states
        idle = (
            item
            for item in self._asked
            if item not in self._repeats and states[item].asked < MOST_ASKINGS and not states[item].stuck
            and item != self._contrast.second
        )
        return list(islice(idle, WINDOW))

    def _take(self, why: Why, item: str, over: bool) -> Choice:
        placement = self._placement is not None and self._placement.holds(item)
        warm = item in self._warm_up
        self._warm_up.pop(item, None)
        self._due.pop(item, None)
        self._later.pop(item, None)
        if self._early is not None:
            self._early.pop(item, None)
        self._overtime += over
        self._fillers = self._fillers + 1 if why is Why.SECOND else 0
        self._apart.asking(item, placement=placement)
        if why is Why.NEW:
            self._intake.taken(item, counts=not placement)
            if not placement:
                self._introduced.add(item)
        self._contrast.asked(item, self._n, begins=why is Why.CONTRAST)
        return Choice(self._catalogue.by_id[item], why, placement, warm)

    def observe(self, choice: Choice, event: Event, before: ItemState | None) -> None:
        """Take in the answer to a choice; the ledger has it already."""
        item = choice.item.id
        state = self._ledger.states[item]
        self._apart.asked(item)
        self._n += 1
        self._asked.pop(item, None)
        self._asked[item] = None
        self._intake.observe(item, before, state)
        self._contrast.observe(event)
        if choice.placement:
            self._place(choice, event)
            return
        if comes_again(state, self._day, introduced=item in self._introduced, reader=self._reader):
            in_play = len(self._asked) + len(self._due) + len(self._later)
            self._repeats.put(item, self._n + gap(state, in_play))
        else:
            self._repeats.drop(item)
        if choice.item.kind is not Kind.TAP:
            self._second.note(item, state, self._n)

    def _place(self, choice: Choice, event: Event) -> None:
        if self._placement is not None:
            self._placement.answered(choice.item.id, right=event.right)
        if not event.right:
            self._intake.wait(choice.item)
        elif grading.is_fast(event):
            self._intake.place(choice.item)
