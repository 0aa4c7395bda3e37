"""The sitting on the screen: what today brings, then question, feedback, breath, and over again.

It asks ``Practice`` and draws; it computes no music.
"""

from __future__ import annotations

import gc
from functools import partial

from textual import events, on
from textual.app import ComposeResult
from textual.geometry import Size
from textual.timer import Timer

from drills.question import Answer, Picture
from trainer import commands, wording
from trainer.learner import Learner
from trainer.practice import Asked, Practice
from trainer.safekeeping import Safekeeping
from trainer.screens.attention import Attention
from trainer.screens.base import Place, bindings
from trainer.screens.board import Board
from trainer.screens.confirm import Confirm
from trainer.screens.foresight import Foresight
from trainer.screens.messages import Ended
from trainer.screens.placing import Placing
from trainer.screens.stage import QUIET, TOLD, Stage, allows
from trainer.screens.telling import Reading
from trainer.screens.today import clock_doubt, today_page
from trainer.screens.trouble import Trouble
from trainer.screens.way import Way, way_of
from trainer.widgets.answer_bar import AnswerBar
from trainer.widgets.hints import Hints
from trainer.widgets.tab_picture import TabPicture
from trainer.widgets.time_line import TimeLine

FRAME = 1 / 60
"""Seconds after which the words of a verdict have been drawn; ``call_after_refresh`` comes before they are."""

BREATH = 0.7
"""Seconds that a right answer stays; a slow one stays twice as long. Any key goes on at once."""


