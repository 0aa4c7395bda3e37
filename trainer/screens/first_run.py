"""The first run: at most two questions, each one key, and then the first lesson."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical

from drills.notation.tuning import shipped
from drills.question import Option, Picture
from trainer import commands
from trainer.learner import Learner
from trainer.profile.lock import HeldError
from trainer.profile.problem import not_saved
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.today import opening_phrase
from trainer.widgets.answer_bar import AnswerBar
from trainer.widgets.hints import Hints
from trainer.widgets.tab_picture import TabPicture

INSTRUMENTS = (
    Option("1", "guitar", "standard"),
    Option("2", "bass", "bass"),
    Option("3", "ukulele", "ukulele"),
    Option("4", "guitar in drop D", "drop-d"),
)
READING = (Option("1", "not yet, or hardly", "no"), Option("2", "I read some already", "yes"))


@dataclass(frozen=True, slots=True)
class Start:
    """What the learner said.

    Attributes:
        tuning: name of the tuning.
        reader: whether they read some already.
    """

    tuning: str
    reader: bool


class FirstRun(Place):
    """Two questions, one key each; Enter takes the first answers of what is left. Dismissed with a ``Start``."""

    PLACES = (commands.FIRST,)
    BINDINGS = bindings(*PLACES)

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._tuning: str | None = None

    def compose(self) -> ComposeResult:
        yield Plain(f"Sixline   {_welcome()}", id="date")
        with Vertical(id="middle"):
            yield TabPicture(ascii_only=self._learner.ascii_only, id="picture")
            yield Plain(id="prompt")
            yield AnswerBar(id="answers")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.query_one(TabPicture).show(Picture(opening_phrase(self._learner)))
        self._ask("What do you play?", INSTRUMENTS)

    def _ask(self, prompt: str, options: tuple[Option, ...]) -> None:
        self.query_one("#prompt", Plain).update(prompt)
        self.query_one(AnswerBar).offer(options)

    def on_key(self, event: events.Key) -> None:
        options = READING if self._tuning else INSTRUMENTS
        chosen = next((option.answer for option in options if option.key == event.character), None)
        if chosen is not None:
            event.stop()
            self._take(chosen)

    @on(AnswerBar.Chosen)
    def _clicked(self, message: AnswerBar.Chosen) -> None:
        self._take(message.answer)

    def _take(self, answer: str) -> None:
        if self._tuning is None:
            self._tuning = answer
            lines = shipped()[answer].lines
            self._ask(f"Can you read its {lines} lines of tab yet?", READING)
        else:
            self.dismiss(Start(self._tuning, answer == "yes"))

    def action_skip(self) -> None:
        self.dismiss(Start(self._tuning or INSTRUMENTS[0].answer, False))


def settle(learner: Learner, start: Start) -> str | None:
    """Make the profile with what the learner said; what could not be saved, in one line, or None.

    Raises:
        HeldError: another process has made it meanwhile, and is at it.
    """
    try:
        learner.profile.acquire(learner.clock.now())
        if wanted := changes(start):
            learner.profile.change_settings(wanted)
    except HeldError:
        raise
    except (OSError, ValueError) as error:
        return not_saved(error, learner.profile.folder) if isinstance(error, OSError) else str(error)
    return None


def changes(start: Start) -> dict[str, Any]:
    """What of it differs from the settings that a new profile has anyway."""
    found: dict[str, Any] = {}
    if start.tuning != "standard":
        found["tuning"] = start.tuning
    if start.reader:
        found["reader"] = True
    return found


def _welcome() -> str:
    return "Welcome. Ten minutes a day, and you will read tab as you play."
