"""Being told to stop while a learner thinks: the sitting ends as if they had, and everything is saved."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import TypeVar

T = TypeVar("T")


class Stopped(Exception):
    """A signal asked to stop."""


class Stopping:
    """Waits for input so that a signal interrupts the waiting and nothing else, never a write to the record.

    Attributes:
        number: the signal that asked to stop, or None.
    """

    def __init__(self) -> None:
        self.number: int | None = None
        self._waiting = False

    @property
    def code(self) -> int:
        """The exit code that shells expect: 128 and the signal's number, 0 where none came."""
        return 0 if self.number is None else 128 + self.number

    def wait(self, read: Callable[[], T]) -> T:
        """What ``read`` gives.

        Raises:
            Stopped: a signal came, now or before.
        """
        self._waiting = True
        try:
            if self.number is not None:
                raise Stopped
            return read()
        finally:
            self._waiting = False

    def _stop(self, number: int, frame: FrameType | None) -> None:
        self.number = number
        if self._waiting:
            raise Stopped


@contextmanager
def stopping() -> Iterator[Stopping]:
    """Take SIGTERM, SIGINT and SIGHUP, as far as the system has them, and give them back in the end."""
    state = Stopping()
    before = {}
    if threading.current_thread() is threading.main_thread():
        for name in ("SIGTERM", "SIGINT", "SIGHUP"):
            number = getattr(signal, name, None)
            if number is not None:
                before[number] = signal.signal(number, state._stop)
    try:
        yield state
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
