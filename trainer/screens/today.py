"""What today brings: what to go over, what is new, about how long, and the next 14 days."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, NamedTuple

from rich.text import Text
from textual.geometry import Size

from drills.notation.drawing import Role
from drills.notation.score import At, Bar, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.question import Picture
from trainer.learner import Learner
from trainer.nothing_new import why_nothing_new
from trainer.schedule.ahead import Ahead, look_ahead
from trainer.schedule.days import MONTHS, as_date, far_ahead, practice_day
from trainer.schedule.due import warm_up
from trainer.schedule.sizes import LONG_REST, days_away
from trainer.schedule.stages import current_stage
from trainer.screens.fortnight import coming_days
from trainer.screens.telling import LOW, WIDEST

if TYPE_CHECKING:
    from trainer.schedule.outlook import Outlook

EPOCH = date(1970, 1, 1)
DONE_WORDS = "Until then: look something up, see what you read, or play a piece of tab."
ENOUGH = 0.7
"""A day's practice is done where answers and verdicts alone take this share of a sitting's minutes: lessons and breaks
take the rest."""
MONTH_NAMES = MONTHS
DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class Page(NamedTuple):
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


def today_page(
    learner: Learner, *, size: Size, done: bool = False, held: str | None = None, found: Outlook | None = None
) -> Page:
    """Today, as of now.

    Args:
        learner: whose.
        size: of the window; the next 14 days are drawn where it is high enough.
        done: a sitting has found that nothing is left for today.
        held: why the profile may not be written now, in one line, or None.
        found: what is likely; room is left for it where it is not known yet.
    """
    profile, settings = learner.profile, learner.settings
    day = profile.sitting_day(learner.clock.now(), learner.clock.zone)
    ahead = look_ahead(learner.catalogue, profile.ledger, day=day, minutes=settings.minutes)
    date_of_today = EPOCH + timedelta(days=day)
    phrase = Picture(opening_phrase(learner))
    if held:
        return Page(long_date(date_of_today), phrase, "Another window is practising", told(held))
    idle = done or not (ahead.due or ahead.new) or practised(learner, day)
    rest = Text(justify="center")
    rest.append(welcome_back(learner, day))
    if idle:
        left = " What is left can wait." if not done and (ahead.due or ahead.waiting) else ""
        rest.append(f"{coming_back(ahead.days, date_of_today)}{left}\n")
    elif why := why_nothing_new(ahead, profile.ledger, settings.minutes):
        rest.append(f"{why}\n")
    rest.append(DONE_WORDS if done else stage_line(learner))
    high = size.height >= LOW
    if profile.ledger.events and not done and (high or not rest.plain.count("\n")):
        width = min(WIDEST, size.width) - 2
        rest.append(f"\n{_date_of_stage(found, width, learner)}")
    if high and (any(ahead.days) or ahead.due):
        rest.append("\n\n")
        expected = None if found is None else found.expected
        rest.append_text(coming_days(ahead, expected, date_of_today, learner.ascii_only))
    notice = profile.unsaved or (str(profile.problems[0]) if profile.problems else "")
    if notice:
        rest.append(f"\n\n{notice}")
    counted = "Done for today" if idle and (done or day in profile.ledger.days) else counts(ahead)
    return Page(long_date(date_of_today), phrase, counted, rest)


def welcome_back(learner: Learner, day: int) -> str:
    """A line after a long rest; nothing for somebody to whom all of this tuning is new."""
    ledger, items = learner.profile.ledger, learner.catalogue.items
    if days_away(ledger, day) < LONG_REST or not any(item.id in ledger.states for item in items):
        return ""
    begins = " It begins with a few that you knew well." if warm_up(learner.catalogue, ledger, day) else ""
    return f"Good to have you back.{begins}\n"


def practised(learner: Learner, day: int) -> bool:
    """Whether a whole sitting's minutes have been practised on that day: what is left is no duty any more."""
    tally = learner.profile.ledger.days.get(day)
    return tally is not None and tally.spent >= ENOUGH * learner.settings.minutes * 60_000


def told(line: str) -> Text:
    """A line on something wrong as a sentence."""
    return Text(f"{line[:1].upper()}{line[1:]}.", justify="center")


def coming_back(days: tuple[int, ...], today: date) -> str:
    """How many come back tomorrow, or else when the next ones do; ``days`` counts from tomorrow on."""
    at = next((at for at, count in enumerate(days) if count), None)
    if at is None:
        return "Nothing comes back in the next two weeks."
    when = f"{'tomorrow, ' if at == 0 else 'on '}{long_date(today + timedelta(days=at + 1))}"
    return f"{days[at]} come{'s' if days[at] == 1 else ''} back {when}."


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
    waiting = "; the rest can wait" if ahead.waiting else ""
    return f"{', '.join(parts)}: about {ahead.minutes} minute{'s' if ahead.minutes != 1 else ''}{waiting}"


def stage_line(learner: Learner) -> str:
    """The stage that the learner is at, and how far it is."""
    stage = current_stage(learner.catalogue, learner.profile.ledger.states)
    if stage.fluent == stage.items:
        return "Every stage is fluent."
    return f"Stage {stage.number}, {stage.title}: {stage.met} of {stage.items} met, {stage.fluent} fluent"


def _date_of_stage(found: Outlook | None, width: int, learner: Learner) -> str:
    """When it should be fluent; a row that is free for it while that is not known."""
    if found is None:
        return " "
    from trainer.prospects import prospect  # late: what the first frame does without

    return prospect(found.stage, width, learner.voice) or " "


def long_date(day: date) -> str:
    """``Wednesday 25 November``, in English whatever the locale."""
    return f"{DAY_NAMES[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"


def opening_phrase(learner: Learner) -> StaffView:
    """A few notes of the first position, as a staff looks: the hero of the house, even here."""
    tuning = learner.catalogue.tuning
    places = [(lines, fret) for lines, fret in ((5, 3), (4, 2), (3, 0), (2, 1), (1, 0), (2, 1), (3, 0), (4, 2))]
    onsets = tuple(Onset((Note(min(string, tuning.lines), fret),)) for string, fret in places)
    piece = Piece(tuning, (Bar(onsets[:4]), Bar(onsets[4:])))
    lit = {At(0, 0, min(5, tuning.lines)): Role.MARK}
    return StaffView(piece, learner.manner.dialect, colours=lit)
