"""``sixline today``."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from trainer.clock import Clock
from trainer.complaint import DONE
from trainer.opening import Choices, catalogue_of, open_profile
from trainer.reports import print_json, print_lines, tell_problems
from trainer.schedule.ahead import Ahead, look_ahead
from trainer.schedule.days import as_date
from trainer.wording import counted

BAR = 40
"""Signs at most in a bar of the next days."""


def report(choices: Choices, clock: Clock, *, as_json: bool) -> int:
    """Print what today brings and what is coming; the exit code."""
    profile = open_profile(choices, clock, write=False)
    tell_problems(profile.problems)
    day = profile.sitting_day(clock.now(), clock.zone)
    ahead = look_ahead(
        catalogue_of(profile.settings), profile.ledger, day=day, minutes=profile.settings.minutes
    )
    if as_json:
        print_json(document(profile.name, day, ahead))
    else:
        print_lines(lines(day, ahead))
    return DONE


def document(name: str, day: int, ahead: Ahead) -> dict[str, Any]:
    """For programs. ``due`` is one sitting's worth, ``waiting`` what is left of a backlog after it."""
    return {
        "profile": name,
        "day": as_date(day).isoformat(),
        "due": ahead.due,
        "waiting": ahead.waiting,
        "new": ahead.new,
        "minutes": ahead.minutes,
        "days": [{"day": as_date(day + n).isoformat(), "due": due} for n, due in enumerate(ahead.days, start=1)],
    }


def lines(day: int, ahead: Ahead) -> list[str]:
    """For people."""
    if not ahead.due and not ahead.new:
        first = "Nothing is due today: play something that you like."
    else:
        first = f"To go over: {ahead.due}. New: about {ahead.new}. About {counted(ahead.minutes, 'minute')}."
    out = [f"{as_date(day):%A}, {as_date(day).isoformat()}", first, ""]
    if not any(ahead.days):
        return [*out, "Nothing is due on the next 14 days, as far as is known today."]
    out.append("To go over on the next 14 days:")
    most = max(ahead.days)
    for free, days in groupby(enumerate(ahead.days, start=1), key=lambda entry: not entry[1]):
        run = list(days)
        if free:
            after = run[-1][0] + 1
            out.append(f"  nothing until {_day(day + after)}" if after <= len(ahead.days) else "  nothing after that")
        else:
            out += [f"  {_day(day + n)}  {due:3d} {'-' * (-(-due * BAR // max(most, BAR)))}" for n, due in run]
    return out


def _day(day: int) -> str:
    return f"{as_date(day):%a} {as_date(day).isoformat()}"
