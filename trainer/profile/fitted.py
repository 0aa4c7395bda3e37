"""Fitting the memory to a profile's record: reads it, fits, and keeps the line and what follows from it.

Slow (seconds where the record is long), so it belongs into a thread. Answers may be kept meanwhile; a sitting that
goes on keeps the memory with which it began.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from trainer.profile.counted import Gathered, recount
from trainer.profile.store import Profile
from trainer.schedule import fitting
from trainer.schedule.fitting import Outcome, TooFew
from trainer.schedule.parameters import Fit

Stop = Callable[[], bool]


class Stopped(Exception):
    """There is no time left to finish it."""


def fit_profile(profile: Profile, at: datetime, day: int, stop: Stop = lambda: False) -> Outcome:
    """Fit to the record and save what is kept.

    Args:
        profile: opened to write, and acquired.
        at: the time now.
        day: the practice day.
        stop: asked now and then; nothing is kept any more once it says so.

    Returns:
        What came of it; without a model where nothing was kept.

    Raises:
        TooFew: there are not enough cold answers in the record.
    """
    gathered = profile.gathered()
    events = (entry.event for entry in gathered.entries if entry.event is not None)
    outcome = fitting.fit(fitting.cold_answers(events), profile.ledger.model, stop)
    if outcome.model is not None:
        fit = Fit(day, *outcome.model, round(outcome.before, 4), round(outcome.after, 4))
        if not _keep(profile, gathered, fit, at, stop):
            return outcome._replace(model=None)
    return outcome


def fit_by_itself(profile: Profile, at: datetime, day: int, stop: Stop) -> bool:
    """``fit_profile`` where nobody asked for it; whether another memory is in use now."""
    try:
        return fit_profile(profile, at, day, stop).model is not None
    except TooFew:  # answers that are only in memory so far are not in the record
        return False


def undo_fit(profile: Profile, at: datetime, day: int) -> bool:
    """Go back to the published parameters, and save; False where the record cannot be written now."""
    return _keep(profile, profile.gathered(), Fit(day), at, lambda: False)


def _keep(profile: Profile, gathered: Gathered, fit: Fit, at: datetime, stop: Stop) -> bool:
    def look(done: int, of: int) -> None:
        if stop():
            raise Stopped

    try:
        counted = recount(gathered, profile.folder, fit, look)
    except Stopped:
        return False
    kept = profile.take_fit(fit, counted, at)
    profile.save(at)
    return kept
