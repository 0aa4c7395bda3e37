"""The real app on a screen of no terminal, driven by keys and clicks; and what stands on it."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from textual import events
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widget import Widget

from drills.question import Question
from tests.trainer.profile.faults import read_back
from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.learner import Learner
from trainer.opening import Choices
from trainer.practice import Asked, Practice
from trainer.profile.files import Disk
from trainer.profile.store import Profile
from trainer.schedule.event import Event
from trainer.screens.practice import PracticeScreen
from trainer.screens.stage import Stage

NOW = datetime(2026, 11, 25, 8, tzinfo=UTC)
GUITAR, NEW = "1", "1"
"""The two keys of somebody who begins."""
CHARACTERS = {"number_sign": "#", "question_mark": "?", "slash": "/", "space": " ", "left_square_bracket": "[",
              "left_parenthesis": "(", "right_parenthesis": ")", "minus": "-"}  # fmt: skip
"""What those keys type that have a name."""


@dataclass
class Stand:
    """A learner in front of the screen."""

    app: SixlineApp
    pilot: Pilot[None]
    learner: Learner
    home: Path

    def at(self, stage: Stage) -> bool:
        """Whether that is what the first screen is doing."""
        return self.practice.stage is stage

    @property
    def practice(self) -> PracticeScreen:
        """The screen under all others."""
        screen = self.app.screen_stack[0]
        assert isinstance(screen, PracticeScreen)
        return screen

    @property
    def asked(self) -> Asked:
        """The open question."""
        asked = self.practice.asked
        assert asked is not None
        return asked

    @property
    def on(self) -> str:
        """The name of the screen that is up."""
        return type(self.app.screen).__name__

    @property
    def record(self) -> list[dict[str, object]]:
        """Every line of the record, as tomllib reads the files."""
        return list(read_back(self.home).values())

    async def press(self, *keys: str) -> None:
        """Press keys, by the framework's names, and let everything settle after each."""
        for key in keys:
            self.app.post_message(events.Key(key, CHARACTERS.get(key, key if len(key) == 1 else None)))
            await self.pilot.pause()

    async def think(self, *pressed: str, seconds: float = 1.0) -> None:
        """Press single characters as if so much time had passed, without waiting."""
        for key in pressed:
            event = events.Key(key, key)
            event.time += seconds
            self.app.post_message(event)
            await self.pilot.pause()

    async def until(self, what: Callable[[], bool]) -> None:
        """Wait for something that comes by itself."""
        for _ in range(400):
            if what():
                return
            await self.pilot.pause(0.01)
        raise AssertionError(f"it did not come; on the screen is:\n{self.seen()}")

    async def ask(self) -> Asked:
        """Go on until a question is open."""
        for _ in range(20):
            if (asked := self.practice.asked) is not None:
                return asked
            await self.press("enter")
        raise AssertionError(f"no question came; on the screen is:\n{self.seen()}")

    def lines(self, selector: str) -> list[str]:
        """The rows of one widget."""
        return rows(self.app.screen.query_one(selector))

    async def only(self, *items: str) -> Asked:
        """Begin a sitting on these items alone; its first question."""
        whole, profile, now = self.learner.catalogue, self.learner.profile, self.learner.clock.now()
        chosen = tuple(whole.by_id[name]._replace(needs=()) for name in items)

        def keep(event: Event, at: datetime) -> None:
            profile.keep(event, at)

        self.practice.begin(
            Practice(
                whole._replace(items=chosen, by_id={item.id: item for item in chosen}), profile.ledger, keep=keep,
                day=20782, seed=0, sitting=0, minutes=10, manner=self.learner.manner, started=now,
            )
        )  # fmt: skip
        await self.pilot.pause()
        return await self.ask()

    async def click(self, selector: str, text: str) -> None:
        """Click on the first character of a text that a widget shows."""
        places = [(row, line.index(text)) for row, line in enumerate(self.lines(selector)) if text in line]
        assert places, f"{text!r} is not in {self.lines(selector)}"
        row, column = places[0]
        assert await self.pilot.click(selector, offset=(column, row))
        await self.pilot.pause()

    @property
    def left(self) -> bool:
        """Whether the app was told to end."""
        return self.app.return_code is not None

    def seen(self) -> str:
        """All text of the screen that is up."""
        return seen(self.app.screen)


