"""What can be answered, under the question: keys that can be pressed or clicked, or what is being typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich.style import Style
from rich.text import Text
from textual import events
from textual.message import Message
from textual.widgets import Static

from drills.question import Option, Question
from trainer import themes
from trainer.widgets.heading import balanced, wrapped

TYPE = "type it, then Enter"
TAP = "●"
BEAT_APART = 5
"""Cells between two beats of a pulse, where there is room."""


class AnswerBar(Static):
    """One row of short keys, one row a choice with a longer text, or a line that is being typed."""

    DEFAULT_CSS = """
    AnswerBar { height: auto; min-height: 3; width: 1fr; text-align: left; }
    """

    @dataclass
    class Chosen(Message):
        """A key was clicked."""

        answer: str

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id, markup=False)
        self._shown = False
        self._options: tuple[Option, ...] = ()
        self._length = 1
        self._joiner = ""
        self._typed = ""
        self._told: tuple[str, ...] = ()
        self._click = ""
        self._beating: tuple[int, int, str, int, bool] | None = None
        self._areas: list[tuple[int, int, int, str]] = []

    def ask(self, question: Question) -> None:
        """Show what can be answered."""
        self.offer(question.options, question.length, question.joiner)

    def offer(self, options: tuple[Option, ...], length: int = 1, joiner: str = "") -> None:
        """Show keys; without any, a line to type on.

        Args:
            options: the keys.
            length: how many of them make an answer.
            joiner: what stands between them in it.
        """
        self._options, self._length, self._joiner = options, length, joiner
        self._shown, self._typed, self._told, self._beating = True, "", (), None
        self.display = True
        self._draw()

    def typed(self, text: str) -> None:
        """Show what has been entered so far."""
        self._typed = text
        self._draw()

    def tell(self, lines: Sequence[str], click: str = "") -> None:
        """Show sentences instead of keys, where the keys were; a click on them means ``click``, or nothing."""
        self._told, self._options, self._beating, self._click = tuple(lines), (), None, click
        self._shown = self.display = True
        self._draw()

    def pulse(self, beat: int, beats: int, word: str, taps: int, *, live: bool) -> None:
        """Show a pulse by the beat that it is at, which brightens; a click anywhere is a tap.

        Args:
            beat: from 1.
            beats: in a bar.
            word: what goes on.
            taps: how many have been made.
            live: the bar has begun; before that the beat brightens less.
        """
        self._told, self._options, self._beating = (), (), (beat, beats, word, taps, live)
        self._shown = self.display = True
        self._draw()

    def _draw_pulse(self, key: Style, beat: int, beats: int, word: str, taps: int, live: bool) -> None:
        # A patch of light that wanders is seen from the corner of the eye, while the eye is on the staff.
        lit = key + Style(reverse=True) if live else key
        gap = " " * (BEAT_APART if self.size.width >= beats * (3 + BEAT_APART) else 1)
        row = Text(gap).join(Text(f"[{n}]", lit) if n == beat else Text(f" {n} ", "dim") for n in range(1, beats + 1))
        width = max(self.size.width, 20)
        left = " " * max(0, (width - len(row)) // 2)
        made = " ".join(TAP * taps)[: len(row) - 1]
        self._areas = [(y, 0, width, "tap") for y in range(3)]
        text = Text(left) + row
        text.append(f"\n{word.center(width).rstrip()}")
        self._put(text.append(f"\n{left} {made}", key))

    def clear(self) -> None:
        """Show nothing."""
        self._shown = False
        self._areas = []
        self.display = False

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, lambda _: self._draw())

    def on_resize(self) -> None:
        self._draw()

    def _draw(self) -> None:
        if not self._shown:
            return
        self._areas = []
        width = max(self.size.width, 20)
        key = themes.bold(self.app.theme_variables["warning"])
        if self._told:
            told = [line for text in self._told for line in balanced(text, min(width - 2, 76))]
            self._areas = [(y, 0, width, self._click) for y in range(len(told))] if self._click else []
            self._put(Text("\n".join(line.center(width).rstrip() for line in told)))
            return
        if self._beating is not None:
            self._draw_pulse(key, *self._beating)
            return
        if not self._options:
            line = Text.assemble((self._typed, "bold"), ("▏", key))
            text = Text(" " * max(0, (width - len(self._typed)) // 2)) + line
            self._put(text.append("\n" + TYPE.center(width).rstrip(), "dim"))
            return
        text = Text(justify="left", no_wrap=True)
        if self._length > 1:
            text.append_text(self._slots(width))
        pieces = sum(len(option.text) + 3 for option in self._options)
        if pieces > width or any(len(option.text) > 12 for option in self._options):
            self._stack(text, self._options, width, key)
        else:
            self._row(text, self._options, width, key)
        self._put(text)

    def _put(self, text: Text) -> None:
        """Show it, without a new layout where it fits into the room that there is."""
        self.update(text, layout=text.plain.count("\n") + 1 > self.size.height)

    def _slots(self, width: int) -> Text:
        """What has been entered of an answer of several keys."""
        parts = [part for part in (self._typed.split(" ") if self._joiner else self._typed) if part]
        cells = [*parts, *["·"] * (self._length - len(parts))]
        line = "  ".join(cells)
        return Text(" " * max(0, (width - len(line)) // 2) + line + "\n", style="bold")

    def _row(self, text: Text, options: tuple[Option, ...], width: int, key: Style) -> None:
        """Short options beside each other."""
        row = text.plain.count("\n")
        pieces = [f"{option.key} {option.text}".rstrip() for option in options]
        gap = 3 if sum(map(len, pieces)) + 3 * (len(pieces) - 1) <= width else 1
        column = max(0, (width - sum(map(len, pieces)) - gap * (len(pieces) - 1)) // 2)
        text.append(" " * column)
        for index, (option, piece) in enumerate(zip(options, pieces, strict=True)):
            if index:
                text.append(" " * gap)
                column += gap
            text.append(f"{option.key} "[: len(piece)], key)
            text.append(option.text)
            self._areas.append((row, column, len(piece), option.answer))
            column += len(piece)

    def _stack(self, text: Text, options: tuple[Option, ...], width: int, key: Style) -> None:
        """Longer options under each other, wrapped where they must be."""
        longest = min(width - 4, 68, max(len(option.text) for option in options))
        left = max(0, (width - longest - 3) // 2)
        for option in options:
            for index, line in enumerate(wrapped(option.text, longest)):
                if self._areas:
                    text.append("\n")
                row = text.plain.count("\n")
                text.append(" " * left)
                text.append(f"{option.key}  " if index == 0 else "   ", key)
                text.append(line)
                self._areas.append((row, left, longest + 3, option.answer))

    def on_click(self, event: events.Click) -> None:
        for row, column, width, answer in self._areas:
            if event.y == row and column <= event.x < column + width:
                event.stop()
                self.post_message(self.Chosen(answer))
                return
