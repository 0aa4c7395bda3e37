"""Settings of one learner, written to profile.toml with its comments kept."""

from __future__ import annotations

from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.containers import Grid, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Button, Input, Select

from drills.notation.pitch import Naming
from drills.notation.staff import Dialect
from drills.notation.tuning import sentence_fits, shipped
from trainer import commands
from trainer.learner import Learner
from trainer.screens.base import Place, Plain, bindings
from trainer.widgets.hints import Hints

NAMINGS = (
    ("letters: C D E F G A B", str(Naming.LETTERS)),
    ("with H: C D E F G A H", str(Naming.GERMAN)),
    ("do re mi fa sol la si", str(Naming.SOLFEGE)),
)
DIALECTS = (("printed signs", str(Dialect.ENGRAVED)), ("as people type it", str(Dialect.TEXT)))
HANDS = (("right hand picks", "right"), ("left hand picks", "left"))
HELP = (("shown", True), ("not shown", False))
MINUTES = tuple((f"{n} minutes", n) for n in (5, 10, 15, 20, 30))


class Setup(Place):
    """One row a setting; each is saved as soon as it is changed."""

    PLACES = (commands.SETUP,)
    BINDINGS = bindings(commands.SETUP)
    AUTO_FOCUS = "Select"

    class Changed(Message):
        """Settings were saved; the app may have to change its look."""

    class Measure(Message):
        """The learner wants the key baseline measured."""

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner

    def compose(self) -> ComposeResult:
        settings = self._learner.settings
        tunings = [(tuning.title, name) for name, tuning in shipped().items()]
        themes = [("the usual", ""), *((name, name) for name in sorted(self.app.available_themes))]
        yield Plain("Setup", id="date")
        with VerticalScroll(id="sheet", can_focus=False), Grid(id="settings"):
            yield from self._choice("Tuning", "tuning", tunings, settings.tuning)
            yield from self._choice("Note names", "naming", NAMINGS, str(settings.naming))
            yield from self._choice("The staff", "dialect", DIALECTS, str(settings.dialect))
            yield from self._choice("Hands", "hand", HANDS, settings.hand)
            yield Plain("Your sentence")
            yield Input(settings.sentence, id="sentence", compact=True, placeholder="one word a string, then Enter")
            yield from self._choice("A sitting", "minutes", _with(MINUTES, settings.minutes), settings.minutes)
            yield from self._choice("Colours", "theme", themes, settings.theme)
            yield from self._choice("Help while new", "help", HELP, settings.help)
            yield Plain(f"Your key: {self._learner.profile.base:.2f} s", id="base")
            yield Button("Measure: ten keys", id="measure", compact=True)
        yield Plain(id="notice")
        yield Hints(*self.PLACES)

    def _choice(self, label: str, name: str, options: Any, value: Any) -> ComposeResult:
        yield Plain(label)
        if value not in [option for _, option in options]:
            options = [*options, (Content(f"{value} (not known)"), value)]  # nothing is changed by looking at it
        yield Select(options, value=value, allow_blank=False, id=name, compact=True)

    @on(Select.Changed)
    def _selected(self, message: Select.Changed) -> None:
        if message.select.id and message.value is not Select.NULL:
            self._save(message.select.id, message.value)

    @on(Input.Submitted)
    def _sentence(self) -> None:
        if problem := self._keep_sentence():
            self._tell(problem)

    def _keep_sentence(self) -> str | None:
        """Save the sentence as it is typed; why not, in one line, or None."""
        text = " ".join(self.query_one(Input).value.split())
        tuning = self._learner.catalogue.tuning
        if text and sentence_fits(text, tuning, self._learner.settings.naming) is None:
            letters = " ".join(tuning.letter(n, self._learner.settings.naming) for n in range(tuning.lines, 0, -1))
            return f"That does not spell the strings: give {tuning.lines} words in {letters}, or backwards."
        self._save("sentence", text)
        return None

    def action_go(self, place: str) -> None:
        """Leave; a sentence that was typed without Enter is kept too."""
        if problem := self._keep_sentence():
            self.app.notify(problem, severity="warning", markup=False)
        super().action_go(place)

    @on(Button.Pressed, "#measure")
    def _measure(self) -> None:
        self.post_message(self.Measure())

    def _save(self, name: str, value: Any) -> None:
        current = getattr(self._learner.settings, name)
        if value == current or str(value) == str(current):
            return
        try:
            self._learner.profile.acquire(self._learner.clock.now())
            self._learner.profile.change_settings({name: value})
        except Exception as error:
            self._tell(f"Not saved: {error}")
            return
        self._tell("Saved.")
        self.post_message(self.Changed())

    def _tell(self, text: str) -> None:
        self.query_one("#notice", Plain).update(text)

    def on_screen_resume(self) -> None:
        self.query_one("#base", Plain).update(f"Your key: {self._learner.profile.base:.2f} s")


def _with(options: tuple[tuple[str, int], ...], value: int) -> list[tuple[str, int]]:
    """The options, and the learner's own value if it is none of them."""
    return sorted({*options, (f"{value} minutes", value)}, key=lambda option: option[1])
