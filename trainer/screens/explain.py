"""A small library: every idea and sign that is taught, drawn, to look things up while practising."""

from __future__ import annotations

from dataclasses import replace

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from drills.notation.staff import Dialect
from drills.question import Item, Picture
from trainer import commands
from trainer.learner import Learner
from trainer.screens.base import Place, Plain, bindings
from trainer.screens.library import Page, find, page_of, pages
from trainer.widgets.hints import Hints
from trainer.widgets.page_view import PageView

MANNERS = {Dialect.ENGRAVED: "as it is printed", Dialect.TEXT: "as people type it"}


class Library(Place):
    """Titles at the left (above in a narrow window), the picture and the words at the right."""

    AUTO_FOCUS = "OptionList"
    DEFAULT_CSS = """
    Library #shelf { width: 34; height: 1fr; background: $surface; padding: 0 1; }
    Library.-wide #shelf { width: 42%; min-width: 34; max-width: 44; }
    Library #pages { width: 1fr; height: 1fr; border: none; padding: 0; background: $surface; }
    Library #pages { text-wrap: nowrap; text-overflow: ellipsis; }
    Library #pages:focus { background-tint: $foreground 0%; }
    Library #pages > .option-list--option-disabled { color: $primary; text-style: none; }
    Library #find { height: 1; border: none; padding: 0; background: $surface; }
    Library #find > .input--placeholder { color: $foreground 65%; }
    Library #find:focus { background: $panel; }
    Library #found { height: auto; color: $foreground 80%; display: none; }
    Library.-narrow #split { layout: vertical; }
    Library.-narrow #shelf { width: 1fr; height: 5; }
    Library.-narrow.-high #shelf, ExplainScreen.-narrow.-tall #shelf { height: 9; }
    Library.-narrow.-flat #shelf { height: 3; }
    Library.-flat #find { display: none; }
    Library.-flat #find.-open { display: block; }
    Library.-flat PageView Heading, ExplainScreen.-low PageView Heading { margin: 0; }
    Library.-flat PageView #body, ExplainScreen.-low PageView #body { margin: 0; }
    Library.-narrow.-flat PageView Heading, ExplainScreen.-narrow.-low PageView Heading { display: none; }
    """

    def __init__(self, learner: Learner, item: Item | None = None) -> None:
        super().__init__()
        self._learner = learner
        self._manner = learner.manner
        self._library = pages(learner.catalogue, self._manner)
        self._shown: list[Page | None] = []
        self._open = page_of(self._library, learner.catalogue, item, self._manner) if item else 0

    def compose(self) -> ComposeResult:
        with Horizontal(id="split"):
            with Vertical(id="shelf"):
                yield Input(id="find", compact=True, placeholder="/ find by a word", select_on_focus=False)
                yield OptionList(markup=False, id="pages")
                yield Plain(id="found")
            yield PageView(ascii_only=self._learner.ascii_only, id="page")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self._fill(self._library)
        if self._library:
            self._highlight(self._library[self._open])

    def _fill(self, found: list[Page]) -> None:
        """List these pages, under the names of their families."""
        rows: list[Page | None] = []
        options: list[Option] = []
        for page in found:
            before = rows[-1] if rows else None
            if before is None or before.family != page.family:
                rows.append(None)
                options.append(Option(page.family, disabled=True))
            rows.append(page)
            options.append(Option(f"  {page.name}"))
        self._shown = rows
        self.query_one(OptionList).set_options(options)
        self.query_one("#found", Plain).display = not found
        self.query_one("#pages").display = bool(found)

    def _highlight(self, page: Page) -> None:
        self.query_one(OptionList).highlighted = self._shown.index(page)

    @on(OptionList.OptionHighlighted)
    def _turn_to(self, message: OptionList.OptionHighlighted) -> None:
        page = self._shown[message.option_index]
        if page is not None:
            self._open = self._library.index(page)
            self._show()

    def _show(self) -> None:
        """Draw the open page in the dialect that is wanted now."""
        item = self._library[self._open].item
        told = self._learner.catalogue.explain(item, self._manner)
        dialect, staff = self._manner.dialect, told.picture.staff
        other = Dialect.TEXT if dialect == Dialect.ENGRAVED else Dialect.ENGRAVED
        if staff is None:
            self.query_one(PageView).show(told, Picture(), ("", ""))
            return
        # A lesson on a sign may be drawn in the dialect of that sign: here the reader chooses.
        told = told._replace(picture=told.picture._replace(staff=replace(staff, dialect=dialect)))
        self.query_one(PageView).show(
            told, Picture(replace(staff, dialect=other)), (MANNERS[dialect], MANNERS[other])
        )

    # Finding

    @on(Input.Changed)
    def _find(self, message: Input.Changed) -> None:
        found = find(self._library, message.value)
        self._fill(sorted(found, key=self._library.index) if not message.value.strip() else _by_family(found))
        if found:
            self._highlight(found[0] if message.value.strip() else self._library[self._open])
        else:
            self.query_one("#found", Plain).update(f"Nothing holds “{message.value.strip()}”.")

    @on(Input.Submitted)
    def _found(self) -> None:
        self.query_one(OptionList).focus()
        self.query_one(Input).remove_class("-open")

    def on_key(self, event: events.Key) -> None:
        """While a word is typed, the arrows move through what it finds, and Escape forgets it."""
        box = self.query_one(Input)
        if self.focused is not box:
            return
        titles = self.query_one(OptionList)
        if event.key == "escape":
            box.value = ""
            self._found()
        elif event.key == "down":
            titles.action_cursor_down()
        elif event.key == "up":
            titles.action_cursor_up()
        else:
            return
        event.stop()

    def action_find(self) -> None:
        """Type to find."""
        box = self.query_one(Input)
        box.add_class("-open")
        box.focus()

    # Reading

    def action_dialect(self) -> None:
        """The same signs in the other dialect."""
        engraved = self._manner.dialect == Dialect.ENGRAVED
        self._manner = self._manner._replace(dialect=Dialect.TEXT if engraved else Dialect.ENGRAVED)
        self._show()

    def action_read_on(self) -> None:
        """A window further down the page."""
        self.query_one(PageView).read_on()

    @on(OptionList.OptionSelected)
    def _read_on(self) -> None:
        self.action_read_on()


class ExplainScreen(Library):
    """The library as a screen of the house."""

    PLACES = (commands.EXPLAIN,)
    BINDINGS = bindings(commands.EXPLAIN)


class LookUp(Library):
    """The library over a question that waits; it opens at what is asked, and the answer after it is not timed."""

    PLACES = (commands.LOOK_UP,)
    BINDINGS = bindings(commands.LOOK_UP)


def _by_family(found: list[Page]) -> list[Page]:
    """The best page first, and pages of one family together."""
    families = list(dict.fromkeys(page.family for page in found))
    return sorted(found, key=lambda page: families.index(page.family))
