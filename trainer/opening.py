"""From the command line's choices to a profile and a sitting. Knows no screen; imports drills when a sitting begins."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from trainer.clock import Clock
from trainer.complaint import Complaint
from trainer.profile.paths import check_name
from trainer.profile.store import Profile
from trainer.profile.tunings import tuning_from

if TYPE_CHECKING:
    from drills.catalogue import Catalogue
    from drills.notation.staff_view import Dialect
    from drills.notation.tuning import Tuning
    from drills.question import Manner
    from trainer.practice import Practice
    from trainer.profile.settings import Settings
    from trainer.schedule.event import Event
    from trainer.schedule.ledger import Ledger

READS: Final = 0.7
"""Share of right answers below which somebody who says that they read tab already is taught like anybody else."""


class Choices(NamedTuple):
    """What the command line says for every command.

    Attributes:
        home: the folder of all profiles.
        profile: name of the learner.
        seed: fixes what is left to chance.
    """

    home: Path
    profile: str
    seed: int = 0


def open_profile(
    choices: Choices, clock: Clock, *, write: bool, progress: Callable[[int, int], None] | None = None
) -> Profile:
    """Open the chosen profile. Nothing is created before something is kept.

    Args:
        choices: which.
        clock: whose time the lock and the record get.
        write: whether answers are to be kept.
        progress: told while a long record is replayed.

    Raises:
        Complaint: no profile may have this name.
    """
    return Profile.open(choices.home, checked_name(choices), write=write, progress=progress)


def checked_name(choices: Choices) -> str:
    """The chosen profile's name.

    Raises:
        Complaint: no profile may have it.
    """
    try:
        return check_name(choices.profile)
    except ValueError as error:
        what, _, mend = str(error).partition(": ")
        raise Complaint(what, "--profile", mend) from None


def find_tuning(name: str, own: str = "") -> Tuning:
    """A tuning as people name it: a shipped one, ``own`` for the learner's, or the pitches of the open strings.

    Args:
        name: as it was typed.
        own: the pitches of the learner's own tuning, or empty.

    Raises:
        Complaint: there is none; names the nearest, or what is wrong with the pitches.
    """
    try:
        return tuning_from(name, own)
    except ValueError as error:
        what, _, mend = str(error).partition(": ")
        raise Complaint(what, "--tuning", mend) from None


def tuning_of(settings: Settings) -> Tuning:
    """The tuning that the learner learns, without the capo."""
    return tuning_from(settings.tuning, settings.own_tuning)


def catalogue_of(settings: Settings) -> Catalogue:
    """Every item of the learner's tuning. The capo is left out: an item means the same with and without one."""
    from drills.catalogue import catalogue

    return catalogue(tuning_of(settings))


def manner(settings: Settings, dialect: Dialect | None = None) -> Manner:
    """How this learner is asked; ``dialect`` stands in for the one that they chose."""
    from drills.notation.staff_view import Dialect
    from drills.question import Manner

    return Manner(
        naming=settings.naming,
        dialect=dialect or Dialect(settings.dialect),
        left_handed=settings.hand == "left",
        sentence=settings.sentence,
    )


def _reads(ledger: Ledger) -> bool:
    """Whether the answers of somebody who says that they read already bear it out so far."""
    answers = sum(tally.answers for tally in ledger.days.values())
    return sum(tally.right for tally in ledger.days.values()) >= READS * answers


def begin(
    profile: Profile,
    clock: Clock,
    *,
    seed: int,
    limit: int | None = None,
    placement: bool = False,
    base: float | None = None,
    dialect: Dialect | None = None,
) -> Practice:
    """Begin a sitting; what the learner's own pieces need comes first among the new items.

    Args:
        profile: opened to write.
        clock: what time it is.
        seed: fixes what is left to chance.
        limit: ends it after so many answers.
        placement: start by finding out what is known already.
        base: key baseline in seconds, instead of the learner's own.
        dialect: how the staff is drawn, instead of how the learner chose.
    """
    from trainer.practice import Practice

    now = clock.now()
    day = profile.sitting_day(now, clock.zone)
    ledger, settings = profile.ledger, profile.settings
    today = ledger.days.get(day)

    def keep(event: Event, at: datetime) -> None:
        profile.keep(event, at)

    return Practice(
        catalogue_of(settings),
        ledger,
        keep=keep,
        day=day,
        seed=seed,
        sitting=today.answers if today else 0,
        minutes=settings.minutes,
        manner=manner(settings, dialect),
        started=now,
        base=base or settings.key_seconds or profile.base,
        limit=limit,
        placement=placement,
        helped=settings.help,
        reader=settings.reader and _reads(ledger),
        first={item for piece in profile.pieces for item in piece.items},
    )
