"""Run the trials: ``python -m tests.bench.learning`` (all of it, half an hour), ``--smoke`` (under two minutes)."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.progress import track

from tests.bench.learning.picture import draw
from tests.bench.learning.table import lines
from tests.bench.learning.trials import DAYS, LEARNERS, Found, Trial, trials, tried

PROCESSES: Final = 2
SEEDS: Final = 30
SMOKE_SEEDS: Final = 2
ROOT: Final = Path(__file__).parents[3]
README: Final = ROOT / "README.md"
PICTURE: Final = ROOT / "data" / "pictures" / "schedule.svg"
BEGIN: Final = "<!-- trials -->"
END: Final = "<!-- /trials -->"


def main(arguments: list[str] | None = None) -> int:
    """Run, print the table, and write it and its picture where that is wanted."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.learning", description=__doc__)
    parser.add_argument("--smoke", action="store_true", help=f"{SMOKE_SEEDS} learners of each sort instead of {SEEDS}")
    parser.add_argument("--seeds", type=int, help="how many learners of each sort")
    parser.add_argument("--learners", default="".join(LEARNERS), help="which sorts, such as AB")
    parser.add_argument("--publish", action="store_true", help="put table and picture into the README")
    chosen = parser.parse_args(arguments)
    if unknown := set(chosen.learners) - set(LEARNERS):
        parser.error(f"no learner {sorted(unknown)[0]!a}: choose among {''.join(LEARNERS)}")
    count = chosen.seeds or (SMOKE_SEEDS if chosen.smoke else SEEDS)
    results = _run(trials(range(count), tuple(chosen.learners)))
    text = "\n".join(lines(results))
    print(text)
    if chosen.publish:
        _publish(text)
        draw(results, PICTURE)
    return 0


def _publish(text: str) -> None:
    page = README.read_text(encoding="utf-8")
    before, rest = page.split(BEGIN, 1)
    after = rest.split(END, 1)[1]
    README.write_text(f"{before}{BEGIN}\n{text}\n{END}{after}", encoding="utf-8")


def _run(todo: list[Trial]) -> dict[Trial, Found]:
    """Run them in two processes; the bar goes to standard error."""
    with ProcessPoolExecutor(PROCESSES) as pool:
        found: Iterable[Found] = pool.map(partial(tried, days=DAYS), todo, chunksize=2)
        bar = track(found, "trials", total=len(todo), console=Console(stderr=True))
        return dict(zip(todo, bar, strict=True))


if __name__ == "__main__":
    sys.exit(main())
