"""From the command to the first question on the screen, against a minimal Textual app to its first text.

The time runs through: Enter is typed the moment Today is drawn.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.bench.figures import show
from tests.bench.record import NOW, fill
from tests.bench.terminal import Terminal, python

PAIRS = 9
ANSWERS = 30_000
PROMPTS = ("Which", "Where", "What", "How many", ": which", "A bar line", "As you look")
"""One of these stands in every prompt."""


def main() -> None:
    """Print the ratios: to Today, and to the first question."""
    with tempfile.TemporaryDirectory() as folder:
        for answers in (300, ANSWERS):
            home = fill(Path(folder) / str(answers), answers)
            rows = [(*ours(home), floor()) for _ in range(PAIRS + 1)][1:]
            today, question, least = zip(*rows, strict=True)
            show(f"Today with {answers} answers", today, least, "no bound")
            show(f"first question with {answers} answers", question, least, "at most 1.5, aim 1.3")


def ours(home: Path) -> tuple[float, float]:
    """Seconds from the start to Today, and to the first question or lesson."""
    command = python("-m", "trainer.cli", "--home", str(home))
    with Terminal(command, {"SIXLINE_NOW": NOW}) as terminal:
        today = terminal.wait_for("to go over") - terminal.started
        terminal.type("\r")
        return today, terminal.wait_for(*PROMPTS) - terminal.started


def floor() -> float:
    """Seconds from the start of the minimal app to its text."""
    with Terminal(python("-m", "tests.bench.minimal")) as terminal:
        return terminal.wait_for("floor-text") - terminal.started
