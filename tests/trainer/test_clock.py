"""The clock: set or the system's, and the local zone across summer time."""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import UTC, datetime, timedelta

import pytest

from trainer.clock import Clock, SystemZone


def test_a_set_clock_stands_still_until_it_is_moved_on() -> None:
    clock = Clock.from_environment({"SIXLINE_NOW": "2026-11-25T08:00:00Z"})
    assert clock.is_set
    assert clock.now() == clock.now() == datetime(2026, 11, 25, 8, tzinfo=UTC)
    clock.advance(1.5)
    assert clock.now() == datetime(2026, 11, 25, 8, 0, 1, 500_000, tzinfo=UTC)


@pytest.mark.parametrize("seconds", [None, 0.0, -3.0, 0.0004, float("nan"), float("inf")])
def test_a_set_clock_moves_by_at_least_a_millisecond(seconds: float | None) -> None:
    clock = Clock(datetime(2026, 11, 25, 8, tzinfo=UTC))
    clock.advance(seconds)
    assert clock.now() - datetime(2026, 11, 25, 8, tzinfo=UTC) == timedelta(milliseconds=1)


def test_absurd_seconds_do_not_move_it_out_of_the_calendar() -> None:
    clock = Clock(datetime(2026, 11, 25, 8, tzinfo=UTC))
    for seconds in (1e12, 1e300):
        clock.advance(seconds)
    assert clock.now().year == 2026


@pytest.mark.parametrize("environ", [{}, {"SIXLINE_NOW": ""}])
def test_the_systems_clock_is_aware_and_is_not_moved(environ: dict[str, str]) -> None:
    clock = Clock.from_environment(environ)
    assert not clock.is_set
    before = datetime.now(UTC)
    clock.advance(86_400)
    assert before <= clock.now() <= before + timedelta(hours=1)
    assert clock.now().tzinfo is UTC


@pytest.mark.parametrize(
    "text",
    [
        "yesterday",
        "2026-11-25T08:00:00",
        "2026-11-25T08:00:00+01:00",
        "2026-13-25T08:00:00Z",
        "2026-02-30T08:00:00Z",
        "0001-01-01T00:00:00Z",
        "9999-12-31T23:59:59Z",
        "2026-11-25 08:00:00Z\x1b[2J",
    ],
)
def test_a_bad_time_is_refused_in_one_printable_line(text: str) -> None:
    with pytest.raises(ValueError, match=r"SIXLINE_NOW.*2026-11-25T08:00:00Z") as caught:
        Clock.from_environment({"SIXLINE_NOW": text})
    assert str(caught.value).isprintable()


def _ask_zone(zone: str, code: str) -> str:
    """Run a line of code under a TZ of its own: the C library reads TZ once."""
    script = f"from datetime import *\nfrom trainer.clock import *\nz = SystemZone()\n{code}"
    env = {**os.environ, "TZ": zone, "PYTHONPATH": os.getcwd()}
    return subprocess.run(
        [sys.executable, "-c", script], env=env, capture_output=True, text=True, check=True
    ).stdout.strip()


@pytest.mark.skipif(sys.platform == "win32", reason="the C library of Windows does not read such a TZ")
def test_the_zone_follows_tz_in_winter_and_in_summer() -> None:
    code = "for month in (1, 7): print(datetime(2026, month, 1, 12, tzinfo=UTC).astimezone(z).strftime('%H:%M %z'))"
    # POSIX TZ rule, so that no zone database is needed; Europe's rule since 1996.
    assert _ask_zone("CET-1CEST,M3.5.0,M10.5.0/3", code).split("\n") == ["13:00 +0100", "14:00 +0200"]


@pytest.mark.skipif(sys.platform == "win32", reason="the C library of Windows does not read such a TZ")
def test_every_instant_survives_the_hour_that_comes_twice() -> None:
    code = (
        "start = datetime(2026, 10, 25, 0, 30, tzinfo=UTC)\n"
        "for n in range(4):\n"
        "    at = start + timedelta(minutes=30 * n)\n"
        "    local = at.astimezone(z)\n"
        "    print(local.strftime('%H:%M'), local.fold, local.astimezone(UTC) == at)"
    )
    told = _ask_zone("CET-1CEST,M3.5.0,M10.5.0/3", code).split("\n")
    assert told == ["02:30 0 True", "02:00 1 True", "02:30 1 True", "03:00 0 True"]


def test_the_zone_agrees_with_the_system() -> None:
    at = datetime(2026, 7, 1, 12, tzinfo=UTC)
    local = at.astimezone(Clock().zone)
    assert local.utcoffset() == at.astimezone().utcoffset()
    assert local.tzname() == at.astimezone().tzname()
    assert SystemZone().utcoffset(None) is None
