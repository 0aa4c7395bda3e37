"""What is read, and how well: the staff and the neck shaded, stages, misreadings, days. Counts, never marks."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll

from drills.kinds.pictures import line_letters
from trainer import commands
from trainer.learner import Learner
from trainer.schedule.status import Status
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.progress_words import day_rows, misread_rows, stage_row
from trainer.screens.shading import SIGNS, by_stage, elsewhere, shading, title_of
from trainer.screens.stage import SIGNS as VERDICTS
from trainer.widgets.heading import wrapped
from trainer.widgets.hints import Hints
from trainer.widgets.places_map import neck_map, shaded, staff_map
from trainer.widgets.sheet import Look, Rows, Sheet
from trainer.wording import status_word

BROAD, BROADER = 120, 160
"""Cells from which the words stand beside the maps, and from which these get more room."""
FIRST_FRETS, ALL_FRETS = 12, 24


class Progress(Place):
    """What the learner reads by now."""

    PLACES = (commands.PROGRESS,)
    BINDINGS = bindings(commands.PROGRESS)
    AUTO_FOCUS = "#progress"
    DEFAULT_CSS = """
    Progress #progress { height: 1fr; }
    Progress.-high Sheet, Progress.-tall Sheet { margin: 1 0 0 0; }
    """

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._shading = shading(learner.catalogue, learner.profile.ledger.states)
        self._stages = by_stage(learner.catalogue, learner.profile.ledger.states)
        self._drawn: tuple[int, int, str] | None = None

    def compose(self) -> ComposeResult:
        yield Plain(f"Progress   {self._learner.catalogue.tuning.title}", id="date")
        with VerticalScroll(id="progress"):
            yield Sheet(id="maps")
            yield Sheet(id="rows")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, lambda _: self.call_after_refresh(self._draw))
        self._draw()  # before the first layout, so that there is but one

    def on_resize(self) -> None:
        self._draw()

    def _draw(self) -> None:
        """Draw it where the window or the theme is another one: beside each other where it is broad enough."""
        width, height = self.app.size
        if (width, height, self.app.theme) == self._drawn:
            return
        self._drawn = (width, height, self.app.theme)
        half = 88 if width >= BROADER else 70 if width >= BROAD else 0
        maps, told = self.query_one("#maps", Sheet), self.query_one("#rows", Sheet)
        page = self.query_one("#progress")
        page.styles.layout = "horizontal" if half else "vertical"
        look = maps.look()
        across = min(width - 2 - half, 86)
        left = self._maps(look, half - 2 if half else min(width - 3, 86))
        right = self._stages_and_misreadings(look, across - 2 if half else min(width - 3, 100))
        days = self._days(look, half - 2 if half else min(width - 3, 100))
        (left if half else right).add_rows(days)
        maps.styles.width = half or "1fr"
        told.styles.width = across if half else "1fr"
        spare = height - 2 - max(len(left.rows), len(right.rows)) if half else 0
        page.styles.padding = (max(0, spare // 3), 0, 0, max(0, (width - half - across) // 2) if half else 0)
        maps.show(left)
        told.show(right)

    def _maps(self, look: Look, width: int) -> Rows:
        """The counts, which are the legend too, and the two maps."""
        learner, found = self._learner, self._shading
        signs = SIGNS[learner.ascii_only]
        rows = self._counts(signs, look, width)
        if not any(counts[state] for counts in self._stages.values() for state in Status if state is not Status.NEW):
            rows.add("\n\n" + "\n".join(self._nothing(width)), look.title)
        tuning = learner.catalogue.tuning
        labels = line_letters(tuning, learner.settings.naming)
        wanted = ALL_FRETS if found.highest > FIRST_FRETS else FIRST_FRETS
        last = min(wanted, (width - max(map(len, labels)) - 6) // 2)
        by_sign = {sign: look.shades[state] for state, sign in signs.items()}
        for words, places in (("On the staff: numbers read", found.staff), ("On the neck: places found", found.neck)):
            if not places:
                continue
            drawn = {place: signs[state] for place, state in places.items() if place[1] <= last}
            if places is found.staff:
                drawing = staff_map(drawn, labels, last, width)
            else:
                drawing = neck_map(drawn, labels, last, width, left_handed=learner.manner.left_handed)
            rows.add(f"\n\n{words}", look.title)
            rows.add_rows(shaded(drawing, by_sign, look.line, look.label))
        return rows

    def _counts(self, signs: dict[Status, str], look: Look, width: int) -> Rows:
        """How many items are in each state, after the sign of it."""
        rows, used = Rows(), 0
        for state in Status:
            count = sum(counts[state] for counts in self._stages.values())
            words = f"{count} {status_word(state)}"
            if used and used + len(words) + 2 > width:
                rows.add("\n", look.text)
                used = 0
            elif used:
                rows.add("   ", look.text)
            rows.add(f"{signs[state]} ", look.shades[state])
            rows.add(words, look.text)
            used += len(words) + 5
        return rows

    def _nothing(self, width: int) -> list[str]:
        """What stands there before anything was met in this tuning, and what is known of others."""
        learner = self._learner
        met = learner.profile.ledger.states
        if not met:
            return wrapped("Nothing has been practised yet: it begins with Enter on Today.", width)
        lines = wrapped("Nothing has been practised yet on this tuning: it begins with Enter on Today.", width)
        for name, count in elsewhere(learner.catalogue, met).items():
            lines += wrapped(f"{title_of(name)}: {count} met, all of it kept for you there.", width)
        return lines

    def _stages_and_misreadings(self, look: Look, width: int) -> Rows:
        """The stages that have been begun, and what is misread or is not any more."""
        learner = self._learner
        signs, rows = SIGNS[learner.ascii_only], Rows()
        begun = {n: counts for n, counts in self._stages.items() if counts[Status.NEW] < sum(counts.values())}
        if begun:
            rows.add("Stages", look.title)
            for n, counts in begun.items():
                row = stage_row(learner.catalogue.stages[n], counts, width)
                rows.add(f"\n{row.title}", look.label)
                for state, cells in row.bar:
                    rows.add(signs[state] * cells, look.shades[state])
                rows.add(row.told, look.label)
            if left := len(self._stages) - len(begun):
                rows.add(f"\n{left} more to come", look.label)
        _add(rows, misread_rows(learner.profile.ledger, VERDICTS[learner.ascii_only][True], width), look)
        return rows

    def _days(self, look: Look, width: int) -> Rows:
        """The last days of practice."""
        learner, rows = self._learner, Rows()
        _add(rows, ["", *day_rows(learner.profile.ledger.days, width, speed=learner.settings.talk_of_speed)], look)
        return rows


def _add(rows: Rows, lines: list[str], look: Look) -> None:
    """Lines after what there is, a free row between; what is not set in is a title."""
    for number, line in enumerate(lines):
        apart = "\n" if number else "\n\n" if rows.rows != [[]] else ""
        rows.add(f"{apart}{line}", look.label if line.startswith(" ") else look.title)
