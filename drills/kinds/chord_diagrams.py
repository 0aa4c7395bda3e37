"""Chord diagrams and tab, both ways; and the diagram of a name."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial

from drills import answers, chord_misreadings
from drills.kinds import chord_lessons, chord_pictures, pictures
from drills.kinds.chord_shapes import STAGES, Taught, by_text, classes, families, readings, taught
from drills.notation.shape import Shape
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

PICTURED = ("first", "open", "power", "powers", "seventh", "sus", "slash", "barre", "rare")
BACK = ("first", "open", "power", "slash", "barre")
NAMED = ("first", "open", "seventh", "sus", "barre")


def picture_stage(entry: Taught) -> Stage:
    """A shape as a picture comes with the first stacks, before chords have names."""
    return Stage.STACKS if entry.family == "first" else STAGES[entry.family]


def drawn_first(entry: Taught, tuning: Tuning) -> str:
    """The id of the item that draws a shape for the first time."""
    return f"diagram-to-tab/{tuning.name}/{entry.shape.text}"


class DiagramToTab:
    """A chord diagram: which of these columns is it?"""

    name = "diagram-to-tab"
    title = "Diagram to tab"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *PICTURED):
            places = [(string, fret) for string, fret in entry.shape.places if 0 < fret < 5]
            yield _item(
                self.name, tuning, entry, picture_stage(entry), f"Diagram {entry.shape.text} as tab",
                tuple(f"tab-to-place/{tuning.name}/{string}/{fret}" for string, fret in places[:2]),
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.diagrams(item, manner, "Press the letter under the column that is the diagram.")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        entry, options = _offered(item, rng)
        shapes = [chord_pictures.shape_of(item._replace(subject=option.answer)) for option in options]
        keys = [(option.key, option.answer) for option in options]
        view = chord_pictures.stack(item.tuning, manner.dialect, shapes, keys=keys)
        numbers = pictures.line_numbers(item.tuning)
        helped = chord_pictures.stack(item.tuning, manner.dialect, shapes, labels=numbers, keys=keys)
        return _question(
            item, manner, options, "Which of these columns is the chord in the diagram?",
            Picture(view, diagram=chord_pictures.one_box(entry.shape, manner)),
            Picture(helped, diagram=chord_pictures.one_box(entry.shape, manner, labels=numbers)),
        )  # fmt: skip


class TabToDiagram:
    """A column of tab: which of these diagrams is it?"""

    name = "tab-to-diagram"
    title = "Tab to diagram"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *BACK):
            yield _item(
                self.name, tuning, entry, picture_stage(entry), f"Tab {entry.shape.text} as a diagram",
                (drawn_first(entry, tuning),),
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.diagrams(item, manner, "Press the letter under the diagram that is the column.")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        entry, options = _offered(item, rng)
        numbers = pictures.line_numbers(item.tuning)
        staff = partial(chord_pictures.stack, item.tuning, manner.dialect, [entry.shape])
        return _question(
            item, manner, options, "Which of these diagrams is the chord on the staff?",
            Picture(staff(), diagram=chord_pictures.keyed_boxes(options, manner)),
            Picture(staff(labels=numbers), diagram=chord_pictures.keyed_boxes(options, manner, numbers)),
        )  # fmt: skip


class NameToDiagram:
    """A chord's name: which of these diagrams is it?"""

    name = "name-to-diagram"
    title = "Name to diagram"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *NAMED):
            yield _item(
                self.name, tuning, entry, STAGES[entry.family], f"The diagram of {entry.shape.text} by its name",
                (f"chord-name/{tuning.name}/{entry.shape.text}",),
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.names(item, manner, "Press the letter under the diagram that has the name.")

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        entry = by_text(item.tuning)[item.subject]
        others = _other_chords(entry, item.tuning)
        rng.shuffle(others)
        options = chord_pictures.shape_options([entry.shape, *others[: len(chord_pictures.KEYS) - 1]], rng)
        name = chord_pictures.say_chord(readings(entry.shape, item.tuning)[0].name, manner.naming)
        boxes = partial(chord_pictures.keyed_boxes, options, manner)
        return _question(
            item, manner, options, f"Which of these diagrams is {name}?", Picture(diagram=boxes()),
            Picture(diagram=boxes(pictures.line_numbers(item.tuning))),
        )  # fmt: skip


def _other_chords(entry: Taught, tuning: Tuning) -> list[Shape]:
    """Shapes of other chords: none of them holds all tones of this one, nor the other way round, so that none could be
    meant by its name."""
    mine = classes(entry.shape, tuning)
    found = []
    for other in taught(tuning):
        tones = classes(other.shape, tuning)
        near = other.family in NAMED and max(other.shape.pressed, default=0) - max(entry.shape.pressed, default=0) < 4
        if near and not tones >= mine and not tones <= mine:
            found.append(other.shape)
    return found


def _item(
    drill: str, tuning: Tuning, entry: Taught, stage: Stage, title: str, needs: tuple[str, ...]
) -> Item:
    return Item(
        f"{drill}/{tuning.name}/{entry.shape.text}", drill, tuning, entry.shape.text, Kind.CHOICE, stage, title,
        "hard" if entry.hard else "power" if entry.family in ("power", "powers") else "shapes", needs, think=4.0,
    )  # fmt: skip


def _offered(item: Item, rng: random.Random) -> tuple[Taught, tuple[Option, ...]]:
    entry = by_text(item.tuning)[item.subject]
    near = chord_pictures.near_shapes(entry, item.tuning, rng)
    return entry, chord_pictures.shape_options([entry.shape, *near], rng)


def _question(
    item: Item, manner: Manner, options: tuple[Option, ...], prompt: str, picture: Picture, helped: Picture
) -> Question:
    return Question(
        item, prompt, picture, (item.subject,), answers.choice(options), partial(_wrong, item, manner),
        helped=helped, help=("numbers",), options=options, choices=options,
        traps=chord_misreadings.of_shape(chord_pictures.shape_of(item)),
    )  # fmt: skip


def _wrong(item: Item, manner: Manner, said: str) -> Feedback:
    true, other = chord_pictures.shape_of(item), chord_pictures.said_shape(said, item.tuning.lines)
    picture = chord_pictures.right_and_said(true, other, item.tuning, manner)
    if item.drill == NameToDiagram.name:
        why = f"{_said_name(true, item.tuning, manner)} is {true.text}"
        if other is not None and readings(other, item.tuning):
            why += f"; {other.text} is {_said_name(other, item.tuning, manner)}"
        return Feedback(why + ".", picture)
    different = None if other is None else next(chord_pictures.differences(true, other), None)
    if other is None or different is None:
        side = "right" if manner.left_handed else "left"
        return Feedback(f"The bottom line of the staff is the string at the {side} of a diagram.", picture)
    return Feedback(f"String {different} is {_held(true, different)} there, not {_held(other, different)}.", picture)


def _said_name(shape: Shape, tuning: Tuning, manner: Manner) -> str:
    return chord_pictures.say_chord(readings(shape, tuning)[0].name, manner.naming)


def _held(shape: Shape, string: int) -> str:
    fret = shape.on(string)
    if fret is None:
        return "not played"
    return f"held at fret {fret}" if fret else "open"
