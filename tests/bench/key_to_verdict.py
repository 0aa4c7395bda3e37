"""From a key to the verdict on the screen, saving included, against a minimal app's key to its text.

Once as it is, once with 30 ms added to every fsync.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.bench.figures import show
from tests.bench.record import NOW, fill
from tests.bench.terminal import Terminal, python

KEYS = 20
SLOW_DISK = """
import sys, time
from trainer.profile.files import Disk
fsync = Disk.fsync
def slow(self, *words):
    time.sleep(.03)
    return fsync(self, *words)
Disk.fsync = slow
from trainer.cli import main
sys.exit(main())
"""


def main() -> None:
    """Print the ratios."""
    floor = minimal()
    with tempfile.TemporaryDirectory() as folder:
        for name, start in (("as it is", ("-m", "trainer.cli")), ("fsync + 30 ms", ("-c", SLOW_DISK))):
            home = fill(Path(folder) / name.replace(" ", ""), 3000)
            show(f"key to verdict, {name}", ours(start, home), floor, "at most 1.5")


def ours(start: tuple[str, ...], home: Path) -> list[float]:
    """Seconds from each answer's key to its verdict."""
    found: list[float] = []
    with Terminal(python(*start, "--home", str(home)), {"SIXLINE_NOW": NOW}) as terminal:
        terminal.wait_for("to go over")
        terminal.drain(1)
        terminal.type("\r")
        for _ in range(4 * KEYS):
            terminal.drain(0.3)
            sent = terminal.type("1")
            # A question that letters answer, or several keys, gives no verdict: it is left for another.
            try:
                found.append(terminal.wait_for("Right", "Wrong", timeout=0.5) - sent)
            except TimeoutError:
                terminal.type("1aaaa")
            if len(found) == KEYS:
                break
            terminal.drain(0.3)
            terminal.type("\r")
    return found


def minimal() -> list[float]:
    """Seconds from a key to the minimal app's text."""
    found: list[float] = []
    with Terminal(python("-m", "tests.bench.minimal")) as terminal:
        terminal.wait_for("floor-text")
        terminal.drain(1)
        for n in range(1, KEYS + 1):
            sent = terminal.type("1")
            found.append(terminal.wait_for(f"turned-{n}-text") - sent)
            terminal.drain(0.2)
    return found
