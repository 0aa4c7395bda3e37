"""The shape of one technique sign as it is taught, and of the few notes that it is drawn on."""

from __future__ import annotations

from enum import StrEnum
from typing import Final, NamedTuple

from drills.notation.score import Mark
from drills.notation.staff_view import Dialect


class Certainty(StrEnum):
    """How far typed tab can be trusted to mean this sign."""

    SURE = "sure"
    LIKELY = "likely"
    LEGEND = "needs a legend"


class Step(NamedTuple):
    """One note of an example.

    Attributes:
        fret: None for a muted x.
        marks: of this note.
        line: how many lines below the example's top line it stands.
    """

    fret: int | None
    marks: tuple[Mark, ...] = ()
    line: int = 0


class Legend(NamedTuple):
    """A row of a legend: the sign, explained by its meaning where its name is asked, else by its name."""

    meaning: str
    name: str

    @property
    def symbol(self) -> str:
        """The sign that the row is about."""
        return self.name.partition(":")[0]


class Sign(NamedTuple):
    """One technique sign as a beginner meets it.

    Attributes:
        key: as it stands in item ids.
        name: as players call it.
        steps: an example.
        hand: what the hands do, as a sentence without its full stop.
        act: the same in a few words.
        sound: what is heard, in whole sentences.
        engraved, text: how it is written in print and as typed.
        stage: when it is taught.
        source: of these facts.
        picking: why its notes are picked or not, as a clause.
        move: where the pitch goes, as a clause.
        certainty: of its meaning in typed tab.
        legend: what a legend says of the typed sign, where one is ever needed.
        legend_in_print: whether print needs it too.
        near: the signs that it is most easily confused with, the likeliest first.
        named_in: the dialects in which its name is asked.
        found_in: the dialects in which it is looked for among others.
        says_its_name: whether its name is what is written, so that nobody needs to be asked for it.
        strains: whether the hand has to work hard.
        movable: whether the example may stand at other frets.
        times: how often the example is played; its bar closes with a repeat sign where it is more than once.
    """

    key: str
    name: str
    steps: tuple[Step, ...]
    hand: str
    act: str
    sound: str
    engraved: str
    text: str
    stage: int
    source: str
    picking: str
    move: str
    certainty: Certainty = Certainty.SURE
    legend: Legend | None = None
    legend_in_print: bool = False
    near: tuple[str, ...] = ()
    named_in: tuple[Dialect, ...] = tuple(Dialect)
    found_in: tuple[Dialect, ...] = tuple(Dialect)
    says_its_name: bool = False
    strains: bool = False
    movable: bool = True
    times: int = 1

    def first_item(self) -> str:
        """The id of the item that comes before all others of this sign."""
        return f"mark-hand/{self.key}" if self.says_its_name else f"mark-name/{self.key}-{self.named_in[0]}"

    def written(self, dialect: Dialect) -> str:
        """How it is written in a dialect."""
        return self.text if dialect is Dialect.TEXT else self.engraved

    def needs_legend(self, dialect: Dialect) -> bool:
        """Whether it is read rightly only with a legend beside it."""
        return self.legend_in_print or (dialect is Dialect.TEXT and self.certainty is Certainty.LEGEND)


WRIGHT: Final = "H. Wright 1995"
"""Howard Wright, "The Guide to TAB Notation - how to read and write tab", 18 April 1995: the typed sign."""
PRACTICE: Final = "common practice, no source"
