"""What several drills of chords draw and offer: stacks on a staff, diagrams beside each other, near shapes."""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import chain, zip_longest
from typing import Final

from drills.chord_misreadings import variants
from drills.kinds import helps, pictures
from drills.kinds.chord_shapes import Taught, readings, taught
from drills.kinds.wording import capital
from drills.notation.chords import tone_names
from drills.notation.diagram import ROWS, Box, DiagramView
from drills.notation.drawing import Role
from drills.notation.neck import NeckView
from drills.notation.pitch import FLAT_NAMES, SHARP_NAMES, Naming, spell
from drills.notation.score import At, Bar, Note, Piece
from drills.notation.shape import Shape, parse_shape
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import Facts, Help, Item, Manner, Option, Picture

KEYS: Final = "abcd"
"""Keys of the shapes that are offered: letters, as shapes are written with digits."""


def shape_of(item: Item) -> Shape:
    """The shape of an item whose subject is one."""
    return parse_shape(item.subject)


def chord_facts(shape: Shape, tuning: Tuning) -> dict[str, object]:
    """What sounds, what it is called, and what is held."""
    return {
        "pitches": list(shape.pitches(tuning)),
        "chords": [chord.name for chord in readings(shape, tuning)],
        "shape": shape.text,
    }


def shape_facts(item: Item) -> Facts:
    """The same of an item whose subject is a shape."""
    return chord_facts(shape_of(item), item.tuning)


def stack(
    tuning: Tuning,
    dialect: Dialect,
    shapes: Sequence[Shape],
    roles: Sequence[Role] = (),
    labels: tuple[str, ...] = (),
    keys: Sequence[tuple[str, str]] = (),
) -> StaffView:
    """Shapes as columns of a staff, with keys under them if there are any."""
    colours = {
        At(0, n, string): role
        for n, (shape, role) in enumerate(zip(shapes, roles, strict=False)) for string, _ in shape.places
    }  # fmt: skip
    return StaffView(
        Piece(tuning, (Bar(tuple(shape.onset() for shape in shapes)),)),
        dialect,
        labels,
        colours=colours,
        keys={(0, n): key for n, key in enumerate(keys)},
    )


def struck(shape: Shape) -> tuple[Note, ...]:
    """A shape as it stands on a staff where the strings beside it are struck too, damped by the fingers: each an x."""
    played = [string for string, _ in shape.places]
    beside = range(max(min(played) - 1, 1), min(max(played) + 1, shape.lines) + 1)
    return tuple(Note(string, shape.on(string)) for string in beside)


def one_box(shape: Shape, manner: Manner, fingers: tuple[int, ...] = (), labels: tuple[str, ...] = ()) -> DiagramView:
    """A diagram alone."""
    return DiagramView((Box(shape, fingers=fingers),), manner.left_handed, labels)


def keyed_boxes(options: Sequence[Option], manner: Manner, labels: tuple[str, ...] = ()) -> DiagramView:
    """Diagrams with the keys of the options that they are."""
    boxes = (Box(parse_shape(option.answer), option.key, option.answer) for option in options)
    return DiagramView(tuple(boxes), manner.left_handed, labels)


def with_chord(shape: Shape, tuning: Tuning, manner: Manner, fingers: tuple[int, ...] = ()) -> Picture:
    """A shape on the staff, on the neck and as a diagram, as lessons show them together."""
    letters = pictures.line_letters(tuning, manner.naming)
    places = dict.fromkeys(shape.places, Role.FRET)
    return Picture(
        stack(tuning, manner.dialect, [shape], labels=letters),
        pictures.neck_with(tuning, places, manner.left_handed, letters),
        one_box(shape, manner, fingers),
    )


def helps_with(
    shape: Shape,
    tuning: Tuning,
    manner: Manner,
    staff: helps.Labelled[StaffView],
) -> tuple[Help, ...]:
    """The neck with the shape on it and the letters to count from, then those letters alone."""
    neck = partial(_neck_of, shape, tuning, manner)
    return helps.neck_then_letters(staff, neck, tuning, manner.naming, counted_from(shape))


def counted_from(shape: Shape) -> list[int]:
    """The strings that may bear their letters where a chord or its notes are asked for: those that are pressed. The
    letter of one that sounds open is one of the notes, or the very root."""
    return [string for string, fret in shape.places if fret]


