"""A sitting without the screen: the profile around it, standard input and output, signals, saving."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from drills.notation.staff_view import Dialect
from trainer import plain, programs
from trainer.clock import Clock
from trainer.complaint import DONE, ERRORS, Complaint, shown
from trainer.opening import Choices, begin, open_profile
from trainer.practice import Practice
from trainer.profile.automatic import Automatic
from trainer.profile.lock import HeldError
from trainer.profile.problem import not_saved
from trainer.profile.store import Profile
from trainer.reports import knows_signs, tell_problems
from trainer.schedule.days import as_date, far_ahead, practice_day
from trainer.stopping import Stopping, stopping
from trainer.wording import voice_of

LONGEST_LINE: Final = 65_536
"""Bytes of one line of input; what is longer is no answer."""


def for_programs(choices: Choices, clock: Clock, *, limit: int | None) -> int:
    """Practise with a program; the exit code."""
    with stopping() as state, _writing(choices, clock, lambda what: False) as profile:
        practice = _begin(profile, clock, choices, limit, None)
        automatic = Automatic(profile)
        programs.run(
            practice, clock, read=lambda: state.wait(_next_line), say=_say, kept=_keeper(profile)
        )
        _fit(profile, automatic, clock, practice.day, state)
    return _code(state, profile)


def for_people(choices: Choices, clock: Clock, *, limit: int | None, spoken: bool) -> int:
    """Practise with a person who types; the exit code."""
    timed = sys.stdin is not None and sys.stdin.isatty()
    base = (plain.SPOKEN_BASE if spoken else plain.TYPED_BASE) if timed else None
    with stopping() as state, _writing(choices, clock, _confirmed) as profile:
        way = plain.Way(profile.settings.naming, spoken, timed, not knows_signs(), voice_of(profile.settings))
        practice = _begin(profile, clock, choices, limit, base)
        automatic = Automatic(profile)
        plain.Plain(
            practice, clock, way, read=lambda: state.wait(_typed_line), say=_say, kept=_keeper(profile)
        ).run()
        _fit(profile, automatic, clock, practice.day, state)
    return _code(state, profile)


@contextmanager
def _writing(choices: Choices, clock: Clock, confirmed: Callable[[str], bool]) -> Iterator[Profile]:
    """The profile, locked where its disk takes that, saved and given back in the end whatever happens."""
    profile = open_profile(choices, clock, write=True)
    _check_clock(profile, clock, confirmed)
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
        lost = profile.close(clock.now())
        if lost is not None:
            print(f"sixline: {shown(lost)}", file=sys.stderr)


def _check_clock(profile: Profile, clock: Clock, confirmed: Callable[[str], bool]) -> None:
    """A day much later than the last one is more likely a wrong clock: have it confirmed before writing."""
    day = practice_day(clock.now(), clock.zone)
    if clock.is_set or not far_ahead(day, profile.ledger.last_day):
        return
    what = f"it is {as_date(day)} by this machine, more than a year after the last practice"
    if not confirmed(what):
        raise Complaint(
            what, "the system's clock", "put it right, or confirm it by setting SIXLINE_NOW to the time in UTC"
        )


def _confirmed(what: str) -> bool:
    _say(f"{what[0].upper()}{what[1:]}. Is that right? Type y or n.")
    return (_typed_line() or "").strip().casefold() in ("y", "yes")


def _begin(
    profile: Profile, clock: Clock, choices: Choices, limit: int | None, base: float | None
) -> Practice:
    placement = profile.settings.reader and not profile.ledger.events
    return begin(
        profile, clock, seed=choices.seed, limit=limit, placement=placement, base=base, dialect=Dialect.TEXT
    )


def _fit(profile: Profile, automatic: Automatic, clock: Clock, day: int, state: Stopping) -> None:
    """Fit the memory to the record when that is due; not once a signal has asked to stop."""
    if state.number is not None or not automatic.due():
        return
    from trainer.profile.fitted import fit_by_itself  # late: seldom needed

    fit_by_itself(profile, clock.now(), day, lambda: state.number is not None)


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
    if sys.stdin is None:
        return None
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


def _code(state: Stopping, profile: Profile) -> int:
    """The exit code: a signal's, 1 where an answer is lost, else 0."""
    if state.number is not None:
        return state.code
    return ERRORS if profile.unsaved else DONE
