"""How many new items today's sitting is likely to bring: it is played through in its large steps, before it begins."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from typing import Final

from drills.catalogue import Catalogue
from trainer.schedule import memory, sizes
from trainer.schedule.early import early_queue
from trainer.schedule.intake import ENOUGH_COLD, LEAST_RIGHT, Intake, is_ready
from trainer.schedule.ledger import RECENT, Ledger
from trainer.schedule.pace import mean, reads_of, right_share, sitting_questions
from trainer.schedule.readings import group
from trainer.schedule.repeats import MOST_ASKINGS
from trainer.schedule.state import ItemState

NEW_ASKINGS: Final = 3
"""So often at least a new item is asked about on its first day: twice with a step of its help less each time, and once
without any."""

AGAIN: Final = 2
"""So many askings more on a day let others rest on an item that was right and fast."""

GROWS: Final = 1.5
"""What is right and fast lasts about so many times longer, as long as it lasts for few days."""

class _Share:
    """Says yes in a share of the cases, evenly spread and always alike."""

    def __init__(self, share: float) -> None:
        self._share = share
        self._owed = 0.5

    def next(self) -> bool:
        self._owed += self._share
        found = self._owed >= 1
        self._owed -= found
        return found


def askings_of_new(right: float) -> int:
    """How often a new item is asked about on its first day, at such a share of right answers."""
    return min(MOST_ASKINGS, max(NEW_ASKINGS, round(NEW_ASKINGS / max(right, 0.1))))


def new_today(
    catalogue: Catalogue, intake: Intake, ledger: Ledger, queue: Sequence[str], *, day: int, minutes: float, asked: int
) -> int:
    """New items that are likely to be met today; ``intake`` is used up by it.

    Args:
        catalogue: what can be asked.
        intake: as it stands at the start of the sitting.
        ledger: what the record says.
        queue: ids of what is to be gone over first.
        day: today.
        minutes: the length of the sitting.
        asked: questions that come before the new ones.
    """
    right = right_share(ledger)
    if intake.held or not _stays_open(ledger, len(queue), right, returning=intake.returning):
        return 0
    answers = _Share(right)
    reads = tuple(map(mean, reads_of(ledger.readings)))
    back = 0.0
    for known in queue:
        state = ledger.states[known]
        back += 1 - _rests(state, ledger, reads, right)
        intake.expect(known, ready=answers.next() and _will_be_ready(state))
    room = intake.room(before=len(queue), back=round(back))
    time = sitting_questions(catalogue, ledger, day=day, minutes=minutes) - asked - round((1 - right) * len(queue))
    learnt = _Share(_read_at_once(ledger, right))
    more = _gone_over_more(catalogue, intake, ledger, queue, day, answers, learnt)
    new, for_new = 0, askings_of_new(right)
    while new < room and time >= for_new:
        if (item := next(intake.upcoming(), None)) is not None:
            intake.taken(item, counts=True)
            intake.expect(item, ready=learnt.next())
            new += 1
            time -= for_new
        elif (askings := next(more, None)) is not None:
            time -= askings
        else:
            break
    return new


def _gone_over_more(
    catalogue: Catalogue, intake: Intake, ledger: Ledger, queue: Sequence[str], day: int, answers: _Share,
    learnt: _Share,
) -> Iterator[int]:
    """While what comes new has to wait for what it needs, the minutes go to that: how often each item is asked about,
    once ``intake`` has been told what to expect of it."""
    for name in early_queue(catalogue, ledger, intake, day, random.Random(0)):
        intake.expect(name, ready=answers.next() and _will_be_ready(ledger.states[name]))
        yield 1
    if sizes.in_first_weeks(ledger, day):
        for name in queue:
            if not is_ready(ledger.states[name], day):
                intake.expect(name, ready=learnt.next())
                yield AGAIN


def _will_be_ready(state: ItemState) -> bool:
    """Whether one more right cold answer lets others rest on the item."""
    return state.right_run >= 1 or state.fluent


def _rests(state: ItemState, ledger: Ledger, reads: Sequence[float], right: float) -> float:
    """The chance that an item of today is not due again tomorrow: it is read, and strong enough by then; or it is right
    but slow, and has rested for longer before."""
    read = reads[group(state.cold, state.fast_run)]
    slow = max(0.0, right - read) if state.due - state.last > 1 else 0.0
    if state.memory is None:
        return read
    stability, difficulty = state.memory
    return slow + (read if memory.interval((GROWS * stability, difficulty), ledger.model) > 1 else 0.0)


def _stays_open(ledger: Ledger, colds: int, right: float, *, returning: bool) -> bool:
    """Whether enough is right for something new, once so many cold answers more have come."""
    if returning and colds and right < LEAST_RIGHT:
        return False
    kept = list(ledger.recent)[-(RECENT - colds) :] if colds < RECENT else []
    counted = len(kept) + min(colds, RECENT)
    return counted < ENOUGH_COLD or sum(kept) + right * min(colds, RECENT) >= LEAST_RIGHT * counted


def _read_at_once(ledger: Ledger, right: float) -> float:
    """The share of new items on which others may rest on the same day already, as it was with those that have had no
    cold answer yet."""
    new = [state for state in ledger.states.values() if state.last == state.met]
    return sum(is_ready(state, state.met) for state in new) / len(new) if new else right
