"""New items: which may be met now, in which order, and how many a day."""

from __future__ import annotations

from collections import Counter, defaultdict, deque
from collections.abc import Collection, Iterator
from heapq import heappop, heappush
from typing import Final

from drills.catalogue import Catalogue
from drills.question import Item
from trainer.schedule import sizes
from trainer.schedule.fading import GONE
from trainer.schedule.ledger import Ledger
from trainer.schedule.meeting import AT_A_TIME
from trainer.schedule.standing import standing
from trainer.schedule.state import ItemState
from trainer.schedule.wanted import wanted_first

FIRST_DAYS_CAP: Final = 24
DAY_CAP: Final = 20
MOST_IN_REPEAT: Final = 6
FORECAST_SHARE: Final = 0.9
LEAST_RIGHT: Final = 0.7
"""New items come while at most this share of a sitting is likely to fall due tomorrow, and while at least this share
of the last cold answers was right."""

RELAXED_RIGHT: Final = 0.5
"""Where this share was, and nothing at all is left while minutes are, LONGER_BY new ones come all the same, so that a
beginner's second sitting is not over after half its minutes (two learners read as much or up to a seventh more after a
month)."""

RIGHT_TODAY: Final = 4
"""So often right on its first day, however slowly, an item is known well enough for what needs it."""

ENOUGH_COLD: Final = 10
DAYS_OFF: Final = 4
"""Three missed days lie between two practice days that are four apart."""

STAGES_AHEAD: Final = 3
"""What needs nothing may be met so many stages beyond the first one that is not met for the most part yet."""
MOST_OF_A_STAGE: Final = 2 / 3
UPCOMING: Final = 4
"""So many of them are looked at, to keep answers apart."""

LONGER_BY: Final = 6
"""So many new items at a time come beyond the day's cap where a sitting would be over before its minutes are."""
LONGER_AFTER: Final = 20
LONGER_RIGHT: Final = 0.9
FIRST_LESSON_RIGHT: Final = 0.3
"""They come where at least this share of so many last answers of the sitting was right: our choice. On the first days,
once nothing at all is left to ask, the smaller share is enough: a first lesson is not over after half its minutes."""


def is_ready(state: ItemState | None, day: int, *, reader: bool = False) -> bool:
    """Whether what needs this item may be met: it is fluent, or right on its last two cold answers, or today, with its
    help gone by then, right and fast three times or right four times (for somebody who reads already: right and fast
    at first sight)."""
    return state is not None and (
        state.fluent
        or state.right_run >= 2
        or (state.last == day and state.fast >= 3 and state.step == GONE)
        or (state.last == day and state.right >= RIGHT_TODAY and not state.missed and state.step == GONE)
        or (reader and state.last == day and at_first_sight(state))
    )


def at_first_sight(state: ItemState) -> bool:
    """Whether every answer of its first day was right and fast."""
    return state.met == state.last and state.fast == state.asked


