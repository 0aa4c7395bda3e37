"""The sitting on the screen: what today brings, then question, feedback, breath, and over again.

It asks ``Practice`` and draws; it computes no music.
"""

from __future__ import annotations

import gc
from dataclasses import dataclass
from functools import partial

from rich.text import Text
from textual import events, on
from textual.app import ComposeResult
from textual.containers import Center, Vertical
from textual.message import Message
from textual.timer import Timer

from drills.question import Answer, Explanation, Picture
from trainer import commands, wording
from trainer.entry import Entry
from trainer.learner import Learner
from trainer.practice import Asked, Practice
from trainer.safekeeping import Safekeeping
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.confirm import Confirm
from trainer.screens.messages import stamp
from trainer.screens.stage import SIGNS, Stage
from trainer.screens.today import clock_doubt, today_page
from trainer.widgets.answer_bar import AnswerBar
from trainer.widgets.heading import Heading
from trainer.widgets.hints import Hints
from trainer.widgets.tab_picture import TabPicture
from trainer.widgets.time_line import TimeLine

LOW = 20
"""Rows below which a lesson is told a paragraph at a time."""

FRAME = 1 / 60
"""Seconds after which the words of a verdict have been drawn; ``call_after_refresh`` comes before they are."""

BREATH = 0.7
"""Seconds that a right answer stays; a slow one stays twice as long. Any key goes on at once."""


