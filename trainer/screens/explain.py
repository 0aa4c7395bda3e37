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
from trainer.screens.library import Page, find, page_of, pages, to_read
from trainer.widgets.heading import wrapped
from trainer.widgets.hints import Hints
from trainer.widgets.page_view import PageView

NARROW = 72
"""Cells from which the shelf stands beside the page, as the app's own breakpoints have it."""
AROUND_TITLES = 5
"""Cells of a shelf that no title takes: its edges, the scroll bar, and what a second row is set in."""
MANNERS = {Dialect.ENGRAVED: "as it is printed", Dialect.TEXT: "as people type it"}


class Library(Place):
    """Titles at the left (above in a narrow window), the picture and the words at the right."""

    AUTO_FOCUS = "OptionList"
    DEFAULT_CSS = """
    Library #shelf { width: 34; height: 1fr; background: $surface; padding: 0 1; }
    Library.-wide #shelf { width: 42%; min-width: 34; max-width: 44; }
    Library #pages { width: 1fr; height: 1fr; border: none; padding: 0; background: $surface; }
    Library #pages:focus { background-tint: $foreground 0%; }
    Library #pages > .option-list--option-disabled { color: $primary; text-style: none; }
    Library #find { height: 1; border: none; padding: 0; background: $surface; }
    Library #find > .input--placeholder { color: $foreground 65%; }
    Library #find:focus { background: $panel; }
    Library #found { height: auto; color: $foreground 80%; display: none; }
    Library.-narrow #split { layout: vertical; }
    Library.-narrow #shelf { width: 1fr; height: 5; }
    Library.-narrow.-high #shelf, Library.-narrow.-tall #shelf { height: 9; }
    Library.-narrow.-flat #shelf { height: 3; }
    Library.-flat #find { display: none; }
    Library.-flat #find.-open { display: block; }
    Library.-flat PageView Heading, Library.-low PageView Heading { margin: 0; }
    Library.-flat PageView #body, Library.-low PageView #body { margin: 0; }
    Library.-narrow.-flat PageView Heading, Library.-narrow.-low PageView Heading { display: none; }
    Library #leaf { width: 1fr; height: 1fr; }
    Library #more { height: 1; width: 1fr; text-align: right; padding: 0 2; color: $foreground 65%; display: none; }
    """

    def __init__(self, learner: Learner, item: Item | None = None) -> None:
        super().__init__()
        self._learner = learner
        self._manner = learner.manner
        self._library = pages(learner.catalogue, self._manner)
        self._shown: list[Page | None] = []
        self._room = 0
        self._open = page_of(self._library, learner.catalogue, item, self._manner) if item else 0

    def compose(self) -> ComposeResult:
        with Horizontal(id="split"):
            with Vertical(id="shelf"):
                yield Input(id="find", compact=True, placeholder="/ find by a word", select_on_focus=False)
                yield OptionList(markup=False, id="pages")
                yield Plain(id="found")
            with Vertical(id="leaf"):
                yield PageView(ascii_only=self._learner.ascii_only, id="page")
                yield Plain("Space reads on", id="more")
        yield Hints(*self.PLACES)

    def on_mount(self) -> None:
        self._fill(self._library)
        if self._library:
            self._highlight(self._library[self._open])

    def on_resize(self) -> None:
        """Titles are wrapped for the room that there is now; what was found stays found."""
        self.call_after_refresh(self._say_more)
        if self._library and shelf_room(self.app.size.width) != self._room:
            self._fill([page for page in self._shown if page is not None])
            if self._library[self._open] in self._shown:
                self._highlight(self._library[self._open])

    def _fill(self, found: list[Page]) -> None:
        """List these pages, under the names of their families."""
        room = self._room = shelf_room(self.app.size.width)
        rows: list[Page | None] = []
        options: list[Option] = []
        for page in found:
            before = rows[-1] if rows else None
            if before is None or before.family != page.family:
                rows.append(None)
                options.append(Option(page.family, disabled=True))
            rows.append(page)
            number = str(self._library.index(page))
            options.append(Option("  " + "\n    ".join(wrapped(page.name, room)), id=number))
        self._shown = rows
        self.query_one(OptionList).set_options(options)
        self.query_one("#found", Plain).display = not found
        self.query_one("#pages").display = bool(found)

    def _highlight(self, page: Page) -> None:
        self.query_one(OptionList).highlighted = self._shown.index(page)

    @on(OptionList.OptionHighlighted)
    def _turn_to(self, message: OptionList.OptionHighlighted) -> None:
        # Whoever types fast has another list before this arrives: a place in the list says nothing, only its name.
        number = int(message.option_id) if message.option_id is not None else self._open
        if self._library[number] in self._shown:
            self._open = number
            self._show()

    def _show(self) -> None:
        """Draw the open page, and say whether there is more of it."""
        self._draw()
        self.call_after_refresh(self._say_more)

    def _say_more(self) -> None:
        self.query_one("#more").display = self.query_one(PageView).more

    def _draw(self) -> None:
        """Draw the open page in the dialect that is wanted now."""
        item = self._library[self._open].item
        told = to_read(self._learner.catalogue.explain(item, self._manner))
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


def shelf_room(width: int) -> int:
    """Cells of a title on the shelf, which takes 42 of 100 cells of a wide window, as the rules above say."""
    shelf = max(34, min(44, width * 42 // 100)) if width >= NARROW else width
    return shelf - AROUND_TITLES


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
