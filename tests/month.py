"""A month of practice: most days through ``Practice`` alone, some at the real screen with real keys.

``python -m tests.month FOLDER [SIZE [SORT ...]]`` draws those days and writes what stood on them.
"""

from __future__ import annotations

import asyncio
import sys
import tempfile
from collections.abc import AsyncIterator, Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final
from unittest.mock import patch

from textual import events

from drills.question import Answer
from tests.minds import SORTS, Mind
from tests.trainer.screen import CHARACTERS, Stand, keys, settings, standing
from trainer.clock import Clock
from trainer.learner import Learner
from trainer.nothing_new import why_nothing_new
from trainer.opening import Choices, begin
from trainer.practice import Asked
from trainer.profile.store import Profile
from trainer.schedule.ahead import Ahead, look_ahead
from trainer.schedule.reaching import StageAhead
from trainer.screens import way
from trainer.screens.stage import Stage

START: Final = datetime(2026, 11, 2, 17, tzinfo=UTC)
"""The first evening; every sitting begins about then."""
FIRST_DAY: Final = 20_759
LOOKED_AT: Final = (1, 3, 7, 14, 30)
WHOLE: Final = ("#prompt", "#words", "#picture", "#told", "#better", "#hints", "#date", "#time")
"""What has to be in the window as a whole, where it is there."""

SHOWN_AT: Final = 1000.0
UNDER_WAY: Final = (Stage.RIGHT, Stage.WRONG, Stage.WAITING)
"""From an answer to what comes after it."""

VERDICT, WHY, LESSON = 1.0, 3.0, 8.0
"""Seconds that a right verdict, a wrong one and a lesson are looked at."""


@dataclass
class Day:
    """One day of the month.

    Attributes:
        number: from 1.
        day: its practice day.
        ahead: what was known before the sitting.
        why: what is said where nothing new comes.
        asked: all questions, in order, each with whether it was answered rightly.
        pages: what stood on the screen, by the name of the page; empty for a day without a screen.
        stages: what was foretold of the stage before the sitting and after it, likewise.
        cut: pages and widgets that did not fit into the window.
        minutes: of the sitting by the clock.
        reason: why it ended.
    """

    number: int
    day: int
    ahead: Ahead
    why: str
    asked: list[tuple[Asked, bool]] = field(default_factory=list)
    pages: dict[str, list[str]] = field(default_factory=dict)
    stages: list[StageAhead] = field(default_factory=list)
    cut: list[str] = field(default_factory=list)
    minutes: float = 0.0
    reason: str | None = None


class Month:
    """One learner's month, day after day in a folder.

    Attributes:
        home: where the profile is.
        days: those that are over.
        drawn: called with a screen that is worth a picture, and its name.
    """

    def __init__(self, home: Path, sort: str, *, minutes: int = 10, size: tuple[int, int] = (80, 24)) -> None:
        self.home = home
        self.days: list[Day] = []
        self._minutes = minutes
        self._size = size
        self._mind = Mind(SORTS[sort])
        settings(home, f"minutes = {minutes}")

    def off_screen(self, number: int) -> Day:
        """A day through ``Practice``."""
        clock = Clock(self._time(number))
        profile = Profile.open(self.home, "me", write=True)
        learner = Learner(Choices(self.home, "me", 0), clock, profile)
        day = self._day(number, learner)
        practice = begin(profile, clock, seed=0)
        while (asked := practice.next(clock.now())) is not None:
            said, seconds = self._mind.answer(asked, practice.day)
            clock.advance(seconds)
            outcome = practice.answer(Answer(said, seconds), clock.now())
            day.asked.append((asked, outcome.verdict.right))
            clock.advance(_looked_at(asked, outcome.verdict.right))
        day.minutes, day.reason = (clock.now() - self._time(number)).total_seconds() / 60, practice.reason
        profile.close(clock.now())
        return day

    async def on_screen(self, number: int) -> AsyncIterator[tuple[str, Stand]]:
        """A day at the screen; each page that is worth a look, as long as it stands there."""
        shown = patch.object(way, "stamp", return_value=SHOWN_AT)  # the same seconds in every run
        async with standing(self.home, size=self._size, now=self._time(number)) as stand:
            stand.app.animation_level = "none"
            day = self._day(number, stand.learner)
            for name, look in (("today", _today), ("progress-before", _progress)):
                async for _ in look(stand):
                    yield self._seen(day, name, stand)
            with shown:
                await self._sit(stand, day)
            yield self._seen(day, "summary", stand)
            await self._leave(stand)
            async for _ in _today(stand):
                yield self._seen(day, "today-after", stand)
            async for _ in _progress(stand):
                yield self._seen(day, "progress", stand)
                await stand.press("end")
                await stand.pilot.pause(0.05)
                yield self._seen(day, "progress-end", stand)

    async def _sit(self, stand: Stand, day: Day) -> None:
        """Answer with the keys that give the answers, until the sitting is over."""
        began = stand.learner.clock.now()
        await stand.press("enter")
        while stand.on == "PracticeScreen" and stand.practice.stage not in (Stage.TODAY, Stage.DONE):
            asked = stand.practice.asked
            if asked is None:
                await stand.press("enter")
                continue
            said, seconds = self._mind.answer(asked, day.day)
            await _enter(stand, asked, said, seconds)
            right = stand.practice.stage is Stage.RIGHT
            day.asked.append((asked, right))
            stand.learner.clock.advance(_looked_at(asked, right))
            stand.app.post_message(events.Key("enter", None))
            await _quickly(lambda: stand.on != "PracticeScreen" or stand.practice.stage not in UNDER_WAY, stand)
        day.minutes = (stand.learner.clock.now() - began).total_seconds() / 60
        await stand.pilot.pause()

    async def _leave(self, stand: Stand) -> None:
        """Back to Today, the hand measured on the way where that is asked for."""
        await stand.press("enter")
        if stand.on == "Baseline":
            await stand.press("escape")
        await stand.until(lambda: stand.on == "PracticeScreen")
        # Where the memory is fitted, what follows is to go by that.
        await _quickly(lambda: not any(worker.is_running for worker in stand.app.workers), stand)

    def _day(self, number: int, learner: Learner) -> Day:
        day = learner.profile.sitting_day(learner.clock.now(), learner.clock.zone)
        ahead = look_ahead(learner.catalogue, learner.profile.ledger, day=day, minutes=self._minutes)
        why = why_nothing_new(ahead, learner.profile.ledger, self._minutes)
        self.days.append(Day(number, day, ahead, why))
        return self.days[-1]

    def _time(self, number: int) -> datetime:
        return START + timedelta(days=number - 1, minutes=7 * number % 11)

    @staticmethod
    def _seen(day: Day, name: str, stand: Stand) -> tuple[str, Stand]:
        day.pages[name] = page(stand)
        window = stand.app.screen.region
        for widget in stand.app.screen.query(", ".join(WHOLE)):
            if not window.contains_region(widget.region):
                day.cut.append(f"{name}: {widget}")
        if name.startswith("today") and (found := stand.practice._foresight.found) is not None:
            day.stages.append(found.stage)
        return name, stand

    async def whole(self) -> None:
        """All thirty days, those of ``LOOKED_AT`` at the screen."""
        for number in range(1, LOOKED_AT[-1] + 1):
            if number not in LOOKED_AT:
                self.off_screen(number)
                continue
            async for _ in self.on_screen(number):
                pass


