"""The end of a sitting: what got better, drawn, and nothing that looks like a mark."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.containers import Center, Vertical

from trainer import commands, wording
from trainer.learner import Learner
from trainer.nothing_new import MISSED, missed_much
from trainer.practice import Practice
from trainer.schedule.ahead import look_ahead
from trainer.schedule.days import as_date
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.better import NOTHING, better, changed
from trainer.screens.today import coming_back
from trainer.widgets.heading import balanced
from trainer.widgets.hints import Hints
from trainer.widgets.sheet import Sheet

WIDEST = 76
"""Cells of a line of text at most."""
AROUND = 5
"""Rows that are neither picture nor text: the top and the bottom row, and three between."""
MORE = 5
"""Minutes by which a sitting is prolonged."""


class SummaryScreen(Place):
    """Dismissed with True when the learner wants to go on."""

    PLACES = (commands.SUMMARY,)
    BINDINGS = bindings(commands.SUMMARY)
    DEFAULT_CSS = """
    SummaryScreen Center { height: auto; }
    SummaryScreen.-flat #date { display: none; }
    """

    def __init__(self, learner: Learner, practice: Practice) -> None:
        super().__init__()
        self._learner = learner
        self._summary = practice.summary()
        self._changed = changed(self._summary)
        self._day = practice.day
        self._nothing_left = practice.reason == "nothing-left"

    def compose(self) -> ComposeResult:
        yield Plain("Sixline   what got better", id="date")
        with Vertical(id="middle"):
            with Center():
                yield Sheet(id="better")
            with Center():
                yield Plain(id="told")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, lambda _: self.call_after_refresh(self._draw))
        self._draw()

    def _next_time(self) -> str:
        """How many come back, and when."""
        ledger, day = self._learner.profile.ledger, self._day
        ahead = look_ahead(self._learner.catalogue, ledger, day=day, minutes=self._learner.settings.minutes)
        return coming_back(ahead.days, as_date(day))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is no more where nothing is left."""
        return action != "more" or not self._nothing_left

    def on_resize(self, event: events.Resize) -> None:
        self._draw()

    def _draw(self) -> None:
        """The picture takes the rows that the words leave."""
        width, height = self.app.size
        voice = self._learner.voice
        lines = [] if self._changed or voice.short else [NOTHING]
        lines += wording.summary_lines(self._summary, voice, nothing_left=self._nothing_left, drawn=True)
        if self._nothing_left and missed_much(self._learner.profile.ledger):
            lines.append(MISSED)
        lines.append(self._next_time())
        told = [row for line in lines for row in balanced(line, min(WIDEST, width - 2))]
        self.query_one("#told", Plain).update("\n".join(told))
        sheet = self.query_one("#better", Sheet)
        rows = better(self._learner, self._changed, sheet.look(), min(WIDEST, width - 2), height - len(told) - AROUND)
        sheet.styles.width = max((sum(len(run.text) for run in row) for row in rows.rows), default=0) + 2
        sheet.display = bool(self._changed)
        sheet.show(rows)
        spare = height - len(told) - len(rows.rows) - 2
        self.query_one("#told").styles.margin = (int(spare > 0), 0, 0, 0)

    def action_close(self) -> None:
        self.dismiss(False)

    def action_more(self) -> None:
        self.dismiss(True)