def _neck_of(shape: Shape, tuning: Tuning, manner: Manner, labels: helps.Labels) -> NeckView:
    return pictures.neck_with(tuning, dict.fromkeys(shape.places, Role.FRET), manner.left_handed, labels)


def right_and_said(true: Shape, said: Shape | None, tuning: Tuning, manner: Manner) -> Picture:
    """Both shapes on the staff, on the neck and as diagrams: the right one first, what was answered after it."""
    shapes = [true] if said is None else [true, said]
    roles = (Role.TRUE, Role.SAID)
    captions = ("right", "yours")
    boxes = tuple(
        Box(shape, caption=caption, role=role) for shape, caption, role in zip(shapes, captions, roles, strict=False)
    )
    return Picture(
        stack(tuning, manner.dialect, shapes, roles, pictures.line_letters(tuning, manner.naming)),
        diagram=DiagramView(boxes, manner.left_handed),
    )


def near_shapes(entry: Taught, tuning: Tuning, rng: random.Random) -> list[Shape]:
    """Up to three shapes that a reader might take for one: misread, a kind of misreading each, and taught ones."""
    shape = entry.shape
    top = max(ROWS, max(shape.pressed, default=0))
    kinds = [list(shapes) for shapes in variants(shape).values() if shapes]
    for shapes in kinds:
        rng.shuffle(shapes)
    rng.shuffle(kinds)
    others = [other.shape for other in taught(tuning) if other.family == entry.family]
    rng.shuffle(others)
    mixed = [each for row in zip_longest(*kinds) for each in row if each is not None]
    found: list[Shape] = []
    for other in chain(mixed[:2], others[:1], mixed[2:], others[1:]):
        fits = max(other.pressed, default=0) <= top and len(other.places) > 1
        fits = fits and all(fret in tuning.frets(string) for string, fret in other.places)
        if fits and other != shape and other not in found:
            found.append(other)
            if len(found) == len(KEYS) - 1:
                break
    return found


def shape_options(shapes: Sequence[Shape], rng: random.Random) -> tuple[Option, ...]:
    """A letter for each shape, in random order. The shapes are drawn, so that no text stands beside the keys."""
    mixed = list(shapes)
    rng.shuffle(mixed)
    return tuple(Option(key, "", shape.text) for key, shape in zip(KEYS, mixed, strict=False))


def said_shape(said: str, lines: int) -> Shape | None:
    """The shape that was answered, if it is one of this instrument."""
    try:
        shape = parse_shape(said)
    except ValueError:
        return None
    return shape if shape.lines == lines else None


def say_chord(name: str, naming: Naming) -> str:
    """A chord name as the naming system says its root and its bass: ``H7`` for B7, ``Solm/Si`` for Gm/B."""
    return "/".join(_part(part, naming) for part in name.split("/"))


def _part(part: str, naming: Naming) -> str:
    root = next((name for name in (part[:2], part[:1]) if name in SHARP_NAMES or name in FLAT_NAMES), "")
    return capital(spell(root, naming)) + part[len(root) :] if root else part


def differences(true: Shape, said: Shape) -> Iterator[int]:
    """The strings on which two shapes differ, the last string first."""
    return (true.lines - n for n, (a, b) in enumerate(zip(true.frets, said.frets, strict=True)) if a != b)


def tones_of(shape: Shape, tuning: Tuning) -> dict[int, str]:
    """The name of every pitch class of a shape, as its plainest chord spells it, its root first."""
    return tone_names(shape.pitches(tuning), flats=tuning.flats)


def heard_names(pitches: Iterable[int], shape: Shape, tuning: Tuning) -> list[str]:
    """Names of pitches one after another, spelled as those of a shape are; others with sharps."""
    tones = tones_of(shape, tuning)
    return [tones.get(pitch % 12, SHARP_NAMES[pitch % 12]) for pitch in pitches]


def spelled_tones(shape: Shape, tuning: Tuning, naming: Naming) -> list[str]:
    """The names of a shape's notes, each once, as the naming system says them."""
    return [spell(name, naming) for name in tones_of(shape, tuning).values()]
