"""The Textual app: themes, keys, and which screen is up."""

from __future__ import annotations

import random
from collections.abc import Sequence
from typing import Any

from textual import events, on, work
from textual.app import App
from textual.binding import Binding
from textual.filter import LineFilter
from textual.geometry import Size
from textual.screen import Screen

from trainer import commands, hangup, themes
from trainer.learner import Learner
from trainer.palette import TableProvider
from trainer.profile.lock import HeldError
from trainer.screens.after_sitting import AfterSitting
from trainer.screens.doors import open_place
from trainer.screens.messages import Ended, Go
from trainer.screens.practice import PracticeScreen
from trainer.screens.too_small import TooSmall, fits
from trainer.widgets.ascii_signs import AsciiSigns


class SixlineApp(App[None]):
    """One learner at one terminal."""

    TITLE = "Sixline"
    CSS_PATH = "app.tcss"
    COMMANDS = {TableProvider}
    BINDINGS = [Binding("ctrl+z", "suspend_process", "Suspend", show=False, priority=True)]
    """What every terminal program does on that key, where its platform can; no command of ours."""
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (72, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-flat"), (14, "-low"), (20, "-high"), (32, "-tall")]

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self.learner = learner
        self.own_keys: dict[str, str] = {}
        for theme in themes.OWN:
            self.register_theme(theme)
        self.theme = self._theme()
        self._base = PracticeScreen(learner)
        self._after = AfterSitting(self, learner, self._base.on_screen_resume)

    def get_default_screen(self) -> Screen[Any]:
        return self._base

    def get_line_filters(self) -> Sequence[LineFilter]:
        """What every drawn line goes through: plain signs where the terminal knows no others."""
        return (*super().get_line_filters(), *([AsciiSigns()] if self.learner.ascii_only else ()))

    def on_mount(self) -> None:
        own, problems = commands.checked(self.learner.settings.keys)
        self.set_keymap(commands.keymap(own))
        self.own_keys = own
        for problem in problems:
            self.notify(problem, severity="warning", timeout=10, markup=False)
        hangup.listen(self._told_to_stop)
        hangup.look_out(self)
        self.app_resume_signal.subscribe(self, lambda _: self.refresh(layout=True))  # the terminal has forgotten it
        self.screen_change_signal.subscribe(self, lambda _: self._mind_size(self.size))
        if not self.learner.profile.exists:
            self._first_run()

    def _theme(self) -> str:
        """The learner's theme; the terminal's own colours cannot be told apart without colours."""
        wanted = self.available_themes.get(self.learner.settings.theme)
        return themes.DEFAULT if wanted is None or (wanted.ansi and self.no_color) else wanted.name

    def _told_to_stop(self, number: int) -> None:
        self.exit(return_code=128 + number)

    @on(hangup.Gone)
    def _gone(self) -> None:
        self.exit(return_code=hangup.GONE)

    def on_resize(self, event: events.Resize) -> None:
        self._mind_size(event.size)

    def action_command_palette(self) -> None:
        """The palette, once; not over a window that is too small, where it may lie underneath already."""
        if not isinstance(self.screen, TooSmall):
            super().action_command_palette()

    def _mind_size(self, size: Size) -> None:
        """Say what is needed where a window is too small; that goes away by itself."""
        if not fits(*size) and not isinstance(self.screen, TooSmall):
            self.push_screen(TooSmall())

    @work
    async def _first_run(self) -> None:
        from trainer.screens.first_run import FirstRun, settle

        try:
            if refused := settle(self.learner, await self.push_screen_wait(FirstRun(self.learner))):
                self.notify(refused, severity="error", timeout=10, markup=False)
        except HeldError as held:
            self._base.refuse(str(held))
        else:
            self._base.begin(self.learner.begin())

    @on(Ended)
    @work(exclusive=True, group="ended")
    async def _ended(self, message: Ended) -> None:
        """Save; after a whole sitting, show what got better, and measure the hand if it is time."""
        await self._after.save()
        if (practice := message.practice).reason is None:
            return
        from trainer.screens.summary import MORE, SummaryScreen

        if await self.push_screen_wait(SummaryScreen(self.learner, practice)):
            practice.go_on(MORE)
            self._base.begin(practice)
        else:
            self._base.show_today()
            await self._baseline()

    async def _baseline(self, *, asked: bool = False) -> None:
        """Measure the hand after the first sitting and about weekly."""
        profile, clock = self.learner.profile, self.learner.clock
        day = profile.sitting_day(clock.now(), clock.zone)
        from trainer.screens.baseline import Baseline, due

        if not asked and not due(profile.base_day, day):
            return
        seconds = await self.push_screen_wait(Baseline(random.Random(day)))
        if seconds is not None and (refused := profile.new_baseline(seconds, clock.now(), day)):
            self.notify(refused, severity="warning", markup=False)

    @on(Go)
    def _go(self, message: Go) -> None:
        if message.place == commands.TODAY:
            while len(self.screen_stack) > 1:
                self.pop_screen()
        else:
            show = self.switch_screen if len(self.screen_stack) > 1 else self.push_screen
            show(open_place(message.place, self.learner))

    async def on_setup_changed(self) -> None:
        self.theme = self._theme()

    @work
    async def on_setup_measure(self) -> None:
        await self._baseline(asked=True)
