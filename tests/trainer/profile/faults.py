"""A disk that fails, and small helpers that the profile's tests share."""

from __future__ import annotations

import errno
import os
import tomllib
from collections import Counter
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from trainer.profile.files import Disk
from trainer.profile.store import Profile
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger

START = datetime(2026, 11, 25, 8, tzinfo=UTC)
DAY = 20782
"""2026-11-25: `date -u -d 2026-11-25 +%s` divided by 86400."""


class FaultyDisk(Disk):
    """Fails at chosen points, writes short where told to, and counts what it is asked for."""

    def __init__(self) -> None:
        self.fails: dict[str, int] = {}
        self.short = False
        self.counts: Counter[str] = Counter()

    def reach(self, point: str, path: Path) -> None:
        self.counts[point] += 1
        number = self.fails.get(point)
        if number is not None:
            raise OSError(number, os.strerror(number), str(path))

    def write(self, descriptor: int, data: bytes, path: Path) -> int:
        if self.short:
            data = data[: len(data) // 2]
        return super().write(descriptor, data, path)


POINTS = ["make_folder", "lock", "create", "rename", "open", "write", "fsync", "sync_folder", "names", "size", "read"]
ERRORS = [errno.ENOSPC, errno.EROFS, errno.EIO, errno.EACCES]


def answer(number: int = 0, *, day: int = DAY, said: str = "C", right: bool = True) -> Event:
    """An answer to one of a hundred items."""
    item = f"fret-to-note/standard/{number % 6 + 1}/{number % 17}"
    return Event(day, item, right, said, 1.4, 0.62, 1.82, misreadings=() if right else ("octave",))


def practise(home: Path, answers: int, *, start: datetime = START, day: int = DAY, disk: Disk | None = None) -> Profile:
    """Keep answers one second apart in a profile and close it."""
    profile = Profile.open(home, "me", write=True, disk=disk)
    for number in range(answers):
        profile.keep(answer(number, day=day, right=number % 5 != 0), start + timedelta(seconds=number))
    profile.close(start + timedelta(seconds=answers))
    return profile


def record_files(home: Path, name: str = "me") -> list[Path]:
    """The files of the record, by the contract's own pattern."""
    return sorted((home / "profiles" / name / "answers").glob("????-??.??????.toml"))


def read_back(home: Path, name: str = "me") -> dict[str, dict[str, Any]]:
    """Every line of the record as tomllib reads the whole files; never by our own reader."""
    lines: dict[str, dict[str, Any]] = {}
    for path in record_files(home, name):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        assert table.pop("format") == 1
        assert table.pop("device") == path.name[8:14]
        lines |= table
    return lines


def everything(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, with its bytes."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def replayed(home: Path, name: str = "me") -> Ledger:
    """The ledger without memory.toml."""
    folder = home / "profiles" / name
    for file in ("memory.toml", "history.toml"):
        (folder / file).unlink(missing_ok=True)
    return Profile.open(home, name).ledger
