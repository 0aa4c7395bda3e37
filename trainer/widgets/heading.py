"""The line under the picture: a prompt, a verdict, a title."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static


class Heading(Static):
    """A short centred text that changes without a new layout wherever it stays as high as it was."""

    DEFAULT_CSS = "Heading { width: 1fr; height: auto; text-align: center; padding: 0 1; }"

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id, markup=False)
        self._said = ""
        self._colour = ""

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, lambda _: self.say(self._said, self._colour))

    def on_resize(self) -> None:
        self.say(self._said, self._colour)

    def say(self, text: str, colour: str = "") -> None:
        """Show a text, in a colour of the theme if one is named."""
        self._said, self._colour = text, colour
        room = self.content_size.width
        lines = balanced(text, room) if room else [text]
        said = Content.styled("\n".join(lines), f"bold ${colour}" if colour else "bold")
        self.update(said, layout=not room or len(lines) != self.content_size.height)


def rows(text: str, width: int) -> int:
    """How many rows words take that are wrapped at a width."""
    return len(wrapped(text, width))


def wrapped(text: str, width: int) -> list[str]:
    """Words into lines of at most that many cells; a word that is longer stands alone."""
    lines = [""]
    for word in text.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def balanced(text: str, width: int) -> list[str]:
    """The same number of lines, as even as can be: no last line of a single word under a long one."""
    lines = wrapped(text, width)
    low, high = 1, width
    while len(lines) > 1 and low < high:
        middle = (low + high) // 2
        if len(wrapped(text, middle)) > len(lines):
            low = middle + 1
        else:
            high = middle
    return wrapped(text, high) if len(lines) > 1 else lines
