"""A chord's name from memory: nothing is offered, the name is typed, and every name that fits is right."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from typing import Final

from drills import chord_answers, chord_misreadings
from drills.kinds import chord_pictures, helps
from drills.kinds.chord_lessons import sample
from drills.kinds.chord_shapes import Taught, classes, families, first_of, readings, taught
from drills.kinds.wording import capital
from drills.notation.chords import spelled
from drills.notation.pitch import FLAT_NAMES, SHARP_NAMES, Naming, spell
from drills.notation.shape import Shape
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Picture, Question
from drills.stages import Stage

COLUMNS: Final = ("first", "open")
"""Families that are named from a column of the staff."""
MOST_COLUMNS: Final = 15
BOXES: Final = {"seventh": 7, "sus": 3, "slash": 3}
"""Families with longer names, and how many of each: they are named from a diagram, once names are known."""
KEYS: Final = {Stage.NECK: 3, Stage.RARE_SIGNS: 5}
"""Keys that a name of a stage may take; the same for all of them, so that the time that is allowed tells nothing."""


class ChordSymbol:
    """A column or a diagram: what is the chord called?"""

    name = "chord-symbol"
    title = "Name of a chord, typed"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *COLUMNS)[:MOST_COLUMNS]:
            yield _item(self.name, tuning, entry, Stage.NECK, "column")
        for family, count in BOXES.items():
            for entry in first_of(tuning, family, count):
                yield _item(self.name, tuning, entry, Stage.RARE_SIGNS, "box")

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        entry = sample(item.tuning, *(BOXES if item.lesson == "box" else COLUMNS))
        title, words = (_boxes if item.lesson == "box" else _columns)(item.tuning, manner.naming)
        return Explanation(title, words, chord_pictures.with_chord(entry.shape, item.tuning, manner, entry.fingers))

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, shape = item.tuning, chord_pictures.shape_of(item)
        names = tuple(chord.name for chord in readings(shape, tuning))
        staff = partial(chord_pictures.stack, tuning, manner.dialect, [shape], ())
        box = partial(_box, shape, manner)
        by_box, counted = item.lesson == "box", chord_pictures.counted_from(shape)
        return Question(
            item,
            "What is this chord called?",
            box(()) if by_box else Picture(staff(())),
            names,
            chord_answers.chord(names, manner.naming, flats=tuning.flats),
            partial(_wrong, item, manner),
            helps=(
                helps.letters(box, tuning, manner.naming, counted[0], counted)
                if by_box and counted
                else () if by_box else chord_pictures.helps_with(shape, tuning, manner, staff)
            ),
            show=partial(_show, manner.naming),
            traps=chord_misreadings.of_name(shape, tuning, names),
            note_right=partial(_seldom, item, manner.naming),
        )


def _box(shape: Shape, manner: Manner, labels: helps.Labels) -> Picture:
    return Picture(diagram=chord_pictures.one_box(shape, manner, labels=labels))


def _item(drill: str, tuning: Tuning, entry: Taught, stage: Stage, lesson: str) -> Item:
    """After the same shape's name was chosen from a few."""
    text = entry.shape.text
    notes = len(entry.shape.places)
    think = 1.2 + 0.35 * (KEYS[stage] - 1) + 0.5 * (notes - 1)
    return Item(
        f"{drill}/{tuning.name}/{text}", drill, tuning, text, Kind.CHORD, stage, f"{text} by its name, typed",
        lesson, (f"chord-name/{tuning.name}/{text}",), think=round(think, 2),
    )  # fmt: skip


def _columns(tuning: Tuning, naming: Naming) -> tuple[str, tuple[str, ...]]:
    def say(name: str) -> str:
        return chord_pictures.say_chord(name, naming)

    return "Chord names from memory", (
        "Now no names are offered. Look at the column, say what it is called, type the name, then Enter.",
        f"Type # for a sharp and b for a flat. A small m is minor, a capital M is major: {say('Am')}, {say('CM7')}. "
        f"Other ways to write a chord are read too, such as {say('Amin')} or {say('A-')} for {say('Am')}.",
        "Where one set of notes has several names, each that fits is right.",
    )


def _boxes(tuning: Tuning, naming: Naming) -> tuple[str, tuple[str, ...]]:
    def say(name: str) -> str:
        return chord_pictures.say_chord(name, naming)

    words: tuple[str, ...] = (
        "These are shapes as song books print them, with more in their names than a letter and an m.",
        f"What follows the letter says which notes there are: {say('C7')} and {say('Cmaj7')} differ by a semitone, "
        f"and {say('Csus')} is short for {say('Csus4')}.",
    )
    if tuning.gauge_ordered:
        words += (f"Where the lowest note is not the root, it stands after a slash: {say('D/F#')}.",)
    return "Longer names, from a diagram", (*words, "Type the name, then Enter.")


def _show(naming: Naming, answer: str) -> str:
    return chord_pictures.say_chord(answer, naming)


def _seldom(item: Item, naming: Naming, typed: str) -> str | None:
    """A word on a right name that is not written so: its root by the other spelling, or its bass left out."""
    tuning = item.tuning
    found = chord_answers.parse_symbol(typed, naming)
    if found is None:
        return None
    usual = found.shown(flats=tuning.flats)
    fitting = [chord.name for chord in readings(chord_pictures.shape_of(item), tuning)]
    if usual not in fitting:
        whole, low = chord_pictures.say_chord(fitting[0], naming), fitting[0].rpartition("/")[2]
        return f"The lowest note is {spell(low, naming)}, so the whole name is {whole}."
    root = _root(usual)
    if root != found.typed:
        shown = chord_pictures.say_chord(usual, naming)
        mine = capital(spell(found.typed, naming)) + shown.removeprefix(chord_pictures.say_chord(root, naming))
        return f"{mine} sounds the same as {shown}, its usual name here."
    return None


def _root(name: str) -> str:
    found = chord_answers.parse_symbol(name)
    return name if found is None else found.typed


def _wrong(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, true, naming = item.tuning, chord_pictures.shape_of(item), manner.naming
    name = chord_pictures.say_chord(readings(true, tuning)[0].name, naming)
    tones = ", ".join(chord_pictures.spelled_tones(true, tuning, naming))
    why = f"The notes are {tones}: that is {name}"
    found = chord_answers.parse_symbol(said)
    if found is not None and found.tones == classes(true, tuning):
        low = chord_pictures.heard_names(true.pitches(tuning)[:1], true, tuning)[0]
        why = (
            f"{chord_pictures.say_chord(said, naming)} has these notes too, but the lowest one here is "
            f"{spell(low, naming)}: that is {name}"
        )
    elif found is not None:
        why += f"; {chord_pictures.say_chord(said, naming)} has {', '.join(_tones(found, tuning, naming))}"
    other = next((e.shape for e in taught(tuning) if (c := readings(e.shape, tuning)) and c[0].name == said), None)
    return Feedback(why + ".", chord_pictures.right_and_said(true, other, tuning, manner))


def _tones(found: chord_answers.Symbol, tuning: Tuning, naming: Naming) -> list[str]:
    """The notes of a name that does not fit, its root first; double sharps and flats give way to everyday names."""
    tones = spelled(found.root, found.quality, tuning.flats)
    flat = any("b" in name for name in tones.values())
    numbers = [*tones, *([found.bass] if found.bass is not None and found.bass not in tones else [])]
    return [spell((FLAT_NAMES if flat else SHARP_NAMES)[number], naming) for number in numbers]
