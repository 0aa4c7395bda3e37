"""One sitting: the next question, the verdict, what comes again. No screen, no files, no clock."""

from __future__ import annotations

import random
from collections.abc import Callable, Collection
from datetime import datetime
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from drills.catalogue import Catalogue
from drills.question import Answer, Explanation, Help, Item, Manner, Picture, Question, Verdict, judge
from trainer.schedule import fading, grading
from trainer.schedule.choose import Chooser
from trainer.schedule.days import settled_day
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.rid import gone, newly_gone
from trainer.schedule.state import ItemState
from trainer.schedule.summary import SittingTally, Summary
from trainer.schedule.tally import UNKNOWN_MS
from trainer.schedule.why import Choice, Why
from trainer.stuck import is_told_from, with_landmark

if TYPE_CHECKING:
    from drills.landmark import Landmark

LONGEST_GAP: Final = 30.0
"""Seconds that count at most between two calls, so that a coffee break does not eat the sitting."""

Reason = Literal["limit", "nothing-left"]


class Asked(NamedTuple):
    """One question of a sitting.

    Attributes:
        n: its number, from 1.
        item: what is asked.
        question: as the drill asks it.
        why: what it is asked for.
        limit: seconds within which a right answer counts as reading.
        aid: the help to show, or None.
        lesson: to be shown before it, or None.
        stuck: repeating has not helped.
        landmark: what to tell it from, in a sentence, or None.
        placement: asked to find out what is known already.
        bare: help was shown when it was last asked today, and is not any more.
    """

    n: int
    item: Item
    question: Question
    why: Why
    limit: float
    aid: Help | None = None
    lesson: Explanation | None = None
    stuck: bool = False
    landmark: Landmark | None = None
    placement: bool = False
    bare: bool = False

    @property
    def help(self) -> tuple[str, ...]:
        """Names of the helps that are shown."""
        return () if self.aid is None else self.aid.names

    @property
    def picture(self) -> Picture:
        """What to draw: the question's picture, with the help that is shown."""
        return self.question.picture if self.aid is None else self.aid.draw()


class Outcome(NamedTuple):
    """What became of an answer.

    Attributes:
        verdict: right or wrong, and what to show.
        slow: right, but over the limit.
        timed: whether the seconds prove anything.
        limit: as asked.
        seconds: as recorded, or None.
        repeat: whether the item comes again in this sitting.
    """

    verdict: Verdict
    slow: bool
    timed: bool
    limit: float
    seconds: float | None
    repeat: bool


