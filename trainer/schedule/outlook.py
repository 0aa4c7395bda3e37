"""What lies ahead at the learner's own pace: the likely counts of the next 14 days, and the date of the stage.

It takes some tens of milliseconds, so a screen asks for it once the first frame has been drawn.
"""

from __future__ import annotations

from typing import NamedTuple

from drills.catalogue import Catalogue
from trainer.schedule.ahead import Ahead
from trainer.schedule.forecast import forecast
from trainer.schedule.ledger import Ledger
from trainer.schedule.pace import pace_of
from trainer.schedule.reaching import StageAhead, stage_ahead


class Outlook(NamedTuple):
    """What is likely.

    Attributes:
        expected: how many items are gone over on each of the next 14 days, if it is a day of practice. Fewer than
            are known to fall due, where some of those are likely to be gone over before.
        stage: the current stage, and when it should be fluent.
    """

    expected: tuple[int, ...]
    stage: StageAhead


def outlook(catalogue: Catalogue, ledger: Ledger, ahead: Ahead, *, day: int, minutes: float) -> Outlook:
    """Look ahead from a practice day, for which ``ahead`` is what is known; ``minutes`` is the length of a sitting."""
    pace = pace_of(catalogue, ledger, day=day, minutes=minutes)
    coming = forecast(catalogue, ledger, pace, ahead, day=day, minutes=minutes)
    expected = tuple(round(each.due) for each in coming[1:])
    return Outlook(expected, stage_ahead(catalogue, ledger, pace, coming, day=day))
