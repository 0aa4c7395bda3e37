"""A terminal that goes away under the screen: told to stop, everything is kept, and nothing waits for it any more."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from textual.app import App
from textual.message import Message

GONE: Final = 129
"""Exit code where the terminal is gone: 128 and the number of SIGHUP."""

LOOK_EVERY = 3.0
"""Seconds between two looks whether the terminal is still there."""

_OUTPUT: Final = "textual-output"
"""Name of the framework's thread that writes to the terminal."""


class Gone(Message):
    """Nothing can be written to the terminal any more."""


def listen(stop: Callable[[int], None]) -> None:
    """Have ``stop`` called with the number of a signal that asks to stop. Call it once the driver has its own."""
    if sys.platform == "win32":
        return
    for number in (signal.SIGTERM, signal.SIGHUP):
        asyncio.get_running_loop().add_signal_handler(number, stop, number)
    resume = signal.getsignal(signal.SIGCONT)
    if callable(resume):
        # A closed window sends SIGCONT after SIGHUP, and the framework would start anew on a terminal that is gone.
        again = resume
        signal.signal(signal.SIGCONT, lambda number, frame: again(number, frame) if os.isatty(0) else None)


def look_out(app: App[None]) -> None:
    """End the app when its terminal is gone though no signal told: it was started in a session of its own.

    The framework's input thread would read nothing from it for ever, at the full speed of a processor.
    """
    if os.isatty(0):
        app.set_interval(LOOK_EVERY, lambda: None if os.isatty(0) else app.post_message(Gone()))


@contextmanager
def surviving(app: App[None]) -> Iterator[None]:
    """Let the app end when its terminal is gone; else it would wait for ever to hand over its last lines."""
    before = threading.excepthook

    def hook(args: threading.ExceptHookArgs) -> None:
        thread = args.thread
        if thread is None or thread.name != _OUTPUT or not isinstance(args.exc_value, OSError):
            before(args)
            return
        os.dup2(os.open(os.devnull, os.O_WRONLY), 2)
        app.post_message(Gone())
        thread.run()  # goes on taking lines, to nowhere

    threading.excepthook = hook
    try:
        yield
    finally:
        threading.excepthook = before
