"""``sixline --help`` against starting Python at all."""

from __future__ import annotations

import subprocess
import time

from tests.bench.figures import show
from tests.bench.terminal import ROOT, python, surroundings

PAIRS = 15


def main() -> None:
    """Print the ratio."""

    def run(*words: str) -> float:
        start = time.perf_counter()
        subprocess.run(python(*words), check=True, capture_output=True, cwd=ROOT, env=surroundings())
        return time.perf_counter() - start

    pairs = [(run("-m", "trainer.cli", "--help"), run("-c", "pass")) for _ in range(PAIRS + 1)][1:]
    show("sixline --help / python -c pass", [a for a, _ in pairs], [b for _, b in pairs], "at most 4")
