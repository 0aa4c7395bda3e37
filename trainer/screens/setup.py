"""Settings of one learner, written to profile.toml with its comments kept, and what they look like."""

from __future__ import annotations

import os
from typing import Any

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.message import Message
from textual.widgets import Input

from drills.kinds.wording import sentence_hint
from drills.notation.own_tuning import own_tuning
from drills.notation.tuning import sentence_fits
from drills.question import Picture
from trainer import commands, themes
from trainer.learner import Learner
from trainer.profile.tunings import OWN
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.pick import Pick
from trainer.screens.setup_preview import preview, preview_rows
from trainer.screens.setup_rows import ABOUT, settings_of, tuning_options
from trainer.widgets.choice_row import LABEL, ActRow, ChoiceRow
from trainer.widgets.hints import Hints
from trainer.widgets.tab_picture import TabPicture

TYPED = (
    ("own_tuning", "My own tuning", "from the lowest string", "tuning"),
    ("sentence", "My sentence", "one word a string", "naming"),
)
"""Settings that are typed: name, label, what stands in an empty one, and the row that they come after."""

NARROW, LOW, HIGH = 72, 14, 20
"""Cells and rows from which there is more room, as the app's own breakpoints have them."""
WHOLE = 24
"""Rows of all settings and their picture, where these are as large as is good."""
BEGINS = ("naming", "theme", "minutes")
"""The settings that begin a group."""
ROUND = 12
"""Rows around staff and neck when one stands over the other."""


