"""What a place sounds, by name, and where on a string a note is."""

from __future__ import annotations

import random
from collections.abc import Iterator
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.places import place_facts, place_of
from drills.kinds.wording import capital, said_number
from drills.notation.drawing import Role
from drills.notation.pitch import LETTERS, NATURALS, Naming, class_of, parse_note, spell
from drills.notation.tuning import FRETS, Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Option, Picture, Question

FIRST_POSITION: Final = range(5)
TO_TWELVE: Final = range(13)

_LETTER_ORDER: Final = ("C", "D", "E", "F", "G", "A", "B")


class FretToNote:
    """A number on a line: which note is it?"""

    name = "fret-to-note"
    title = "Fret to note"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        places = [(string, fret) for fret in range(FRETS + 1) for string in range(tuning.lines, 0, -1)]
        for string, fret in places:
            natural = tuning.sound(string, fret).is_natural
            yield Item(
                f"{self.name}/{tuning.name}/{string}/{fret}", self.name, tuning, f"{string}/{fret}",
                Kind.NOTE, _stage(fret, natural), f"String {string}, fret {fret}", _lesson(fret, natural),
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
            helped=Picture(staff(pictures.line_letters(tuning, manner.naming))),
            help=("letters",),
            options=natural_options(manner.naming) if _naturals_only(item) else (),
            ends=partial(_name_ends, manner.naming),
            traps=misreadings.of_note(string, fret, tuning),
            show=partial(_show_note, names, manner.naming),
            note_right=partial(_unusual, names, manner.naming),
        )


class NoteToFret:
    """A note on a named string: at which fret?"""

    name = "note-to-fret"
    title = "Note to fret"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for string in range(tuning.lines, 0, -1):
            low = _frets_of(tuning, string, FIRST_POSITION)
            for letter in _LETTER_ORDER:
                if letter in low:
                    yield self._item(tuning, string, letter, low[letter][0], 5, "")
        for string in range(tuning.lines, 0, -1):
            low, whole = _frets_of(tuning, string, FIRST_POSITION), _frets_of(tuning, string, TO_TWELVE)
            for letter in _LETTER_ORDER:
                if letter not in low:
                    yield self._item(tuning, string, letter, whole[letter][0], 8, "-12")

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
                neck=pictures.neck_with(
                    tuning,
                    {(string, fret): Role.LIT for fret in FIRST_POSITION},
                    manner.left_handed,
                    pictures.line_letters(tuning, manner.naming),
                )
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


def note_explanation(item: Item, manner: Manner) -> Explanation:
    """Semitones up from the open string; naturals, then sharps and flats."""
    tuning, string = item.tuning, min(5, item.tuning.lines)

    def say(name: str) -> str:
        return spell(name, manner.naming)

    if item.lesson == "notes":
        title = "Frets have names"
        lines: tuple[str, ...] = (
            "The open string has the string's own name. Every fret up sounds a little higher, by the smallest "
            "step there is: a semitone.",
            f"Most neighbours among the seven notes ({', '.join(map(say, _LETTER_ORDER))}, and again {say('C')}) are "
            f"two frets apart. Only {say('E')} to {say('F')} and {say('B')} to {say('C')} are one fret apart: keep "
            "those two and you can count the rest.",
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
            Option(str(i), spell(name, naming), name) for i, name in enumerate(_LETTER_ORDER, start=1)
        )
    return tuple(
        Option(spell(name, naming).lower(), spell(name, naming), spell(name, naming)) for name in LETTERS
    )


def _naturals_only(item: Item) -> bool:
    """Whether one key can answer: at the first stage of notes, unless open strings have sharps or flats."""
    return item.stage == 5 and all(pitch.is_natural for pitch in item.tuning.strings)


def _needs(drill: str, tuning: Tuning, string: int, fret: int, natural: bool) -> tuple[str, ...]:
    """The string by name, then the natural below a black key, or the same note an octave lower."""
    own = f"{drill}/{tuning.name}/{string}/"
    if fret == 0:
        return (f"line-to-string/{tuning.name}/{string}-name",)
    if fret > 12:
        return (f"{own}{fret - 12}",)
    return (f"{own}0",) if natural else (f"{own}{fret - 1}",)


def _stage(fret: int, natural: bool) -> int:
    if fret > 12:
        return 10
    if fret in FIRST_POSITION:
        return 5 if natural or fret == 0 else 7
    return 8 if natural else 9


def _lesson(fret: int, natural: bool) -> str:
    if fret > 12:
        return "octave"
    return "notes" if fret == 0 or (natural and fret in FIRST_POSITION) else "sharps"


def _name_ends(naming: Naming, typed: str) -> bool:
    """A letter with its sharp or flat needs no Enter; longer words do."""
    return naming is Naming.LETTERS and len(typed) == 2 and parse_note(typed) is not None


def _show_note(names: tuple[str, ...], naming: Naming, answer: str) -> str:
    if answer in names:
        return " or ".join(spell(name, naming) for name in names)
    return spell(answer, naming) if parse_note(answer) == answer else answer


def _typing(naming: Naming) -> str:
    if naming is Naming.LETTERS:
        return "Type the letter, then # or b; end a plain letter with Enter."
    return "Type the name, then Enter."


def _unusual(names: tuple[str, ...], naming: Naming, typed: str) -> str | None:
    name = parse_note(typed, naming)
    if name is None or name in names:
        return None
    return f"{spell(name, naming)} sounds the same as {_show_note(names, naming, names[0])}, its usual name here."


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


def _wrong_note(item: Item, manner: Manner, said: str) -> Feedback:
    tuning, (string, fret) = item.tuning, place_of(item)
    right = tuning.sound(string, fret)
    name = _show_note(right.names, manner.naming, right.names[0])
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
        why += f"; {where} is {_show_note(heard, manner.naming, heard[0])}"
    letters = pictures.line_letters(tuning, manner.naming)
    notes = [(at, fret, role) for (at, fret), role in roles.items()]
    return Feedback(
        why + ".",
        Picture(
            pictures.row_of_notes(tuning, manner.dialect, notes, letters),
            pictures.neck_with(tuning, roles, manner.left_handed, letters),
        ),
    )
