"""Every item, in teaching order, with what each one needs first."""

from __future__ import annotations

import random
from collections.abc import Iterable
from functools import cache
from typing import Final, NamedTuple, Protocol

from drills.kinds import (
    capo,
    chord_diagrams,
    chord_intervals,
    chord_names,
    chord_notes,
    chord_strokes,
    fingers,
    frets,
    lines,
    notes,
    octaves,
    order,
    places,
    same_pitch,
)
from drills.kinds.marks import mark_hand, mark_name, mark_picked, mark_sounds, mark_wrong, name_to_mark
from drills.kinds.rhythm import (
    bar_beat,
    bar_count,
    bar_missing,
    pick_ups,
    repeats,
    taps,
    value_fill,
    value_lengths,
    value_names,
)
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Item, Manner, Question
from drills.stages import TITLES


class Drill(Protocol):
    """A way of asking: item -> question, answer -> verdict."""

    name: str
    """As it stands in item ids."""

    title: str
    """For people: ``Fret to note``."""

    def items(self, tuning: Tuning) -> Iterable[Item]:
        """Every item of this drill for a tuning, in its own teaching order."""

    def facts(self, item: Item) -> Facts:
        """What is true of an item."""

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        """A question about the item: the point, the facts and the answers are fixed, the rest may vary."""

    def explain(self, item: Item, manner: Manner) -> Explanation:
        """The lesson that the item belongs to, drawn."""


class Catalogue(NamedTuple):
    """The items of one tuning.

    Attributes:
        tuning: which.
        items: in teaching order.
        by_id: the same, by id.
        drills: by name.
        stages: titles by number, of those that have items.
    """

    tuning: Tuning
    items: tuple[Item, ...]
    by_id: dict[str, Item]
    drills: dict[str, Drill]
    stages: dict[int, str]

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        """Have the item's drill ask it."""
        return self.drills[item.drill].ask(item, rng, manner)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        """Have the item's drill explain it."""
        return self.drills[item.drill].explain(item, manner)

    def facts(self, item: Item) -> Facts:
        """What is true of an item."""
        return self.drills[item.drill].facts(item)


DRILLS: Final[tuple[Drill, ...]] = (
    lines.LineToString(),
    lines.StringToLine(),
    lines.NeckToLine(),
    order.Order(),
    places.TabToPlace(),
    places.PlaceToTab(),
    mark_name.MarkName(),
    mark_hand.MarkHand(),
    name_to_mark.NameToMark(),
    mark_picked.MarkPicked(),
    mark_sounds.MarkSounds(),
    mark_wrong.MarkWrong(),
    bar_count.BarCount(),
    bar_beat.BarBeat(),
    bar_missing.BarMissing(),
    value_names.ValueName(),
    value_names.ValueFind(),
    value_lengths.ValueLength(),
    value_fill.ValueFill(),
    repeats.BarRepeat(),
    pick_ups.BarPickUp(),
    taps.ValueTap(),
    chord_diagrams.DiagramToTab(),
    chord_diagrams.TabToDiagram(),
    chord_strokes.ChordX(),
    chord_intervals.ChordInterval(),
    chord_notes.ChordTones(),
    chord_notes.ChordSounds(),
    chord_names.ChordName(),
    chord_diagrams.NameToDiagram(),
    chord_names.ChordUpper(),
    notes.FretToNote(),
    frets.NoteToFret(),
    same_pitch.SamePitch(),
    octaves.Octaves(),
    fingers.Fingers(),
    capo.Capo(),
)
"""Every drill, in the order in which they take turns within a stage."""


@cache
def catalogue(tuning: Tuning) -> Catalogue:
    """Every item of a tuning: stage by stage, and in a stage lesson by lesson in the order of the drills."""
    items = sorted((item for drill in DRILLS for item in drill.items(tuning)), key=lambda item: item.stage)
    found = {item.stage for item in items}
    return Catalogue(
        tuning,
        tuple(items),
        {item.id: item for item in items},
        {drill.name: drill for drill in DRILLS},
        {stage: title for stage, title in TITLES.items() if stage in found},
    )
