"""Double stops: how far apart two notes are."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import cache, partial
from typing import Final

from drills import answers, chord_misreadings
from drills.kinds import chord_lessons, chord_pictures, helps, pictures
from drills.kinds.chord_search import has_short_string, playable
from drills.kinds.wording import capital
from drills.notation.chords import interval_name, interval_spelled
from drills.notation.drawing import Role
from drills.notation.pitch import spell
from drills.notation.shape import Shape
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

WANTED: Final = ((Stage.CHORDS, (7, 5, 4, 3, 12, 4, 3)), (Stage.NECK, (9, 8, 5, 12, 6, 10, 9, 2)))
"""Stage and distances in semitones; each is looked for on the next pair of strings, a little further up."""
HIGHEST: Final = 9
WIDEST: Final = 4
"""Frets between the two fingers at most."""


class ChordInterval:
    """Two notes struck together: how far apart are they?"""

    name = "chord-interval"
    title = "Double stops"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for stage, shape in _double_stops(tuning):
            needs = tuple(f"line-to-string/{tuning.name}/{string}" for string, _ in shape.places)
            yield Item(
                f"{self.name}/{tuning.name}/{shape.text}", self.name, tuning, shape.text, Kind.CHOICE, stage,
                f"Two notes: {shape.text}", "distance", needs, think=4.0,
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        semitones = _semitones(item)
        return {**chord_pictures.shape_facts(item), "semitones": semitones, "interval": interval_name(semitones)}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.distances(item, manner, _double_stops(item.tuning)[0][1])

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        shape, semitones = chord_pictures.shape_of(item), _semitones(item)
        traps = chord_misreadings.of_distance(shape, item.tuning, _named)
        likely = sorted({name for wrong in traps.values() for name in wrong})
        rng.shuffle(likely)
        usual = [interval_name(n) for n in (3, 4, 5, 7, 12) if n != semitones]
        names = list(dict.fromkeys([interval_name(semitones), *likely[:2], *rng.sample(usual, len(usual))]))[:4]
        rng.shuffle(names)
        options = tuple(Option(str(n), name, name) for n, name in enumerate(names, start=1))
        staff = partial(chord_pictures.stack, item.tuning, manner.dialect, [shape], ())
        dots = dict.fromkeys(shape.places, Role.FRET)
        neck = partial(pictures.neck_with, item.tuning, dots, manner.left_handed)
        return Question(
            item, "How far apart are these two notes?", Picture(staff(())), (interval_name(semitones),),
            answers.choice(options), partial(_wrong, item, manner),
            helps=helps.neck_then_letters(staff, neck, item.tuning, manner.naming),
            options=options, choices=options, traps=traps,
        )  # fmt: skip


@cache
def _double_stops(tuning: Tuning) -> tuple[tuple[Stage, Shape], ...]:
    """Stage and shape of every double stop, low on the neck, none twice: up to a fifth on neighbouring strings, further
    apart with a string between, as hands play them."""
    found: dict[Shape, Stage] = {}
    lowest = tuning.lines - has_short_string(tuning)
    for n, (stage, semitones) in enumerate((stage, each) for stage, some in WANTED for each in some):
        between = 1 if semitones <= 7 else 2
        string = 1 + between + n % (lowest - between)
        shape = _find(tuning, (string, string - between), semitones, range(n % 4, HIGHEST + 1))
        if shape is not None:
            found.setdefault(shape, stage)
    return tuple((stage, shape) for shape, stage in found.items())


def _find(tuning: Tuning, strings: tuple[int, int], semitones: int, frets: range) -> Shape | None:
    """Two notes that far apart on two strings, within reach of one hand."""
    low, high = strings
    apart = tuning.open(high).midi - tuning.open(low).midi
    for fret in frets:
        for other in (fret + semitones - apart, fret - semitones - apart):
            places = {low: fret, high: other}
            if 0 <= other <= HIGHEST + 3 and abs(fret - other) <= WIDEST:
                shape = Shape(tuple(places.get(n) for n in range(tuning.lines, 0, -1)))
                if playable(shape, tuning):
                    return shape
    return None


def _semitones(item: Item) -> int:
    low, high = chord_pictures.shape_of(item).pitches(item.tuning)
    return high - low


def _named(semitones: int) -> str | None:
    return interval_name(semitones) if 1 <= semitones <= 12 else None


def _one(name: str) -> str:
    """With its article."""
    return f"{'an' if name == 'octave' else 'a'} {name}"


def _wrong(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, shape, semitones = item.tuning, chord_pictures.shape_of(item), _semitones(item)
    low, high = (spell(name, manner.naming) for name in interval_spelled(shape.pitches(tuning)[0], semitones))
    frets = "1 semitone" if semitones == 1 else f"{semitones} semitones"
    why = f"from {low} up to {high} is {frets}, and that is called {_one(interval_name(semitones))}"
    other = next((n for n in range(1, 13) if interval_name(n) == said), None)
    if other is not None:
        why += f"; {_one(said)} would be {other}"
    letters = pictures.line_letters(tuning, manner.naming)
    places = dict.fromkeys(shape.places, Role.TRUE)
    return Feedback(
        capital(why) + ".",
        Picture(
            chord_pictures.stack(tuning, manner.dialect, [shape], [Role.TRUE], letters),
            pictures.neck_with(tuning, places, manner.left_handed, letters),
        ),
    )
