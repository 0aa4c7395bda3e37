"""When a stage should be fluent, in words: the same on the screen and in ``sixline today``."""

from __future__ import annotations

from datetime import date
from typing import Final

from trainer.schedule.days import MONTHS, as_date
from trainer.schedule.reaching import Prospect, StageAhead
from trainer.wording import USUAL, Voice

ROUGH: Final = 42
"""Days from the early to the late date beyond which no day is named any more, but months."""

_TOLD: Final = {
    Prospect.TOO_EARLY: ("Too early to say when it will be fluent.", "Too early to say when it is fluent."),
    Prospect.OVER_A_YEAR: ("Fluent: in more than a year at this pace.", "Fluent: in more than a year."),
    Prospect.WRONG: (
        "No date yet: many answers are wrong. Read why after each one.",
        "No date yet: many answers are wrong.",
    ),
    Prospect.SLOW: (
        "No date yet: right, but slow. Answer at first sight: a slip does no harm.",
        "No date yet: right, but still slow.",
    ),
    Prospect.UNTIMED: (
        "No date: the time of your answers is not known, so nothing shows whether you read.",
        "No date: without the time of your answers nothing shows it.",
        "No date: answers without a time.",
    ),
    Prospect.ALL_FLUENT: ("",),
}
_NO_SPEED: Final = ("No date yet: a few minutes every day bring it nearer.", "No date yet: practise every day.")


def prospect(stage: StageAhead, width: int, voice: Voice = USUAL) -> str:
    """One line on the date of a stage, in full where that fits into so many cells, else in fewer words; empty where
    every stage is fluent."""
    if stage.early is None or stage.likely is None or stage.late is None:
        quiet = stage.prospect is Prospect.SLOW and not voice.speed
        return _fitting(_NO_SPEED if quiet else _TOLD[stage.prospect], width)
    early, likely, late = as_date(stage.early), as_date(stage.likely), as_date(stage.late)
    share = "All" if stage.target == stage.items else "Nine tenths"
    if stage.late - stage.early > ROUGH:
        return _fitting(_roughly(share, early, likely, late), width)
    if early == late:
        return _fitting((f"{share} of it fluent around {_named(likely)}", f"Fluent around {_named(likely)}"), width)
    return _fitting(
        (
            f"{share} of it fluent around {_named(likely)} (between {_span(early, late, ' and ')})",
            f"{share} fluent around {_named(likely)} ({_span(early, late, ' to ')})",
            f"{share} fluent around {_named(likely, 3)} ({_span(early, late, ' to ', 3)})",
            f"Fluent about {_named(likely, 3)} ({_span(early, late, ' to ', 3)})",
        ),
        width,
    )


def _roughly(share: str, early: date, likely: date, late: date) -> tuple[str, ...]:
    """A range of months is no matter of days."""
    around, short = (
        f"{('early ', 'mid-', 'late ')[min((likely.day - 1) // 10, 2)]}{_month(likely, early, letters)}"
        for letters in (None, 3)
    )
    least, most = _month(early, early, None), _month(late, early, None)
    return (
        f"{share} of it fluent around {around} (between {least} and {most})",
        f"{share} fluent around {around} ({least} to {most})",
        f"{share} fluent around {short} ({_month(early, early, 3)} to {_month(late, early, 3)})",
        f"Fluent: {_month(early, early, 3)} to {_month(late, early, 3)}",
    )


def _month(day: date, first: date, letters: int | None) -> str:
    """``December``, and its year where that is another one than that of the first day."""
    year = f" {day.year}" if day.year != first.year else ""
    return f"{MONTHS[day.month - 1][:letters]}{year}"


def _fitting(texts: tuple[str, ...], width: int) -> str:
    return next((text for text in texts if len(text) <= width), texts[-1])


def _named(day: date, letters: int | None = None) -> str:
    """``9 December``, in English whatever the locale, with so many letters of the month."""
    return f"{day.day} {MONTHS[day.month - 1][:letters]}"


def _span(early: date, late: date, to: str, letters: int | None = None) -> str:
    alike = (early.year, early.month) == (late.year, late.month)
    return f"{early.day if alike else _named(early, letters)}{to}{_named(late, letters)}"