class PracticeScreen(Place):
    """The first screen: Today, and from there the sitting. It is never closed, only begun anew."""

    PLACES = (commands.TODAY, commands.PRACTICE)
    BINDINGS = bindings(*PLACES)

    @dataclass
    class Ended(Message):
        """The sitting is over, or the learner left off."""

        practice: Practice

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._practice: Practice | None = None
        self._stage = Stage.TODAY
        self._asked: Asked | None = None
        self._entry: Entry | None = None
        self._timed = True
        self._pages: list[str] = []
        self._shown = False
        self._breath: Timer | None = None
        self._safe = Safekeeping(learner)

    @property
    def stage(self) -> Stage:
        """What the screen is doing."""
        return self._stage

    @property
    def asked(self) -> Asked | None:
        """The question that is open for an answer, or None."""
        return self._asked if self._stage is Stage.ASKING else None

    def compose(self) -> ComposeResult:
        yield TimeLine(ascii_only=self._learner.ascii_only, id="time")
        with Vertical(id="question"):
            yield TabPicture(ascii_only=self._learner.ascii_only, id="picture")
            yield Heading(id="prompt")
            yield AnswerBar(id="answers")
            with Center(id="telling"):
                yield Plain(id="words")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.show_today()
        self.call_after_refresh(self._drawn_first)
        self.app.app_suspend_signal.subscribe(self, lambda _: self._distrust())
        self.watch(self.app, "app_focus", self._look_away, init=False)

    def on_screen_resume(self) -> None:
        """Back from another screen: the settings may have changed."""
        if self._stage is Stage.TODAY and self._shown:
            self.show_today()

    def show_today(self) -> None:
        """What today brings."""
        self._practice = self._asked = self._entry = None
        self._enter(Stage.TODAY)
        page = today_page(self._learner, high=self.app.size.height >= LOW)
        self.query_one(TimeLine).say(f"Sixline   {page.date}")
        self.query_one(TimeLine).warn(self._learner.profile.unsaved)
        self._show_page(page.picture, page.counts, page.rest)

    def begin(self, practice: Practice) -> None:
        """Begin a sitting, or go on with one."""
        self._practice = practice
        self._next()

    def _drawn_first(self) -> None:
        self._shown = True
        gc.freeze()
        gc.enable()
        self._safe.prepare()

    def _next(self) -> None:
        practice = self._practice
        if practice is None:
            return
        self._asked = practice.next(self._learner.clock.now())
        self.query_one(TimeLine).left(practice.seconds_left, self._learner.settings.minutes * 60)
        if self._asked is None:
            self.post_message(self.Ended(practice))
        elif self._asked.lesson is not None:
            self._show_lesson(self._asked.lesson)
        else:
            self._show_question()

    def _show_lesson(self, lesson: Explanation, stage: Stage = Stage.LESSON) -> None:
        self._enter(stage)
        low = self.app.size.height < LOW
        self._pages = list(lesson.lines) if low else ["\n".join(lesson.lines)]
        self._show_page(lesson.picture, lesson.title, self._pages.pop(0))

    def _show_page(self, picture: Picture, title: str, words: str | Text) -> None:
        """A picture with a text that may be long, as Today and the lessons have it."""
        self.query_one(TabPicture).show(picture)
        self.query_one("#prompt", Heading).say(title, "primary")
        self.query_one(AnswerBar).clear()
        self.query_one("#words", Plain).update(words)

    def _show_question(self) -> None:
        asked = self._asked
        if asked is None:
            return
        self._enter(Stage.ASKING)
        question = asked.question
        picture = question.helped if asked.help and question.helped else question.picture
        self.query_one(TabPicture).show(picture, whole=True)
        self.query_one("#prompt", Heading).say(question.prompt)
        self.query_one(AnswerBar).ask(question)
        self._timed = self.app.app_focus and self.app.screen is self
        self._entry = Entry(question, stamp())
        self.call_after_refresh(self._start_clock, self._entry)

    def _start_clock(self, entry: Entry) -> None:
        if not entry.parts:
            entry.shown_at = stamp()

    def _enter(self, stage: Stage) -> None:
        self._stage = stage
        # From a question to its verdict nothing may change but texts: new classes and a new layout take 20 ms.
        self.set_class(stage is Stage.TODAY, "-today")
        self.set_class(stage in (Stage.LESSON, Stage.EXPLAINING), "-lesson")
        self.query_one(Hints).show()

    # Keys

    async def on_key(self, event: events.Key) -> None:
        """Answer keys; everything else is left to the table of commands."""
        if event.key in commands.steering(getattr(self.app, "own_keys", {})):
            return
        if self._stage is Stage.RIGHT:
            event.stop()
            await self._go_on()
        elif self._stage is Stage.ASKING and self._entry is not None:
            await self._enter_key(event, self._entry)

    async def _enter_key(self, event: events.Key, entry: Entry) -> None:
        answer = None
        if event.key == "backspace":
            entry.erase()
        elif event.key == "enter":
            answer = entry.submit(event.time)
        elif event.character:
            answer = entry.press(event.character, event.time)
        else:
            return
        event.stop()
        await self._entered(answer, entry)

    @on(TabPicture.Chosen)
    @on(AnswerBar.Chosen)
    async def _clicked(self, message: TabPicture.Chosen | AnswerBar.Chosen) -> None:
        if self._stage is Stage.ASKING and self._entry is not None:
            answer = self._entry.choose(message.answer, message.time)
            await self._entered(answer, self._entry)

    async def _entered(self, answer: str | None, entry: Entry) -> None:
        """Show what has been entered so far, or go on with the answer that it makes."""
        if answer is None or entry.question.length > 1:
            self.query_one(AnswerBar).typed(entry.text)
        if answer is not None:
            await self._answer(answer, entry.seconds)

    async def on_click(self, event: events.Click) -> None:
        if self._stage is Stage.TODAY and not isinstance(event.widget, Hints | TimeLine):
            await self.action_begin()
        elif self._stage in (Stage.RIGHT, Stage.WRONG, Stage.LESSON, Stage.EXPLAINING):
            await self._go_on()

    # An answer and what follows it

    async def _answer(self, text: str, seconds: float) -> None:
        asked, practice = self._asked, self._practice
        if asked is None or practice is None or not await self._writable():
            return
        self._learner.clock.advance(seconds)
        outcome = practice.answer(Answer(text, seconds, self._timed), self._learner.clock.now())
        self._stage = Stage.RIGHT if outcome.verdict.right else Stage.WRONG
        right, reasons = outcome.verdict.right, wording.reasons(outcome)
        sign = SIGNS[self._learner.ascii_only][right]
        self.query_one("#prompt", Heading).say(
            f"{sign} {wording.headline(asked, outcome)}", "success" if right else "error"
        )
        if reasons:
            self.query_one(AnswerBar).tell(reasons)
        # First the words, so that the verdict is there at once; the drawing and the disk follow with the next frame.
        self._safe.owe()
        self.set_timer(FRAME, partial(self._follow, outcome.verdict.picture))
        if right:
            pause = BREATH * (2 if outcome.slow or reasons else 1)
            self._breath = self.set_timer(pause, self._go_on)

    def _follow(self, picture: Picture) -> None:
        """What comes right after a verdict: what was said and what it was, drawn; and the sync to the disk."""
        self._safe.sync()
        self.query_one(Hints).show()
        if self._stage is Stage.WRONG and picture != Picture():
            self.query_one(TabPicture).show(picture)

    async def _writable(self) -> bool:
        """Whether this process may write the profile; somebody else's is left alone, with a word about it."""
        refused = await self._safe.refused()
        if refused:
            self.notify(refused, severity="error", timeout=10, markup=False)
            self.show_today()
        return not refused

    async def _go_on(self) -> None:
        """From a verdict to the next question, once the answer is safely on the disk."""
        if self._breath is not None:
            self._breath.stop()
            self._breath = None
        if self._stage in (Stage.LESSON, Stage.EXPLAINING) and self._pages:
            self.query_one("#words", Plain).update(self._pages.pop(0))
        elif self._stage in (Stage.LESSON, Stage.EXPLAINING):
            again = self._stage is Stage.EXPLAINING
            self._show_question()
            self._timed = self._timed and not again
        elif self._stage in (Stage.RIGHT, Stage.WRONG):
            self._stage = Stage.WAITING
            await self._safe.settled()
            self.query_one(TimeLine).warn(self._learner.profile.unsaved)
            self._next()

    def _distrust(self) -> None:
        """The seconds of this question prove nothing any more."""
        self._timed = False

    def _look_away(self, focus: bool) -> None:
        if not focus:
            self._distrust()

    def on_screen_suspend(self) -> None:
        self._distrust()

    # Commands

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What works depends on the stage: today's commands, or those of the practice."""
        if action in ("begin", "go", "keys"):
            return self._stage is Stage.TODAY
        if action == "go_on":
            return self._stage in (Stage.LESSON, Stage.EXPLAINING, Stage.RIGHT, Stage.WRONG)
        if action == "explain":
            return self._stage is Stage.ASKING
        return action != "leave" or self._stage is not Stage.TODAY

    async def action_begin(self) -> None:
        """Begin, after a word where the clock seems to be wrong by years."""
        if (doubt := clock_doubt(self._learner)) is None:
            self.begin(self._learner.begin())
        else:
            await self.app.push_screen(Confirm(doubt), lambda sure: self.begin(self._learner.begin()) if sure else None)

    async def action_go_on(self) -> None:
        await self._go_on()

    def action_explain(self) -> None:
        """Explain what is asked; the answer after it is not timed."""
        lesson = self._practice.explain() if self._practice is not None else None
        if lesson is not None:
            self._show_lesson(lesson, Stage.EXPLAINING)

    def action_leave(self) -> None:
        """Leave off; every answer is kept already."""
        if self._breath is not None:
            self._breath.stop()
        if self._practice is not None:
            self.post_message(self.Ended(self._practice))
        self.show_today()
