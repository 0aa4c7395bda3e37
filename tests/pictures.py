"""Draw the screens: ``python -m tests.pictures [FOLDER [WIDTHxHEIGHT [THEME]]]``; without a folder, the README's six.

The real screens of the real app, driven by keys, exported by the app itself. The learner is invented.
"""

from __future__ import annotations

import asyncio
import random
import sys
import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.trainer.screen import Stand, right, settings, standing, wrong
from tests.weeks import NOW, practised
from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.learner import Learner
from trainer.opening import Choices, open_profile
from trainer.screens.baseline import Baseline
from trainer.screens.confirm import Confirm
from trainer.screens.stage import Stage

DEFAULT = Path(__file__).resolve().parents[1] / "data" / "pictures"
README = frozenset({"today", "place", "line-wrong", "tab-to-diagram", "explain", "progress"})
"""What the README shows, at 80 by 24."""

BEFORE = (
    "first-run", "first-run-2", "lesson", "today-new", "progress-new", "placement", "placement-end", "today-held",
    "summary", "today-after", "summary-one", "today-done", "too-small",
)  # fmt: skip
"""What a learner sees before weeks have passed, and at the end of a sitting."""

PLACES = {
    "explain": ["e", "slash", *"hammer", "enter"],
    "find": ["e", "slash", *"bar"],
    "library": ["e"],
    "progress": ["p"],
    "progress-end": ["p", "end"],
    "setup": ["s"],
    "setup-list": ["s", "enter"],
    "palette": ["ctrl+p"],
    "keys": ["question_mark"],
}
"""Screens that keys open over Today, by the names of their pictures."""

ITEMS = {
    "line": "line-to-string/standard/6",
    "gauge": "string-to-line/standard/6-gauge",
    "neck-line": "neck-to-line/standard/6",
    "place": "tab-to-place/standard/5/3",
    "place-to-tab": "place-to-tab/standard/5/3",
    "order": "order/standard/hit-1-2",
    "mark-name": "mark-name/hammer-on-engraved",
    "mark-hand": "mark-hand/hammer-on",
    "mark-find": "name-to-mark/hammer-on-engraved",
    "picked": "mark-picked/plain",
    "sounds": "mark-sounds/standard/h",
    "mark-wrong": "mark-wrong/hammer-down",
    "beats": "bar-count/standard/4-4/beats",
    "bar-beat": "bar-beat/standard/4-4/1",
    "note": "fret-to-note/standard/6/0",
    "fret": "note-to-fret/standard/6/e",
    "finger": "finger/name-1",
    "bar-missing": "bar-missing/standard/4-4/1",
    "value-name": "value-name/whole",
    "value-find": "value-find/whole",
    "value-fill": "value-fill/4-4/q-q",
    "diagram": "diagram-to-tab/standard/022000",
    "tab-to-diagram": "tab-to-diagram/standard/022000",
    "two-x": "chord-x/standard/diagram-x02210",
    "double-stop": "chord-interval/standard/xxxx02",
    "chord-name": "chord-name/standard/022xxx",
    "tap": "value-tap/4-4/q-q-h",
    "same-pitch": "same-pitch/standard/5/0-on-6",
    "tones": "chord-tones/standard/022000",
    "name-to-diagram": "name-to-diagram/standard/022000",
    "capo": "capo/standard/2/6/0",
    "pick-up": "bar-pick-up/4-4/full",
}
"""One item of every sort of question, by the names of their pictures."""


@dataclass
class Easel:
    """Where pictures go, how large they are, and which of them are wanted; all where none is named."""

    folder: Path
    size: tuple[int, int]
    theme: str | None
    wanted: frozenset[str] = frozenset()

    def wants(self, *names: str) -> bool:
        """Whether one of these is wanted."""
        return not self.wanted or not self.wanted.isdisjoint(names)

    @asynccontextmanager
    async def standing(self, home: Path) -> AsyncIterator[Stand]:
        """The app on a folder, in the theme of the pictures."""
        async with standing(home, size=self.size) as stand:
            if self.theme:
                stand.app.theme = self.theme
            yield stand

    async def draw(self, stand: Stand, name: str) -> None:
        """The screen as it is now, once it has settled."""
        if self.wants(name):
            for _ in range(3):
                await stand.pilot.pause(0.02)
            drawing = stand.app.export_screenshot(title="Sixline")
            (self.folder / f"{name}.svg").write_text(drawing, encoding="utf-8")


async def draw(easel: Easel) -> None:
    """Every picture that is wanted, one file each."""
    easel.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        if easel.wants(*BEFORE):
            await _first(easel, home)
            await _others(easel, home)
        await _weeks(easel, practised(home / "old"))
        await _questions(easel, home / "asked")


async def _first(easel: Easel, home: Path) -> None:
    """The first run, the first lesson, and what comes before anything is known."""
    async with easel.standing(home / "new") as stand:
        await easel.draw(stand, "first-run")
        await stand.press("1")
        await easel.draw(stand, "first-run-2")
        await stand.press("1")
        await easel.draw(stand, "lesson")
        await stand.press("enter")
        await stand.ask()
        await stand.press("escape")
        await easel.draw(stand, "today-new")
        await stand.press("p")
        await easel.draw(stand, "progress-new")
    async with easel.standing(home / "reader") as stand:
        await stand.press("1", "2")
        await easel.draw(stand, "placement")
        await stand.ask()
        while stand.practice.asked is not None and stand.asked.placement:
            await (_tapped(stand) if stand.asked.question.tapping else stand.press(*right(stand.asked.question)))
            await stand.press("enter")
        await easel.draw(stand, "placement-end")