class Practice:
    """One sitting, driven alike by a screen, by lines of text, by simulated learners and by tests.

    Attributes:
        day: the practice day that its answers count under.
        reason: why it ended, once ``next`` gave None: ``limit`` (so many answers, or the minutes are over) or
            ``nothing-left``.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        ledger: Ledger,
        *,
        keep: Callable[[Event, datetime], None],
        day: int,
        seed: int,
        sitting: int,
        minutes: float,
        manner: Manner,
        started: datetime,
        base: float = grading.DEFAULT_BASE,
        limit: int | None = None,
        placement: bool = False,
        helped: str = "fading",
        reader: bool = False,
        first: Collection[str] = (),
    ) -> None:
        """Begin a sitting.

        Args:
            catalogue: what can be asked.
            ledger: what the record says; every answer is applied to it.
            keep: writes an answer to the record, and may count it in ``ledger`` itself. It is called before
                ``answer`` returns and before the ledger changes; what it raises goes to the caller, with the
                question still open.
            day: the practice day; a day a little before the last one of the record becomes that one.
            seed: fixes what is left to chance, together with day and sitting.
            sitting: the number of this sitting on its day.
            minutes: how long it lasts.
            manner: how this learner is asked.
            started: now.
            base: the learner's key baseline in seconds.
            limit: ends it after so many answers.
            placement: start by finding out what is known already.
            helped: when help is shown: ``fading`` with what is new or was just missed and less with every right answer,
                ``always`` all of it, or ``never``.
            reader: the learner read tab before: nothing is explained or helped before it was once missed, and what
                is read at first sight is met as due.
            first: ids of what comes first among the new items, after what they need.
        """
        self.day = settled_day(day, ledger.last_day)
        self.reason: Reason | None = None
        self._catalogue = catalogue
        self._ledger = ledger
        self._keep = keep
        self._seed = f"{seed}:{self.day}:{sitting}"
        self._rng = random.Random(0)
        self._seconds = minutes * 60
        self._spent = 0.0
        self._called = started
        self._manner = manner
        self._base = grading.usable(base) or grading.DEFAULT_BASE
        self._limit = limit
        self._helped = helped
        self._reader = reader
        self._chooser = Chooser(
            catalogue,
            ledger,
            manner,
            day=self.day, seed=seed, sitting=sitting, minutes=minutes,
            placement=placement,
            reader=reader,
            first=first,
            tells=lambda item: self._tells(item) or is_told_from(ledger.states.get(item), helped),
        )  # fmt: skip
        self._tally = SittingTally()
        self._gone = gone(ledger.habits)
        self._choice: Choice | None = None
        self._asked: Asked | None = None
        self._explained = {
            catalogue.by_id[item].lesson
            for item, state in ledger.states.items()
            if state.rights and item in catalogue.by_id
        }

    @property
    def away(self) -> int:
        """Days since the last practice before today: 1 after yesterday, 0 for somebody new."""
        return self._chooser.away

    @property
    def current(self) -> Asked | None:
        """The open question, or None."""
        return self._asked

    @property
    def seconds_left(self) -> float:
        """Of the sitting; 0 once the minutes are over."""
        return max(0.0, self._seconds - self._spent)

    def next(self, now: datetime) -> Asked | None:
        """The next question, the same one until it is answered; None at the end."""
        self._pass(now)
        if self._asked is not None:
            return self._asked
        if self._limit is not None and self._tally.answers >= self._limit:
            self.reason = "limit"
            return None
        over = self._spent >= self._seconds
        self._choice = self._chooser.choose(over=over)
        if self._choice is None:
            self.reason = "limit" if over else "nothing-left"
            return None
        self.reason = None
        self._asked = self._ask(self._choice)
        return self._asked

    def answer(self, answer: Answer, now: datetime) -> Outcome:
        """Judge the answer to the open question, keep it, and take it in.

        Raises:
            RuntimeError: no question is open.
        """
        asked, choice = self._asked, self._choice
        if asked is None or choice is None:
            raise RuntimeError("no question is open: call next first")
        self._pass(now, UNKNOWN_MS / 1000 if answer.seconds is None else 0.0)  # a program's clock stands still for it
        verdict = judge(asked.question, answer)
        event = Event(
            day=self.day,
            item=asked.item.id,
            right=verdict.right,
            said=verdict.said,
            seconds=grading.usable(answer.seconds),
            base=self._base,
            limit=asked.limit,
            timed=grading.is_timed(answer.seconds, answer.timed),
            misreadings=tuple(map(str, verdict.misreadings)),
            help=asked.help,
        )
        before, counted = self._ledger.states.get(event.item), self._ledger.events
        self._keep(event, now)
        if self._ledger.events == counted:  # else the profile that keeps it has counted it in this ledger already
            self._ledger.apply(event)
        self._chooser.observe(choice, event, before)
        self._tally.add(event, before, self._ledger.states[event.item])
        if verdict.right:
            self._explained.add(asked.item.lesson)
        self._asked = self._choice = None
        return Outcome(
            verdict=verdict,
            slow=grading.is_slow(event),
            timed=event.timed,
            limit=event.limit,
            seconds=event.seconds,
            repeat=self._chooser.comes_again(event.item),
        )

    def explain(self) -> Explanation | None:
        """The lesson of the open question's item, or None when none is open."""
        return None if self._asked is None else self._catalogue.explain(self._asked.item, self._manner)

    def go_on(self, minutes: float) -> None:
        """The learner chose to go on: more minutes, and another pass over what is not fluent."""
        self._seconds = self._spent + minutes * 60
        self.reason = None
        self._chooser.go_on()

    def summary(self) -> Summary:
        """The sitting so far."""
        return self._tally.summary(round(self._spent / 60, 1), newly_gone(self._gone, self._ledger.habits))

    def _pass(self, now: datetime, least: float = 0.0) -> None:
        gap = (now - self._called).total_seconds()
        self._spent += min(max(gap, least), LONGEST_GAP)
        self._called = now

    def _tells(self, item: str) -> bool:
        """Whether an item has a lesson that is still to be told; a reader is told none before a miss."""
        if self._reader and item not in self._ledger.states:
            return False
        return self._catalogue.by_id[item].lesson not in self._explained

    def _ask(self, choice: Choice) -> Asked:
        item = choice.item
        state = self._ledger.states.get(item.id)
        n = self._tally.answers + 1
        self._rng.seed(f"{self._seed}:{n}:{item.id}")
        question = self._catalogue.ask(item, self._rng, self._manner)
        self._chooser.traits.learn(item.id, question.answers)
        sight = choice.placement or (self._reader and state is None)
        step = fading.GONE if sight else self._step(state, choice)
        aid = question.helps[step] if step < len(question.helps) else None
        lesson = None
        if not sight and self._tells(item.id):
            self._explained.add(item.lesson)
            lesson = self._catalogue.explain(item, self._manner)
        told = None
        if not sight and is_told_from(state, self._helped):
            aid, told = with_landmark(question, self._catalogue, self._manner, self._ledger.states)
            if told is None and not question.helps:
                lesson = self._catalogue.explain(item, self._manner)
        return Asked(
            n=n,
            item=item,
            question=question,
            why=choice.why,
            limit=grading.limit(self._base, item.think),
            aid=aid,
            lesson=lesson,
            stuck=state is not None and state.stuck,
            landmark=told,
            placement=choice.placement,
            bare=aid is None and bool(question.helps) and step < fading.GONE,
        )

    def _step(self, state: ItemState | None, choice: Choice) -> int:
        """How many steps of the help are not shown."""
        if self._helped == "fading":
            return fading.step(state, self.day, choice.why, warm_up=choice.warm_up)
        return fading.WHOLE if self._helped == "always" else fading.GONE
