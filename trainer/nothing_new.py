"""Why nothing new comes today, in words: the same on the screen, line by line and in ``sixline today``."""

from __future__ import annotations

from typing import Final

from trainer.schedule.ahead import Ahead
from trainer.schedule.intake import ENOUGH_COLD, LEAST_RIGHT
from trainer.schedule.ledger import Ledger

MISSED: Final = "Nothing new yet: first more of what you have met should come back right."
MUCH: Final = "Nothing new today: more comes back than fits into a sitting."


def why_nothing_new(ahead: Ahead, ledger: Ledger) -> str:
    """The reason in one sentence; empty where something new comes, or where there is no reason to speak of.

    Args:
        ahead: what today brings.
        ledger: what the record says.
    """
    if ahead.new:
        return ""
    if ahead.waiting:
        return MUCH
    return MISSED if missed_much(ledger) else ""


def missed_much(ledger: Ledger) -> bool:
    """Whether so much of what comes back is missed that nothing new comes."""
    recent = ledger.recent
    return len(recent) >= ENOUGH_COLD and sum(recent) < LEAST_RIGHT * len(recent)
