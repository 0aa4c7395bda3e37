"""What a sitting is written on: a picture, a line under it, and then answers, reasons or a text."""

from __future__ import annotations

from collections.abc import Sequence

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Center, Vertical

from drills.question import Picture, Question
from trainer.screens.base import Plain
from trainer.screens.stage import SIGNS
from trainer.screens.telling import FLAT, LOW, Reading
from trainer.widgets.answer_bar import AnswerBar
from trainer.widgets.heading import Heading, rows
from trainer.widgets.tab_picture import TabPicture

COUNTED = 3
"""Rows under a bar that was tapped: the count, the taps, and one that is free."""
CLOSE = 26
"""Rows that a question takes that is drawn as large as is good."""


class Board(Vertical):
    """The middle of the practice screen. From a question to its verdict nothing on it changes but texts."""

    def __init__(self, *, ascii_only: bool) -> None:
        super().__init__(id="question")
        self._reading: Reading | None = None
        self._ascii = ascii_only

    def compose(self) -> ComposeResult:
        yield TabPicture(ascii_only=self._ascii, id="picture")
        yield Heading(id="prompt")
        yield AnswerBar(id="answers")
        with Center(id="telling"):
            yield Plain(id="words")

    def on_resize(self) -> None:
        """In a tall window a question stands around the middle, not at the bottom."""
        self.answers.styles.margin = (0, 0, self._under, 0)

    @property
    def _under(self) -> int:
        """Rows that are left free under answers and lessons."""
        height = self.app.size.height
        return max(int(height >= LOW), (height - 2 - CLOSE) // 2)

    @property
    def answers(self) -> AnswerBar:
        """Where answers are entered."""
        return self.query_one(AnswerBar)

    def page(self, picture: Picture, title: str, words: str | Text, *, trouble: bool = False) -> None:
        """A picture with a text that may be long, as Today and the lessons have it."""
        self.query_one("#telling").styles.margin = 0
        self.query_one(TabPicture).show(picture)
        self.query_one("#prompt", Heading).say(title, "error" if trouble else "primary")
        self.answers.clear()
        self.query_one("#words", Plain).update(words)

    def tell(self, reading: Reading) -> bool:
        """The first page of what is to be told; whether there is one."""
        self._reading = reading
        return self._open()

    def turn(self) -> bool:
        """The next page of it; whether there is one."""
        if self._reading is not None:
            self._reading.turn()
        return self._open()

    def cut_anew(self) -> None:
        """The page that is open, in the window that there is now."""
        if self._reading is not None:
            self._reading.cut_anew(self.app.size)
            self._open()

    def _open(self) -> bool:
        page = self._reading.page if self._reading is not None else None
        if page is not None:
            self.page(*page)
            self.query_one("#telling").styles.margin = (0, 0, self._under, 0)
        return page is not None

    def question(self, picture: Picture, question: Question) -> None:
        """A question, with this picture; how it is answered is shown by whoever takes the answer."""
        below = 0 if question.tapping is None else COUNTED
        # A neck that is but a help gives way to the staff where there is no room for both.
        needed = picture.neck is None or question.picture.neck is not None
        self.query_one(TabPicture).show(picture, whole=needed, below=below)
        self.query_one("#prompt", Heading).say(question.prompt)

    def verdict(self, right: bool, headline: str, reasons: Sequence[str]) -> None:
        """Right or wrong, where the prompt was, and why, where the keys were."""
        self.query_one(TabPicture).stay()
        sign = SIGNS[self._ascii][right]
        self.query_one("#prompt", Heading).say(f"{sign} {headline}", "success" if right else "error")
        if reasons:
            self.answers.tell(self._as_fits(reasons, f"{sign} {headline}"))

    def _as_fits(self, reasons: Sequence[str], headline: str) -> Sequence[str]:
        """In a flat window the last reasons give way to the staff, all but the first."""
        if self.size.height >= FLAT:
            return reasons
        width = self.size.width - 2
        room = self.size.height + 1 - self.query_one(TabPicture).least - rows(headline, width)
        kept = len(reasons)
        while kept > 1 and sum(rows(line, width) for line in reasons[:kept]) > room:
            kept -= 1
        return reasons[:kept]

    def correct(self, picture: Picture) -> None:
        """Draw what was said and what it was, with all that stays in its place."""
        self.query_one(TabPicture).join(picture)
