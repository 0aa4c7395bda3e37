"""A program in a real pseudo-terminal, timed from outside: started, typed to, waited for."""

from __future__ import annotations

import contextlib
import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import TracebackType

ROOT = Path(__file__).resolve().parents[2]


class Terminal:
    """A child on a pseudo-terminal of 80 by 24 cells."""

    def __init__(self, command: Sequence[str], env: Mapping[str, str] | None = None) -> None:
        self.seen = b""
        self.started = time.perf_counter()
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        environment = surroundings({"TERM": "xterm-256color", "COLORTERM": "truecolor", **(env or {})})
        self.process = subprocess.Popen(
            command, stdin=slave, stdout=slave, stderr=slave, env=environment, start_new_session=True
        )
        os.close(slave)

    def __enter__(self) -> Terminal:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.process.poll() is None:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()
        os.close(self._master)

    def type(self, keys: str) -> float:
        """Send keys; the time they were sent."""
        sent = time.perf_counter()
        os.write(self._master, keys.encode())
        return sent

    def wait_for(self, *texts: str, timeout: float = 20.0) -> float:
        """The time at which one of the texts has come since the last call.

        Raises:
            TimeoutError: none of them came.
        """
        wanted = [text.encode() for text in texts]
        end = time.perf_counter() + timeout
        while time.perf_counter() < end:
            if any(text in self.seen for text in wanted):
                self.seen = b""
                return time.perf_counter()
            ready, _, _ = select.select([self._master], [], [], 0.05)
            if ready:
                try:
                    self.seen += os.read(self._master, 65536)
                except OSError:
                    break
        raise TimeoutError(f"{texts} did not come; the end of what did: {self.seen[-300:]!r}")

    def drain(self, seconds: float) -> None:
        """Read what comes for a while, and forget it."""
        end = time.perf_counter() + seconds
        while (left := end - time.perf_counter()) > 0:
            ready, _, _ = select.select([self._master], [], [], left)
            if ready:
                with contextlib.suppress(OSError):
                    os.read(self._master, 65536)
        self.seen = b""


def surroundings(more: Mapping[str, str] | None = None) -> dict[str, str]:
    """The environment of a child: this checkout first, and byte code kept, as an installed program has it."""
    environment = {**os.environ, **(more or {}), "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment


def python(*words: str) -> list[str]:
    """A command of this very Python."""
    return [sys.executable, *words]
