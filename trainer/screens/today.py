"""What today brings: what to go over, what is new, about how long, and the next 14 days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from rich.text import Text

from drills.notation.drawing import Role
from drills.notation.score import At, Bar, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.question import Picture
from trainer.learner import Learner
from trainer.schedule.ahead import Ahead, look_ahead
from trainer.schedule.days import as_date, far_ahead, practice_day
from trainer.schedule.status import Status, status

EPOCH = date(1970, 1, 1)
LONG_AWAY = 14
"""Days without practice after which a sitting begins with a warm-up."""
DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTH_NAMES = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Page:
    """What today brings, as the first page of a sitting.

    Attributes:
        date: for the top row.
        picture: a staff, as an overture.
        counts: what is to be done.
        rest: the stage, the next 14 days, and what is wrong with the files if anything is.
    """

    date: str
    picture: Picture
    counts: str
    rest: Text


def today_page(learner: Learner, *, high: bool) -> Page:
    """Today, as of now; without the 14 days where the window is low."""
    profile, settings = learner.profile, learner.settings
    day = profile.sitting_day(learner.clock.now(), learner.clock.zone)
    ahead = look_ahead(learner.catalogue, profile.ledger, day=day, minutes=settings.minutes)
    today = EPOCH + timedelta(days=day)
    rest = Text(justify="center")
    last = profile.ledger.last_day
    if last is not None and day - last >= LONG_AWAY:
        rest.append("Good to have you back. It begins with a few that you knew well.\n")
    rest.append(stage_line(learner))
    if high and any(ahead.days):
        rest.append("\n\n")
        rest.append_text(_coming(ahead, today, learner.ascii_only))
    notice = profile.unsaved or (str(profile.problems[0]) if profile.problems else "")
    if notice:
        rest.append(f"\n\n{notice}")
    return Page(long_date(today), Picture(opening_phrase(learner)), counts(ahead), rest)


def clock_doubt(learner: Learner) -> str | None:
    """What is odd about the clock, or None: a day far after the last one is more likely a wrong clock."""
    clock, last = learner.clock, learner.profile.ledger.last_day
    day = practice_day(clock.now(), clock.zone)
    if clock.is_set or not far_ahead(day, last):
        return None
    return f"It is {as_date(day)} by this machine, more than a year after your last practice. Is that right?"


def counts(ahead: Ahead) -> str:
    """What is to be done, in one line."""
    parts = []
    if ahead.due:
        parts.append(f"{ahead.due} to go over")
    if ahead.new:
        parts.append(f"{ahead.new} new")
    if not parts:
        return "Nothing is due today"
    waiting = f"; {ahead.waiting} more can wait" if ahead.waiting else ""
    return f"{', '.join(parts)}: about {ahead.minutes} minute{'s' if ahead.minutes != 1 else ''}{waiting}"


def stage_line(learner: Learner) -> str:
    """The first stage that is not fluent yet, and how far it is."""
    catalogue, states = learner.catalogue, learner.profile.ledger.states
    for number, title in catalogue.stages.items():
        items = [item for item in catalogue.items if item.stage == number]
        fluent = sum(status(states.get(item.id)).rank >= Status.FLUENT.rank for item in items)
        if fluent < len(items):
            met = sum(item.id in states for item in items)
            return f"Stage {number}, {title}: {met} of {len(items)} met, {fluent} fluent"
    return "Every stage is fluent."


def long_date(day: date) -> str:
    """``Wednesday 25 November``, in English whatever the locale."""
    return f"{DAY_NAMES[day.weekday()]} {day.day} {MONTH_NAMES[day.month - 1]}"


def _coming(ahead: Ahead, today: date, ascii_only: bool) -> Text:
    """The next 14 days: how many fall due, with a small bar over each."""
    most = max(ahead.days, default=0)
    levels = " .:-=+*#%" if ascii_only else " ▁▂▃▄▅▆▇█"
    cells = [levels[0 if not n else max(1, round(n / most * 8))] for n in ahead.days]
    letters = "MTWTFSS"
    names = [letters[(today + timedelta(days=i + 1)).weekday()] for i in range(len(ahead.days))]
    numbers = [f"{n or ''}" for n in ahead.days]
    text = Text("the next 14 days\n", justify="center", no_wrap=True)
    text.append("".join(cell.center(4) for cell in cells) + "\n")
    text.append("".join(number.center(4) for number in numbers) + "\n")
    text.append("".join(name.center(4) for name in names))
    return text


def opening_phrase(learner: Learner) -> StaffView:
    """A few notes of the first position, as a staff looks: the hero of the house, even here."""
    tuning = learner.catalogue.tuning
    places = [(lines, fret) for lines, fret in ((5, 3), (4, 2), (3, 0), (2, 1), (1, 0), (2, 1), (3, 0), (4, 2))]
    onsets = tuple(Onset((Note(min(string, tuning.lines), fret),)) for string, fret in places)
    piece = Piece(tuning, (Bar(onsets[:4]), Bar(onsets[4:])))
    lit = {At(0, 0, min(5, tuning.lines)): Role.MARK}
    return StaffView(piece, learner.manner.dialect, colours=lit)