class Intake:
    """Items that wait to be met.

    An item that was met before what it needs (in a placement, say) and never answered right waits here too:
    asking it again and again would teach nothing. What is in ``first``, by id, and what that needs come before all
    else that waits, however late their stages are: behind what they need, and within what a day takes in.
    """

    def __init__(
        self, catalogue: Catalogue, ledger: Ledger, *, day: int, minutes: float, reader: bool = False,
        first: Collection[str] = (),
    ) -> None:  # fmt: skip
        self._items = catalogue.items
        self._ledger = ledger
        self._day = day
        known = standing(catalogue.items)
        self._index, self._turn, self._dependents, needs, self._size = known
        self._place = wanted_first(catalogue.items, known, first) if first else self._turn  # below 0: wanted
        self._unmet = list(needs)
        self._ready: set[str] = set()
        self._waiting = set(self._index)
        self._open: list[tuple[int, int]] = []  # place, index
        self._introduced = 0
        self._first_sitting = True
        self._tomorrow = self._slow = 0
        self._cold = self._cold_right = 0
        self._placed: set[str] = set()
        self._left = Counter(self._size)
        self._reach = 0
        self._beyond: dict[int, list[int]] = defaultdict(list)
        self._first_days = sizes.days_practised(ledger, day) < sizes.FIRST_DAYS
        self._cap = FIRST_DAYS_CAP if self._first_days else DAY_CAP
        self._latest: deque[bool] = deque(maxlen=LONGER_AFTER)
        self._reader = reader
        self._forecast = FORECAST_SHARE * sizes.usual_answers(ledger, day, minutes)
        self._returning = sizes.days_away(ledger, day) >= DAYS_OFF
        self._held = self._relaxed = False
        self._survey()

    def _survey(self) -> None:
        """Take in the record: every item waits, but for what was met."""
        day, met = self._day, [(name, state) for name, state in self._ledger.states.items() if name in self._index]
        for name, state in met:
            if is_ready(state, day, reader=self._reader):
                self._ready.add(name)
                for at in self._dependents.get(name, ()):
                    self._unmet[at] -= 1
            self._first_sitting &= state.last < day
            self._introduced += state.met == day and not (self._reader and at_first_sight(state))
            self._tomorrow += state.due <= day + 1
            self._slow += state.due <= day + 1 and state.always_slow
        for name, state in met:
            at = self._index[name]
            if state.rights or not self._unmet[at] or state.last >= day:
                self._waiting.discard(name)
                self._left[self._items[at].stage] -= 1
        for at, item in enumerate(self._items):
            if not self._unmet[at] and item.id in self._waiting:
                self._offer(at)

    def hold(self) -> None:
        """Nothing new today: more is due than fits into the sitting."""
        self._held = True

    def wait(self, item: Item) -> None:
        """Have an item wait to be met (again)."""
        at = self._index[item.id]
        if item.id not in self._waiting:
            self._waiting.add(item.id)
            self._left[item.stage] += item.id not in self._placed
        if self._unmet[at] == 0:
            self._offer(at)

    def waits(self, item: str) -> bool:
        """Whether it waits to be met."""
        return item in self._waiting

    def allows(self, in_repeat: int) -> bool:
        """Whether something new may be met now.

        Taking in too fast makes learning collapse in one step (Reddy et al. 2016).
        """
        return (
            in_repeat < MOST_IN_REPEAT
            and self._introduced < self._cap
            and self._likely() + 1 <= self._forecast
            and not self._held
            and (self._relaxed or self._recovered())
        )

    def _likely(self) -> int:
        """How many are gone over tomorrow: of those that are always slow, half a sitting at most."""
        return self._tomorrow - max(0, self._slow - int(self._forecast / 2))

    def lengthen(self, *, nothing_left: bool = False) -> bool:
        """Let a few more new items come today than its cap says; whether that was done.

        To be asked only where a sitting would otherwise be over before its minutes are: in the first one of a day, and
        while nearly all is right; where too much was missed for anything new, a few come once nothing at all is left
        and half of it was right. What else holds new items back goes on holding them.
        """
        if nothing_left and self._first_sitting and not (self._returning or self._relaxed or self._recovered()):
            recent = self._ledger.recent
            self._relaxed = sum(recent) >= RELAXED_RIGHT * len(recent)
            self._cap = min(self._cap, self._introduced + LONGER_BY)
            return self._relaxed
        least = FIRST_LESSON_RIGHT if nothing_left and self._first_days else LONGER_RIGHT
        fluently = len(self._latest) == LONGER_AFTER and sum(self._latest) >= least * LONGER_AFTER
        if not (self._first_sitting and fluently and self._introduced >= self._cap):
            return False
        self._cap = self._introduced + LONGER_BY
        return True

    def upcoming(self) -> Iterator[str]:
        """Ids of the items that may be met now, the first few in the order of meeting."""
        self._reach_out()
        while self._open and not self._is_open(self._open[0][1]):
            heappop(self._open)
        # The heap's head comes next; a few more are only wanted where it would clash.
        first: Item | None = None
        for place, at in self._open[:1] if len(self._open) < 2 else sorted(self._open)[:UPCOMING]:
            if place >= 0 > self._open[0][0]:
                break  # nothing else while something wanted may be met
            item = self._items[at]
            if first is None and self._turn[at] < AT_A_TIME:
                first = item  # the very first lesson is not broken off by another one
            if self._is_open(at) and (first is None or item.lesson == first.lesson):
                yield item.id

    def taken(self, item: str, *, counts: bool) -> None:
        """An item is being met; in a placement it does not count against the day's new ones."""
        if item in self._waiting:
            self._waiting.discard(item)
            self._left[self._items[self._index[item]].stage] -= item not in self._placed
        self._introduced += counts

    def place(self, item: Item) -> None:
        """An item was right and fast in the placement: what it needs, and that needs, holds no longer back."""
        todo = [item.id]
        while todo:
            name = todo.pop()
            if name in self._placed or name not in self._index:
                continue
            self._placed.add(name)
            self._left[self._items[self._index[name]].stage] -= name in self._waiting
            self._mark(name, ready=True)
            todo.extend(self._items[self._index[name]].needs)

    def observe(self, item: str, before: ItemState | None, state: ItemState) -> None:
        """Take in what an answer changed."""
        self._latest.append(not state.missed)
        if item not in self._index:
            return
        tomorrow = self._day + 1
        was = before is not None and before.due <= tomorrow
        self._tomorrow += (state.due <= tomorrow) - was
        if before is not None:
            self._slow += (state.due <= tomorrow and state.always_slow) - (was and before.always_slow)
        if before is not None and state.cold > before.cold and (state.missed or state.right_run):
            self._cold += 1
            self._cold_right += not state.missed
        if self._reader and before is None and at_first_sight(state):
            self._introduced -= 1  # it was not new to somebody who read it at once
        self._mark(item, ready=item in self._placed or is_ready(state, self._day, reader=self._reader))

    def leaves_some(self) -> bool:
        """Whether items are left to be met, today or on another day."""
        return bool(self._waiting)

    # For looking ahead

    @property
    def held(self) -> bool:
        """Whether nothing new may come today, whatever is answered."""
        return self._held

    @property
    def returning(self) -> bool:
        """Whether today's own cold answers have to be right before something new comes."""
        return self._returning

    def room(self, *, before: int, back: int) -> int:
        """How many new items fit into today, if so many are gone over before and so many of them come back tomorrow."""
        return max(0, min(self._cap - self._introduced, int(self._forecast) - (self._likely() - before + back)))

    def expect(self, item: str, *, ready: bool) -> None:
        """Suppose that the answers to an item will have made it ready, or not."""
        if item in self._index:
            self._mark(item, ready=ready)

    def _offer(self, at: int) -> None:
        stage = self._items[at].stage
        if stage <= self._reach or self._place[at] < 0:
            heappush(self._open, (self._place[at], at))
        else:
            self._beyond[stage].append(at)

    def _reach_out(self) -> None:
        """Bring in the stages that are near by now: it is never too late for an item, but it may be too early."""
        begun = (stage for stage, size in self._size.items() if self._left[stage] > size - MOST_OF_A_STAGE * size)
        furthest = min(begun, default=max(self._size, default=0)) + STAGES_AHEAD
        if furthest <= self._reach:
            return
        self._reach = furthest
        for stage in [stage for stage in self._beyond if stage <= furthest]:
            for at in self._beyond.pop(stage):
                if self._is_open(at):
                    heappush(self._open, (self._place[at], at))

    def _is_open(self, at: int) -> bool:
        return self._unmet[at] == 0 and self._items[at].id in self._waiting

    def _mark(self, item: str, *, ready: bool) -> None:
        if ready == (item in self._ready):
            return
        (self._ready.add if ready else self._ready.discard)(item)
        for at in self._dependents.get(item, ()):
            self._unmet[at] += -1 if ready else 1
            if self._is_open(at):
                self._offer(at)

    def _recovered(self) -> bool:
        recent = self._ledger.recent
        if len(recent) >= ENOUGH_COLD and sum(recent) < LEAST_RIGHT * len(recent):
            return False
        if not self._returning:
            return True
        # After days off, today's own cold answers have to show it (or there is nothing left to show it with).
        return self._cold_right >= LEAST_RIGHT * self._cold
