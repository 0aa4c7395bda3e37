"""The notes of a chord: which they are, and how they sound from low to high."""

from __future__ import annotations

import random
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from itertools import chain, zip_longest
from typing import Final

from drills import chord_misreadings
from drills.answers import Reader
from drills.kinds import chord_lessons, chord_pictures, pictures
from drills.kinds.chord_diagrams import drawn_first
from drills.kinds.chord_names import read_choice, told_apart
from drills.kinds.chord_shapes import Taught, families
from drills.notation.drawing import Role
from drills.notation.pitch import SHARP_NAMES, Naming, class_of, parse_note, spell
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

TONES: Final = ("first", "open")
HEARD: Final = {"first": Stage.CHORDS, "power": Stage.HALF_BEATS, "triad": Stage.NECK}
LONGEST: Final = 5
"""Strings whose sounds still make a row that is read at a glance; where there are few chords, all are asked."""
_LETTERS: Final = re.compile(r"[a-hA-H]#?")


class ChordTones:
    """A column: which notes are in it?"""

    name = "chord-tones"
    title = "Notes of a chord"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *TONES):
            title = f"The notes of {entry.shape.text}"
            yield _item(self.name, tuning, entry, Kind.SET, Stage.CHORDS, title, 6.0)

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.tones(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        shape = chord_pictures.shape_of(item)
        tones = chord_pictures.tones_of(shape, item.tuning)
        staff = partial(chord_pictures.stack, item.tuning, manner.dialect, [shape], ())
        return Question(
            item,
            "Which notes are in this chord?",
            Picture(staff(())),
            (chord_misreadings.tones_text(tones, tones),),
            tones_reader(tones, manner.naming),
            partial(_wrong_tones, item, manner),
            helps=chord_pictures.helps_with(shape, item.tuning, manner, staff),
            show=partial(_show, manner.naming),
            traps=chord_misreadings.of_tones(shape, item.tuning, tones),
        )


class ChordSounds:
    """A column: what is heard from the lowest note to the highest?"""

    name = "chord-sounds"
    title = "A chord from low to high"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        longest = LONGEST if families(tuning, "triad") else tuning.lines
        for entry in families(tuning, *HEARD):
            if 1 < len(entry.shape.places) <= longest:
                title = f"From low to high: {entry.shape.text}"
                yield _item(self.name, tuning, entry, Kind.CHOICE, HEARD[entry.family], title, 5.0)

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.heard(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        shape = chord_pictures.shape_of(item)
        say = partial(_heard, chord_pictures.tones_of(shape, item.tuning))
        right = say(shape.pitches(item.tuning))
        traps = chord_misreadings.of_heard(shape, item.tuning, say)
        options = _rows(right, [sorted(wrong) for wrong in traps.values()], manner.naming, rng)
        staff = partial(chord_pictures.stack, item.tuning, manner.dialect, [shape], ())
        return Question(
            item,
            "Which row of notes sounds here, from low to high?",
            Picture(staff(())),
            (right,),
            read_choice(options),
            partial(_wrong_heard, item, manner),
            helps=chord_pictures.helps_with(shape, item.tuning, manner, staff),
            options=options,
            choices=options,
            show=partial(_show, manner.naming),
            traps=traps,
        )


def tones_reader(tones: dict[int, str], naming: Naming) -> Reader:
    """Note names in any order, with blanks or commas, or plain letters run together (``ceg``, where b is B)."""

    def read(text: str) -> str | None:
        parts = text.replace(",", " ").split()
        if len(parts) == 1 and parse_note(parts[0], naming) is None and naming is not Naming.SOLFEGE:
            parts = _LETTERS.findall(parts[0]) if _LETTERS.sub("", parts[0]) == "" else parts
        names = [parse_note(part, naming) for part in parts]
        if not names or None in names:
            return None
        return chord_misreadings.tones_text([class_of(name) for name in names if name], tones)

    return read


def _item(
    drill: str, tuning: Tuning, entry: Taught, kind: Kind, stage: Stage, title: str, think: float
) -> Item:
    return Item(
        f"{drill}/{tuning.name}/{entry.shape.text}", drill, tuning, entry.shape.text, kind, stage, title,
        drill, drawn_first(entry, tuning), think=think,
    )  # fmt: skip


def _heard(tones: Mapping[int, str], pitches: Iterable[int]) -> str:
    return " ".join(tones.get(pitch % 12, SHARP_NAMES[pitch % 12]) for pitch in pitches)


def _rows(right: str, wrong: list[list[str]], naming: Naming, rng: random.Random) -> tuple[Option, ...]:
    """The right row and three wrong ones, of different misreadings as far as they go."""
    kinds = [rng.sample(rows, len(rows)) for rows in wrong]
    rng.shuffle(kinds)
    mixed = (row for rows in zip_longest(*kinds) for row in rows if row is not None)
    found = told_apart(chain([right], mixed), _in_naming)
    rng.shuffle(found)
    return tuple(Option(str(n), _show(naming, row), row) for n, row in enumerate(found, start=1))


def _show(naming: Naming, answer: str) -> str:
    return " ".join(spell(part, naming) if parse_note(part) == part else part for part in answer.split())


def _in_naming(answer: str, naming: Naming) -> str:
    return _show(naming, answer)


def _picture(item: Item, manner: Manner) -> Picture:
    shape, letters = chord_pictures.shape_of(item), pictures.line_letters(item.tuning, manner.naming)
    places = dict.fromkeys(shape.places, Role.TRUE)
    return Picture(
        chord_pictures.stack(item.tuning, manner.dialect, [shape], [Role.TRUE], letters),
        pictures.neck_with(item.tuning, places, manner.left_handed, letters),
    )


def _by_string(item: Item, manner: Manner, *, by_pitch: bool = False) -> str:
    """What each string of the column sounds, from the bottom line or from the lowest note up: ``string 5 C``."""
    shape, tuning = chord_pictures.shape_of(item), item.tuning
    places = sorted(shape.places, key=lambda at: tuning.sound(*at).midi) if by_pitch else shape.places
    tones = chord_pictures.tones_of(shape, tuning)
    return ", ".join(
        f"string {string} {spell(tones[tuning.sound(string, fret).pitch_class], manner.naming)}"
        for string, fret in places
    )


def _wrong_tones(item: Item, manner: Manner, said: str) -> Feedback:
    tones = chord_pictures.tones_of(chord_pictures.shape_of(item), item.tuning)
    why = f"From the bottom line up: {_by_string(item, manner)}"
    given = {name for name in said.split() if parse_note(name) == name}
    more = [spell(name, manner.naming) for name in said.split() if name in given and class_of(name) not in tones]
    if more:
        why += f"; {' and '.join(more[:2])} {'is' if len(more) == 1 else 'are'} not among them"
    return Feedback(why + ".", _picture(item, manner))


def _wrong_heard(item: Item, manner: Manner, said: str) -> Feedback:
    return Feedback(f"From low to high: {_by_string(item, manner, by_pitch=True)}.", _picture(item, manner))
