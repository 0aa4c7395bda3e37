"""The capo: frets are counted from it, and everything sounds that much higher."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator
from functools import partial
from typing import Final

from drills import answers, misreadings, note_misreadings
from drills.kinds import helps, pictures
from drills.kinds.capo_lessons import capo_explanation, wrong_chord, wrong_fret, wrong_string
from drills.kinds.capo_subjects import Asked, asked, named
from drills.kinds.notes import name_ends, show_note, stage_of, unusual_name
from drills.kinds.places import sounding_facts
from drills.notation.drawing import Role
from drills.notation.pitch import Pitch
from drills.notation.shape import BASS_MM, scale_of
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Help, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

ON_STRINGS: Final = ((2, 0), (3, 2), (5, 0))
"""Fret of the capo and the fret in the tab, counted from it."""
EARLY: Final = "c-2 g-2 a-2"
"""Shapes that come first, with the names of chords."""
SHAPES: Final = f"{EARLY} d-2 e-1 am-2 em-3 g-3 d-4 dm-2 am-5 c-5"
"""Shapes with the fret of the capo: what sounds?"""
PLAYED: Final = "d-2 a-2 b-2 f-1 a#-1 d#-3 c-5 f-3"
"""Chords that sound, with the fret of the capo: which shape is played?"""
WANTED: Final = "c-d g-a g-a# d-e a-c c-d# e-g c-f"
"""Shapes with the chord that is to sound: where does the capo go?"""
CAPOS: Final = range(1, 10)
"""Where a capo may go: one key answers."""


_CHORDS: Final = {
    "shape": (SHAPES, Kind.NOTE, "{} shape, capo at fret {}"),
    "played": (PLAYED, Kind.NOTE, "{} sounds, capo at fret {}"),
    "to": (WANTED, Kind.FRET, "{} shape that sounds as {}"),
}
"""Subjects, kind and title by what is asked of a chord, which is their lesson too."""


class Capo:
    """What sounds with a capo, which shape to play, where to put it."""

    name = "capo"
    title = "The capo"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for capo, fret in ON_STRINGS:
            for string in tuning.full:
                heard = f"fret-to-note/{tuning.name}/{string}/{capo + fret}"
                early = Stage.CHORDS if capo == ON_STRINGS[0][0] else Stage.NECK
                stage = max(early, stage_of(tuning, string, capo + fret))
                played = f"fret {fret}" if fret else "open"
                title = f"Capo at fret {capo}, string {string}, {played}"
                yield self._item(tuning, f"{capo}/{string}/{fret}", Kind.NOTE, stage, title, "frets", heard)
        # Nobody plays chord shapes behind a capo on a bass (common practice, no source).
        if scale_of(tuning) == BASS_MM:
            return
        first = f"{self.name}/{tuning.name}/{ON_STRINGS[0][0]}/{tuning.full[0]}/0"
        for what, (subjects, kind, title) in _CHORDS.items():
            for subject in subjects.split():
                one, other = subject.split("-")
                words = title.format(named(one), other if other.isdigit() else named(other))
                stage = Stage.CHORDS if what == "shape" and subject in EARLY.split() else Stage.NECK
                yield self._item(tuning, f"{what}-{subject}", kind, stage, words, what, first)

    def _item(
        self, tuning: Tuning, subject: str, kind: Kind, stage: Stage, title: str, lesson: str, need: str
    ) -> Item:
        return Item(
            f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, kind, stage, title, lesson, (need,),
            think=2.0,
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        wanted = asked(item)
        if wanted.string is None:
            return {
                "capo": wanted.capo,
                "shape": wanted.shape.names[0] + wanted.minor,
                "sounds": [name + wanted.minor for name in wanted.sounding.names],
            }
        heard = sounding_facts(item.tuning.with_capo(wanted.capo), wanted.string, wanted.fret)
        return {"capo": wanted.capo, **heard}

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return capo_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        wanted = asked(item)
        if item.kind is Kind.FRET:
            return _where(item, wanted, manner)
        if wanted.string is None:
            return _chord(item, wanted, manner)
        tuning, place = item.tuning, (wanted.string, wanted.fret)
        names = tuning.with_capo(wanted.capo).sound(*place).names
        staff = partial(pictures.row_of_notes, tuning, manner.dialect, [(*place, Role.LIT)])
        return Question(
            item,
            f"With a capo at fret {wanted.capo}, which note sounds here?",
            Picture(staff()),
            names,
            answers.note(names, manner.naming),
            partial(wrong_string, item, wanted, manner),
            helps=_helps(item, wanted.capo, place, manner, staff),
            ends=partial(name_ends, manner.naming),
            traps=misreadings.of_note(*place, tuning.with_capo(wanted.capo)),
            show=partial(show_note, names, manner.naming),
            note_right=partial(unusual_name, names, manner.naming),
        )


def _helps(
    item: Item, capo: int, place: tuple[int, int], manner: Manner, staff: helps.Labelled[StaffView]
) -> tuple[Help, ...]:
    """The neck with the capo on it and the letters of the open strings, where no such letter is what sounds."""
    tuning, (string, fret) = item.tuning, place
    if tuning.with_capo(capo).sound(string, fret).pitch_class == tuning.open(string).pitch_class:
        return helps.letters_beside(helps.staff_alone(staff), tuning, manner.naming, string)
    neck = partial(pictures.capo_neck, tuning, manner, {capo: Role.FRET}, {})
    return helps.neck_then_letters(staff, neck, tuning, manner.naming)


def _chord(item: Item, wanted: Asked, manner: Manner) -> Question:
    """What a shape sounds as, or the shape of what sounds: by its root."""
    shape, sounding = (_said(pitch, manner) + wanted.minor for pitch in (wanted.shape, wanted.sounding))
    kind = "minor chord" if wanted.minor else "chord"
    right, by = (wanted.sounding, wanted.capo) if item.lesson == "shape" else (wanted.shape, -wanted.capo)
    start = wanted.shape if item.lesson == "shape" else wanted.sounding
    prompt = (
        f"The {shape} shape with a capo at fret {wanted.capo}: which {kind} sounds?"
        if item.lesson == "shape"
        else f"With a capo at fret {wanted.capo}, {sounding} sounds: which shape is played?"
    )
    return Question(
        item,
        prompt,
        pictures.capo_picture(item.tuning, manner, wanted.capo),
        right.names,
        _root(answers.note(right.names, manner.naming), wanted.minor),
        partial(wrong_chord, item, wanted, manner),
        ends=partial(name_ends, manner.naming),
        traps=note_misreadings.of_raised(start.pitch_class, by),
        show=partial(show_note, right.names, manner.naming),
        note_right=partial(unusual_name, right.names, manner.naming),
    )


def _where(item: Item, wanted: Asked, manner: Manner) -> Question:
    """At which fret the capo has to be."""
    shape, sounding = _said(wanted.shape, manner), _said(wanted.sounding, manner)
    return Question(
        item,
        f"The {shape} shape is to sound as {sounding}: at which fret is the capo, from {CAPOS[0]} to {CAPOS[-1]}?",
        pictures.capo_picture(item.tuning, manner, None),
        (str(wanted.capo),),
        answers.number(CAPOS[0], CAPOS[-1]),
        partial(wrong_fret, item, wanted, manner),
        options=tuple(Option(str(fret), "", str(fret)) for fret in CAPOS),
        traps=note_misreadings.of_capo(wanted.capo, CAPOS[-1]),
        show=lambda answer: f"fret {answer}" if answer.isdigit() else answer,
    )


def _said(pitch: Pitch, manner: Manner) -> str:
    return show_note(pitch.names, manner.naming, pitch.names[0])


def _root(read: Callable[[str], str | None], minor: str) -> Callable[[str], str | None]:
    """Where a minor chord is asked for, its name may be typed with or without its m."""
    if not minor:
        return read
    return lambda text: read(re.sub(r"(?i)\s*(minor|min|moll|m)\s*$", "", text)) or read(text)
