"""The library behind *Explain*: a page for every lesson of the catalogue, by families, to be found by words."""

from __future__ import annotations

import re
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

HOW_TO: Final = ("Press ", "Type ")
"""How the last line of a lesson begins that tells which keys answer."""

SIGN: Final = 2
"""Letters of a sign as it is typed, at most."""

REST: Final = "More"
SHELVES: Final = (
    "Lines and strings", "Places and fingers", "Notes", "Signs", "Order and time", "Chords", "Phrases", REST,
)  # fmt: skip
"""The families in the order in which the library has them."""


class Page(NamedTuple):
    """One idea.

    Attributes:
        item: the first item in teaching order of the lesson that tells most of it.
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
    """Every idea once, shelf by shelf, each shelf in teaching order.

    What several lessons tell alike stands once, as the one that tells most of it.
    """
    found: dict[tuple[str, str], Item] = {}
    for item in catalogue.items:
        found.setdefault((item.drill, item.lesson), item)
    seen: dict[tuple[str, str], Page] = {}
    for item in found.values():
        told, shelf = catalogue.explain(item, manner), family(item.drill)
        words = " ".join((told.title, shelf, catalogue.drills[item.drill].title, *told.lines)).casefold()
        before = seen.get(idea(told))
        if before is None or len(told.lines) > len(before.told.lines):
            seen[idea(told)] = Page(item, told.title, shelf, told, words)
    times = Counter((page.family, page.name) for page in seen.values())
    named = [
        page._replace(name=f"{catalogue.drills[page.item.drill].title}: {page.name}")
        if times[page.family, page.name] > 1
        else page
        for page in seen.values()
    ]
    order = {item.id: number for number, item in enumerate(catalogue.items)}
    return sorted(named, key=lambda page: (SHELVES.index(page.family), order[page.item.id]))


def idea(told: Explanation) -> tuple[str, str]:
    """What lessons have in common that explain the same, each for its own sort of question."""
    return told.title, told.lines[0] if told.lines else ""


def to_read(told: Explanation) -> Explanation:
    """A lesson without its word on the keys of a question: whoever looks something up is not asked."""
    lines = told.lines
    return told._replace(lines=lines[:-1]) if len(lines) > 1 and lines[-1].startswith(HOW_TO) else told


def find(library: Iterable[Page], text: str) -> list[Page]:
    """The pages that hold every word that was typed, those with all of them in their titles first.

    What is as short as a sign, such as ``h`` or ``PM``, is in nearly every word: where it stands by itself anywhere,
    only those pages count.
    """
    wanted = text.casefold().split()
    library = list(library)
    alone = [_alone(word) if len(word) <= SIGN else re.compile(re.escape(word)) for word in wanted]
    within = [re.compile(re.escape(word)) for word in wanted]
    for patterns in (alone, within):
        if hits := [page for page in library if all(each.search(page.words) for each in patterns)]:
            titled = [page for page in hits if all(each.search(page.told.title.casefold()) for each in patterns)]
            return titled + [page for page in hits if page not in titled]
    return []


def _alone(word: str) -> re.Pattern[str]:
    """Where a word stands with no letter or digit beside it."""
    return re.compile(rf"(?<![^\W_]){re.escape(word)}(?![^\W_])")


def page_of(library: Sequence[Page], catalogue: Catalogue, item: Item, manner: Manner) -> int:
    """The number of the page that explains an item, 0 where there is none."""
    wanted = idea(catalogue.explain(item, manner))
    return next((number for number, page in enumerate(library) if idea(page.told) == wanted), 0)
