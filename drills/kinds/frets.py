"""Where on a string a note is."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.notes import FIRST_POSITION, LETTER_ORDER, show_note
from drills.kinds.wording import capital, said_number
from drills.notation.drawing import Role
from drills.notation.pitch import NATURALS, spell
from drills.notation.tuning import FRETS, Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question
from drills.stages import Stage

TO_TWELVE: Final = range(13)


class NoteToFret:
    """A note on a named string: at which fret?"""

    name = "note-to-fret"
    title = "Note to fret"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for string in range(tuning.lines, 0, -1):
            low = _frets_of(tuning, string, FIRST_POSITION)
            for letter in LETTER_ORDER:
                if letter in low:
                    yield self._item(tuning, string, letter, low[letter][0], Stage.FIRST_NOTES, "")
        for string in range(tuning.lines, 0, -1):
            low, whole = _frets_of(tuning, string, FIRST_POSITION), _frets_of(tuning, string, TO_TWELVE)
            for letter in LETTER_ORDER:
                if letter not in low:
                    yield self._item(tuning, string, letter, whole[letter][0], Stage.TWELVE_FRETS, "-12")

    def _item(self, tuning: Tuning, string: int, letter: str, fret: int, stage: int, reach: str) -> Item:
        subject = f"{string}/{letter.lower()}{reach}"
        return Item(
            f"{self.name}/{tuning.name}/{subject}", self.name, tuning, subject, Kind.FRET, stage,
            f"{letter} on string {string}", "note-to-fret", (f"fret-to-note/{tuning.name}/{string}/{fret}",),
            think=1.2 if not reach else 1.55,
        )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        string, letter, frets = _wanted(item)
        found = _frets_of(item.tuning, string, frets)[letter]
        return {
            "string": string,
            "fret": found[0],
            "frets": found,
            "range": [frets[0], frets[-1]],
            "midi": item.tuning.sound(string, found[0]).midi,
            "names": [letter],
            "hz": round(item.tuning.sound(string, found[0]).hz, 3),
        }

    def explain(self, item: Item, manner: Manner) -> Explanation:
        tuning = item.tuning
        string = tuning.lines
        return Explanation(
            "From a note to its fret",
            (
                "Now you are told the note and the string, and say the fret. Start from the open string and "
                "count up; soon you will not need to count.",
                "The prompt says how far up the neck to look. Any fret in that range that sounds the note is right.",
            ),
            Picture(
                pictures.row_of_notes(
                    tuning,
                    manner.dialect,
                    [(string, fret, Role.LIT) for fret in FIRST_POSITION],
                    pictures.line_letters(tuning, manner.naming),
                ),
                pictures.neck_with(
                    tuning,
                    {(string, fret): Role.LIT for fret in FIRST_POSITION},
                    manner.left_handed,
                    pictures.line_letters(tuning, manner.naming),
                ),
            ),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning, (string, letter, frets) = item.tuning, _wanted(item)
        found = tuple(str(fret) for fret in _frets_of(tuning, string, frets)[letter])
        one_key = frets[-1] <= 9
        staff = partial(
            pictures.bare_staff, tuning, manner.dialect, {string: Role.LIT}
        )
        return Question(
            item,
            f"{spell(letter, manner.naming)} on string {string}: which fret, from {frets[0]} to {frets[-1]}?",
            Picture(staff()),
            found,
            answers.number(frets[0], frets[-1]),
            partial(_wrong_fret, item, manner),
            helped=Picture(staff(labels=pictures.line_letters(tuning, manner.naming))),
            help=("letters",),
            options=tuple(Option(str(f), "", str(f)) for f in frets) if one_key else (),
            ends=lambda typed: len(typed) == 2,
            traps=misreadings.of_fret(letter, string, frets, tuning),
            show=_show_fret,
        )


def _show_fret(answer: str) -> str:
    number = said_number(answer, 0, FRETS)
    return answer if number is None else f"fret {number}" if number else "fret 0, the open string"


def _frets_of(tuning: Tuning, string: int, frets: range) -> dict[str, list[int]]:
    """The frets of each natural letter on a string, lowest first."""
    found: dict[str, list[int]] = {}
    for fret in frets:
        pitch = tuning.sound(string, fret)
        if pitch.pitch_class in NATURALS:
            found.setdefault(pitch.names[0], []).append(fret)
    return found


def _wanted(item: Item) -> tuple[int, str, range]:
    """String, letter and range of frets of a note-to-fret item."""
    string, _, rest = item.subject.partition("/")
    letter, _, reach = rest.partition("-")
    return int(string), letter.upper(), TO_TWELVE if reach else FIRST_POSITION


def _wrong_fret(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, (string, letter, frets) = item.tuning, _wanted(item)
    found = _frets_of(tuning, string, frets)[letter]
    name = spell(letter, manner.naming)
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