@asynccontextmanager
async def standing(
    home: Path,
    *,
    size: tuple[int, int] = (80, 24),
    begun: bool = False,
    disk: Disk | None = None,
    ascii_only: bool = False,
    now: datetime = NOW,
) -> AsyncIterator[Stand]:
    """The app on a profile, closed as the program closes it; ``begun`` makes a profile first."""
    if begun:
        settings(home, "")
    profile = Profile.open(home, "me", write=True, disk=disk)
    learner = Learner(Choices(home, "me", 0), Clock(now), profile, ascii_only)
    app = SixlineApp(learner)
    try:
        async with app.run_test(size=size, notifications=True) as pilot:
            await pilot.pause()
            yield Stand(app, pilot, learner, home)
    finally:
        profile.close(learner.clock.now())


def settings(home: Path, text: str, name: str = "me") -> Path:
    """Write a profile.toml as a person would."""
    path = home / "profiles" / name / "profile.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"format = 1\n{text}\n", encoding="utf-8")
    return path


def seen(screen: Screen[object]) -> str:
    """What every widget of a screen draws, row by row."""
    return "\n".join(row for widget in widgets(screen) for row in rows(widget))


def widgets(screen: Screen[object]) -> list[Widget]:
    """Those that are shown and have room."""
    found = [child for child in screen.walk_children() if isinstance(child, Widget)]
    return [each for each in found if each.is_attached and each.display and each.region and shown(each)]


def shown(widget: Widget) -> bool:
    """Whether it and all around it are displayed."""
    return all(each.display for each in widget.ancestors_with_self if isinstance(each, Widget))


def rows(widget: Widget) -> list[str]:
    """The rows that a widget draws, as they go to the terminal."""
    return [strip.text.rstrip() for strip in widget.render_lines(widget.region.reset_offset)]


def inside(stand: Stand, *selectors: str) -> None:
    """Nothing of these lies outside of the window."""
    window = stand.app.screen.region
    for selector in selectors:
        assert window.contains_region(stand.app.screen.query_one(selector).region), selector


def right(question: Question) -> list[str]:
    """The keys of the right answer."""
    return keys(question, question.model)


def wrong(question: Question) -> list[str]:
    """The keys of a wrong answer."""
    if not question.options:
        if question.model.isdigit():
            return ["1", "9", "enter"]
        typed = next((sign for sign in "cdef" if question.parse(sign) not in (None, *question.answers)), "")
        return [*typed, "enter"]
    other = next(option for option in question.options if option.answer not in question.answers)
    if question.length == 1:
        return [named(other.key)]
    first = question.model[0]
    spare = next(option for option in question.options if option.answer != first)
    return [named(spare.key)] * question.length


def keys(question: Question, answer: str) -> list[str]:
    """The keys that give an answer."""
    by_answer = {option.answer: named(option.key) for option in question.options}
    if answer == question.model and question.length == 1 and by_answer:
        # Of several right answers, one is shown.
        answer = next((each for each in question.answers if each in by_answer), answer)
    if answer in by_answer:
        return [by_answer[answer]]
    if by_answer:
        return [by_answer[part] for part in (answer.split() if question.joiner else answer)]
    typed = [named(sign) for sign in answer]
    return typed if question.ends(answer) else [*typed, "enter"]


def named(sign: str) -> str:
    """A character as the pilot presses it."""
    return {character: key for key, character in CHARACTERS.items()}.get(sign, sign)


def squeezed(text: str) -> str:
    """Without line breaks, runs of blanks and the edges of notices, to find sentences in."""
    return re.sub(r"[\s▌]+", " ", text)
