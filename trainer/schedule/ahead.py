"""What today and the next days bring."""

from __future__ import annotations

import random
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule import sizes
from trainer.schedule.coming import askings_of_new, new_today
from trainer.schedule.due import due_queue, todays
from trainer.schedule.early import early_queue
from trainer.schedule.intake import Intake
from trainer.schedule.ledger import Ledger
from trainer.schedule.pace import right_share, sitting_questions
from trainer.schedule.repeats import comes_again
from trainer.schedule.second import LESSON_ASKINGS, MORE_ASKINGS

DAYS: Final = 14


class Ahead(NamedTuple):
    """Today and the next two weeks, as far as the record tells.

    Attributes:
        due: items to go over today, at most one sitting's worth; what was asked today and has to come again counts.
        waiting: items of a backlog that wait for a later sitting.
        new: about how many new ones come today.
        minutes: about how long the sitting is, with what fills it after that; at most a sitting.
        days: how many items fall due on each of the next 14 days; what comes new is not in it.
    """

    due: int
    waiting: int
    new: int
    minutes: int
    days: tuple[int, ...]


def look_ahead(catalogue: Catalogue, ledger: Ledger, *, day: int, minutes: float = 10.0) -> Ahead:
    """Look ahead from a practice day; ``minutes`` is the length of a sitting."""
    intake = Intake(catalogue, ledger, day=day, minutes=minutes)
    queue = due_queue(catalogue, ledger, intake, day, random.Random(0))
    all_due = len(queue)
    worth = sizes.sitting_worth(ledger, day, minutes)
    first, later, more = todays(queue, ledger, worth, sizes.slow_worth(ledger, day, minutes))
    if more:
        intake.hold()
    again = sum(
        comes_again(known, day, introduced=known.met == day)
        for item in catalogue.items
        if (known := ledger.states.get(item.id)) is not None
    )
    # What is always slow and comes behind the new items is gone over as far as the minutes last.
    before = again + len(first)
    new = new_today(catalogue, intake, ledger, first, day=day, minutes=minutes, asked=before)
    taken = before + askings_of_new(right_share(ledger)) * new
    left = max(0, sitting_questions(catalogue, ledger, day=day, minutes=minutes) - taken)
    queue = first + later[:left]
    due, waiting = again + len(queue), all_due - len(queue)
    coming = [0] * DAYS
    for item in catalogue.items:
        state = ledger.states.get(item.id)
        if state is not None and 0 < state.due - day <= DAYS:
            coming[state.due - day - 1] += 1
    about = _minutes(catalogue, ledger, intake, queue, due, new, day=day, minutes=minutes)
    return Ahead(due, waiting, new, about, tuple(coming))


def _minutes(
    catalogue: Catalogue, ledger: Ledger, intake: Intake, queue: list[str], due: int, new: int, *, day: int,
    minutes: float,
) -> int:  # fmt: skip
    """About how long the sitting is: what is missed comes again, and what is left of its minutes is filled too."""
    if not (due or new):
        return 0
    right = right_share(ledger)
    questions = due / right + askings_of_new(right) * new
    if sizes.in_first_weeks(ledger, day):
        unsure = sum(not ledger.states[item].fluent for item in queue)
        questions += (MORE_ASKINGS - 1) * unsure + (LESSON_ASKINGS - askings_of_new(right)) * new
    questions += len(early_queue(catalogue, ledger, intake, day, random.Random(0)))
    share = min(1.0, questions / sitting_questions(catalogue, ledger, day=day, minutes=minutes))
    return max(1, round(share * minutes))