async def _today(stand: Stand) -> AsyncIterator[None]:
    """Today, once what is likely stands on it."""
    if stand.learner.profile.ledger.events:
        await stand.until(lambda: stand.practice._foresight.found is not None)
        await stand.pilot.pause()
    yield


async def _progress(stand: Stand) -> AsyncIterator[None]:
    """Progress, and back."""
    await stand.press("p")
    yield
    await stand.press("escape")


async def _enter(stand: Stand, asked: Asked, said: str, seconds: float) -> None:
    """The keys of an answer, as if so much time had passed; what is tapped comes without its beats."""
    if asked.question.tapping is not None:
        await stand.practice._answer(said, seconds)
        return
    for key in keys(asked.question, said):
        event = events.Key(key, CHARACTERS.get(key, key if len(key) == 1 else None))
        event.time = SHOWN_AT + seconds
        stand.app.post_message(event)
    await _quickly(lambda: stand.practice.asked is not asked, stand)


async def _quickly(what: Callable[[], bool], stand: Stand) -> None:
    """Wait for what follows soon, without letting all of the screen settle."""
    for _ in range(10_000):
        if what():
            return
        await asyncio.sleep(0.001)
    raise AssertionError(f"it did not come; on the screen is:\n{stand.seen()}")


def _looked_at(asked: Asked, right: bool) -> float:
    return (VERDICT if right else WHY) + (LESSON if asked.lesson is not None else 0.0)


def page(stand: Stand) -> list[str]:
    """The rows of the window as they are."""
    strips = stand.app.screen._compositor.render_strips()
    return ["".join(segment.text for segment in strip).rstrip() for strip in strips]


async def draw(folder: Path, size: tuple[int, int], sort: str) -> None:
    """The pages of the days that are looked at, as pictures and as text, and a line on every day."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as home:
        month = Month(Path(home), sort, size=size)
        for number in range(1, LOOKED_AT[-1] + 1):
            if number not in LOOKED_AT:
                month.off_screen(number)
                continue
            async for name, stand in month.on_screen(number):
                drawing = stand.app.export_screenshot(title=f"{sort}, day {number}: {name}")
                (folder / f"{sort}-{number:02}-{name}.svg").write_text(drawing, encoding="utf-8")
        text = "\n".join(_told(month))
        (folder / f"{sort}.txt").write_text(f"{text}\n", encoding="utf-8")


def _told(month: Month) -> Iterator[str]:
    for each in month.days:
        whys = [str(asked.why) for asked, _ in each.asked]
        counts = ", ".join(f"{whys.count(why)} {why}" for why in dict.fromkeys(sorted(whys)))
        right = sum(right for _, right in each.asked)
        yield (
            f"day {each.number:2}: foretold {each.ahead.due} due {each.ahead.waiting} waiting {each.ahead.new} new "
            f"{each.ahead.minutes} min; came {len(each.asked)} ({counts}), {right} right, {each.minutes:.1f} min, "
            f"{len({asked.item.id for asked, _ in each.asked})} items; {each.reason}"
        )
    for each in month.days:
        for name, rows in each.pages.items():
            yield f"\n=== day {each.number}: {name} " + "=" * 50
            yield from rows


if __name__ == "__main__":
    argv = [*sys.argv[1:], *[""] * 2]
    width, _, height = (argv[1] or "80x24").partition("x")
    for wanted in sys.argv[3:] or list(SORTS):
        asyncio.run(draw(Path(argv[0]), (int(width), int(height)), wanted))
