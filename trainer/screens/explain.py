"""A small library: every idea and sign that is taught, drawn, to look things up while practising."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from drills.catalogue import Catalogue
from drills.question import Item
from trainer import commands
from trainer.learner import Learner
from trainer.screens.base import Place, Plain, bindings
from trainer.widgets.hints import Hints
from trainer.widgets.tab_picture import TabPicture


class ExplainScreen(Place):
    """Titles at the left, the picture and the words at the right."""

    PLACES = (commands.EXPLAIN,)
    BINDINGS = bindings(commands.EXPLAIN)
    AUTO_FOCUS = "OptionList"

    def __init__(self, learner: Learner) -> None:
        super().__init__()
        self._learner = learner
        self._items = lessons(learner.catalogue)

    def compose(self) -> ComposeResult:
        titles = [self._learner.catalogue.explain(item, self._learner.manner).title for item in self._items]
        with Horizontal(id="split"):
            yield OptionList(*(Option(title) for title in titles), markup=False, id="titles")
            with Vertical(id="page"):
                yield TabPicture(ascii_only=self._learner.ascii_only, id="picture")
                with VerticalScroll(id="lines", can_focus=False):
                    yield Plain(id="words")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self.query_one(OptionList).highlighted = 0

    @on(OptionList.OptionHighlighted)
    def _turn_to(self, message: OptionList.OptionHighlighted) -> None:
        page = self._learner.catalogue.explain(self._items[message.option_index], self._learner.manner)
        self.query_one(TabPicture).show(page.picture)
        self.query_one("#words", Plain).update("\n\n".join(page.lines))


def lessons(catalogue: Catalogue) -> list[Item]:
    """One item of each lesson, in teaching order."""
    found: dict[str, Item] = {}
    for item in catalogue.items:
        found.setdefault(item.lesson, item)
    return list(found.values())
