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
    """A child on a pseudo-terminal of 80 by 24 cells; ``controlling``: closing it sends the child SIGHUP.

    Attributes:
        seen: what came since the last ``wait_for``.
        all: what came since the start.
        before: the terminal's modes before the child had it.
    """

    def __init__(
        self, command: Sequence[str], env: Mapping[str, str] | None = None, *, controlling: bool = True
    ) -> None:
        self.seen = self.all = b""
        self.started = time.perf_counter()
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.before = termios.tcgetattr(self._master)
        self._open = True
        environment = surroundings({"TERM": "xterm-256color", "COLORTERM": "truecolor", **(env or {})})
        self.process = subprocess.Popen(
            command, stdin=slave, stdout=slave, stderr=slave, env=environment, start_new_session=True,
            preexec_fn=(lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0)) if controlling else None,
        )  # fmt: skip
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
        self.close()

    def close(self) -> None:
        """Close the window over the child's head."""
        if self._open:
            self._open = False
            os.close(self._master)

    @property
    def modes(self) -> list[object]:
        """The terminal's modes now."""
        return termios.tcgetattr(self._master)

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
                if not (came := self._read()):
                    break
                self.seen += came
        raise TimeoutError(f"{texts} did not come; the end of what did: {self.seen[-300:]!r}")

    def drain(self, seconds: float) -> None:
        """Read what comes for a while, and forget it."""
        end = time.perf_counter() + seconds
        while (left := end - time.perf_counter()) > 0:
            ready, _, _ = select.select([self._master], [], [], left)
            if ready:
                self._read()
        self.seen = b""

    def end(self, timeout: float = 20.0) -> int:
        """Wait for the child's own end, reading all that it has to say; its exit code, negative for a signal.

        Raises:
            TimeoutError: it goes on.
        """
        end = time.perf_counter() + timeout
        while time.perf_counter() < end:
            ready = self._open and select.select([self._master], [], [], 0.05)[0]
            if not (ready and self._read()) and self.process.poll() is not None:
                return self.process.returncode
        raise TimeoutError(f"it does not end; the end of what came: {self.all[-300:]!r}")

    def _read(self) -> bytes:
        """What came; nothing once the child has closed its side."""
        try:
            came = os.read(self._master, 65536)
        except OSError:
            came = b""
        self.all += came
        return came


def surroundings(more: Mapping[str, str] | None = None) -> dict[str, str]:
    """The environment of a child: this checkout first, and byte code kept, as an installed program has it."""
    environment = {**os.environ, **(more or {}), "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment


def python(*words: str) -> list[str]:
    """A command of this very Python."""
    return [sys.executable, *words]
