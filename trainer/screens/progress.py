"""What is read, and how well: the staff and the neck shaded, stages, misreadings, days. Counts, never marks."""

from __future__ import annotations

from typing import ClassVar

from rich.style import Style
from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from drills.kinds.pictures import line_letters
from trainer import commands
from trainer.learner import Learner
from trainer.schedule.status import Status
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.progress_words import day_rows, misread_rows, stage_row
from trainer.screens.shading import SIGNS, WORDS, by_stage, elsewhere, shading, title_of
from trainer.screens.stage import SIGNS as VERDICTS
from trainer.widgets.hints import Hints
from trainer.widgets.places_map import neck_map, shaded, staff_map

BROAD, BROADER = 120, 160
"""Cells from which the words stand beside the maps, and from which these get more room."""
FIRST_FRETS, ALL_FRETS = 12, 24


class Sheet(Static):
    """Rows of text with a shade for each of the five states."""

    DEFAULT_CSS = """
    Sheet { height: auto; width: 1fr; padding: 0 1; }
    Sheet > .shade--new { color: $foreground 60%; }
    Sheet > .shade--shaky { color: $foreground 90%; }
    Sheet > .shade--known { color: $accent; }
    Sheet > .shade--fluent { color: $primary; }
    Sheet > .shade--kept { color: $primary; text-style: bold; }
    Sheet > .shade--line { color: $foreground 50%; }
    Sheet > .shade--label { color: $foreground 70%; }
    Sheet > .shade--title { color: $foreground; text-style: bold; }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        *(f"shade--{state}" for state in Status), "shade--line", "shade--label", "shade--title",
    }  # fmt: skip

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id, markup=False)

    def shades(self) -> dict[Status, Style]:
        """The style of each state's sign."""
        return {state: self.style_of(str(state)) for state in Status}

    def style_of(self, name: str) -> Style:
        """The style of a component."""
        return self.get_component_rich_style(f"shade--{name}")


class Progress(Place):
    """What the learner reads by now."""

    PLACES = (commands.PROGRESS,)
    BINDINGS = bindings(commands.PROGRESS)
    AUTO_FOCUS = "#progress"
    DEFAULT_CSS = """
    Progress #progress { height: 1fr; }
    Progress.-broad #progress { layout: horizontal; }
    Progress.-broad #maps { width: 72; }
    Progress.-broader #maps { width: 88; }
    Progress.-high Sheet, Progress.-tall Sheet { margin: 1 0 0 0; }
    """

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._shading = shading(learner.catalogue, learner.profile.ledger.states)
        self._stages = by_stage(learner.catalogue, learner.profile.ledger.states)
        self._drawn: tuple[int, str] | None = None

    def compose(self) -> ComposeResult:
        yield Plain(f"Progress   {self._learner.catalogue.tuning.title}", id="date")
        with VerticalScroll(id="progress"):
            yield Sheet(id="maps")
            yield Sheet(id="rows")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, lambda _: self.call_after_refresh(self._draw))

    def on_resize(self, event: events.Resize) -> None:
        self.set_class(event.size.width >= BROAD, "-broad")
        self.set_class(event.size.width >= BROADER, "-broader")
        self._draw()

    def _draw(self) -> None:
        wanted = (self.size.width, self.app.theme)
        if wanted == self._drawn:
            return
        self._drawn = wanted
        width = self.size.width
        half = 88 if width >= BROADER else 72 if width >= BROAD else 0
        maps, told = self.query_one("#maps", Sheet), self.query_one("#rows", Sheet)
        maps.update(self._maps(maps, half - 2 if half else min(width - 3, 86)))
        told.update(self._told(told, min(width - 3 - half, 100)))

    def _maps(self, sheet: Sheet, width: int) -> Text:
        """The counts, which are the legend too, and the two maps."""
        learner, found = self._learner, self._shading
        signs, shades = SIGNS[learner.ascii_only], sheet.shades()
        text = self._counts(signs, shades, width)
        if not any(counts[state] for counts in self._stages.values() for state in Status if state is not Status.NEW):
            text.append_text(self._nothing(sheet))
        wanted = ALL_FRETS if found.highest > FIRST_FRETS else FIRST_FRETS
        tuning = learner.catalogue.tuning
        labels = line_letters(tuning, learner.settings.naming)
        last = min(wanted, (width - max(map(len, labels)) - 6) // 2)
        by_sign = {sign: shades[state] for state, sign in signs.items()}
        line, label, title = sheet.style_of("line"), sheet.style_of("label"), sheet.style_of("title")
        for words, places, staff in (
            ("On the staff: numbers read", found.staff, True),
            ("On the neck: places found", found.neck, False),
        ):
            if not places:
                continue
            drawn = {place: signs[state] for place, state in places.items() if place[1] <= last}
            if staff:
                rows = staff_map(drawn, labels, last, width)
            else:
                rows = neck_map(drawn, labels, last, width, left_handed=learner.manner.left_handed)
            text.append(f"\n\n{words}\n", title)
            text.append_text(shaded(rows, by_sign, line, label))
        return text

    def _counts(self, signs: dict[Status, str], shades: dict[Status, Style], width: int) -> Text:
        """How many items are in each state, after the sign of it."""
        text, used = Text(), 0
        for state in Status:
            count = sum(counts[state] for counts in self._stages.values())
            words = f"{count} {WORDS[state]}"
            if used and used + len(words) + 2 > width:
                text.append("\n")
                used = 0
            elif used:
                text.append("   ")
            text.append(f"{signs[state]} ", shades[state])
            text.append(words)
            used += len(words) + 5
        return text

    def _nothing(self, sheet: Sheet) -> Text:
        """What stands there before anything was met in this tuning, and what is known of others."""
        learner = self._learner
        met = learner.profile.ledger.states
        others = elsewhere(learner.catalogue, met)
        if not met:
            return Text("\n\nNothing has been practised yet: it begins with Enter on Today.", sheet.style_of("title"))
        text = Text()
        words = "Nothing has been practised yet on this tuning: it begins with Enter on Today."
        text.append(f"\n\n{words}", sheet.style_of("title"))
        for name, count in others.items():
            text.append(f"\n{title_of(name)}: {count} met, all of it kept for you there.")
        return text

    def _told(self, sheet: Sheet, width: int) -> Text:
        """Stages, misreadings and days."""
        learner, ledger = self._learner, self._learner.profile.ledger
        signs, shades = SIGNS[learner.ascii_only], sheet.shades()
        title, quiet = sheet.style_of("title"), sheet.style_of("label")
        blocks: list[Text] = []
        begun = {n: counts for n, counts in self._stages.items() if counts[Status.NEW] < sum(counts.values())}
        if begun:
            text = Text()
            text.append("Stages", title)
            for n, counts in begun.items():
                row = stage_row(learner.catalogue.stages[n], counts, width)
                text.append(f"\n{row.title}", quiet)
                for state, cells in row.bar:
                    text.append(signs[state] * cells, shades[state])
                text.append(row.told, quiet)
            if left := len(self._stages) - len(begun):
                text.append(f"\n{left} more to come", quiet)
            blocks.append(text)
        for lines in (
            misread_rows(ledger, VERDICTS[learner.ascii_only][True]),
            day_rows(ledger.days, width, speed=learner.settings.talk_of_speed),
        ):
            if lines:
                text = Text()
                for number, line in enumerate(lines):
                    text.append("\n" * bool(number) + line, quiet if line.startswith(" ") else title)
                blocks.append(text)
        return Text("\n\n").join(blocks)

