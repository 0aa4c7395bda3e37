"""What is explained of the capo, before and after an answer."""

from __future__ import annotations

from functools import partial
from typing import Final

from drills.kinds import pictures
from drills.kinds.capo_subjects import Asked
from drills.kinds.notes import show_note
from drills.kinds.wording import said_number
from drills.notation.drawing import Role
from drills.notation.pitch import Naming, Pitch, class_of, parse_note, spell
from drills.notation.tuning import Tuning
from drills.question import Explanation, Feedback, Item, Manner, Picture

CAPO: Final = 2
"""Where the capo of the lesson is."""
SHOWN: Final = 3
"""A fret in its tab, counted from the capo."""


def capo_explanation(item: Item, manner: Manner) -> Explanation:
    """A capo shortens every string: frets are counted from it, shapes keep their names, sounds rise."""
    tuning, string = item.tuning, item.tuning.full[0]
    c, d = (spell(name, manner.naming) for name in "CD")
    if item.lesson == "frets":
        title = "Frets are counted from the capo"
        looks, sounds = (_said(manner.naming, tuning.sound(string, fret)) for fret in (SHOWN, SHOWN + CAPO))
        lines: tuple[str, ...] = (
            "A capo is a clamp across the strings: it shortens them all, as if the nut sat there. In tab, 0 is then "
            "the string at the capo, and every number is counted up from it.",
            f"So everything sounds higher, by a semitone for each fret of the capo. Here it is at fret {CAPO}: the "
            f"{SHOWN} looks like {looks} and sounds as {sounds}.",
            "All other questions here name notes as they are without a capo; these alone ask what is heard with one. "
            "Type the note.",
        )
    elif item.lesson == "shape":
        title = "From the shape to the sound"
        lines = (
            "With a capo the hand plays the chord shapes that it knows. A shape keeps the name that it has without the "
            "capo; what is heard is higher, by a semitone for each fret.",
            f"From shape to sound count up: {c} shape, capo at fret {CAPO}, two semitones up, {d} sounds.",
            "Type the name of the chord that sounds.",
        )
    elif item.lesson == "played":
        title = "From the sound to the shape"
        lines = (
            "A song book may give two names: that of the sound, for those who play along, and that of the shape, for "
            "the hand behind the capo.",
            f"From sound to shape count down the frets of the capo: {d} is to sound, capo at fret {CAPO}, so the hand "
            f"plays the {c} shape.",
            "Type the name of the shape.",
        )
    else:
        title = "Where the capo goes"
        lines = (
            "A song that lies too low for a voice, or has a chord that is hard to hold, is played with easier shapes "
            "behind a capo.",
            f"Count the semitones from the shape up to the sound: from {c} up to {d} there are {CAPO}, so the capo "
            f"goes to fret {CAPO}.",
            "Press the number of the fret.",
        )
    letters = pictures.line_letters(tuning, manner.naming)
    places = [(string, 0, Role.LIT), (string, SHOWN, Role.LIT)]
    dots = {(string, CAPO + fret): Role.LIT for _, fret, _ in places[1:]}
    neck = pictures.capo_neck(tuning, manner, {CAPO: Role.FRET}, dots, letters)
    return Explanation(title, lines, Picture(pictures.row_of_notes(tuning, manner.dialect, places, letters), neck))


def wrong_string(item: Item, wanted: Asked, manner: Manner, said: str) -> Feedback:
    """Both notes on the string, past the capo."""
    tuning, string = item.tuning, wanted.string or 1
    at = wanted.capo + wanted.fret
    say = partial(_said, manner.naming)
    why = f"With the capo at fret {wanted.capo}, "
    why += f"fret {wanted.fret} is fret {at} of the neck" if wanted.fret else "0 is the string at the capo"
    why += f": {say(tuning.sound(string, at))}, where {say(tuning.sound(string, wanted.fret))} sounds without it"
    return _on_string(why, tuning, string, at, {wanted.capo: Role.FRET}, manner, said)


def wrong_chord(item: Item, wanted: Asked, manner: Manner, said: str) -> Feedback:
    """How far the capo lifts a root, both roots on one string."""
    say = partial(_said, manner.naming)
    shape, sounding = (say(pitch) + wanted.minor for pitch in (wanted.shape, wanted.sounding))
    semitones = f"{wanted.capo} semitone{'s' if wanted.capo > 1 else ''}"
    right = wanted.sounding if item.lesson == "shape" else wanted.shape
    why = f"A capo at fret {wanted.capo} lifts the {shape} shape by {semitones}, to {sounding}"
    tuning, string = item.tuning, item.tuning.full[0]
    at = (right.midi - tuning.open(string).midi) % 12
    return _on_string(why, tuning, string, at, {}, manner, said)


def wrong_fret(item: Item, wanted: Asked, manner: Manner, said: str) -> Feedback:
    """Both places of the capo, and what the shape sounds as there."""
    say = partial(_said, manner.naming)
    semitones = f"{wanted.capo} semitone{'s' if wanted.capo > 1 else ''}"
    why = f"From {say(wanted.shape)} up to {say(wanted.sounding)} is {semitones}, a fret for each"
    capos = {wanted.capo: Role.TRUE}
    number = said_number(said, 1, 12)
    if number is not None:
        capos[number] = Role.SAID
        why += f"; at fret {number} it would sound as {say(Pitch(wanted.shape.midi + number))}"
    return Feedback(f"{why}.", Picture(neck=pictures.capo_neck(item.tuning, manner, capos, {})))


def _on_string(
    why: str, tuning: Tuning, string: int, at: int, capos: dict[int, Role], manner: Manner, said: str
) -> Feedback:
    """The right place on a string, and the nearest one that sounds what was said."""
    dots = {(string, at): Role.TRUE}
    if (heard := parse_note(said)) is not None:
        frets = [f for f in range(13) if tuning.sound(string, f).pitch_class == class_of(heard)]
        near = min(frets, key=lambda f: abs(f - at))
        dots[string, near] = Role.SAID
        where = f"at fret {near} of the neck" if near else "the open string without a capo"
        why += f"; {spell(heard, manner.naming)} on string {string} is {where}"
    letters = pictures.line_letters(tuning, manner.naming)
    return Feedback(f"{why}.", Picture(neck=pictures.capo_neck(tuning, manner, capos, dots, letters)))


def _said(naming: Naming, pitch: Pitch) -> str:
    return show_note(pitch.names, naming, pitch.names[0])
