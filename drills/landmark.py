"""What an item can be told from that repeating has not helped with: the nearest neighbour that is read already, or the
sentence that the strings are kept by. It never holds the answer itself: a step from it has to be taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final, NamedTuple

from drills.catalogue import Catalogue
from drills.kinds.notes import show_note
from drills.kinds.wording import SENTENCES, capital, initials_upward, on_neck, thickness
from drills.notation.tuning import sentence_fits
from drills.question import Facts, Item, Kind, Manner

NEAR_FRETS: Final = 5
NEAR_LINES: Final = 2
"""So far away at most a neighbour is near."""

ACROSS: Final = 4
"""A neighbour at the same fret of the next line comes after those up to three frets away on the same string."""

_COUNTS: Final = ("no", "one", "two", "three", "four", "five")


class Landmark(NamedTuple):
    """What to tell an item from.

    Attributes:
        text: one plain sentence.
        brief: the same in few words, for a line that is short.
    """

    text: str
    brief: str


def landmark(item: Item, catalogue: Catalogue, manner: Manner, reads: Callable[[str], bool]) -> Landmark | None:
    """What to tell an item from, or None where nothing near is read and no sentence says it.

    Args:
        item: what is asked.
        catalogue: where it is from.
        manner: how this learner is asked.
        reads: whether the learner is fluent in an item, by its id.
    """
    facts = catalogue.facts(item)
    read = (one for one in catalogue.items if one.drill == item.drill and one.id != item.id and reads(one.id))
    others = ((one, catalogue.facts(one)) for one in read)
    found: Landmark | None = None
    match item.kind, facts:
        case Kind.NOTE, {"string": int(), "fret": int()} if "capo" not in facts:
            found = _by_note(facts, others, manner)
        case Kind.FRET, {"string": int(), "frets": [*_]}:
            found = _by_fret(facts, others, manner)
        case Kind.STRING | Kind.LINE, {"string": int()}:
            same_way = ((other, its) for other, its in others if _way(other) == _way(item))
            found = _by_line(item, facts, same_way, manner)
        case Kind.PLACE, {"string": int(), "fret": int()} if "places" not in facts:
            found = _by_line(item, facts, others, manner)
    return found or (_sentence(item, manner) if _asks_a_name(item, facts) else None)


Others = Iterator[tuple[Item, Facts]]


def _by_note(facts: Facts, others: Others, manner: Manner) -> Landmark | None:
    """From a note nearby whose name is another one."""
    string, fret, names = facts["string"], facts["fret"], set(facts["names"])
    near: list[tuple[int, int, int, Facts]] = []
    for _, its in others:
        across, along = its["string"] - string, its["fret"] - fret
        if names.isdisjoint(its["names"]):
            if not across and abs(along) <= NEAR_FRETS:
                near.append((abs(along), across, along, its))
            elif not along and abs(across) == 1:
                near.append((ACROSS, across, along, its))
    if not near:
        return None
    _, across, along, its = min(near, key=lambda one: one[:3])
    name = show_note(tuple(its["names"]), manner.naming, its["names"][0])
    there = f"String {its['string']}, fret {its['fret']}" if its["fret"] else f"String {its['string']}, open,"
    if across:
        side, far = ("above", "below") if across < 0 else ("below", "above")
        text = f"{there} is {name}, which you read already: this is one line {far}, at the same fret."
        return Landmark(text, f"Line {side}, same fret: {_short(name)}")
    steps = f"{_COUNTS[abs(along)]} fret{'s' if abs(along) > 1 else ''}"
    way = "on" if along < 0 else "back"
    where = f"Fret {its['fret']}" if its["fret"] else "Open"
    text = f"{there} is {name}, which you read already: this is {steps} {way}."
    return Landmark(text, f"{where} is {_short(name)}: go {steps} {way}")


def _by_fret(facts: Facts, others: Others, manner: Manner) -> Landmark | None:
    """From another note on the same string, best from one below."""
    string, fret, names = facts["string"], facts["fret"], set(facts["names"])
    near = [
        (abs(its["fret"] - fret), its["fret"], its)
        for _, its in others
        if its["string"] == string and names.isdisjoint(its["names"]) and abs(its["fret"] - fret) <= NEAR_FRETS
    ]
    if not near:
        return None
    _, there, its = min(near, key=lambda one: one[:2])
    name = show_note(tuple(its["names"]), manner.naming, its["names"][0])
    where = f"fret {there}" if there else "open"
    count = f"count {'on' if there < fret else 'back'}"
    text = f"On string {string}, {name} is {where}, which you read already: {count} from there."
    return Landmark(text, f"{_short(name)} is {where}: {count}")


def _by_line(item: Item, facts: Facts, others: Others, manner: Manner) -> Landmark | None:
    """From the line beside it, or the next but one."""
    string, fret = facts["string"], facts.get("fret")
    near = [
        (abs(its["string"] - string), its.get("fret") != fret, its["string"])
        for _, its in others
        if 1 <= abs(its["string"] - string) <= NEAR_LINES
    ]
    if not near:
        return None
    there = min(near)[-1]
    count = _COUNTS[abs(there - string)]
    side, far = ("above", "below") if there < string else ("below", "above")
    if item.drill in ("line-to-string", "tab-to-place"):
        name = _string_as_asked(item, there, manner)
        line = f"line {side}" if count == "one" else f"second line {side}"
        return Landmark(f"The {line} this one is {name}, which you read already.", f"{capital(line)}: {name}")
    name = _string_as_asked(item, there, manner)
    this = "place" if item.kind is Kind.PLACE else "string"
    steps = f"{count} line{'s' if count != 'one' else ''} {far}"
    text = f"{capital(name)} is line {there}, which you read already: this {this} is {steps}."
    short = name.removeprefix("the ").replace(" string", "")
    if item.drill == "neck-to-line":
        return Landmark(text, f"Neck: {short.removesuffix(' of the neck')} is line {there}")
    return Landmark(text, f"Line {there}: {short}")


def _string_as_asked(item: Item, string: int, manner: Manner) -> str:
    """A string by what that drill shows of it: its name, its thickness, where it lies on the neck."""
    if item.drill == "neck-to-line":
        return on_neck(string, item.tuning.lines)
    match _way(item):
        case "name":
            return f"the {item.tuning.string_name(string, manner.naming)} string"
        case "gauge":
            return thickness(string, item.tuning.lines)
        case _:
            return f"string {string}"


def _sentence(item: Item, manner: Manner) -> Landmark | None:
    """The learner's own memory sentence, else the one that the lesson told."""
    way = sentence_fits(manner.sentence, item.tuning, manner.naming)
    if way is not None:
        words = " ".join(manner.sentence.split())
        edge = "bottom line up" if way == "up" else "top line down"
        return Landmark(f"Your sentence, from the {edge}: {words}", words)
    ours = SENTENCES.get(initials_upward(item.tuning, manner.naming))
    return Landmark(f"From the bottom line up: {ours[0]}.", ours[0]) if ours else None


def _asks_a_name(item: Item, facts: Facts) -> bool:
    """Whether it is about what an open string is called."""
    if item.kind in (Kind.STRING, Kind.LINE):
        return _way(item) == "name"
    return item.kind is Kind.NOTE and "string" in facts and facts.get("fret") == 0


def _way(item: Item) -> str:
    """By what a string is asked for: ``name``, ``gauge``, or nothing where it is its number or its line."""
    return item.subject.partition("-")[2] if item.kind in (Kind.STRING, Kind.LINE) else ""


def _short(name: str) -> str:
    return name.replace(" or ", "/")
