"""Replay of a record: its answers applied in memory, and read and applied from files.

The floors, in the same run: the memory package's own updates for the cold answers alone, and the same lines read by
tomllib without anything being made of them.
"""

from __future__ import annotations

import gc
import random
import tempfile
import time
import tomllib
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median

from fsrs import Card, Rating, Scheduler, State

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from trainer.profile.counted import replay
from trainer.profile.files import Disk
from trainer.profile.record import ANSWERS
from trainer.profile.store import Profile
from trainer.schedule import memory
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger

ITEMS = 1000
A_DAY = 100
IN_MEMORY = 40_000
IN_FILES = 30_000
FIRST_DAY = 20_000
PAIRS = 7
_NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def main() -> None:
    """Print answers in a second, and the ratio to each floor."""
    memory.warm()
    record = events(IN_MEMORY)
    cold = sum(state.cold for state in in_memory(record).states.values())
    ours, floor = pairs(lambda: in_memory(record), lambda: package_alone(cold))
    tell(f"replay in memory, {cold / len(record):.0%} cold", len(record), ours, floor, "50,000")
    with tempfile.TemporaryDirectory() as home:
        folder = write(Path(home), record[:IN_FILES])
        lines = [line for file in sorted((folder / ANSWERS).iterdir()) for line in file.read_text().splitlines()]
        ours, floor = pairs(lambda: replay(Disk(), folder), lambda: [tomllib.loads(line) for line in lines])
        tell("replay from files", IN_FILES, ours, floor, "15,000")


def events(count: int) -> list[Event]:
    """Day after day, three or four answers to each of some items: a good quarter of all is cold."""
    rng = random.Random(count)
    items = catalogue(shipped()["standard"]).items[:ITEMS]
    found: list[Event] = []
    day = FIRST_DAY
    while len(found) < count:
        for item in rng.sample(items, A_DAY):
            for _ in range(rng.choice((3, 4))):
                right = rng.random() < 0.9
                kinds = () if right or rng.random() < 0.5 else ("mirrored-line",)
                seconds = round(rng.lognormvariate(0.2, 0.3), 2)
                said = "5" if right else "2"
                found.append(Event(day, item.id, right, said, seconds, 0.5, 0.5 + item.think, misreadings=kinds))
        day += 1
    return found[:count]


def in_memory(record: list[Event]) -> Ledger:
    """The ledger of a record."""
    ledger = Ledger()
    for event in record:
        ledger.apply(event)
    return ledger


def package_alone(cold: int) -> None:
    """So many updates as the package makes them, without any rules of ours."""
    scheduler = Scheduler(enable_fuzzing=False, learning_steps=(), relearning_steps=())
    later = _NOON + timedelta(days=5)
    for _ in range(cold):
        known = Card(0, State.Review, stability=5.0, difficulty=5.0, due=_NOON, last_review=_NOON)
        scheduler.review_card(known, Rating.Good, later)


def write(home: Path, record: list[Event]) -> Path:
    """The folder of a profile whose files hold a record."""
    profile = Profile.open(home, "me", write=True)
    for n, event in enumerate(record):
        at = datetime(2024, 10, 4, 8, tzinfo=UTC) + timedelta(days=event.day - FIRST_DAY, seconds=n % 3600)
        profile.keep(event, at)
    profile.close(_NOON)
    return next(home.rglob(ANSWERS)).parent


def pairs(ours: Callable[[], object], floor: Callable[[], object]) -> tuple[list[float], list[float]]:
    """Seconds of each, taken in turn."""
    found = [(timed(ours), timed(floor)) for _ in range(PAIRS)]
    return [a for a, _ in found], [b for _, b in found]


def timed(work: Callable[[], object]) -> float:
    """Seconds that it takes."""
    gc.collect()
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def tell(name: str, answers: int, ours: list[float], floor: list[float], least: str) -> None:
    """One line."""
    ratios = sorted(a / b for a, b in zip(ours, floor, strict=True))
    print(
        f"{name}: {answers / median(ours):,.0f} answers a second (at least {least}), {median(ours) * 1000:.0f} ms "
        f"against {median(floor) * 1000:.0f} ms, ratio {median(ratios):.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f})",
        flush=True,
    )
