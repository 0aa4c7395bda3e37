"""What a place sounds, by name."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from itertools import product
from typing import Final

from drills import answers, misreadings
from drills.kinds import helps, pictures
from drills.kinds.places import place_facts, place_of
from drills.notation.drawing import Role
from drills.notation.pitch import LETTERS, Naming, class_of, parse_note, spell
from drills.notation.staff import StaffView
from drills.notation.tuning import FRETS, Tuning
from drills.question import Explanation, Facts, Feedback, Help, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

FIRST_POSITION: Final = range(5)

LETTER_ORDER: Final = ("C", "D", "E", "F", "G", "A", "B")


class FretToNote:
    """A number on a line: which note is it?"""

    name = "fret-to-note"
    title = "Fret to note"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for fret, string in product(range(FRETS + 1), range(tuning.lines, 0, -1)):
            if fret not in tuning.frets(string):
                continue
            natural = tuning.sound(string, fret).is_natural
            yield Item(
                f"{self.name}/{tuning.name}/{string}/{fret}", self.name, tuning, f"{string}/{fret}",
                Kind.NOTE, stage_of(tuning, string, fret), f"String {string}, fret {fret}", _lesson(fret, natural),
                _needs(self.name, tuning, string, fret, natural), think=1.2 if natural and fret <= 12 else 1.55,
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return place_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return note_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, (string, fret) = item.tuning, place_of(item)
        names = tuning.sound(string, fret).names
        staff = partial(pictures.row_of_notes, tuning, manner.dialect, [(string, fret, Role.LIT)])
        return Question(
            item,
            "Which note is this?",
            Picture(staff()),
            names,
            answers.note(names, manner.naming),
            partial(_wrong_note, item, manner),
            helps=_helps(item, manner, staff),
            options=natural_options(manner.naming) if _naturals_only(item) else (),
            ends=partial(name_ends, manner.naming),
            traps=misreadings.of_note(string, fret, tuning),
            show=partial(show_note, names, manner.naming),
            note_right=partial(unusual_name, names, manner.naming),
        )


def _helps(item: Item, manner: Manner, staff: helps.Labelled[StaffView]) -> tuple[Help, ...]:
    """The neck to count on with the letters of the open strings; where such a letter is the answer, those beside it."""
    tuning, (string, fret) = item.tuning, place_of(item)
    if fret % 12 == 0:
        return helps.letters_beside(helps.staff_alone(staff), tuning, manner.naming, string)
    neck = partial(pictures.neck_with, tuning, {(string, fret): Role.LIT}, manner.left_handed)
    return helps.neck_then_letters(staff, neck, tuning, manner.naming)


def note_explanation(item: Item, manner: Manner) -> Explanation:
    """Semitones up from the open string; naturals, then sharps and flats."""
    tuning, string = item.tuning, item.tuning.full[min(1, len(item.tuning.full) - 4)]

    def say(name: str) -> str:
        return spell(name, manner.naming)

    if item.lesson == "notes":
        title = "Frets have names"
        lines: tuple[str, ...] = (
            "The open string has the string's own name. Every fret up sounds a little higher, by the smallest "
            "step there is: a semitone.",
            f"Most neighbours among the seven notes ({', '.join(map(say, LETTER_ORDER))}, and again {say('C')}) are "
            f"two frets apart. Only {say('E')} to {say('F')} and {say('B')} to {say('C')} are one fret apart: keep "
            "those two and you can count the rest.",
            "A capo moves every sound up and leaves the names of the frets alone: here they are those without one.",
            _typing(manner.naming) if not _naturals_only(item) else "Press the key beside the note's name.",
        )
    elif item.lesson == "sharps":
        title = "Sharps and flats"
        lines = (
            f"Between two letters that lie two frets apart there is one fret with two names: {say('C#')} is a "
            f"fret above {say('C')}, and it is also {say('Db')}, a fret below {say('D')}.",
            f"Either name is right. {_typing(manner.naming)}",
        )
    else:
        title = "The twelfth fret and beyond"
        lines = (
            "Twelve frets up, the names begin again: fret 12 has the name of the open string, fret 13 that of "
            "fret 1, and so on. This distance is an octave.",
            "Take twelve off and read it as before. Here 12 has the name of 0, and 15 that of 3.",
            _typing(manner.naming),
        )
    if item.lesson == "octave":
        frets = [0, 12, 3, 15]
    else:
        frets = [f for f in range(13) if item.lesson == "sharps" or tuning.sound(string, f).is_natural][:8]
    shown = [(string, fret, Role.FRET) for fret in frets]
    return Explanation(
        title,
        lines,
        Picture(
            pictures.row_of_notes(tuning, manner.dialect, shown, pictures.line_letters(tuning, manner.naming)),
            pictures.neck_with(
                tuning,
                {(string, fret): Role.FRET for _, fret, _ in shown},
                manner.left_handed,
                pictures.line_letters(tuning, manner.naming),
            ),
        ),
    )


def natural_options(naming: Naming) -> tuple[Option, ...]:
    """One key for each of the seven letters; for do re mi the digits 1 to 7."""
    if naming is Naming.SOLFEGE:
        return tuple(
            Option(str(i), spell(name, naming), name) for i, name in enumerate(LETTER_ORDER, start=1)
        )
    return tuple(
        Option(spell(name, naming).lower(), spell(name, naming), spell(name, naming)) for name in LETTERS
    )


def _naturals_only(item: Item) -> bool:
    """Whether one key can answer: at the first stage of notes, unless open strings have sharps or flats."""
    return item.stage == Stage.FIRST_NOTES and all(pitch.is_natural for pitch in item.tuning.strings)


def _needs(drill: str, tuning: Tuning, string: int, fret: int, natural: bool) -> tuple[str, ...]:
    """The string by name, then the natural below a black key, or the same note an octave lower."""
    own = f"{drill}/{tuning.name}/{string}/"
    if fret == 0:
        return (f"line-to-string/{tuning.name}/{string}-name",)
    if fret > 12:
        return (f"{own}{fret - 12}",)
    return (f"{own}0",) if natural else (f"{own}{fret - 1}",)


def stage_of(tuning: Tuning, string: int, fret: int) -> Stage:
    """When the name of a place is taught."""
    natural = tuning.sound(string, fret).is_natural
    if fret > 12:
        return Stage.HIGH_FRETS
    if fret in FIRST_POSITION:
        return Stage.FIRST_NOTES if natural or fret == 0 else Stage.HALF_BEATS
    return Stage.TWELVE_FRETS if natural else Stage.NECK


def _lesson(fret: int, natural: bool) -> str:
    if fret > 12:
        return "octave"
    return "notes" if fret == 0 or (natural and fret in FIRST_POSITION) else "sharps"


def name_ends(naming: Naming, typed: str) -> bool:
    """A letter with its sharp or flat needs no Enter; longer words do."""
    return naming is Naming.LETTERS and len(typed) == 2 and parse_note(typed) is not None


def show_note(names: tuple[str, ...], naming: Naming, answer: str) -> str:
    """An answer as that learner names it; both names of a right one."""
    if answer in names:
        return " or ".join(spell(name, naming) for name in names)
    return spell(answer, naming) if parse_note(answer) == answer else answer


def _typing(naming: Naming) -> str:
    if naming is Naming.LETTERS:
        return "Type the letter, then # or b; end a plain letter with Enter."
    return "Type the name, then Enter."


def unusual_name(names: tuple[str, ...], naming: Naming, typed: str) -> str | None:
    """A word on a right name that is seldom used for that note: B# for C."""
    name = parse_note(typed, naming)
    if name is None or name in names:
        return None
    return f"{spell(name, naming)} sounds the same as {show_note(names, naming, names[0])}, its usual name here."


