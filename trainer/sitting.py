"""A sitting without the screen: the profile around it, standard input and output, signals, saving."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from drills.notation.staff_view import Dialect
from trainer import plain, programs
from trainer.clock import Clock
from trainer.complaint import DONE, REFUSED, Complaint, shown
from trainer.opening import Choices, begin, open_profile
from trainer.practice import Practice
from trainer.profile.lock import HeldError
from trainer.profile.problem import not_saved
from trainer.profile.store import Profile
from trainer.reports import tell_problems
from trainer.schedule.days import as_date, far_ahead, practice_day
from trainer.stopping import Stopping, stopping

LONGEST_LINE: Final = 65_536
"""Bytes of one line of input; what is longer is no answer."""


def for_programs(choices: Choices, clock: Clock, *, limit: int | None) -> int:
    """Practise with a program; the exit code."""
    with stopping() as state, _writing(choices, clock) as profile:
        practice = _begin(profile, clock, choices, limit, None)
        programs.run(
            practice, clock, read=lambda: state.wait(_next_line), say=_say, kept=_keeper(profile)
        )
    return _code(state, profile)


def for_people(choices: Choices, clock: Clock, *, limit: int | None, spoken: bool) -> int:
    """Practise with a person who types; the exit code."""
    timed = sys.stdin.isatty()
    base = (plain.SPOKEN_BASE if spoken else plain.TYPED_BASE) if timed else None
    with stopping() as state, _writing(choices, clock) as profile:
        way = plain.Way(profile.settings.naming, spoken, timed, plain=not _is_utf8())
        practice = _begin(profile, clock, choices, limit, base)
        plain.Plain(
            practice, clock, way, read=lambda: state.wait(_typed_line), say=_say, kept=_keeper(profile)
        ).run()
    return _code(state, profile)


@contextmanager
def _writing(choices: Choices, clock: Clock) -> Iterator[Profile]:
    """The profile, locked where its disk takes that, saved and given back in the end whatever happens."""
    profile = open_profile(choices, clock, write=True)
    _check_clock(profile, clock)
    try:
        try:
            profile.acquire(clock.now())
        except HeldError as error:
            raise Complaint(str(error)) from None
        except OSError as error:
            print(f"sixline: {shown(not_saved(error, profile.folder))}", file=sys.stderr)
        tell_problems(profile.problems)
        yield profile
    finally:
        profile.close(clock.now())


def _check_clock(profile: Profile, clock: Clock) -> None:
    """A day much later than the last one is more likely a wrong clock: have it confirmed before writing."""
    day = practice_day(clock.now(), clock.zone)
    if far_ahead(day, profile.ledger.last_day) and not clock.is_set:
        raise Complaint(
            f"this machine says that it is {as_date(day)}, more than a year after the last practice",
            "the system's clock",
            "put it right, or confirm it by setting SIXLINE_NOW to the time in UTC",
        )


def _begin(
    profile: Profile, clock: Clock, choices: Choices, limit: int | None, base: float | None
) -> Practice:
    placement = profile.settings.reader and not profile.ledger.events
    return begin(
        profile, clock, seed=choices.seed, limit=limit, placement=placement, base=base, dialect=Dialect.TEXT
    )


def _keeper(profile: Profile) -> Callable[[], None]:
    told: set[str | None] = {None}

    def kept() -> None:
        unsaved = profile.sync()
        if unsaved not in told:
            told.add(unsaved)
            print(f"sixline: {shown(str(unsaved))}", file=sys.stderr)

    return kept


def _say(line: str) -> None:
    print(line, flush=True)


def _next_line() -> bytes | None:
    """The next line of standard input; a longer one than any reply is passed over and given as empty."""
    line = sys.stdin.buffer.readline(LONGEST_LINE)
    if not line:
        return None
    if len(line) < LONGEST_LINE or line.endswith(b"\n"):
        return line
    while (rest := sys.stdin.buffer.readline(LONGEST_LINE)) and not rest.endswith(b"\n"):
        pass
    return b""


def _typed_line() -> str | None:
    """The next line in the terminal's own encoding; what cannot be decoded is no answer, and shown escaped."""
    line = _next_line()
    return None if line is None else line.decode(sys.stdin.encoding or "utf-8", "backslashreplace").rstrip("\r\n")


def _is_utf8() -> bool:
    return (sys.stdout.encoding or "").lower().replace("-", "") == "utf8"


def _code(state: Stopping, profile: Profile) -> int:
    if state.number is not None:
        return state.code
    return REFUSED if profile.unsaved else DONE