class PracticeScreen(Place):
    """The first screen: Today, and from there the sitting. It is never closed, only begun anew."""

    PLACES = (commands.TODAY, commands.PRACTICE)
    BINDINGS = bindings(*PLACES)

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._practice: Practice | None = None
        self._stage = Stage.TODAY
        self._asked: Asked | None = None
        self._way: Way | None = None
        self._attention = Attention(self)
        self._trouble = Trouble(self)
        self._drawn_for: Size | None = None
        self._placing = Placing()
        self._shown = False
        self._held: str | None = None
        self._done: tuple[int, str] | None = None
        self._breath: Timer | None = None
        self._safe = Safekeeping(learner)
        self._foresight = Foresight(self, learner, self._draw_today)

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
        yield Board(ascii_only=self._learner.ascii_only)
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.show_today()
        self.call_after_refresh(self._drawn_first)
        self._attention.watch()

    def on_screen_resume(self) -> None:
        """Back from another screen: the settings may have changed."""
        if self._stage in QUIET and self._shown:
            self.show_today()

    def show_today(self) -> None:
        """What today brings; or that it is done, or that somebody else is at it."""
        self._close_question()
        self._stop_breath()
        self._practice = self._asked = None
        self._placing = Placing()
        self._drawn_for = self.app.size
        learner = self._learner
        day = learner.profile.sitting_day(learner.clock.now(), learner.clock.zone)
        self._enter(Stage.DONE if self._done == (day, learner.settings.tuning) else Stage.TODAY)
        self._draw_today()
        if self._shown:
            self._foresight.begin()

    def _draw_today(self) -> None:
        done, found = self._stage is Stage.DONE, self._foresight.found
        page = today_page(self._learner, size=self.app.size, done=done, held=self._held, found=found)
        self.query_one(TimeLine).say(f"Sixline   {page.date}")
        self.query_one(TimeLine).warn(self._learner.profile.unsaved)
        self.query_one(Board).page(page.picture, page.counts, page.rest, trouble=bool(self._held))

    def begin(self, practice: Practice) -> None:
        """Begin a sitting, or go on with one."""
        self._foresight.stop()
        self._practice = practice
        self._next()

    def _drawn_first(self) -> None:
        self._shown = True
        gc.freeze()
        gc.enable()
        self._safe.prepare()
        self.run_worker(self._writable())  # so that a second window says at once that it is one
        self._foresight.begin()

    def _next(self) -> None:
        practice = self._practice
        if practice is None:
            return
        self._asked = asked = practice.next(self._learner.clock.now())
        if asked is None:
            self._end(practice)
            return
        if asked.placement:
            self.query_one(TimeLine).say(self._placing.so_far(asked))
        else:
            self.query_one(TimeLine).left(practice.seconds_left, self._learner.settings.minutes * 60)
        self._tell(Stage.LESSON, self._placing.before(asked, self._learner, self.app.size))

    def _end(self, practice: Practice) -> None:
        """Nothing comes any more: the end of a sitting, or there was nothing in it."""
        if practice.reason == "nothing-left":
            self._done = practice.day, self._learner.settings.tuning
        if practice.summary().answers:
            self.post_message(Ended(practice))
        else:
            self.show_today()

    def _tell(self, stage: Stage, reading: Reading) -> None:
        """Tell something page by page, and then put the question."""
        if self.query_one(Board).tell(reading):
            self._enter(stage)
        else:
            self._show_question()

    def on_resize(self) -> None:
        """Today and the pages of a lesson are cut anew for another window."""
        before, self._drawn_for = self._drawn_for, self.app.size
        if before in (None, self.app.size):
            return
        if self._stage in QUIET:
            self.show_today()
        elif self._stage in TOLD:
            self.query_one(Board).cut_anew()

    def _show_question(self) -> None:
        asked = self._asked
        if asked is None:
            return
        self._enter(Stage.ASKING)
        question = asked.question
        board = self.query_one(Board)
        board.question(asked.picture, question)
        self.query_one(TimeLine).remark(*wording.remarks(asked))
        self._way = way_of(question, board.answers, self._answer)
        self._attention.begin(self._way)
        self.call_after_refresh(self._way.drawn)

    def _close_question(self) -> None:
        way, self._way = self._way, None
        if way is not None:
            way.stop()

    def _enter(self, stage: Stage) -> None:
        self._stage = stage
        # From a question to its verdict nothing may change but texts: new classes and a new layout take 20 ms.
        for name, wanted in (("-today", stage in QUIET), ("-lesson", stage in TOLD), ("-wrong", False)):
            self.set_class(wanted, name)
        self.query_one(Hints).show()

    # Keys

    async def on_key(self, event: events.Key) -> None:
        """Answer keys; everything else is left to the table of commands."""
        begun = self._stage is Stage.ASKING and self._way is not None and self._way.wants(event)
        if not begun and event.key in commands.steering(getattr(self.app, "own_keys", {})):
            return
        if self._stage is Stage.RIGHT:
            event.stop()
            await self.action_go_on()
        elif self._stage is Stage.ASKING and self._way is not None:
            await self._way.key(event)

    @on(TabPicture.Chosen)
    @on(AnswerBar.Chosen)
    async def _clicked(self, message: TabPicture.Chosen | AnswerBar.Chosen) -> None:
        if self._stage is Stage.ASKING and self._way is not None:
            await self._way.click(message.answer, message.time)

    async def on_click(self, event: events.Click) -> None:
        if self._stage is Stage.TODAY and not isinstance(event.widget, Hints | TimeLine):
            await self.action_begin()
        elif self._stage in (Stage.RIGHT, Stage.WRONG, *TOLD):
            await self.action_go_on()

    # An answer and what follows it

    async def _answer(self, text: str, seconds: float) -> None:
        asked, practice = self._asked, self._practice
        if asked is None or practice is None or not await self._writable():
            return
        self._close_question()
        self._learner.clock.advance(seconds)
        outcome = practice.answer(Answer(text, seconds, self._attention.kept), self._learner.clock.now())
        self._stage = Stage.RIGHT if outcome.verdict.right else Stage.WRONG
        right, reasons = outcome.verdict.right, wording.reasons(outcome, self._learner.voice)
        self.query_one(Board).verdict(right, wording.headline(asked, outcome, self._learner.voice), reasons)
        if asked.placement:
            self._placing.add(outcome)
        # First the words, so that the verdict is there at once; the drawing and the disk follow with the next frame.
        self._safe.owe()
        self.set_timer(FRAME, partial(self._follow, outcome.verdict.picture))
        if right:
            self._breath = self.set_timer(BREATH * (2 if outcome.slow or reasons else 1), self.action_go_on)

    def _follow(self, picture: Picture) -> None:
        """What comes right after a verdict: what was said and what it was, drawn; and the sync to the disk."""
        self._safe.sync()
        self.query_one(Hints).show()
        if self._stage is Stage.WRONG and picture != Picture():
            self.query_one(Board).correct(picture)
        # Where every row counts, the time gives way to the reasons; a warning does not.
        if self.has_class("-flat") and self._stage is Stage.WRONG and not self._learner.profile.unsaved:
            self.add_class("-wrong")

    async def _writable(self) -> bool:
        """Whether this process may write the profile; else it is back to Today, which says who does."""
        return self.refuse(await self._safe.refused())

    def refuse(self, held: str | None) -> bool:
        """Back to Today if somebody else writes the profile, which is told in that line; whether nobody does."""
        self._held = held
        if held:
            self.show_today()
        return not held

    def _stop_breath(self) -> None:
        if self._breath is not None:
            self._breath.stop()
            self._breath = None

    async def action_go_on(self) -> None:
        """From a verdict to the next question, once the answer is safely on the disk."""
        self._stop_breath()
        if self._stage in TOLD and not self.query_one(Board).turn():
            again = self._stage is Stage.EXPLAINING
            self._show_question()
            if again:
                self._attention.lose()
        elif self._stage in (Stage.RIGHT, Stage.WRONG):
            self._stage = Stage.WAITING
            await self._safe.settled()
            self._trouble.show(self._learner.profile.unsaved)
            self._next()

    def on_screen_suspend(self) -> None:
        self._attention.lose()

    # Commands

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What works depends on the stage: today's commands, or those of the practice."""
        return allows(self._stage, action)

    async def action_begin(self) -> None:
        """Begin, after a word where the clock seems to be wrong by years; not while somebody else is at it."""
        if self._held and not await self._writable():
            return
        if (doubt := clock_doubt(self._learner)) is None:
            self.begin(self._learner.begin())
        else:
            await self.app.push_screen(Confirm(doubt), lambda sure: self.begin(self._learner.begin()) if sure else None)

    def action_explain(self) -> None:
        """Explain what is asked; the answer after it is not timed."""
        lesson = self._practice.explain() if self._practice is not None else None
        if lesson is not None:
            self._close_question()
            self._tell(Stage.EXPLAINING, Reading(self.app.size, lesson))

    def action_look_up(self) -> None:
        """The whole library, at the page of what is asked."""
        from trainer.screens.explain import LookUp

        self.app.push_screen(LookUp(self._learner, self._asked.item if self._asked else None))

    def action_leave(self) -> None:
        """Leave off; every answer is kept already."""
        if self._practice is not None:
            self.post_message(Ended(self._practice))
        self.show_today()
