"""Why nothing new comes today, in words: the same on the screen, line by line and in ``sixline today``."""

from __future__ import annotations

from typing import Final

from trainer.schedule.ahead import Ahead
from trainer.schedule.intake import ENOUGH_COLD, LEAST_RIGHT
from trainer.schedule.ledger import Ledger

MISSED: Final = "Nothing new yet: first more of what you have met should come back right."
FULL: Final = "Nothing new today: what comes back fills the sitting."
MUCH: Final = "Nothing new today: more comes back than fits into a sitting."

MANY: Final = 6
"""So many a minute to go over leave no time for anything new, at ten seconds each with its verdict and its repeats."""


def why_nothing_new(ahead: Ahead, ledger: Ledger, minutes: float) -> str:
    """The reason in one sentence; empty where something new comes, or where there is no reason to speak of.

    Args:
        ahead: what today brings.
        ledger: what the record says.
        minutes: the length of a sitting.
    """
    if ahead.new:
        return ""
    if ahead.waiting:
        return MUCH
    if missed_much(ledger):
        return MISSED
    return FULL if ahead.due >= MANY * minutes else ""


def missed_much(ledger: Ledger) -> bool:
    """Whether so much of what comes back is missed that nothing new comes."""
    recent = ledger.recent
    return len(recent) >= ENOUGH_COLD and sum(recent) < LEAST_RIGHT * len(recent)
