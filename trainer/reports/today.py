"""``sixline today``."""

from __future__ import annotations

from itertools import groupby
from typing import Any, Final

from trainer.clock import Clock
from trainer.complaint import DONE
from trainer.nothing_new import why_nothing_new
from trainer.opening import Choices, catalogue_of, open_profile
from trainer.prospects import prospect
from trainer.reports import print_json, print_lines, tell_problems
from trainer.reports.unmet import piece_line
from trainer.schedule.ahead import Ahead, look_ahead
from trainer.schedule.days import as_date
from trainer.schedule.outlook import Outlook, outlook
from trainer.wording import USUAL, Voice, counted, voice_of

BAR: Final = 40
"""Signs at most in a bar of the next days."""
WIDE: Final = 100
"""Cells for the date of a stage."""


def report(choices: Choices, clock: Clock, *, as_json: bool) -> int:
    """Print what today brings and what is coming; the exit code."""
    profile = open_profile(choices, clock, write=False)
    tell_problems(profile.problems)
    day = profile.sitting_day(clock.now(), clock.zone)
    catalogue, ledger, minutes = catalogue_of(profile.settings), profile.ledger, profile.settings.minutes
    ahead = look_ahead(catalogue, ledger, day=day, minutes=minutes)
    found = outlook(catalogue, ledger, ahead, day=day, minutes=minutes)
    if as_json:
        print_json(document(profile.name, day, ahead, found))
    else:
        why = why_nothing_new(ahead, ledger, minutes)
        piece = piece_line(catalogue, ledger.states, profile.pieces)
        told = found if ledger.events else None
        print_lines(lines(day, ahead, told, voice_of(profile.settings), why=why, piece=piece))
    return DONE


def document(name: str, day: int, ahead: Ahead, found: Outlook) -> dict[str, Any]:
    """For programs. ``due`` is one sitting's worth, ``waiting`` what is left of a backlog after it.

    ``expected`` says how many are likely to be due on each of those days, what is not known yet among them; fewer than
    the ``days`` say where some of those are likely to be gone over before, in minutes that are left.
    ``fluent_by`` is the date when ``target`` items of the stage should be fluent, ``early`` and ``late`` its 10th and
    90th percentile; null where ``prospect`` says that there is none.
    """
    stage = found.stage
    dated = {"likely": stage.likely, "early": stage.early, "late": stage.late}
    return {
        "profile": name,
        "day": as_date(day).isoformat(),
        "due": ahead.due,
        "waiting": ahead.waiting,
        "new": ahead.new,
        "minutes": ahead.minutes,
        "days": [{"day": as_date(day + n).isoformat(), "due": due} for n, due in enumerate(ahead.days, start=1)],
        "expected": list(found.expected),
        "stage": {
            "number": stage.number,
            "title": stage.title,
            "items": stage.items,
            "met": stage.met,
            "fluent": stage.fluent,
            "target": stage.target,
            "prospect": str(stage.prospect),
            "fluent_by": None
            if stage.likely is None
            else {key: as_date(when).isoformat() for key, when in dated.items() if when is not None},
        },
    }


def lines(
    day: int, ahead: Ahead, found: Outlook | None = None, voice: Voice = USUAL, *, why: str = "", piece: str = ""
) -> list[str]:
    """For people; without an outlook only what is known. ``why`` says why nothing new comes, ``piece`` what of the
    learner's own pieces comes first."""
    if not ahead.due and not ahead.new:
        first = "Nothing is due today: play something that you like."
    else:
        first = f"To go over: {ahead.due}. New: about {ahead.new}. About {counted(ahead.minutes, 'minute')}."
    out = [f"{as_date(day):%A}, {as_date(day).isoformat()}", first, *filter(None, (why, piece))]
    if found is not None and (date := prospect(found.stage, WIDE, voice)):
        out.append(f"Stage {found.stage.number}, {found.stage.title}: {date[0].lower()}{date[1:]}")
    out.append("")
    expected = ahead.days if found is None else found.expected
    if not any(expected):
        return [*out, "Nothing is due on the next 14 days, as far as is known today."]
    out.append("To go over on the next 14 days" + (":" if found is None else " (- known now, . likely besides):"))
    most = max(expected)
    for free, days in groupby(enumerate(zip(ahead.days, expected, strict=True), start=1), key=lambda it: not it[1][1]):
        run = list(days)
        if free:
            after = run[-1][0] + 1
            out.append(f"  nothing until {_day(day + after)}" if after <= len(ahead.days) else "  nothing after that")
        else:
            # What is likely to be gone over before its day is not drawn as known for that day.
            bars = [_bar(min(due, likely), likely, most, more=found is not None) for _, (due, likely) in run]
            out += [f"  {_day(day + n)}  {bar}" for (n, _), bar in zip(run, bars, strict=True)]
    return out


def _bar(due: int, likely: int, most: int, *, more: bool) -> str:
    """How many are known, and with ``more`` how many are likely to come besides, both as a number and drawn."""
    known, whole = (-(-count * BAR // max(most, BAR)) for count in (due, likely))
    besides = f"{f'+{likely - due}' if likely > due else '':>4} " if more else ""
    return f"{due:3d} {besides}{'-' * known}{'.' * (whole - known)}"


def _day(day: int) -> str:
    return f"{as_date(day):%a} {as_date(day).isoformat()}"
