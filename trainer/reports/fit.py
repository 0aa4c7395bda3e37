"""``sixline profile fit``: fits the memory to the learner's own record, or undoes that."""

from __future__ import annotations

import sys
from typing import Any

from trainer.clock import Clock
from trainer.complaint import DONE, ERRORS, Complaint, shown
from trainer.opening import Choices, checked_name, open_profile
from trainer.profile.care import existing_folder
from trainer.profile.files import Disk
from trainer.profile.fitted import fit_profile, undo_fit
from trainer.profile.lock import HeldError
from trainer.profile.store import Profile
from trainer.reports import print_json, print_lines, tell_problems
from trainer.schedule.fitting import Outcome, TooFew
from trainer.wording import counted

UNDO = "`sixline profile fit --undo` goes back to the published parameters"


def report(choices: Choices, clock: Clock, *, undo: bool, as_json: bool) -> int:
    """Fit, or undo it, and say what came of it; the exit code, 1 where there are too few answers or it is not saved.

    Raises:
        Complaint: there is no such profile, or another process writes it.
        OSError: it cannot be written.
    """
    try:
        existing_folder(choices.home, checked_name(choices), Disk())
        profile = open_profile(choices, clock, write=True)
        profile.acquire(clock.now())
    except (ValueError, HeldError) as error:
        raise Complaint(str(error)) from None
    try:
        tell_problems(profile.problems)
        day = profile.sitting_day(clock.now(), clock.zone)
        return _undo(profile, clock, day, as_json) if undo else _fit(profile, clock, day, as_json)
    finally:
        profile.close(clock.now())


def _fit(profile: Profile, clock: Clock, day: int, as_json: bool) -> int:
    try:
        outcome = fit_profile(profile, clock.now(), day)
    except TooFew as few:
        what = f"there is too little to fit to yet, {counted(few.missing, 'cold answer')} missing"
        mend = "practise on more days, the first answer of a day to what was met before is a cold one"
        print(f"sixline: {what} (profile {profile.name}): {mend}", file=sys.stderr)
        return ERRORS
    if as_json:
        print_json(document(outcome))
    else:
        print_lines(lines(outcome))
    return _told(profile)


def _undo(profile: Profile, clock: Clock, day: int, as_json: bool) -> int:
    fit = profile.ledger.fit
    undone = (fit is None or not fit.undone) and undo_fit(profile, clock.now(), day)
    if as_json:
        print_json({"undone": undone})
    elif undone:
        print_lines(["The published parameters are in use; nothing is fitted until `sixline profile fit` is run."])
    elif fit is not None and fit.undone:
        print_lines(["The published parameters are in use already."])
    return _told(profile)


def document(outcome: Outcome) -> dict[str, Any]:
    """What came of a fit, for programs; the losses are null where there was too little to try it on."""
    tried = outcome.tried_on > 0
    return {
        "cold": outcome.cold,
        "tried_on": outcome.tried_on,
        "before": round(outcome.before, 4) if tried else None,
        "after": round(outcome.after, 4) if tried else None,
        "kept": outcome.model is not None,
    }


def lines(outcome: Outcome) -> list[str]:
    """What came of a fit, for people."""
    cold = counted(outcome.cold, "cold answer")
    if not outcome.tried_on:
        return [f"Not kept: of {cold} too few are timed and without help."]
    losses = f"log loss {outcome.before:.4f} before, {outcome.after:.4f} after"
    kept = f"Kept; {UNDO}." if outcome.model is not None else "Not kept: what is in use foretells them as well."
    return [f"Fitted to the first of {cold}, tried on the last {outcome.tried_on} that are timed: {losses}.", kept]


def _told(profile: Profile) -> int:
    """The exit code; what is not saved is told."""
    if profile.unsaved is None:
        return DONE
    print(f"sixline: {shown(profile.unsaved)}", file=sys.stderr)
    return ERRORS