def _wrong_note(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, (string, fret) = item.tuning, place_of(item)
    right = tuning.sound(string, fret)
    name = show_note(right.names, manner.naming, right.names[0])
    opened = tuning.string_name(string, manner.naming)
    if fret > 12:
        why = f"Fret {fret} has the name of fret {fret - 12}, twelve lower: on string {string} that is {name}"
    elif fret:
        why = f"String {string} is {opened}, and {fret} fret{'s' if fret > 1 else ''} up from it is {name}"
    else:
        why = f"0 is the open string, and string {string} is {opened}"
    notes = [(string, fret, Role.TRUE)]
    dots = {(string, fret): Role.TRUE}
    if (heard := parse_note(said)) is not None:
        near = min(
            (f for f in range(FRETS + 1) if tuning.sound(string, f).pitch_class == class_of(heard)),
            key=lambda f: abs(f - fret),
        )
        notes.append((string, near, Role.SAID))
        dots[string, near] = Role.SAID
        where = f"at fret {near}" if near else "the open string"
        why += f"; {spell(heard, manner.naming)} on that string is {where}"
    letters = pictures.line_letters(tuning, manner.naming)
    return Feedback(
        why + ".",
        Picture(
            pictures.row_of_notes(tuning, manner.dialect, notes, letters),
            pictures.neck_with(tuning, dots, manner.left_handed, letters),
        ),
    )
