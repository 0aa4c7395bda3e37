"""Where on a string a note is."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import helps, pictures
from drills.kinds.notes import FIRST_POSITION, show_note
from drills.kinds.wording import capital, said_number
from drills.notation.drawing import Role
from drills.notation.pitch import NATURALS, SHARP_NAMES, Pitch, class_of
from drills.notation.staff import StaffView
from drills.notation.tuning import FRETS, Tuning
from drills.question import Explanation, Facts, Feedback, Help, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

RANGES: Final = {"": FIRST_POSITION, "-12": range(13), "-15": range(16)}
"""The frets to look in, by the end of an item's subject."""


class NoteToFret:
    """A note on a named string: at which fret?"""

    name = "note-to-fret"
    title = "Note to fret"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for black in (False, True):
            for string, number, frets in _notes(tuning, "", black):
                stage = Stage.HALF_BEATS if black else Stage.FIRST_NOTES
                yield self._item(tuning, string, number, "", stage, _at(tuning, string, frets[0]))
        for black in (False, True):
            for string, number, frets in _notes(tuning, "-12", black):
                if frets[0] not in FIRST_POSITION:
                    stage = Stage.NECK if black else Stage.TWELVE_FRETS
                    yield self._item(tuning, string, number, "-12", stage, _at(tuning, string, frets[0]))
        for string, number, frets in _notes(tuning, "-15", black=False):
            if len(frets) > 1:
                low = f"{self.name}/{tuning.name}/{string}/{SHARP_NAMES[number].lower()}"
                yield self._item(tuning, string, number, "-15", Stage.NECK, low)

    def _item(self, tuning: Tuning, string: int, number: int, reach: str, stage: Stage, need: str) -> Item:
        subject = f"{string}/{SHARP_NAMES[number].lower()}{reach}"
        lesson = "twice" if reach == "-15" else "note-to-fret" if number in NATURALS else "between"
        return Item(
            f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.FRET, stage,
            f"{' or '.join(Pitch(number).names)} on string {string}, frets 0 to {RANGES[reach][-1]}", lesson, (need,),
            think=1.2 if not reach else 1.55,
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        string, number, frets = _wanted(item)
        found = _frets_of(item.tuning, string, frets)[number]
        pitch = item.tuning.sound(string, found[0])
        return {
            "string": string,
            "fret": found[0],
            "frets": found,
            "range": [frets[0], frets[-1]],
            "midi": pitch.midi,
            "names": list(pitch.names),
            "hz": round(pitch.hz, 3),
        }

    def explain(self, item: Item, manner: Manner) -> Explanation:
        tuning, string = item.tuning, item.tuning.full[0]
        title, lines = _LESSONS[item.lesson]
        frets = [f for f in range(16) if f % 12 < 4] if item.lesson == "twice" else list(FIRST_POSITION)
        letters = pictures.line_letters(tuning, manner.naming)
        shown = [(string, fret, Role.LIT) for fret in frets]
        dots = {(string, fret): Role.LIT for fret in frets}
        return Explanation(
            title,
            lines,
            Picture(
                pictures.row_of_notes(tuning, manner.dialect, shown, letters),
                pictures.neck_with(tuning, dots, manner.left_handed, letters),
            ),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, (string, number, frets) = item.tuning, _wanted(item)
        found = tuple(str(fret) for fret in _frets_of(tuning, string, frets)[number])
        one_key = frets[-1] <= 9
        staff = partial(
            pictures.bare_staff, tuning, manner.dialect, {string: Role.LIT}
        )
        return Question(
            item,
            f"{_said(number, manner)} on string {string}: which fret, from {frets[0]} to {frets[-1]}?",
            Picture(staff()),
            found,
            answers.number(frets[0], frets[-1]),
            partial(_wrong_fret, item, manner),
            helps=_helps(item, manner, staff),
            options=tuple(Option(str(f), "", str(f)) for f in frets) if one_key else (),
            ends=lambda typed: len(typed) == 2,
            traps=misreadings.of_fret(SHARP_NAMES[number], string, frets, tuning),
            show=_show_fret,
        )


def _helps(item: Item, manner: Manner, staff: helps.Labelled[StaffView]) -> tuple[Help, ...]:
    """The string on the neck to count on, with the letters; where the string's own letter is asked, those beside it."""
    tuning, (string, number, frets) = item.tuning, _wanted(item)
    if tuning.open(string).pitch_class == number:
        return helps.letters_beside(helps.staff_alone(staff), tuning, manner.naming, string)
    neck = partial(pictures.neck_strings, tuning, {string: Role.LIT}, manner.left_handed, highest=frets[-1])
    return helps.neck_then_letters(staff, neck, tuning, manner.naming)


def _show_fret(answer: str) -> str:
    number = said_number(answer, 0, FRETS)
    return answer if number is None else f"fret {number}" if number else "fret 0, the open string"


def _frets_of(tuning: Tuning, string: int, frets: range) -> dict[int, list[int]]:
    """The frets of each pitch class on a string, lowest first."""
    found: dict[int, list[int]] = {}
    for fret in frets:
        found.setdefault(tuning.sound(string, fret).pitch_class, []).append(fret)
    return found


def _notes(tuning: Tuning, reach: str, black: bool) -> Iterator[tuple[int, int, list[int]]]:
    """String, pitch class and frets of every natural, or of every note between two, from C up on each string."""
    for string in tuning.full:
        for number, frets in sorted(_frets_of(tuning, string, RANGES[reach]).items()):
            if black is (number not in NATURALS):
                yield string, number, frets


def _at(tuning: Tuning, string: int, fret: int) -> str:
    """The item that names the note there, which is met first."""
    return f"fret-to-note/{tuning.name}/{string}/{fret}"


def _wanted(item: Item) -> tuple[int, int, range]:
    """String, pitch class and range of frets of a note-to-fret item."""
    string, _, rest = item.subject.partition("/")
    name, dash, reach = rest.partition("-")
    return int(string), class_of(name), RANGES[dash + reach]


def _said(number: int, manner: Manner) -> str:
    """``C``, or both names of a note between two: ``C# or Db``."""
    return show_note(Pitch(number).names, manner.naming, SHARP_NAMES[number])


_LESSONS: Final = {
    "note-to-fret": (
        "From a note to its fret",
        (
            "Now you are told the note and the string, and say the fret. Start from the open string and count up; soon "
            "you will not need to count.",
            "The prompt says how far up the neck to look. Any fret in that range that sounds the note is right.",
        ),
    ),
    "between": (
        "Sharps and flats on the neck",
        (
            "A sharp is one fret above its letter, a flat one fret below: find the letter, then move by one.",
            "Both names of such a note are given, since both stand at the same fret. The prompt says how far up the "
            "neck to look.",
        ),
    ),
    "twice": (
        "The same note twice on a string",
        (
            "Twelve frets above a note it comes again, an octave higher: fret 12 has the name of the open string, and "
            "fret 13 that of fret 1.",
            "Where the prompt lets you look up to fret 15, some notes are there twice. Either fret is right: type one, "
            "then Enter if it has one digit.",
        ),
    ),
}
"""Title and lines by lesson."""


def _wrong_fret(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, (string, number, frets) = item.tuning, _wanted(item)
    found = _frets_of(tuning, string, frets)[number]
    name = _said(number, manner)
    places = " and ".join(f"fret {fret}" if fret else "the open string" for fret in found)
    why = f"{capital(name)} on string {string} is {places}"
    roles = {(string, fret): Role.TRUE for fret in found}
    wrong = said_number(said, 0, FRETS)
    if wrong is not None:
        roles[string, wrong] = Role.SAID
        heard = tuning.sound(string, wrong).names
        where = f"fret {wrong}" if wrong else "the open string"
        why += f"; {where} is {show_note(heard, manner.naming, heard[0])}"
    letters = pictures.line_letters(tuning, manner.naming)
    notes = [(at, fret, role) for (at, fret), role in roles.items()]
    return Feedback(
        why + ".",
        Picture(
            pictures.row_of_notes(tuning, manner.dialect, notes, letters),
            pictures.neck_with(tuning, roles, manner.left_handed, letters),
        ),
    )
