"""What the drills of single signs share: their items, facts, lessons and the picture of a wrong answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drills.kinds import pictures
from drills.kinds.caution import CAUTION
from drills.kinds.marks import drawn
from drills.kinds.marks.sign import Certainty, Sign
from drills.kinds.marks.table import BY_KEY, SIGNS
from drills.kinds.wording import capital
from drills.notation.drawing import Role
from drills.notation.score import At, Note
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Item, Kind, Manner, Picture

_WRITTEN: Final = {Dialect.ENGRAVED: "in print", Dialect.TEXT: "as typed"}
_READ_LEGEND: Final = 1.5
"""Seconds more to think where a legend has to be read: our choice."""


def item_of(
    drill: str, sign: Sign, tuning: Tuning, think: float, title: str, dialect: Dialect | None = None
) -> Item:
    """One item about a sign. What a sign is does not depend on the tuning: no tuning in its id.

    Args:
        drill: its name.
        sign: what it is about.
        tuning: on whose lines it is drawn.
        think: seconds.
        title: for people.
        dialect: when the item is about the sign in this dialect alone.
    """
    subject = sign.key if dialect is None else f"{sign.key}-{dialect}"
    id = f"{drill}/{subject}"
    first = f"mark-name/{subject}" if dialect in sign.named_in else sign.first_item()
    needs = () if drill == "mark-name" or first == id else (first,)
    return Item(id, drill, tuning, subject, Kind.CHOICE, sign.stage, title, sign.key, needs, think=think)


def dialect_items(drill: str, tuning: Tuning, think: float) -> Iterator[Item]:
    """Each sign in each dialect in which the drill can ask about it."""
    for sign in SIGNS:
        if sign.says_its_name:
            continue
        for dialect in sign.named_in if drill == "mark-name" else sign.found_in:
            time = think + (_READ_LEGEND if sign.needs_legend(dialect) else 0.0)
            # a title never tells the answer: where the name is asked it says how the sign is written
            known = sign.written(dialect) if drill == "mark-name" else sign.name
            yield item_of(drill, sign, tuning, time, f"{capital(known)}, {_WRITTEN[dialect]}", dialect)


def sign_of(item: Item) -> Sign:
    """The sign that an item is about."""
    return BY_KEY[item.subject.removesuffix("-engraved").removesuffix("-text")]


def dialect_of(item: Item) -> Dialect:
    """The dialect of an item that is about one."""
    return Dialect(item.subject.rpartition("-")[2])


def sign_facts(item: Item) -> Facts:
    """The mark, which of the notes that this item draws are picked, what sounds, and how sure that is."""
    sign = sign_of(item)
    notes = drawn.at_home(sign, item.tuning, item.id)
    marks = [mark for step in sign.steps for mark in step.marks]
    amount = marks[0].amount if marks else None
    return {
        "mark": marks[0].kind.value if marks else "repeat",
        "amount": None if amount is None else float(amount),
        "picked": drawn.struck(notes),
        "sounds": drawn.heard(notes, item.tuning, sign.times),
        "times": sign.times,
        "source": sign.source,
        "certainty": sign.certainty.value,
    }


def sign_explanation(item: Item, manner: Manner) -> Explanation:
    """One sign: how it is written in both dialects, what the hands do, what is heard, how far to trust it."""
    sign = sign_of(item)
    dialect = dialect_of(item) if item.subject != sign.key else manner.dialect
    piece = drawn.one_bar(drawn.usual(sign.steps, item.tuning), item.tuning, sign.times)
    view = StaffView(piece, dialect, legend=drawn.legend_of([sign], dialect, named=True, picking=True))
    alike = sign.engraved == sign.text
    how = f"In print and as typed: {sign.text}." if alike else f"In print: {sign.engraved}. As typed: {sign.text}."
    lines = [how, f"{sign.hand}. {sign.sound}"]
    if sign.certainty is Certainty.LEGEND:
        lines.append("Typed tab agrees on no one sign for it: look for the legend, and where there is none, listen.")
    elif sign.certainty is Certainty.LIKELY:
        lines.append("Typed tab writes it in other ways too: when in doubt, look for a legend.")
    if sign.strains:
        lines.append(CAUTION)
    return Explanation(capital(sign.name), tuple(lines), pictures.with_neck(view, manner))


def both_drawn(
    tuning: Tuning, dialect: Dialect, true: tuple[Sign, Sequence[Note]], said: Sign | None
) -> Picture:
    """The sign that was asked about and, right of it, the one that was answered."""
    signs, fragments = [true[0]], [(true[1], true[0].times)]
    if said is not None:
        signs.append(said)
        fragments.append((drawn.usual(said.steps, tuning), said.times))
    piece, starts = drawn.side_by_side(fragments, tuning)
    colours: dict[At, Role] = {}
    for (bar, start), (notes, _), role in zip(starts, fragments, (Role.TRUE, Role.SAID), strict=False):
        colours |= {At(bar, start + n, note.string): role for n, note in enumerate(notes)}
    legend: dict[str, str] = {}
    for row in drawn.legend_of(signs, dialect, named=True):
        legend.setdefault(row.partition(":")[0], row)  # of a sign that means both, only what it was
    return Picture(StaffView(piece, dialect, colours=colours, legend=tuple(legend.values())))
