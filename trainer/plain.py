"""Practice line by line, for screen readers, pipes and terminals that cannot draw."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Final

from drills.kinds.wording import capital
from drills.notation.pitch import Naming
from drills.notation.spoken import say_diagram, say_neck, say_staff
from drills.question import Answer, Explanation, Picture
from trainer import wording
from trainer.clock import Clock
from trainer.complaint import shown
from trainer.hints import how_to_answer, read_answer
from trainer.practice import Asked, Outcome, Practice
from trainer.rows import ascii_text, indent, marked_rows
from trainer.schedule.why import Why
from trainer.turns import take_turns

TYPED_BASE: Final = 1.5
"""Seconds that a typed line with Enter takes a hand, where a key takes half a second: our choice."""
SPOKEN_BASE: Final = 6.0
"""Seconds that listening to a staff in words takes on top: our choice."""

SIGNS: Final = frozenset({"mark-name", "name-to-mark", "mark-hand", "value-name", "value-find"})
"""Drills that ask for the name or meaning of a sign: in words it is spelled, or its name would be the answer."""

_WIDTH: Final = 76
_WHY: Final = {Why.NEW: "New", Why.REPEAT: "Once more", Why.DUE: "To go over", Why.CONTRAST: "Side by side"}


@dataclass(frozen=True, slots=True)
class Way:
    """How a person is asked line by line.

    Attributes:
        naming: how note names are said.
        spoken: tab in words, no staff at all.
        timed: whether the seconds of a reply mean anything: somebody types.
        plain: ASCII alone.
        voice: in which words the learner is told things.
    """

    naming: Naming = Naming.LETTERS
    spoken: bool = False
    timed: bool = False
    plain: bool = False
    voice: wording.Voice = wording.USUAL


class Plain:
    """One sitting in lines of text."""

    def __init__(
        self,
        practice: Practice,
        clock: Clock,
        way: Way,
        *,
        read: Callable[[], str | None],
        say: Callable[[str], None],
        kept: Callable[[], None],
    ) -> None:
        """Take a sitting.

        Args:
            practice: the sitting.
            clock: moved on by each answer's seconds where it was set.
            way: how to ask.
            read: the next line, or None at the end of input; may raise Stopped.
            say: prints a line at once.
            kept: called after each verdict, to make the answer survive a power cut.
        """
        self._practice = practice
        self._clock = clock
        self._way = way
        self._read = read
        self._print = say
        self._kept = kept
        self._told: set[str] = set()
        self._spoiled = False

    def run(self) -> None:
        """Ask until the sitting or the input ends, or the learner stops; then sum up."""
        self._say("Type each answer and press Enter. ? explains, q stops.")
        reason = take_turns(self._practice, self._clock, self, self._kept)
        self._print("")
        if reason == "nothing-left":
            self._say("Nothing is left for now: play something that you like.")
        for line in wording.summary_lines(self._practice.summary(), self._way.voice):
            self._say(line)

    def ask(self, asked: Asked) -> Answer | None:
        """Put a question and take its answer; None to stop."""
        if asked.lesson is not None:
            self._explain(asked.lesson)
        self._print("")
        why = _WHY.get(asked.why)
        said = [f"Question {asked.n}", why, capital(wording.help_word(asked))]
        if asked.landmark is not None:
            said.append(asked.landmark.text.removesuffix("."))
        self._say(" ".join(f"{part}." for part in said if part))
        self._spoiled = False
        self._question(asked)
        return self._answer(asked)

    def tell(self, asked: Asked, outcome: Outcome) -> None:
        """Right or wrong, why, and what it was."""
        voice = self._way.voice
        for line in [wording.headline(asked, outcome, voice), *wording.reasons(outcome, voice)]:
            self._say(line)
        if not outcome.verdict.right and not self._way.spoken:
            self._picture(outcome.verdict.picture, spell=False)

    def _question(self, asked: Asked) -> None:
        question = asked.question
        self._picture(asked.picture, spell=asked.item.drill in SIGNS)
        self._say(question.prompt)
        for option in question.choices:
            if option.text:
                self._say(f"{option.key}: {option.text}" if self._way.spoken else f"  {option.key}  {option.text}")
        hint = how_to_answer(question, self._way.naming)
        if hint not in self._told:
            self._told.add(hint)
            self._say(hint)

    def _answer(self, asked: Asked) -> Answer | None:
        """The answer to a question; None to stop."""
        started = time.monotonic()
        while (line := self._read()) is not None:
            typed = line.strip()
            if typed.casefold() in ("q", "quit"):
                return None
            if typed == "?":
                lesson = self._practice.explain()
                if lesson is not None:
                    self._explain(lesson)
                self._print("")
                self._question(asked)
                self._spoiled = True
                continue
            answer = read_answer(asked.question, line)
            if answer is None:
                hint = how_to_answer(asked.question, self._way.naming)
                self._say(f"'{shown(typed[:60])}' is no answer here. {hint}")
                self._say(asked.question.prompt)
                continue
            seconds = round(time.monotonic() - started, 3) if self._way.timed else None
            return Answer(answer, seconds, timed=not self._spoiled)
        return None

    def _explain(self, lesson: Explanation) -> None:
        self._print("")
        self._say(lesson.title)
        for paragraph in lesson.lines:
            self._say(paragraph)
        self._picture(lesson.picture, spell=False)

    def _picture(self, picture: Picture, *, spell: bool) -> None:
        if self._way.spoken:
            sentences = say_staff(picture.staff, spell=spell) if picture.staff is not None else []
            sentences += say_neck(picture.neck) if picture.neck is not None else []
            sentences += say_diagram(picture.diagram) if picture.diagram is not None else []
            for sentence in sentences:
                self._say(f"{sentence[:1].upper()}{sentence[1:]}.")
            return
        for row in indent(marked_rows(picture, plain=self._way.plain)):
            self._print(row)

    def _say(self, text: str) -> None:
        """Our own words, in lines that any terminal holds; spoken text is one line, as ears know no lines."""
        text = ascii_text(text) if self._way.plain else text
        lines: Sequence[str] = [text] if self._way.spoken else wrap(text, _WIDTH, subsequent_indent=_hang(text))
        for line in lines:
            self._print(line)


def _hang(text: str) -> str:
    return "     " if text.startswith("  ") else ""