async def _others(easel: Easel, home: Path) -> None:
    """Another window, an answer that is not saved, a window that is too small, a sitting that ends."""
    settings(home / "held", "minutes = 10")
    async with easel.standing(home / "held") as stand, standing(home / "held") as other:
        await other.pilot.pause(0.1)
        await stand.press("enter")
        await easel.draw(stand, "today-held")
    async with easel.standing(practised(home / "done", 2)) as stand:
        await _to_the_end(stand)
        await easel.draw(stand, "summary")
        await stand.press("enter")
        await easel.draw(stand, "today-after")
    async with easel.standing(home / "one") as stand:
        await stand.press("1", "1")
        await stand.only("line-to-string/standard/1")
        while stand.on == "PracticeScreen":
            asked = stand.practice.asked
            await stand.press(*(right(asked.question) if asked else ["enter"]))
        await easel.draw(stand, "summary-one")
        await stand.press("enter", "escape")
        await easel.draw(stand, "today-done")
    async with standing(home / "one", size=(36, 9)) as stand:
        await easel.draw(stand, "too-small")


async def _to_the_end(stand: Stand) -> None:
    """A sitting, right and quick but for one answer, until its minutes are over."""
    await stand.press("enter")
    for n in range(400):
        if stand.on != "PracticeScreen":
            return
        asked = stand.practice.asked
        if asked is None:
            await stand.press("enter")
            continue
        stand.learner.clock.advance(5)
        await stand.press(*(wrong if n == 7 else right)(asked.question))
    raise AssertionError("the sitting does not end")


async def _weeks(easel: Easel, home: Path) -> None:
    """After weeks of practice: Today, what it opens, and what may come over it."""
    async with easel.standing(home) as stand:
        await stand.until(lambda: "likely besides" not in stand.seen() or "+" in stand.seen())
        await easel.draw(stand, "today")
        for name, keys in PLACES.items():
            if easel.wants(name):
                await stand.press(*keys)
                await easel.draw(stand, name)
                while len(stand.app.screen_stack) > 1:
                    await stand.press("escape")
        for name, screen in (
            ("key-speed", Baseline(random.Random(1))),
            ("confirm", Confirm("It is 2029-02-02 by this machine. Is that right?")),
        ):
            if easel.wants(name):
                stand.app.push_screen(screen)
                await easel.draw(stand, name)
                await stand.press("escape")


async def _questions(easel: Easel, home: Path) -> None:
    """Every sort of question: asked, and answered wrongly; one of them right, and looked up."""
    settings(home, "")
    async with easel.standing(home) as stand:
        for name, item in ITEMS.items():
            if not easel.wants(name, f"{name}-wrong"):
                continue
            asked = await stand.only(item)
            await easel.draw(stand, name)
            if name == "tap":
                await _tap(easel, stand)
                continue
            await stand.press(*wrong(asked.question))
            await stand.pilot.pause(0.05)
            await easel.draw(stand, f"{name}-wrong")
            if name == "place" and not easel.wanted:
                await _right(easel, stand)


async def _right(easel: Easel, stand: Stand) -> None:
    """Right, right but slow, looked up, and explained."""
    for name, slow in (("right", 0.6), ("right-slow", 9.0)):
        question = (await stand.ask()).question
        await stand.think(*right(question), seconds=slow)
        await easel.draw(stand, name)
    await stand.ask()
    await stand.press("question_mark")
    await easel.draw(stand, "explained")
    await stand.press("slash")
    await easel.draw(stand, "look-up")
    await stand.press("escape")


async def _tap(easel: Easel, stand: Stand) -> None:
    """A bar to tap: while it counts in, while it is tapped, and what came of it."""
    await stand.press("space")
    await stand.pilot.pause(0.9)
    await easel.draw(stand, "tap-count-in")
    await _tapped(stand, easel)
    await easel.draw(stand, "tap-wrong")


async def _tapped(stand: Stand, easel: Easel | None = None) -> None:
    """Tap somehow until a verdict comes."""
    while stand.practice.stage is Stage.ASKING:
        await stand.press("space")
        await stand.pilot.pause(0.5)
        if easel is not None and "●" in "".join(stand.lines("#answers")):
            await easel.draw(stand, "tap-running")
    await stand.pilot.pause(0.1)


def open_app(home: Path) -> SixlineApp:
    """The app on a folder, the clock at ``NOW``."""
    clock = Clock(NOW)
    choices = Choices(home, "me", 0)
    return SixlineApp(Learner(choices, clock, open_profile(choices, clock, write=True)))


if __name__ == "__main__":
    argv = [*sys.argv[1:], *[""] * 3]
    width, _, height = (argv[1] or "80x24").partition("x")
    wanted = frozenset(sys.argv[4:]) if argv[0] else README
    asyncio.run(draw(Easel(Path(argv[0]) if argv[0] else DEFAULT, (int(width), int(height)), argv[2] or None, wanted)))
