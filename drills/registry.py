"""Every drill by name, imported when it is first asked for."""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping
from importlib import import_module
from typing import Final, Protocol, runtime_checkable

from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Item, Manner, Question


@runtime_checkable
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


WHERE: Final = {
    "line-to-string": "lines.LineToString",
    "string-to-line": "lines.StringToLine",
    "neck-to-line": "lines.NeckToLine",
    "order": "order.Order",
    "tab-to-place": "places.TabToPlace",
    "place-to-tab": "places.PlaceToTab",
    "mark-name": "marks.mark_name.MarkName",
    "mark-hand": "marks.mark_hand.MarkHand",
    "name-to-mark": "marks.name_to_mark.NameToMark",
    "mark-picked": "marks.mark_picked.MarkPicked",
    "mark-sounds": "marks.mark_sounds.MarkSounds",
    "mark-wrong": "marks.mark_wrong.MarkWrong",
    "bar-count": "rhythm.bar_count.BarCount",
    "bar-beat": "rhythm.bar_beat.BarBeat",
    "bar-missing": "rhythm.bar_missing.BarMissing",
    "value-name": "rhythm.value_names.ValueName",
    "value-find": "rhythm.value_names.ValueFind",
    "value-length": "rhythm.value_lengths.ValueLength",
    "value-fill": "rhythm.value_fill.ValueFill",
    "bar-repeat": "rhythm.repeats.BarRepeat",
    "bar-pick-up": "rhythm.pick_ups.BarPickUp",
    "value-tap": "rhythm.taps.ValueTap",
    "diagram-to-tab": "chord_diagrams.DiagramToTab",
    "tab-to-diagram": "chord_diagrams.TabToDiagram",
    "chord-x": "chord_strokes.ChordX",
    "chord-interval": "chord_intervals.ChordInterval",
    "chord-tones": "chord_notes.ChordTones",
    "chord-sounds": "chord_notes.ChordSounds",
    "chord-name": "chord_names.ChordName",
    "name-to-diagram": "chord_diagrams.NameToDiagram",
    "chord-upper": "chord_names.ChordUpper",
    "chord-symbol": "chord_symbols.ChordSymbol",
    "fret-to-note": "notes.FretToNote",
    "note-to-fret": "frets.NoteToFret",
    "same-pitch": "same_pitch.SamePitch",
    "octave": "octaves.Octaves",
    "finger": "fingers.Fingers",
    "capo": "capo.Capo",
}
"""Name -> module and class below ``drills.kinds``, in the order in which drills take turns within a stage."""


class Drills(Mapping[str, Drill]):
    """The drills by name. Their modules are a third of all that would be imported before the first question."""

    def __init__(self) -> None:
        self._met: dict[str, Drill] = {}

    def __getitem__(self, name: str) -> Drill:
        if name not in self._met:
            module, _, drill = WHERE[name].rpartition(".")
            self._met[name] = getattr(import_module(f"drills.kinds.{module}"), drill)()
        return self._met[name]

    def __iter__(self) -> Iterator[str]:
        return iter(WHERE)

    def __len__(self) -> int:
        return len(WHERE)


DRILLS: Final = Drills()
