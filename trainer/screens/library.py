"""The library behind *Explain*: a page for every lesson of the catalogue, by families, to be found by words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from drills.question import Explanation, Item, Manner

FAMILIES: Final[tuple[tuple[str, frozenset[str]], ...]] = (
    ("Signs", frozenset({"mark"})),
    ("Chords", frozenset({"chord", "chords", "diagram", "shape"})),
    ("Order and time", frozenset({"bar", "value", "beat", "rest", "order", "time"})),
    ("Phrases", frozenset({"phrase", "piece"})),
    ("Notes", frozenset({"note", "pitch", "capo", "octave"})),
    ("Places and fingers", frozenset({"place", "tab", "finger", "hand", "fingering"})),
    ("Lines and strings", frozenset({"line", "string", "neck"})),
)
"""Families and the words in the names of their drills; the first that fits counts."""

REST: Final = "More"
SHELVES: Final = (
    "Lines and strings", "Places and fingers", "Notes", "Signs", "Order and time", "Chords", "Phrases", REST,
)  # fmt: skip
"""The families in the order in which the library has them."""


class Page(NamedTuple):
    """One lesson.

    Attributes:
        item: the first item of it in teaching order.
        name: its title, and the drill where several pages of the family have that title.
        family: where it stands.
        told: the lesson itself.
        words: all that it can be found by, in one case.
    """

    item: Item
    name: str
    family: str
    told: Explanation
    words: str


def family(drill: str) -> str:
    """The family of a drill, by its name."""
    words = set(drill.split("-"))
    return next((name for name, known in FAMILIES if words & known), REST)


def pages(catalogue: Catalogue, manner: Manner) -> list[Page]:
    """Every lesson once, shelf by shelf, each shelf in teaching order; what several drills tell alike stands once."""
    found: dict[tuple[str, str], Item] = {}
    for item in catalogue.items:
        found.setdefault((item.drill, item.lesson), item)
    seen: dict[tuple[str, tuple[str, ...]], Page] = {}
    for item in found.values():
        told, shelf = catalogue.explain(item, manner), family(item.drill)
        words = " ".join((told.title, shelf, catalogue.drills[item.drill].title, *told.lines)).casefold()
        seen.setdefault((told.title, told.lines), Page(item, told.title, shelf, told, words))
    times = Counter((page.family, page.name) for page in seen.values())
    named = [
        page._replace(name=f"{catalogue.drills[page.item.drill].title}: {page.name}")
        if times[page.family, page.name] > 1
        else page
        for page in seen.values()
    ]
    return sorted(named, key=lambda page: SHELVES.index(page.family))


def find(library: Iterable[Page], text: str) -> list[Page]:
    """The pages that hold every word that was typed, those with all of them in their titles first."""
    wanted = text.casefold().split()
    hits = [page for page in library if all(word in page.words for word in wanted)]
    return sorted(hits, key=lambda page: not all(word in page.told.title.casefold() for word in wanted))


def page_of(library: Sequence[Page], catalogue: Catalogue, item: Item, manner: Manner) -> int:
    """The number of the page that explains an item, 0 where there is none."""
    told = catalogue.explain(item, manner)
    for number, page in enumerate(library):
        if (page.told.title, page.told.lines) == (told.title, told.lines):
            return number
    return 0
