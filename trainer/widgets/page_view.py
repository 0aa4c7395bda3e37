"""One page of the library: its picture, the same in the other dialect where there is room, and its words."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Center, VerticalScroll
from textual.widgets import Static

from drills.question import Explanation, Picture
from trainer.widgets.fitting import fit
from trainer.widgets.heading import Heading, wrapped
from trainer.widgets.tab_picture import TabPicture

WIDEST = 76
"""Cells of a line of words: longer ones are hard to follow."""

BESIDE = 34
"""Rows from which the other dialect is drawn too."""


class PageView(VerticalScroll, can_focus=True):
    """Shows an explanation whole where it fits; scrolls where it does not."""

    DEFAULT_CSS = """
    PageView { width: 1fr; height: 1fr; padding: 0 1; scrollbar-gutter: stable; }
    PageView Center { height: auto; }
    PageView Heading { margin: 1 0 0 0; }
    PageView TabPicture { min-height: 0; }
    PageView .manner { height: 1; width: 1fr; text-align: center; color: $foreground 70%; }
    PageView #body { width: 1fr; max-width: 76; height: auto; margin: 1 0 0 0; color: $foreground 90%; }
    """

    def __init__(self, *, ascii_only: bool = False, id: str | None = None) -> None:
        super().__init__(id=id)
        self._ascii = ascii_only
        self._told = Explanation("", ())
        self._others = Picture()
        self._manners = ("", "")

    def compose(self) -> ComposeResult:
        yield Heading(id="title")
        yield TabPicture(ascii_only=self._ascii, id="picture")
        yield Static(id="manner", classes="manner", markup=False)
        yield TabPicture(ascii_only=self._ascii, id="other")
        yield Static(id="other-manner", classes="manner", markup=False)
        with Center():
            yield Static(id="body", markup=False)

    def show(self, told: Explanation, other: Picture, manners: tuple[str, str]) -> None:
        """Turn to a page.

        Args:
            told: what it says, drawn in the dialect that is wanted.
            other: its picture in the other dialect.
            manners: what the one and the other are called; empty where they do not differ.
        """
        self._told, self._others, self._manners = told, other, manners
        self.query_one("#title", Heading).say(told.title, "primary")
        self.query_one("#manner", Static).update(manners[0])
        self.query_one("#other-manner", Static).update(manners[1])
        self.query_one("#body", Static).update("\n\n".join(told.lines))
        self.scroll_home(animate=False)
        self._lay_out()

    def on_resize(self) -> None:
        self._lay_out()

    @property
    def more(self) -> bool:
        """Whether there is more than the window shows."""
        return self.max_scroll_y > 0

    def read_on(self) -> None:
        """A window further down; from the end back to the top."""
        if self.scroll_offset.y >= self.max_scroll_y:
            self.scroll_home(animate=False)
        else:
            self.scroll_relative(y=max(1, self.size.height - 2), animate=False)

    def _lay_out(self) -> None:
        """The picture takes what the words leave, but never less than it needs nor much more than is good."""
        width, height = self.scrollable_content_region.size
        if not width or not height:
            return
        high = self.app.size.height
        two = bool(self._manners[1]) and high >= BESIDE
        words = "\n".join(self._told.lines)
        rows = sum(len(wrapped(line, min(width, WIDEST))) + 1 for line in words.split("\n")) - 1
        rows += (2 if high >= 20 else 1 if high >= 14 else 0) + (1 if high >= 20 else 0)
        rows += bool(self._manners[0]) and high >= 20
        one = self.query_one("#picture", TabPicture)
        other, label = self.query_one("#other", TabPicture), self.query_one("#other-manner", Static)
        other.display = label.display = two
        least, best = _heights(self._told.picture, width)
        if two:
            second = fit(self._others, width, best).height
            other.styles.height = second + 1
            rows += second + 2
        one.styles.height = max(least + (high >= BESIDE), min(best + (2 if high >= 20 else 0), height - rows))
        self.query_one("#manner").display = bool(self._manners[0]) and high >= 20
        one.show(self._told.picture)
        if two:
            other.show(self._others)


def _heights(picture: Picture, width: int) -> tuple[int, int]:
    """The rows of a picture at a width: the fewest, and as many as are good."""
    return fit(picture, width, 0).height, fit(picture, width, 1000).height