class Setup(Place):
    """One row a setting; each is saved as soon as it is changed, and drawn at once."""

    PLACES = (commands.SETUP,)
    BINDINGS = bindings(commands.SETUP)
    AUTO_FOCUS = "ChoiceRow"
    DEFAULT_CSS = """
    Setup { align-horizontal: center; }
    Setup #date { width: 100%; }
    Setup #both { height: 1fr; width: 100%; max-width: 140; }
    Setup #choices { width: 48; height: 1fr; padding: 1 0 0 0; }
    Setup #looks { width: 1fr; height: 1fr; padding: 1 1 0 1; }
    Setup.-high .-begins, Setup.-tall .-begins { margin: 1 0 0 0; }
    Setup #drawn { max-height: 16; min-height: 0; }
    Setup #board { min-height: 0; margin: 1 0 0 0; }
    Setup #samples { height: auto; text-align: center; color: $foreground 85%; margin: 1 0 0 0; }
    Setup .typed { height: 1; padding: 0 1; }
    Setup .typed Plain { width: 18; }
    Setup .typed Input { width: 1fr; padding: 0; background: $background; }
    Setup .typed:focus-within { background: $panel; text-style: bold; }
    Setup .typed Input:focus { background: $panel; }
    Setup Input > .input--placeholder { color: $foreground 65%; }
    Setup #about { height: 1; padding: 0 1; color: $foreground 85%; }
    Setup #about.-problem { color: $warning; height: auto; max-height: 3; }
    Setup.-narrow #both { layout: vertical; }
    Setup.-narrow #choices { width: 1fr; padding: 0; }
    Setup.-narrow #looks { padding: 0 1; }
    Setup.-narrow #about { height: 2; }
    Setup.-flat #about, Setup.-flat #date { display: none; }
    Setup.-flat #about.-problem { display: block; }
    """

    class Changed(Message):
        """Settings were saved; the app may have to change its look."""

    class Measure(Message):
        """The learner wants the key baseline measured."""

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._rows = settings_of(learner.settings, ())
        self._about = ""

    def compose(self) -> ComposeResult:
        settings = self._learner.settings
        self._rows = settings_of(settings, self.app.available_themes)
        typed = {after: (name, label, hint) for name, label, hint, after in TYPED}
        yield Plain("Setup   Left, Right change; Enter lists", id="date")
        with Horizontal(id="both"):
            with VerticalScroll(id="choices", can_focus=False):
                for name, row in self._rows.items():
                    classes = "-begins" if name in BEGINS else None
                    value = _plain(getattr(settings, name))
                    yield ChoiceRow(row.label, row.options, value, id=name, classes=classes)
                    if name in typed:
                        name, label, hint = typed[name]
                        with Horizontal(classes="typed"):
                            yield Plain(f"{label:<{LABEL}}  ")
                            yield Input(getattr(settings, name), id=name, compact=True, placeholder=hint)
                yield ActRow("Key", self._key_words(), id="measure")
            with Vertical(id="looks"):
                yield TabPicture(ascii_only=self._learner.ascii_only, id="drawn")
                yield TabPicture(ascii_only=self._learner.ascii_only, id="board")
                yield Plain(id="samples")
        yield Plain(id="about")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self._draw()

    def _key_words(self) -> str:
        own = self._learner.settings.key_seconds
        seconds = own or self._learner.profile.base
        return f"{seconds:.2f} s{', as you set it' if own else ''}; Enter measures"

    def on_resize(self) -> None:
        self._draw()

    def _draw(self) -> None:
        """What the settings look like now, in the room there is."""
        learner = self._learner
        settings, tuning, manner = learner.settings, learner.catalogue.tuning, learner.manner
        width, height = self.app.size
        narrow, high = width < NARROW, height >= HIGH
        whole = preview(settings, tuning, manner)
        drawn, board = self.query_one("#drawn", TabPicture), self.query_one("#board", TabPicture)
        samples = self.query_one("#samples", Plain)
        board.display = not narrow and height >= 2 * tuning.lines + ROUND
        samples.display = high
        board.styles.height = tuning.lines + 1
        self.query_one("#looks").styles.height = tuning.lines + (6 if high else height >= LOW) if narrow else "1fr"
        spare = 0 if narrow else max(0, height - 3 - WHOLE) // 3
        drawn.styles.height = 2 * tuning.lines + 3 if spare else "1fr"
        for side, edge in (("#choices", 0), ("#looks", 1)):
            self.query_one(side).styles.padding = (int(not narrow) + spare, edge, 0, edge)
        drawn.show(Picture(whole.staff) if board.display else whole)
        board.show(Picture(None, whole.neck))
        samples.update("\n".join(preview_rows(settings, tuning, manner, ascii_only=learner.ascii_only)))

    # Moving

    def on_key(self, event: events.Key) -> None:
        """Up and Down from row to row."""
        if event.key in ("up", "down"):
            event.stop()
            if event.key == "up":
                self.focus_previous()
            else:
                self.focus_next()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        name = event.widget.id or ""
        row = self._rows.get(name)
        self._about = row.about if row else ABOUT.get(name, "")
        self._tell("")

    # Changing

    @on(ChoiceRow.Turned)
    def _turned(self, message: ChoiceRow.Turned) -> None:
        message.row.focus()
        self._save(str(message.row.id), message.value)

    @on(ChoiceRow.Listed)
    def _listed(self, message: ChoiceRow.Listed) -> None:
        row = message.row

        def chosen(at: int | None) -> None:
            if at is not None:
                self._save(str(row.id), row.options[at][1])

        self.app.push_screen(Pick(row.label, row.options, row.value), chosen)

    @on(Input.Submitted)
    def _submitted(self, message: Input.Submitted) -> None:
        if problem := self._keep_typed(str(message.input.id)):
            self._tell(problem)

    @on(ActRow.Done)
    def _measure(self) -> None:
        if self._learner.settings.key_seconds:
            self._save("key_seconds", 0.0)
        self.post_message(self.Measure())

    def action_go(self, place: str) -> None:
        """Leave; what was typed without Enter is kept too."""
        for name, *_ in TYPED:
            if problem := self._keep_typed(name):
                self.app.notify(problem, severity="warning", markup=False)
        super().action_go(place)

    def _keep_typed(self, name: str) -> str | None:
        """Save what was typed; why not, in one line, or None."""
        text = " ".join(self.query_one(f"#{name}", Input).value.split())
        settings = self._learner.settings
        if text == getattr(settings, name):
            return None
        if name == "sentence":
            tuning = self._learner.catalogue.tuning
            if text and sentence_fits(text, tuning, settings.naming) is None:
                return sentence_hint(tuning, settings.naming)
            return self._keep({"sentence": text})
        if text:
            try:
                own_tuning(text)
            except ValueError as error:
                return f"That is no tuning: {error}."
            return self._keep({"own_tuning": text, "tuning": OWN})
        if settings.tuning == OWN:
            return "It is the tuning that you learn: choose another one first."
        return self._keep({"own_tuning": ""})

    def _save(self, name: str, value: Any) -> None:
        if value != _plain(getattr(self._learner.settings, name)) and (problem := self._keep({name: value})):
            self._tell(problem)

    def _keep(self, changes: dict[str, Any]) -> str | None:
        """Write settings to the file, and show what follows; why not, in one line, or None."""
        try:
            self._learner.profile.acquire(self._learner.clock.now())
            self._learner.profile.change_settings(changes)
        except Exception as error:
            return f"Not saved: {error}"
        settings = self._learner.settings
        for row in self.query(ChoiceRow):
            name = str(row.id)
            row.show(_plain(getattr(settings, name)), tuning_options(settings) if name == "tuning" else None)
        self.app.animation_level = themes.motion(os.environ, settings.motion)
        self._draw()
        self._tell("Saved. ", problem=False)
        self.post_message(self.Changed())
        return None

    def _tell(self, text: str, *, problem: bool = True) -> None:
        """A problem, or a word before what the row is about."""
        about = self.query_one("#about", Plain)
        about.set_class(bool(text) and problem, "-problem")
        about.update(text if text and problem else text + self._about)

    def on_screen_resume(self) -> None:
        self.query_one("#measure", ActRow).say(self._key_words())


def _plain(value: Any) -> Any:
    """A value as profile.toml has it: a naming system is its name."""
    return str(value) if isinstance(value, str) else value
