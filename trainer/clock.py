"""What time it is: the system's, or one that is set by ``SIXLINE_NOW`` and moves on answer by answer."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta, tzinfo
from typing import Final

_NOW: Final = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?Z", re.ASCII)
_YEARS: Final = range(1971, 9990)


class SystemZone(tzinfo):
    """The machine's own zone (``TZ`` included) as the C library knows it, summer time at every instant."""

    def utcoffset(self, when: datetime | None) -> timedelta | None:
        """Local time minus UTC at that wall time; ``fold`` chooses where the clocks went back."""
        return None if when is None else when.replace(tzinfo=None).astimezone().utcoffset()

    def dst(self, when: datetime | None) -> timedelta | None:
        """Not known apart from the offset."""
        return None

    def tzname(self, when: datetime | None) -> str | None:
        """The zone's short name at that wall time."""
        return None if when is None else when.replace(tzinfo=None).astimezone().tzname()

    def fromutc(self, when: datetime) -> datetime:
        """The wall time of an instant that is given in UTC with this zone attached."""
        local = when.replace(tzinfo=UTC).astimezone()
        wall = local.replace(tzinfo=None)
        if wall.astimezone().utcoffset() != local.utcoffset():
            wall = wall.replace(fold=1)
        return wall.replace(tzinfo=self)


class Clock:
    """The one source of time. The system's clock, or one that stands where it was set until it is moved on."""

    def __init__(self, start: datetime | None = None) -> None:
        """A clock set to ``start`` (aware), or the system's when that is None."""
        self._set = None if start is None else start.astimezone(UTC)

    @classmethod
    def from_environment(cls, environ: Mapping[str, str]) -> Clock:
        """The clock that ``SIXLINE_NOW`` sets, or the system's where it is missing or empty.

        Raises:
            ValueError: the value is not a UTC time such as ``2026-11-25T08:00:00Z``.
        """
        text = environ.get("SIXLINE_NOW", "")
        if not text:
            return cls()
        try:
            if not _NOW.fullmatch(text):
                raise ValueError(text)
            start = datetime.fromisoformat(text)
        except ValueError:
            start = None
        if start is None or start.year not in _YEARS:
            raise ValueError(
                f"{text!a} is no time (SIXLINE_NOW): give one in UTC such as 2026-11-25T08:00:00Z"
            )
        return cls(start)

    @property
    def is_set(self) -> bool:
        """Whether this clock was set, and so only moves by ``advance``."""
        return self._set is not None

    @property
    def zone(self) -> tzinfo:
        """The local zone, for showing times and for the practice day."""
        return SystemZone()

    def now(self) -> datetime:
        """The time now, aware, in UTC."""
        return datetime.now(UTC) if self._set is None else self._set

    def advance(self, seconds: float | None) -> None:
        """Move a set clock on by an answer's seconds, at least 1 ms; the system's clock moves by itself."""
        if self._set is None:
            return
        step = 0.001 if seconds is None or not math.isfinite(seconds) else max(seconds, 0.001)
        try:
            moved = self._set + timedelta(seconds=step)
        except OverflowError:
            return
        if moved.year in _YEARS:
            self._set = moved
