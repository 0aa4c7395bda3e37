"""What got better in a sitting, drawn: places on staff and neck, everything else by its name, each with its sign."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from drills.kinds.pictures import line_letters
from drills.notation.drawing import Drawing, Role, Span
from trainer.learner import Learner
from trainer.schedule.status import Status
from trainer.schedule.summary import Summary
from trainer.screens.shading import SIGNS, Place, asked_places
from trainer.widgets.fitting import GAP, above, beside
from trainer.widgets.places_map import neck_map, shaded, staff_map
from trainer.widgets.sheet import Look, Rows

FRETS: Final = 5
"""Frets that a map shows at least."""
TWO: Final = 68
"""Cells from which drills stand beside each other with their counts."""
LABEL: Final = 27
"""Cells before a list of items, where there is room for the name of their drill."""
TITLES: Final = {False: "Numbers on the staff", True: "Places on the neck"}
NOTHING: Final = "Known and fluent come with the days: what you read today counts towards them."
SAID: Final = {
    Status.SHAKY: "met for the first time", Status.KNOWN: "now known", Status.FLUENT: "now fluent",
    Status.KEPT: "kept for a week and more",
}  # fmt: skip


def changed(summary: Summary) -> dict[str, Status]:
    """What each item became that rose, or was met for the first time; the best first."""
    found = dict.fromkeys(summary.new, Status.SHAKY) | dict(summary.rose)
    return dict(sorted(found.items(), key=lambda each: -each[1].rank))


def better(learner: Learner, found: Mapping[str, Status], look: Look, width: int, height: int) -> Rows:
    """The picture, in so many cells and rows; what is left out is counted.

    Args:
        learner: whose.
        found: items and what they became.
        look: of the sheet that it stands on.
        width, height: the room.
    """
    rows = _counts(learner, found, look, width)
    if not found:
        return rows
    by_sign = {sign: look.shades[state] for state, sign in SIGNS[learner.ascii_only].items()}
    maps = _maps(learner, found, width, height - len(rows.rows) - 2)
    if maps is not None:
        rows.add("\n", look.text)
        rows.add_rows(shaded(maps.drawing, by_sign, look.line, look.label))
    rest = {item: state for item, state in found.items() if maps is None or item not in maps.items}
    if rest and (room := height - len(rows.rows) - 1) > 0:
        rows.add("\n", look.text)
        named, shown = _named(learner, rest, look, width, room)
        # Names of one drill are no picture of a sitting that went through eight of them.
        rows.add_rows(named if shown == len(_by_drill(learner, rest)) else _counted(learner, rest, look, width, room))
    return rows


def _counts(learner: Learner, found: Mapping[str, Status], look: Look, width: int) -> Rows:
    """How many became what, after the sign of it."""
    rows, used = Rows(), 0
    for state, words in reversed(SAID.items()):
        if not (count := sum(each is state for each in found.values())):
            continue
        told = f"{SIGNS[learner.ascii_only][state]} {count} {words}"
        if used:
            rows.add("   " if used + 3 + len(told) <= width else "\n", look.text)
            used = used + 3 if used + 3 + len(told) <= width else 0
        rows.add(told[:1], look.shades[state])
        rows.add(told[1:], look.text)
        used += len(told)
    return rows


class _Map(NamedTuple):
    """A staff or a neck with what became better on it, and the items that it shows."""

    drawing: Drawing
    items: frozenset[str]


def _maps(learner: Learner, found: Mapping[str, Status], width: int, height: int) -> _Map | None:
    """Both beside each other, or else one over the other, or else the one that shows more; None without room."""
    sides = [_map(learner, found, neck, (width - GAP) // 2) for neck in (False, True)]
    drawn = [side for side in sides if side is not None]
    ways = sorted(drawn, key=lambda side: -len(side.items))
    if len(drawn) > 1:
        one, two = drawn
        both = one.items | two.items
        ways = [_Map(beside(one.drawing, two.drawing), both), _Map(above(one.drawing, two.drawing, 1), both), *ways]
    fitting = [way for way in ways if way.drawing.width <= width and way.drawing.height <= height]
    return next(iter(fitting), None)


def _map(learner: Learner, found: Mapping[str, Status], neck: bool, width: int) -> _Map | None:
    """The staff, or the neck, with the best of what each place became; wider than ``width`` where frets are high."""
    tuning, signs = learner.catalogue.tuning, SIGNS[learner.ascii_only]
    asked = [each for each in asked_places(tuning) if each.neck == neck and each.id in found]
    if not asked:
        return None
    states: dict[Place, Status] = {}
    for each in asked:
        state = found[each.id]
        states[each.place] = max(state, states.get(each.place, state), key=lambda one: one.rank)
    cells = {place: signs[state] for place, state in states.items()}
    labels = line_letters(tuning, learner.settings.naming)
    last = max(FRETS, *(fret for _, fret in states))
    if neck:
        drawing = neck_map(cells, labels, last, width, left_handed=learner.manner.left_handed)
    else:
        drawing = staff_map(cells, labels, last, width)
    titled = Drawing(((Span(TITLES[neck], Role.LABEL),), *drawing.rows))
    return _Map(titled, frozenset(each.id for each in asked))


def shortened(text: str, room: int) -> str:
    """A text in so many cells, its end left out at a blank if it can be and marked where it does not fit."""
    if len(text) <= room:
        return text
    kept = text[: room - 1]
    whole = kept if text[room - 1] == " " else kept.rpartition(" ")[0]
    return f"{(whole if len(whole) > room // 2 else kept).rstrip(' ,:')}…"


def _by_drill(learner: Learner, found: Mapping[str, Status]) -> dict[str, list[str]]:
    """Items by their drills, in their order."""
    by_id, drills = learner.catalogue.by_id, dict[str, list[str]]()
    for item in found:
        if item in by_id:
            drills.setdefault(by_id[item].drill, []).append(item)
    return drills


def _counted(learner: Learner, found: Mapping[str, Status], look: Look, width: int, height: int) -> Rows:
    """Drills, each with how many of its items became what; beside each other where there is room for two."""
    signs, drills = SIGNS[learner.ascii_only], list(_by_drill(learner, found).items())
    across = 2 if width >= TWO else 1
    cell = (width - (across - 1) * GAP) // across
    shown = drills if len(drills) <= across * height else drills[: across * height - 1]
    told = [
        [(state, count) for state in reversed(Status) if (count := sum(found[item] is state for item in items))]
        for _, items in shown
    ]
    longest = max((sum(len(f" {count}") + 2 for _, count in each) for each in told), default=0)
    rows = Rows()
    for n, ((name, _), counts) in enumerate(zip(shown, told, strict=True)):
        if n:
            rows.add(" " * GAP if n % across else "\n", look.text)
        title = shortened(learner.catalogue.drills[name].title, cell - longest)
        rows.add(title.ljust(cell - longest), look.label)
        used = 0
        for state, count in counts:
            rows.add(f" {signs[state]}", look.shades[state])
            rows.add(f" {count}", look.text)
            used += len(f" {count}") + 2
        if n % across < across - 1:
            rows.add(" " * (longest - used), look.text)
    if left := sum(len(items) for _, items in drills[len(shown) :]):
        rows.add(f"{' ' * GAP if len(shown) % across else chr(10)}and {left} more", look.label)
    return rows


def _named(
    learner: Learner, found: Mapping[str, Status], look: Look, width: int, height: int
) -> tuple[Rows, int]:
    """Items by their drills, each by its title after its sign, in no more rows than there is room for; and how many
    drills of them are there."""
    catalogue, signs = learner.catalogue, SIGNS[learner.ascii_only]
    drills = _by_drill(learner, found)
    label = LABEL if width >= 2 * LABEL else 0
    rows, told, known = Rows(), 0, sum(map(len, drills.values()))
    for nth, (name, items) in enumerate(drills.items()):
        title, used = catalogue.drills[name].title, 0
        for number, item in enumerate(items):
            words = catalogue.by_id[item].title.removeprefix(f"{title}: " if label else "")
            words = shortened(words, width - label - 2)
            begins = not number or used + 2 + len(words) + 2 > width - label
            row = len(rows.rows) + bool(begins and told)
            more = f"  and {known - told} more"
            # In the last row, what is named leaves room for the count of what is not.
            kept = len(more) if row >= height and known - told > 1 else 0
            if row > height or (not begins and used + 2 + len(words) + 2 + kept > width - label):
                rows.add(more, look.label)
                return rows, nth + (number > 0)
            words = shortened(words, width - label - 2 - kept)
            if begins:
                rows.add("\n" if told else "", look.text)
                rows.add((title if not number else "")[: label - 1].ljust(label) if label else "", look.label)
                used = 0
            else:
                rows.add("  ", look.text)
                used += 2
            rows.add(f"{signs[found[item]]} ", look.shades[found[item]])
            rows.add(words, look.text)
            used += len(words) + 2
            told += 1
    return rows, len(drills)
