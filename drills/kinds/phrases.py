"""Technique signs in a few notes on one string: which notes are picked, and what sounds."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.signs import BY_KEY, PHRASE_BY_KEY, PHRASES, Phrase, notes_of, one_bar
from drills.kinds.wording import capital, choice_options
from drills.notation.drawing import Role
from drills.notation.score import MarkKind, Onset, picked, sounds
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Facts, Feedback, Item, Kind, Manner, Misreading, Option, Picture, Question

MOVES: Final = {
    "hammer-on": "a hammer-on steps up to the next number",
    "pull-off": "a pull-off steps down to the next number",
    "slide-up": "a slide up glides to the higher number",
    "slide-down": "a slide down glides to the lower number",
    "half-bend": "a half bend ends one fret higher than its number",
    "full-bend": "a full bend ends two frets higher than its number",
}
"""Where the pitch goes at each sign."""


class MarkPicked:
    """A phrase with signs: which notes does the picking hand pluck?"""

    name = "mark-picked"
    title = "Which notes are picked"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for phrase in PHRASES:
            if len(phrase.notes) < 2:
                continue
            yield Item(
                f"{self.name}/{phrase.key}", self.name, tuning, phrase.key, Kind.PICKED, phrase.stage,
                f"Picked or not: {phrase.title}", "picked", _needs(phrase),
                think=round(1.2 + 0.85 * (len(phrase.notes) - 1), 2),
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return phrase_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        phrase = PHRASE_BY_KEY["h-then"]
        return Explanation(
            "Picked or not",
            (
                "The picking hand plucks a note unless a sign says that the fretting hand sounds it: the second "
                "note of a hammer-on, a pull-off or a slide under an arc is not picked.",
                "Answer for each number from left to right: y when it is picked, n when it is not. Here: y n y.",
                "Without any sign every note is picked. A bend is picked once, before the string is pushed.",
            ),
            pictures.with_neck(_phrase_view(phrase, item.tuning, manner.dialect), manner),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        phrase = PHRASE_BY_KEY[item.subject]
        notes = notes_of(phrase, item.tuning)
        true = picked(notes)
        right = "".join("y" if struck else "n" for struck in true)
        # Typed tab does not tell whether a slide is picked again (common practice, no source): print does, by its arc.
        slides = any(key.startswith("slide") for key in phrase.signs)
        view = _phrase_view(phrase, item.tuning, Dialect.ENGRAVED if slides else manner.dialect)
        return Question(
            item,
            "Which notes are picked? y or n for each, from left to right.",
            Picture(view),
            (right,),
            answers.picked(len(notes)),
            partial(_wrong_picked, view, phrase, true),
            options=(Option("y", "picked", "y"), Option("n", "not picked", "n")),
            length=len(notes),
            traps=misreadings.of_picked(true),
            show=lambda answer: " ".join(answer) if set(answer) <= {"y", "n"} else answer,
        )


class MarkSounds:
    """A phrase with signs: what is heard, in order?"""

    name = "mark-sounds"
    title = "What sounds"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for phrase in PHRASES:
            if phrase.signs:
                yield Item(
                    f"{self.name}/{tuning.name}/{phrase.key}", self.name, tuning, phrase.key, Kind.CHOICE,
                    phrase.stage, f"What sounds: {phrase.title}", "sounds", _needs(phrase), think=3.2,
                )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return phrase_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        phrase = PHRASE_BY_KEY["h"]
        return Explanation(
            "What is heard",
            (
                "Signs change what is heard: a hammer-on steps up, a pull-off steps down, a slide glides, a bend "
                "pushes the pitch up while the finger stays at its fret.",
                "A half bend ends as high as the next fret, a full bend as high as the fret after that. Released, "
                "the pitch comes back down.",
                "Each pitch that is heard is named by the fret that sounds it, one after another. Here: 5, then 7.",
            ),
            pictures.with_neck(_phrase_view(phrase, item.tuning, manner.dialect), manner),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        tuning = item.tuning
        phrase = PHRASE_BY_KEY[item.subject]
        notes = notes_of(phrase, tuning)
        opened = tuning.open(notes[0].string).midi
        heard = [midi - opened for midi in sounds(notes, tuning)]
        right = _heard_text(heard)
        wrong = _misheard(heard, [note.fret or 0 for note in notes], rng)
        texts = [right, *wrong]
        rng.shuffle(texts)
        options = choice_options(texts)
        view = _phrase_view(phrase, tuning, manner.dialect)
        return Question(
            item,
            "Which pitches are heard, in order, each named by its fret?",
            Picture(view),
            (right,),
            answers.choice(options),
            partial(_wrong_sound, view, phrase, right),
            options=options,
            choices=options,
            traps=_sound_traps(heard),
        )


def phrase_facts(item: Item) -> Facts:
    """Every mark of a phrase, which notes are picked, and what sounds."""
    notes = notes_of(PHRASE_BY_KEY[item.subject], item.tuning)
    kinds = [mark.kind.value for note in notes for mark in note.marks]
    return {
        "mark": kinds[0] if kinds else None,
        "marks": kinds,
        "string": notes[0].string,
        "frets": [note.fret for note in notes],
        "picked": list(picked(notes)),
        "sounds": list(sounds(notes, item.tuning)),
    }


def _needs(phrase: Phrase) -> tuple[str, ...]:
    return tuple(f"mark-name/{key}-engraved" for key in phrase.signs)


def _phrase_view(phrase: Phrase, tuning: Tuning, dialect: Dialect) -> StaffView:
    onsets = tuple(Onset((note,)) for note in notes_of(phrase, tuning))
    return StaffView(one_bar(onsets, tuning), dialect)


def _heard_text(frets: Sequence[int]) -> str:
    return ", then ".join("open" if fret == 0 else str(fret) for fret in frets)


def _misheard(heard: list[int], frets: list[int], rng: random.Random) -> list[str]:
    """Three wrong answers: backwards, only what is written, one fret too little or too much at the turn."""
    right = _heard_text(heard)
    turn = max(range(len(heard)), key=lambda i: heard[i])
    tries = [
        heard[::-1],
        frets,
        [fret + (i == turn) for i, fret in enumerate(heard)],
        [fret - (i == turn) for i, fret in enumerate(heard)],
        heard[:1],
        heard[:-1],
        [*heard, heard[0]],
    ]
    found: list[str] = []
    for wrong in tries:
        text = _heard_text(wrong)
        if text != right and text not in found and min(wrong) >= 0:
            found.append(text)
    first, *rest = found
    return [first, *rng.sample(rest, 2)]


def _sound_traps(heard: list[int]) -> dict[Misreading, frozenset[str]]:
    off = [[fret + by * (i == at) for i, fret in enumerate(heard)] for at in range(len(heard)) for by in (-1, 1)]
    return misreadings.traps(
        {
            Misreading.WRONG_DIRECTION: [_heard_text(heard[::-1])],
            Misreading.OFF_BY_ONE_FRET: map(_heard_text, off),
            Misreading.TOO_FEW: [_heard_text(heard[:size]) for size in range(1, len(heard))],
            Misreading.TOO_MANY: [_heard_text([*heard, heard[0]])],
        },
        [_heard_text(heard)],
    )


def _wrong_picked(view: StaffView, phrase: Phrase, true: Sequence[bool], said: str) -> Feedback:
    notes = [onset.notes[0] for onset in view.piece.bars[0].onsets]
    right = " ".join("y" if struck else "n" for struck in true)
    if not all(true):
        signs = " or a ".join(BY_KEY[key].name for key in phrase.signs)
        why = f"The number after a {signs} is sounded by the fretting hand, so it is not picked: {right}."
    elif phrase.signs:
        why = f"A bend joins no two numbers, so each number is picked, and picked once: {right}."
    else:
        why = f"No sign joins these notes, so the hand picks every one: {right}."
    wrong = [len(said) == len(true) and said[i] != ("y" if true[i] else "n") for i in range(len(notes))]
    colours = pictures.coloured(view, Role.TRUE) | pictures.coloured(view, Role.SAID, wrong)
    keys = {(0, i): ("y" if struck else "n", "") for i, struck in enumerate(true)}
    return Feedback(why, Picture(replace(view, colours=colours, keys=keys)))


def _wrong_sound(view: StaffView, phrase: Phrase, right: str, said: str) -> Feedback:
    moves = [MOVES[key] for key in phrase.signs]
    if any(mark.kind is MarkKind.RELEASE for _, marks in phrase.notes for mark in marks):
        moves.append("its release comes back to the number")
    why = f"{capital(', and '.join(moves))}: what is heard is {right}."
    return Feedback(why, Picture(replace(view, colours=pictures.coloured(view, Role.TRUE))))
