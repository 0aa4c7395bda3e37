"""How many new items today's sitting is likely to bring: it is played through in its large steps, before it begins."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from trainer.schedule import memory, sizes
from trainer.schedule.intake import ENOUGH_COLD, LEAST_RIGHT, Intake, is_ready
from trainer.schedule.ledger import RECENT, Ledger
from trainer.schedule.repeats import MOST_ASKINGS, NEW_RIGHTS
from trainer.schedule.state import ItemState

USUALLY_RIGHT: Final = 0.9
"""Believed of somebody of whom little is known."""

GROWS: Final = 1.5
"""What is right and fast lasts about so many times longer, as long as it lasts for few days."""

FULL: Final = 0.8
"""Days are full where answers alone take this share of a sitting's minutes: verdicts and lessons take the rest."""


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


def right_share(ledger: Ledger) -> float:
    """The share of right answers among the recent cold ones; near to what is usual where there are few."""
    recent = ledger.recent
    return (sum(recent) + 2 * USUALLY_RIGHT) / (len(recent) + 2)


def askings_of_new(right: float) -> int:
    """How often a new item is asked about on its first day, at such a share of right answers."""
    return min(MOST_ASKINGS, max(NEW_RIGHTS, round(NEW_RIGHTS / max(right, 0.1))))


def new_today(intake: Intake, ledger: Ledger, queue: Sequence[str], *, day: int, minutes: float, asked: int) -> int:
    """New items that are likely to be met today; ``intake`` is used up by it.

    Args:
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
    fast = _fast_share(ledger)
    back = 0.0
    for known in queue:
        state = ledger.states[known]
        back += 1 - _rests(state, ledger, fast)
        intake.expect(known, ready=answers.next() and (state.right_run >= 1 or state.fluent))
    room = intake.room(before=len(queue), back=round(back))
    repeats = round((1 - right) * len(queue))
    room = min(room, (_questions(ledger, day, minutes) - asked - repeats) // askings_of_new(right))
    learnt = _Share(_read_at_once(ledger, right))
    new = 0
    while new < room and (item := next(intake.upcoming(), None)) is not None:
        intake.taken(item, counts=True)
        intake.expect(item, ready=learnt.next())
        new += 1
    return new


def _fast_share(ledger: Ledger) -> float:
    """The share right and fast of the cold answers of the last day of practice; near to a half where there are few."""
    last = [state.fast_run > 0 for state in ledger.states.values() if state.last == ledger.last_day and state.cold]
    return (sum(last) + 1) / (len(last) + 2)


def _rests(state: ItemState, ledger: Ledger, fast: float) -> float:
    """The chance that an item of today is not due again tomorrow: it has to be read, and strong enough."""
    if state.memory is None:
        return fast / 2  # it has to be quick too
    stability, difficulty = state.memory
    if memory.interval((GROWS * stability, difficulty), ledger.model) <= 1:
        return 0.0
    return (fast + (state.fast_run > 0)) / 2 if state.cold > 1 else fast


def _stays_open(ledger: Ledger, colds: int, right: float, *, returning: bool) -> bool:
    """Whether enough is right for something new, once so many cold answers more have come."""
    if returning and colds and right < LEAST_RIGHT:
        return False
    kept = list(ledger.recent)[-(RECENT - colds) :] if colds < RECENT else []
    counted = len(kept) + min(colds, RECENT)
    return counted < ENOUGH_COLD or sum(kept) + right * min(colds, RECENT) >= LEAST_RIGHT * counted


def _questions(ledger: Ledger, day: int, minutes: float) -> int:
    """So many fit into the sitting: those of the last days where these were full, else as many as the pace allows."""
    worth = sizes.sitting_worth(ledger, day, minutes)
    before = [ledger.days[when] for when in sorted(ledger.days)[-sizes.DAYS_COUNTED :]]
    answers, spent = sum(tally.answers for tally in before), sum(tally.spent for tally in before)
    if not spent:
        return worth
    full = sum(min(tally.spent, minutes * 60_000) for tally in before) >= FULL * minutes * 60_000 * len(before)
    return min(worth, int(minutes * 60_000 * answers / spent), answers // len(before) if full else worth)


def _read_at_once(ledger: Ledger, right: float) -> float:
    """The share of new items on which others may rest on the same day already, as it was with those that have had no
    cold answer yet."""
    new = [state for state in ledger.states.values() if state.last == state.met]
    return sum(is_ready(state, state.met) for state in new) / len(new) if new else right
