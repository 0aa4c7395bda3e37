"""The end of a sitting: what got better, drawn, and nothing that looks like a mark."""

from __future__ import annotations

from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical

from trainer import commands, wording
from trainer.learner import Learner
from trainer.practice import Practice
from trainer.schedule.ahead import look_ahead
from trainer.schedule.days import as_date
from trainer.schedule.status import status
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.today import coming_back
from trainer.widgets.hints import Hints


class SummaryScreen(Place):
    """Dismissed with True when the learner wants to go on."""

    PLACES = (commands.SUMMARY,)
    BINDINGS = bindings(commands.SUMMARY)

    def __init__(self, learner: Learner, practice: Practice) -> None:
        super().__init__()
        self._learner = learner
        self._summary = practice.summary()
        self._day = practice.day
        self._nothing_left = practice.reason == "nothing-left"

    def compose(self) -> ComposeResult:
        yield Plain("Sixline   the sitting is over", id="date")
        with Vertical(id="middle"):
            yield Plain(id="better")
            yield Plain(id="told")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        lines = wording.summary_lines(self._summary, self._learner.voice, nothing_left=self._nothing_left)
        lines.append(self._next_time())
        self.query_one("#told", Plain).update("\n".join(lines))
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
        self.query_one("#better", Plain).update(stage_bars(self._learner, min(76, self.size.width - 2)))

    def action_close(self) -> None:
        self.dismiss(False)

    def action_more(self) -> None:
        self.dismiss(True)


def stage_bars(learner: Learner, width: int) -> Text:
    """A bar for each stage that has been begun, in so many cells: fluent, known, met, to come."""
    label = 27 if width >= 60 else 16
    room = max(8, min(60, width - label))
    catalogue, states = learner.catalogue, learner.profile.ledger.states
    signs = "#=-." if learner.ascii_only else "█▓▒░"
    text = Text(no_wrap=True)
    for number, title in catalogue.stages.items():
        items = [item for item in catalogue.items if item.stage == number]
        ranks = [status(states.get(item.id)).rank for item in items]
        if not any(ranks):
            continue
        shares = [sum(rank >= 3 for rank in ranks), sum(rank == 2 for rank in ranks), sum(rank == 1 for rank in ranks)]
        text.append(f"{title[: label - 1]:<{label}}")
        drawn = 0
        for sign, share in zip(signs, shares, strict=False):
            cells = round(room * share / len(items))
            cells = max(cells, 1) if share else 0
            cells = min(cells, room - drawn)
            text.append(sign * cells)
            drawn += cells
        text.append(signs[3] * (room - drawn) + "\n")
    legend = f"{signs[0]} fluent {signs[1]} known {signs[2]} met {signs[3]} to come"
    text.append(legend.rjust(min(label + room, width)))
    return text
