"""Chord diagrams and tab, both ways; and the diagram of a name."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from typing import Final

from drills import answers, chord_misreadings
from drills.kinds import chord_lessons, chord_pictures, helps
from drills.kinds.chord_shapes import STAGES, Taught, by_text, classes, families, first_of, readings, taught
from drills.notation.shape import Shape
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

PICTURED: Final = ("first", "open", "power", "slash")
BACK: Final = ("first", "open", "power")
NAMED: Final = ("first", "open", "seventh")
BARRES: Final = 4
"""Barre shapes that are asked about; the others look like them, further up."""
EARLY: Final = 3
"""Diagrams that are met as soon as columns are read: right after lines, places and order."""


def pictured(tuning: Tuning) -> list[Taught]:
    """The shapes whose diagrams are read: enough to learn how, not all that have a name."""
    return families(tuning, *PICTURED) + first_of(tuning, "barre", BARRES)


def drawn_first(entry: Taught, tuning: Tuning) -> tuple[str, ...]:
    """The id of the item that draws a shape for the first time, if there is one."""
    asked = entry.family in PICTURED or entry in first_of(tuning, "barre", BARRES)
    return (f"diagram-to-tab/{tuning.name}/{entry.shape.text}",) if asked else ()


class DiagramToTab:
    """A chord diagram: which of these columns is it?"""

    name = "diagram-to-tab"
    title = "Diagram to tab"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for n, entry in enumerate(pictured(tuning)):
            stage = Stage.BARS if n < EARLY else STAGES[entry.family]
            places = [(string, fret) for string, fret in entry.shape.places if 0 < fret < 5]
            needs = [f"tab-to-place/{tuning.name}/{string}/{fret}" for string, fret in places[:2]]
            title = f"Diagram {entry.shape.text} as tab"
            yield _item(self.name, tuning, entry, stage, title, (f"order/{tuning.name}/set-1.3", *needs))

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.diagrams(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        entry, options = _offered(item, rng)
        shapes = [chord_pictures.shape_of(item._replace(subject=option.answer)) for option in options]
        keys = [(option.key, option.answer) for option in options]

        def draw(labels: helps.Labels) -> Picture:
            view = chord_pictures.stack(item.tuning, manner.dialect, shapes, labels=labels, keys=keys)
            return Picture(view, diagram=chord_pictures.one_box(entry.shape, manner, labels=labels))

        return _question(item, manner, options, "Which of these columns is the chord in the diagram?", draw)


class TabToDiagram:
    """A column of tab: which of these diagrams is it?"""

    name = "tab-to-diagram"
    title = "Tab to diagram"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *BACK):
            stage = Stage.HALF_BEATS if entry.family == "power" else STAGES[entry.family]
            title = f"Tab {entry.shape.text} as a diagram"
            yield _item(self.name, tuning, entry, stage, title, drawn_first(entry, tuning))._replace(lesson="back")

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.back(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        entry, options = _offered(item, rng)

        def draw(labels: helps.Labels) -> Picture:
            staff = chord_pictures.stack(item.tuning, manner.dialect, [entry.shape], labels=labels)
            return Picture(staff, diagram=chord_pictures.keyed_boxes(options, manner, labels))

        return _question(item, manner, options, "Which of these diagrams is the chord on the staff?", draw)


class NameToDiagram:
    """A chord's name: which of these diagrams is it?"""

    name = "name-to-diagram"
    title = "Name to diagram"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *NAMED) + first_of(tuning, "barre", BARRES):
            stage = Stage.HALF_BEATS if entry.family == "first" else STAGES[entry.family]
            yield _item(
                self.name, tuning, entry, stage, f"The diagram of {entry.shape.text} by its name",
                (f"chord-name/{tuning.name}/{entry.shape.text}",),
            )._replace(lesson="find")  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.find(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        entry = by_text(item.tuning)[item.subject]
        others = _other_chords(entry, item.tuning, rng)
        options = chord_pictures.shape_options([entry.shape, *others[: len(chord_pictures.KEYS) - 1]], rng)
        name = chord_pictures.say_chord(readings(entry.shape, item.tuning)[0].name, manner.naming)

        def draw(labels: helps.Labels) -> Picture:
            return Picture(diagram=chord_pictures.keyed_boxes(options, manner, labels))

        return _question(item, manner, options, f"Which of these diagrams is {name}?", draw)


def _other_chords(entry: Taught, tuning: Tuning, rng: random.Random) -> list[Shape]:
    """Shapes of other chords in random order, those that are taught by then first, and of these one on the same root.

    None of them holds all tones of this one, nor the other way round, so that none could be meant by its name.
    """
    mine, root = classes(entry.shape, tuning), readings(entry.shape, tuning)[0].root
    found = []
    for other in taught(tuning):
        tones = classes(other.shape, tuning)
        near = other.family in (*NAMED, "barre")
        near = near and max(other.shape.pressed, default=0) - max(entry.shape.pressed, default=0) < 4
        if near and not tones >= mine and not tones <= mine:
            found.append(other)
    rng.shuffle(found)
    found.sort(key=lambda other: STAGES[other.family] > STAGES[entry.family])
    alike = next((n for n, other in enumerate(found) if readings(other.shape, tuning)[0].root == root), 0)
    if found and STAGES[found[alike].family] <= STAGES[entry.family]:
        found.insert(0, found.pop(alike))
    return [other.shape for other in found]


def _item(
    drill: str, tuning: Tuning, entry: Taught, stage: Stage, title: str, needs: tuple[str, ...]
) -> Item:
    return Item(
        f"{drill}/{tuning.name}/{entry.shape.text}", drill, tuning, entry.shape.text, Kind.CHOICE, stage, title,
        "hard" if entry.hard else "power" if entry.family == "power" else "shapes", needs, think=4.0,
    )  # fmt: skip


def _offered(item: Item, rng: random.Random) -> tuple[Taught, tuple[Option, ...]]:
    entry = by_text(item.tuning)[item.subject]
    near = chord_pictures.near_shapes(entry, item.tuning, rng)
    return entry, chord_pictures.shape_options([entry.shape, *near], rng)


def _question(
    item: Item, manner: Manner, options: tuple[Option, ...], prompt: str, draw: helps.Labelled[Picture]
) -> Question:
    return Question(
        item, prompt, draw(()), (item.subject,), answers.choice(options), partial(_wrong, item, manner),
        helps=helps.numbers(draw, item.tuning, item.tuning.lines), options=options, choices=options,
        traps=chord_misreadings.of_shape(chord_pictures.shape_of(item)),
    )  # fmt: skip


def _wrong(item: Item, manner: Manner, said: str) -> Feedback:
    true, other = chord_pictures.shape_of(item), chord_pictures.said_shape(said, item.tuning.lines)
    picture = chord_pictures.right_and_said(true, other, item.tuning, manner)
    if item.drill == NameToDiagram.name:
        why = _spelled_out(true, item.tuning, manner, "has the notes")
        if other is not None and readings(other, item.tuning):
            why += f"; your diagram is {_spelled_out(other, item.tuning, manner, 'with the notes')}"
        return Feedback(why + ".", picture)
    different = None if other is None else next(chord_pictures.differences(true, other), None)
    if other is None or different is None:
        side = "right" if manner.left_handed else "left"
        return Feedback(f"The bottom line of the staff is the string at the {side} of a diagram.", picture)
    asked, given = ("In the diagram", "column") if item.drill == DiagramToTab.name else ("On the staff", "diagram")
    why = f"{asked} string {different} is {_held(true, different)}; in your {given} it is {_held(other, different)}."
    return Feedback(why, picture)


def _spelled_out(shape: Shape, tuning: Tuning, manner: Manner, verb: str) -> str:
    """A shape by its name and its notes."""
    name = chord_pictures.say_chord(readings(shape, tuning)[0].name, manner.naming)
    return f"{name} {verb} {', '.join(chord_pictures.spelled_tones(shape, tuning, manner.naming))}"


def _held(shape: Shape, string: int) -> str:
    fret = shape.on(string)
    if fret is None:
        return "not played"
    return f"at fret {fret}" if fret else "open"
