"""What a chord is called, and which chord some strings are a part of: by choice, where exactly one name fits."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, partial
from typing import Final

from drills.answers import Reader
from drills.kinds import chord_lessons, chord_pictures, pictures
from drills.kinds.chord_diagrams import drawn_first
from drills.kinds.chord_shapes import STAGES, by_text, classes, families, readings, taught
from drills.notation.chords import chord_tones
from drills.notation.drawing import Role
from drills.notation.pitch import Naming
from drills.notation.shape import Shape, parse_shape
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

NAMED: Final = ("first", "open", "power", "powers", "seventh", "sus", "slash", "triad", "barre", "rare")
LESSONS: Final = {"first": "name-shapes", "open": "name-shapes", "power": "name-power", "powers": "name-power"}
ALIKE: Final = {"first": ("first", "open"), "open": ("first", "open")} | dict.fromkeys(
    ("power", "powers"), ("power", "powers")
)
"""Families whose names are of one kind, as every other one is by itself. A name of another kind would stand out."""
EARLY: Final = {"first": Stage.FIRST_NOTES, "power": Stage.HALF_BEATS}
"""Families that are met as pictures before they have names."""
PARTS: Final = ("first", "open")
MOST_PARTS: Final = 8
CHOICES: Final = 4
UPPER: Final = 3
"""Strings of an upper part."""


class ChordName:
    """A column: what is the chord called?"""

    name = "chord-name"
    title = "Name of a chord"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for entry in families(tuning, *NAMED):
            lesson = LESSONS.get(entry.family, "name-more")
            yield Item(
                f"{self.name}/{tuning.name}/{entry.shape.text}", self.name, tuning, entry.shape.text, Kind.CHOICE,
                EARLY.get(entry.family, STAGES[entry.family]), f"The name of {entry.shape.text}",
                "name-hard" if entry.hard else lesson, drawn_first(entry, tuning), think=4.0,
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return chord_pictures.shape_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.names(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        shape = chord_pictures.shape_of(item)
        right = readings(shape, item.tuning)[0].name
        others = [
            name for pool in _other_names(item)
            for name in sorted(rng.sample(pool, len(pool)), key=lambda name: ("/" in name) != ("/" in right))
        ]  # fmt: skip
        options = _options(right, others, manner.naming, rng)
        wrong = partial(_wrong_name, item, manner)
        return _question(item, manner, shape, "Which chord is this?", right, options, wrong)


class ChordUpper:
    """The three upper strings of a chord: which chord has all of these notes?"""

    name = "chord-upper"
    title = "Parts of a chord"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        met: set[Shape] = set()
        for entry in families(tuning, *PARTS):
            part = entry.shape.only(range(1, UPPER + 1))
            whole = len(part.places) == UPPER < len(entry.shape.places)
            if len(met) < MOST_PARTS and whole and part not in met and _others_than(entry.shape, tuning):
                met.add(part)
                subject = f"{entry.shape.text}/{UPPER}"
                yield Item(
                    f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.CHOICE,
                    Stage.CHORDS, f"The upper strings of {entry.shape.text}", "upper",
                    (f"chord-name/{tuning.name}/{entry.shape.text}",), think=5.0,
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        whole, part = _parts(item)
        facts = chord_pictures.chord_facts(part, item.tuning)
        return {**facts, "part_of": [chord.name for chord in readings(whole, item.tuning)]}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return chord_lessons.upper(next(iter(self.items(item.tuning))), manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        whole, part = _parts(item)
        right = readings(whole, item.tuning)[0].name.partition("/")[0]
        others = _others_than(whole, item.tuning)
        # Chords that lack but one note first: others are seen through at once.
        tones = classes(part, item.tuning)
        near = sorted(rng.sample(others, len(others)), key=lambda name: len(tones - chord_tones(name)))
        options = _options(right, near, manner.naming, rng)
        return _question(
            item, manner, part, "Which of these chords has all of these notes?", right, options,
            partial(_wrong_part, item, manner, right),
        )  # fmt: skip


def read_choice(options: Sequence[Option]) -> Reader:
    """A choice whose texts are spelled as the learner spells notes: what is shown wins, then the answer in normal form,
    then the key."""

    def read(text: str) -> str | None:
        wanted = " ".join(text.split()).casefold()
        for part in ("text", "answer", "key"):
            for option in options:
                if getattr(option, part).casefold() == wanted:
                    return option.answer
        return None

    return read


def _parts(item: Item) -> tuple[Shape, Shape]:
    """The whole shape, and the strings of it that are asked about."""
    text, _, strings = item.subject.partition("/")
    whole = parse_shape(text)
    return whole, whole.only(range(1, int(strings) + 1))


def told_apart(texts: Iterable[str], say: Callable[[str, Naming], str]) -> list[str]:
    """The first few texts, without those that one naming writes as another writes an earlier one: German B is Bb."""
    kept: dict[str, str] = {}
    for text in texts:
        german = say(text, Naming.GERMAN)
        if text not in kept and german not in kept and text not in kept.values():
            kept[text] = german
        if len(kept) == CHOICES:
            break
    return list(kept)


def _options(right: str, others: Sequence[str], naming: Naming, rng: random.Random) -> tuple[Option, ...]:
    """The right name and the first three others, in random order."""
    names = told_apart([right, *others], chord_pictures.say_chord)
    rng.shuffle(names)
    return tuple(Option(str(n), chord_pictures.say_chord(name, naming), name) for n, name in enumerate(names, start=1))


@cache
def _plain_names(tuning: Tuning, *wanted: str) -> dict[str, frozenset[int]]:
    """The plainest name of every shape of some families (of all, where none is named), and its tones."""
    found: dict[str, frozenset[int]] = {}
    for entry in taught(tuning):
        if (not wanted or entry.family in wanted) and (chords := readings(entry.shape, tuning)):
            found.setdefault(chords[0].name, classes(entry.shape, tuning))
    return found


def _other_names(item: Item) -> list[list[str]]:
    """Names that do not fit and are no other way to say one that fits: those of the same kind that are taught by then,
    the others of that kind, and any."""
    shape, family = chord_pictures.shape_of(item), by_text(item.tuning)[item.subject].family
    kind = ALIKE.get(family, (family,))
    by_then = [each for each in kind if STAGES[each] <= item.stage]
    fitting = {chord.name for chord in readings(shape, item.tuning)}
    mine = classes(shape, item.tuning)
    pools = [_plain_names(item.tuning, *some) for some in (by_then, kind, ())]
    return [[name for name, tones in pool.items() if name not in fitting and tones != mine] for pool in pools]


def _others_than(whole: Shape, tuning: Tuning) -> list[str]:
    """Chords of the first shapes that lack a note of the upper part."""
    part = classes(whole.only(range(1, UPPER + 1)), tuning)
    names = (name.partition("/")[0] for name in _plain_names(tuning, *PARTS))
    found = [name for name in dict.fromkeys(names) if not part <= chord_tones(name)]
    return found if len(found) >= 3 else []


def _question(
    item: Item,
    manner: Manner,
    shape: Shape,
    prompt: str,
    right: str,
    options: tuple[Option, ...],
    wrong: partial[Feedback],
) -> Question:
    staff = partial(chord_pictures.stack, item.tuning, manner.dialect, [shape], ())
    return Question(
        item, prompt, Picture(staff(())), (right,), read_choice(options), wrong,
        helps=chord_pictures.helps_with(shape, item.tuning, manner, staff),
        options=options, choices=options, show=partial(_show, manner.naming),
    )  # fmt: skip


def _show(naming: Naming, answer: str) -> str:
    return chord_pictures.say_chord(answer, naming)


def _wrong_name(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, true = item.tuning, chord_pictures.shape_of(item)
    name = chord_pictures.say_chord(readings(true, tuning)[0].name, manner.naming)
    tones = ", ".join(chord_pictures.spelled_tones(true, tuning, manner.naming))
    why = f"The notes are {tones}: that is {name}"
    other = next((e.shape for e in taught(tuning) if (c := readings(e.shape, tuning)) and c[0].name == said), None)
    if other is not None:
        names = ", ".join(chord_pictures.spelled_tones(other, tuning, manner.naming))
        why += f"; {chord_pictures.say_chord(said, manner.naming)} has {names}"
    return Feedback(why + ".", chord_pictures.right_and_said(true, other, tuning, manner))


def _wrong_part(item: Item, manner: Manner, right: str, said: str) -> Feedback:
    tuning, (whole, part) = item.tuning, _parts(item)
    tones = ", ".join(chord_pictures.spelled_tones(part, tuning, manner.naming))
    why = f"{chord_pictures.say_chord(right, manner.naming)} has {tones}"
    try:
        missing = classes(part, tuning) - chord_tones(said)
    except ValueError:
        missing = frozenset()
    if missing:
        names = chord_pictures.tones_of(part, tuning)
        lacking = " and ".join(chord_pictures.say_chord(names[number], manner.naming) for number in sorted(missing))
        why += f"; {chord_pictures.say_chord(said, manner.naming)} lacks {lacking}"
    letters = pictures.line_letters(tuning, manner.naming)
    return Feedback(
        why + ".",
        Picture(
            chord_pictures.stack(tuning, manner.dialect, [part], [Role.TRUE], letters),
            pictures.neck_with(tuning, dict.fromkeys(part.places, Role.TRUE), manner.left_handed, letters),
            chord_pictures.one_box(whole, manner),
        ),
    )
