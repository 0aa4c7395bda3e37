"""Keys into an answer: which keys answer at once, what is still being typed, and when the clock stops."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from drills.question import Question

APART: Final = 0.7
"""Seconds between two keys of one answer beyond which the learner was still thinking."""

LONGEST: Final = 40
"""Keys that an answer can have; more are not taken."""


@dataclass(slots=True)
class Entry:
    """One answer as it is being entered.

    The clock stops at the first key, or at the last one where keys lie over 0.7 s apart or one was taken back:
    only thinking is timed, never the hand.

    Attributes:
        question: what is asked.
        shown_at: when it was on the screen, in seconds of the clock that stamps the keys.
        parts: what has been entered so far: answers of options, or single characters.
    """

    question: Question
    shown_at: float
    parts: list[str] = field(default_factory=list)
    _made: float = field(init=False)
    _stop: float | None = None
    _last: float = 0.0
    _corrected: bool = False

    def __post_init__(self) -> None:
        self._made = self.shown_at

    def press(self, character: str, at: float) -> str | None:
        """Take a key.

        Args:
            character: as typed.
            at: when, in seconds of that clock. What was pressed before the question was made answers nothing.

        Returns:
            The answer when this key completed it, else None.
        """
        if at < self._made:
            return None
        options = {option.key: option.answer for option in self.question.options}
        if options:
            answer = options.get(character) or _alone(character, options)
            return None if answer is None else self._take(answer, at)
        if character.isprintable() and len(self.parts) < LONGEST:
            return self._take(character, at)
        return None

    def choose(self, answer: str, at: float) -> str | None:
        """Take a click on what stands for an answer (or for one part of it)."""
        return self._take(answer, at)

    def erase(self) -> None:
        """Take the last key back."""
        if self.parts:
            self.parts.pop()
            self._corrected = True

    def submit(self, at: float) -> str | None:
        """Enter: what was typed, if anything was and it is not made of keys that answer by themselves."""
        if self.question.options or not self.parts:
            return None
        if self._stop is None:
            self._stop = at
        return self.text

    @property
    def text(self) -> str:
        """What has been entered so far."""
        return self.question.joiner.join(self.parts)

    @property
    def seconds(self) -> float:
        """From the question on the screen to where the clock stopped."""
        return 0.0 if self._stop is None else round(max(0.0, self._stop - self.shown_at), 3)

    def _take(self, part: str, at: float) -> str | None:
        if self._stop is None or self._corrected or at - self._last > APART:
            self._stop = at
        self._last = at
        self.parts.append(part)
        if self.question.options:
            return self.text if len(self.parts) >= self.question.length else None
        return self.text if self.question.ends(self.text) else None


def _alone(character: str, options: dict[str, str]) -> str | None:
    """A letter in the other case, where only one option could be meant."""
    found = [answer for key, answer in options.items() if key.casefold() == character.casefold()]
    return found[0] if len(found) == 1 else None
