"""One writer at a time. The lock is the system's and dies with its process; ``holder.toml`` only tells who."""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Final

from trainer.profile.device import host_name
from trainer.profile.files import Disk
from trainer.profile.problem import printable
from trainer.profile.toml import parse

if TYPE_CHECKING:
    from filelock import BaseFileLock

LOCK: Final = "lock"
HOLDER: Final = "holder.toml"


@dataclass(frozen=True, slots=True)
class Holder:
    """Who holds a profile.

    Attributes:
        pid: process number on that machine.
        host: name of the machine.
        since: UTC time, as text.
    """

    pid: int
    host: str
    since: str


class HeldError(Exception):
    """Another process writes this profile."""

    def __init__(self, name: str, holder: Holder | None) -> None:
        self.holder = holder
        who = f"process {holder.pid} on {holder.host} since {holder.since}" if holder else "another process"
        super().__init__(f"profile {name} is in use (by {who}): close that one first, or choose another --profile")


class ProfileLock:
    """The lock of one profile folder."""

    def __init__(self, folder: Path, disk: Disk) -> None:
        """The lock in ``folder``; nothing is created before ``acquire``."""
        self._folder = folder
        self._disk = disk
        self._lock: BaseFileLock | None = None

    @property
    def held(self) -> bool:
        """Whether this object holds it."""
        return self._lock is not None

    def acquire(self, name: str, at: datetime) -> None:
        """Take the lock and say so in ``holder.toml``. The folder must exist.

        Raises:
            HeldError: another process has it.
            OSError: the lock file cannot be made.
        """
        if self._lock is not None:
            return
        from filelock import FileLock, Timeout  # late: 46 ms, after the first question

        path = self._folder / LOCK
        self._disk.reach("lock", path)
        lock = FileLock(path, timeout=0, thread_local=False)
        try:
            lock.acquire()
        except Timeout:
            raise HeldError(name, read_holder(self._folder, self._disk)) from None
        except NotImplementedError:
            raise OSError(None, "this file system cannot lock files", str(path)) from None
        self._lock = lock
        self._tell(at)

    def release(self) -> None:
        """Give the lock back; does nothing where it is not held."""
        if self._lock is None:
            return
        with suppress(OSError):  # the file only tells who; the lock decides
            self._disk.remove(self._folder / HOLDER)
        self._lock.release()
        self._lock = None

    def _tell(self, at: datetime) -> None:
        import tomli_w

        since = at.replace(microsecond=0, tzinfo=None).isoformat() + "Z"
        table = {"pid": os.getpid(), "host": host_name(), "since": since}
        with suppress(OSError):  # the file only tells who; the lock decides
            self._disk.replace(self._folder / HOLDER, tomli_w.dumps(table).encode())


def read_holder(folder: Path, disk: Disk) -> Holder | None:
    """Who says that they hold the profile; it may be stale after a crash, only the lock is not."""
    try:
        table = parse(disk.read(folder / HOLDER) or b"")
    except (OSError, ValueError):
        return None
    pid, host, since = table.get("pid"), table.get("host"), table.get("since")
    if not (isinstance(pid, int) and isinstance(host, str) and isinstance(since, str)):
        return None
    return Holder(pid, printable(host)[:60], printable(since)[:60])
