"""How much is one sitting's worth, and how long a learner has been away."""

from __future__ import annotations

from typing import Final

from trainer.schedule.ledger import Ledger

QUESTIONS_A_MINUTE: Final = 15
"""Four seconds a question with its verdict, until the learner's own days say otherwise."""

DAYS_COUNTED: Final = 7
A_LITTLE_OVER: Final = 1.25
FIRST_DAYS: Final = 3
"""So many days are first lessons: more comes new, and they have to fill their time."""

LONG_REST: Final = 14
FIRST_WEEKS: Final = 14


def usual_answers(ledger: Ledger, day: int, minutes: float) -> float:
    """How many answers fit into a sitting at the learner's pace of the last seven days before ``day``.

    No more than a little over what was answered on those days, for somebody who breaks off early: a little over, as
    a day with less to do must not make the next ones smaller. On the first days the minutes count in full.
    """
    before = [ledger.days[when] for when in sorted(when for when in ledger.days if when < day)[-DAYS_COUNTED:]]
    if not before:
        return minutes * QUESTIONS_A_MINUTE
    answers = sum(tally.answers for tally in before)
    spent = sum(tally.spent for tally in before)
    usual = min(A_LITTLE_OVER * answers / len(before), minutes * 60_000 * answers / spent)
    return max(usual, minutes * QUESTIONS_A_MINUTE * (1.0 if len(before) < FIRST_DAYS else 0.5))


def sitting_worth(ledger: Ledger, day: int, minutes: float) -> int:
    """How many items at most are gone over in one sitting; the rest of a backlog waits without penalty."""
    return max(1, round(max(usual_answers(ledger, day, minutes), minutes * QUESTIONS_A_MINUTE)))


def slow_worth(ledger: Ledger, day: int, minutes: float) -> int:
    """How many items that are slow again and again are gone over before anything new: half of the usual answers."""
    return max(1, int(usual_answers(ledger, day, minutes) / 2))


def days_practised(ledger: Ledger, day: int) -> int:
    """On how many days before this one something was answered."""
    return sum(when < day for when in ledger.days)


def in_first_weeks(ledger: Ledger, day: int) -> bool:
    """Whether the first day of practice lies less than two weeks back."""
    return day - min(ledger.days, default=day) < FIRST_WEEKS


def days_away(ledger: Ledger, day: int) -> int:
    """Days since the last practice before ``day``: 1 after yesterday, 0 for somebody who is new."""
    last = max((when for when in ledger.days if when < day), default=None)
    return 0 if last is None else day - last
