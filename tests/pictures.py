"""Draw the README's pictures: ``python -m tests.pictures [FOLDER [WIDTHxHEIGHT]]``.

The real screens of the real app, driven by keys, exported by the app itself. The learner is invented.
"""

from __future__ import annotations

import asyncio
import random
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path

from textual.pilot import Pilot

from tests.bench.record import fill
from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.learner import Learner
from trainer.opening import Choices, open_profile
from trainer.screens.baseline import Baseline
from trainer.screens.confirm import Confirm
from trainer.screens.summary import SummaryScreen

NOW = datetime(2026, 11, 25, 8, tzinfo=UTC)
PLACES = {
    "explain": ["e", "slash", *"hammer", "enter"],
    "find": ["e", "slash", *"bar"],
    "progress": ["p"],
    "progress-end": ["p", "end"],
    "setup": ["s"],
    "setup-list": ["s", "enter"],
}
"""Screens that keys open over Today, by the names of their pictures."""
DEFAULT = Path(__file__).resolve().parents[1] / "data" / "pictures"


async def draw(folder: Path, size: tuple[int, int], theme: str | None = None) -> None:
    """Every screen, one file each."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as home:
        await _first(Path(home) / "new", folder, size, theme)
        await _later(fill(Path(home) / "old", 4000), folder, size, theme)


async def _first(home: Path, folder: Path, size: tuple[int, int], theme: str | None) -> None:
    app = open_app(home)
    async with app.run_test(size=size) as pilot:
        if theme:
            app.theme = theme
        await _snap(pilot, folder / "first-run.svg")
        await pilot.press("1", "1")
        await _snap(pilot, folder / "lesson.svg")
        await pilot.press("enter")
        await _snap(pilot, folder / "question.svg")
        await pilot.press("1")
        await _snap(pilot, folder / "wrong.svg")


async def _later(home: Path, folder: Path, size: tuple[int, int], theme: str | None) -> None:
    app = open_app(home)
    async with app.run_test(size=size) as pilot:
        if theme:
            app.theme = theme
        await _snap(pilot, folder / "today.svg")
        for name, keys in PLACES.items():
            await pilot.press(*keys)
            await _snap(pilot, folder / f"{name}.svg")
            while len(app.screen_stack) > 1:
                await pilot.press("escape")
        for name, screen in (
            ("summary", SummaryScreen(app.learner, app.learner.begin())),
            ("key-speed", Baseline(random.Random(1))),
            ("confirm", Confirm("It is 2029-02-02 by this machine. Is that right?")),
        ):
            app.push_screen(screen)
            await _snap(pilot, folder / f"{name}.svg")
            await pilot.press("escape")
        await pilot.press("question_mark")
        await _snap(pilot, folder / "keys.svg")
        await pilot.press("escape", "enter")
        seen: set[str] = set()
        for _ in range(60):
            await pilot.pause()
            asked = app.screen.asked if hasattr(app.screen, "asked") else None
            if asked is None:
                await pilot.press("enter")
                continue
            if asked.item.drill not in seen:
                seen.add(asked.item.drill)
                await _snap(pilot, folder / f"{asked.item.drill}.svg")
                if len(seen) == 1:
                    await pilot.press("slash")
                    await _snap(pilot, folder / "look-up.svg")
                    await pilot.press("escape")
            question = asked.question
            answer = question.model
            keys = [option.key for option in question.options if option.answer == answer]
            if question.length > 1:
                keys = list(answer.replace(" ", ""))
            await pilot.press(*(keys or [*answer, "enter"]))
            await pilot.press("enter")


async def _snap(pilot: Pilot[None], path: Path) -> None:
    await pilot.pause()
    await pilot.pause()
    path.write_text(pilot.app.export_screenshot(title="Sixline"), encoding="utf-8")


def open_app(home: Path) -> SixlineApp:
    """The app on a folder, the clock at ``NOW``."""
    clock = Clock(NOW)
    choices = Choices(home, "me", 0)
    return SixlineApp(Learner(choices, clock, open_profile(choices, clock, write=True)))


if __name__ == "__main__":
    where = Path(sys.argv[1]) if len(sys.argv) > 1 else DEFAULT
    width, _, height = (sys.argv[2] if len(sys.argv) > 2 else "80x24").partition("x")
    asyncio.run(draw(where, (int(width), int(height)), sys.argv[3] if len(sys.argv) > 3 else None))
