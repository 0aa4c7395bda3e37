"""What is read, and how well: stages, days, misreadings. Counts and seconds, never marks."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll

from trainer import commands
from trainer.learner import Learner
from trainer.schedule.status import Status, status
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.summary import stage_bars
from trainer.screens.today import EPOCH, long_date
from trainer.widgets.hints import Hints
from trainer.wording import brief

SHOWN_DAYS = 14


class Progress(Place):
    """What the learner reads by now."""

    PLACES = (commands.PROGRESS,)
    BINDINGS = bindings(commands.PROGRESS)

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner

    def compose(self) -> ComposeResult:
        yield Plain("Progress", id="date")
        with VerticalScroll(id="sheet"):
            yield Plain(id="states")
            yield Plain(id="stages")
            yield Plain(id="misread")
            yield Plain(id="days")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.query_one("#states", Plain).update(state_line(self._learner))
        self.query_one("#misread", Plain).update("\n".join(misread_lines(self._learner)))
        self.query_one("#days", Plain).update("\n".join(day_lines(self._learner)))
        self._draw()

    def on_resize(self, event: events.Resize) -> None:
        self._draw()

    def _draw(self) -> None:
        begun = any(item.id in self._learner.profile.ledger.states for item in self._learner.catalogue.items)
        self.query_one("#stages", Plain).update(stage_bars(self._learner, self.size.width - 6) if begun else "")


def state_line(learner: Learner) -> str:
    """How many items are in each state."""
    states = learner.profile.ledger.states
    count = Counter(status(states.get(item.id)) for item in learner.catalogue.items)
    if count[Status.NEW] == len(learner.catalogue.items):
        return "Nothing has been practised yet: it begins with Enter on Today."
    parts = [f"{count[state]} {state}" for state in reversed(Status) if state is not Status.NEW]
    return f"{', '.join(parts)}; {count[Status.NEW]} still to come"


def misread_lines(learner: Learner) -> list[str]:
    """The misreadings that alone explained wrong answers, most frequent first."""
    found = learner.profile.ledger.misreadings
    totals = sorted(((sum(items.values()), kind) for kind, items in found.items()), reverse=True)
    if not totals:
        return []
    lines = ["How you misread, when you do:"]
    for total, kind in totals[:5]:
        lines.append(f"  {total:>4} x  {brief(kind)}")
    return lines


def day_lines(learner: Learner) -> list[str]:
    """The last days of practice, newest first."""
    days = sorted(learner.profile.ledger.days.items(), reverse=True)[:SHOWN_DAYS]
    if not days:
        return []
    lines = ["Days:"]
    for day, tally in days:
        seconds = "" if tally.median_seconds is None else f", half under {tally.median_seconds:.1f} s"
        name = long_date(EPOCH + timedelta(days=day))
        lines.append(f"  {name:<24} {tally.answers:>4} answers, {tally.right:>4} right{seconds}")
    return lines
