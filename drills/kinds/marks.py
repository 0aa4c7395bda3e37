"""Technique signs: name it, find it, what the hand does, what is picked, what sounds."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds.signs import (
    BY_KEY,
    CAUTION,
    PHRASE_BY_KEY,
    PHRASES,
    SIGNS,
    Phrase,
    Sign,
    example,
    notes_of,
    one_bar,
)
from drills.kinds.wording import capital
from drills.notation.drawing import Role
from drills.notation.score import At, Onset, picked, sounds
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import (
    Explanation,
    Facts,
    Feedback,
    Item,
    Kind,
    Manner,
    Misreading,
    Option,
    Picture,
    Question,
)

OPPOSITES: Final = {
    "hammer-on": "pull-off", "pull-off": "hammer-on", "slide-up": "slide-down", "slide-down": "slide-up",
}  # fmt: skip


class MarkName:
    """A sign is drawn: what is it called?"""

    name = "mark-name"
    title = "Name the sign"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        return sign_items(self.name, tuning, 1.2)

    def facts(self, item: Item) -> Facts:
        return sign_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return sign_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign, dialect = _sign(item)
        view = StaffView(one_bar(_varied(sign, item.tuning, rng), item.tuning), dialect)
        options = _options([other.name for other in _offered(sign, rng)])
        return Question(
            item,
            "What is this sign called?",
            Picture(view),
            (sign.name,),
            answers.choice(options),
            partial(_wrong_sign, item, view),
            options=options,
            choices=options,
            traps=_sign_traps(sign, options, [other.name for other in SIGNS]),
        )


class NameToMark:
    """Several signs are drawn: which of them is the one named?"""

    name = "name-to-mark"
    title = "Find the sign"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        return sign_items(self.name, tuning, 2.2)

    def facts(self, item: Item) -> Facts:
        return sign_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return sign_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign, dialect = _sign(item)
        offered = _offered(sign, rng)
        onsets: list[Onset] = []
        starts: list[int] = []
        for other in offered:
            starts.append(len(onsets))
            onsets += _varied(other, item.tuning, rng)
        options = tuple(
            Option(key, "", _written(other, dialect)) for key, other in zip("abcdef", offered, strict=False)
        )
        keys = {(0, at): (option.key, option.answer) for at, option in zip(starts, options, strict=True)}
        view = StaffView(one_bar(tuple(onsets), item.tuning), dialect, keys=keys)
        right = options[offered.index(sign)].answer
        return Question(
            item,
            f"Which of these is a {sign.name}?",
            Picture(view),
            (right,),
            answers.choice(options),
            partial(_wrong_find, item, view, offered, starts),
            options=options,
            choices=options,
            traps=_find_traps(sign, offered, options),
        )


class MarkHand:
    """A sign is drawn: what do the hands do?"""

    name = "mark-hand"
    title = "What the hands do"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for sign in SIGNS:
            yield Item(
                f"{self.name}/{sign.key}", self.name, tuning, sign.key, Kind.CHOICE, sign.stage,
                f"The hands at a {sign.name}", sign.key, (f"mark-name/{sign.key}-engraved",), think=4.0,
            )  # fmt: skip

    def facts(self, item: Item) -> Facts:
        return sign_facts(item)

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return sign_explanation(item, manner)

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        sign = BY_KEY[item.subject]
        view = StaffView(one_bar(_varied(sign, item.tuning, rng), item.tuning), manner.dialect)
        offered = _offered(sign, rng)
        options = _options([other.hand for other in offered])
        return Question(
            item,
            "What do the hands do here?",
            Picture(view),
            (sign.hand,),
            answers.choice(options),
            partial(_wrong_sign, item, view),
            options=options,
            choices=options,
            traps=_sign_traps(sign, options, [other.hand for other in SIGNS]),
        )


class MarkPicked:
    """A phrase with signs: which notes does the picking hand pluck?"""

    name = "mark-picked"
    title = "Which notes are picked"

    def items(self, tuning: Tuning) -> Iterator[Item]:
        for phrase in PHRASES:
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
            "Picked, or sounded by the fretting hand",
            (
                "The picking hand plucks a note unless a sign says that the fretting hand sounds it: the second "
                "note of a hammer-on, a pull-off or a slide under an arc is not picked.",
                "Answer for each number from left to right: y when it is picked, n when it is not. Here: y n y.",
                "Without any sign every note is picked. A bend is picked once, before the string is pushed.",
            ),
            Picture(_phrase_view(phrase, item.tuning, manner.dialect)),
        )

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        phrase = PHRASE_BY_KEY[item.subject]
        notes = notes_of(phrase, item.tuning)
        true = picked(notes)
        right = "".join("y" if struck else "n" for struck in true)
        view = _phrase_view(phrase, item.tuning, manner.dialect)
        return Question(
            item,
            "Which notes are picked? y or n for each, from left to right.",
            Picture(view),
            (right,),
            answers.picked(len(notes)),
            partial(_wrong_picked, view, true),
            options=(Option("y", "picked", "y"), Option("n", "not picked", "n")),
            length=len(notes),
            traps=misreadings.of_picked(true),
            show=lambda answer: " ".join(answer),
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
                "The answers say the frets whose pitch is heard, one after another.",
            ),
            Picture(_phrase_view(phrase, item.tuning, manner.dialect)),
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
        options = _options(texts)
        view = _phrase_view(phrase, tuning, manner.dialect)
        return Question(
            item,
            "What is heard, in order? (Pitches, named by their frets.)",
            Picture(view),
            (right,),
            answers.choice(options),
            partial(_wrong_sound, view, phrase, right),
            options=options,
            choices=options,
            traps=misreadings.traps({Misreading.WRONG_DIRECTION: [_heard_text(heard[::-1])]}, [right]),
        )


def sign_items(drill: str, tuning: Tuning, think: float) -> Iterator[Item]:
    """Each sign in each dialect; its name there does not depend on the tuning."""
    for sign in SIGNS:
        for dialect in Dialect:
            subject = f"{sign.key}-{dialect}"
            needs = () if drill == "mark-name" else (f"mark-name/{subject}",)
            yield Item(
                f"{drill}/{subject}", drill, tuning, subject, Kind.CHOICE, sign.stage,
                f"{capital(sign.name)}, {'in print' if dialect is Dialect.ENGRAVED else 'as typed'}", sign.key,
                needs, think=think,
            )  # fmt: skip


def sign_facts(item: Item) -> Facts:
    """The mark, which notes of its example are picked, and what sounds."""
    sign = BY_KEY[item.subject.removesuffix("-engraved").removesuffix("-text")]
    notes = [onset.notes[0] for onset in example(sign, min(3, item.tuning.lines), sign.frets)]
    return {
        "mark": sign.marks[0].kind.value,
        "amount": None if sign.marks[0].amount is None else float(sign.marks[0].amount),
        "picked": list(picked(notes)),
        "sounds": list(sounds(notes, item.tuning)),
        "source": sign.source,
    }


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


def sign_explanation(item: Item, manner: Manner) -> Explanation:
    """One sign: how it is written in both dialects, what the hands do, what is heard."""
    sign = BY_KEY[item.lesson]
    dialect = Dialect.TEXT if item.subject.endswith("-text") else manner.dialect
    if item.subject.endswith("-engraved"):
        dialect = Dialect.ENGRAVED
    onsets = example(sign, min(3, item.tuning.lines), sign.frets)
    return Explanation(
        capital(sign.name),
        (
            f"In print: {sign.engraved}. As typed: {sign.text}.",
            f"{sign.hand}. {sign.sound}",
            CAUTION,
        ),
        Picture(StaffView(one_bar(onsets, item.tuning), dialect)),
    )


def _sign(item: Item) -> tuple[Sign, Dialect]:
    key, _, dialect = item.subject.rpartition("-")
    return BY_KEY[key], Dialect(dialect)


def _needs(phrase: Phrase) -> tuple[str, ...]:
    return tuple(f"mark-name/{key}-engraved" for key in phrase.signs)


def _varied(sign: Sign, tuning: Tuning, rng: random.Random) -> tuple[Onset, ...]:
    """The sign somewhere else on the neck: same shape, other string and position."""
    shift = rng.randrange(-3, 4)
    string = rng.randint(1, min(4, tuning.lines))
    return example(sign, string, tuple(fret + shift for fret in sign.frets))


def _offered(sign: Sign, rng: random.Random) -> list[Sign]:
    """The sign, its opposite or its twin, and two more, in random order."""
    near = [other for other in SIGNS if other is not sign and _family(other) == _family(sign)]
    rest = [other for other in SIGNS if other is not sign and other not in near]
    offered = [sign, *near, *rng.sample(rest, 3 - len(near))]
    rng.shuffle(offered)
    return offered


def _family(sign: Sign) -> str:
    return "slur" if sign.key in ("hammer-on", "pull-off") else sign.key.partition("-")[0].replace("half", "full")


def _options(texts: Sequence[str]) -> tuple[Option, ...]:
    """Keys 1 to 9 beside texts; letters where the texts are numbers, so that neither is taken for the other."""
    keys = "abcdefghi" if any(text[:1].isdigit() for text in texts) else "123456789"
    return tuple(Option(key, text, text) for key, text in zip(keys, texts, strict=False))


def _sign_traps(sign: Sign, options: Sequence[Option], by_sign: list[str]) -> dict[Misreading, frozenset[str]]:
    offered = {option.answer for option in options}
    texts = dict(zip((other.key for other in SIGNS), by_sign, strict=True))
    opposite = texts.get(OPPOSITES.get(sign.key, ""), "")
    others = offered - {texts[sign.key], opposite}
    return misreadings.traps(
        {Misreading.WRONG_DIRECTION: {opposite} & offered, Misreading.MARK_CONFUSED: others}, [texts[sign.key]]
    )


def _find_traps(
    sign: Sign, offered: Sequence[Sign], options: Sequence[Option]
) -> dict[Misreading, frozenset[str]]:
    answers_of = {other.key: option.answer for other, option in zip(offered, options, strict=True)}
    opposite = {answers_of[key] for key in [OPPOSITES.get(sign.key, "")] if key in answers_of}
    right = answers_of[sign.key]
    return misreadings.traps(
        {
            Misreading.WRONG_DIRECTION: opposite,
            Misreading.MARK_CONFUSED: set(answers_of.values()) - opposite - {right},
        },
        [right],
    )


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


def _colours(view: StaffView, role: Role, which: Sequence[bool] | None = None) -> dict[At, Role]:
    onsets = view.piece.bars[0].onsets
    return {
        At(0, i, onset.notes[0].string): role for i, onset in enumerate(onsets) if which is None or which[i]
    }


def _written(sign: Sign, dialect: Dialect) -> str:
    """How a sign is written: the answer where the sign itself is to be found, wherever it stands."""
    return sign.text if dialect is Dialect.TEXT else sign.engraved


def _wrong_sign(item: Item, view: StaffView, said: str) -> Feedback:
    key = item.subject.removesuffix("-engraved").removesuffix("-text")
    sign = BY_KEY[key]
    why = f"This is a {sign.name}: {_written(sign, view.dialect)}"
    other = next((other for other in SIGNS if said in (other.name, other.hand)), None)
    if other is not None:
        why += f"; a {other.name} is {_written(other, view.dialect)}"
    return Feedback(why + ".", Picture(replace(view, colours=_colours(view, Role.TRUE))))


def _wrong_find(item: Item, view: StaffView, offered: list[Sign], starts: list[int], said: str) -> Feedback:
    sign, dialect = _sign(item)
    why = f"A {sign.name} is {_written(sign, dialect)}"
    ends = [*starts[1:], len(view.piece.bars[0].onsets)]
    colours: dict[At, Role] = {}
    for other, start, end in zip(offered, starts, ends, strict=True):
        role = Role.TRUE if other is sign else Role.SAID if said == _written(other, dialect) else None
        if role is not None:
            colours |= {
                At(0, i, view.piece.bars[0].onsets[i].notes[0].string): role for i in range(start, end)
            }
        if role is Role.SAID:
            why += f"; the one you chose is a {other.name}"
    return Feedback(why + ".", Picture(replace(view, colours=colours)))


def _wrong_picked(view: StaffView, true: Sequence[bool], said: str) -> Feedback:
    notes = [onset.notes[0] for onset in view.piece.bars[0].onsets]
    right = " ".join("y" if struck else "n" for struck in true)
    if all(true):
        why = f"No sign joins these notes, so the hand picks every one: {right}."
    else:
        why = f"The note that a sign leads to is sounded by the fretting hand, not picked: {right}."
    wrong = [len(said) == len(true) and said[i] != ("y" if true[i] else "n") for i in range(len(notes))]
    colours = _colours(view, Role.TRUE) | _colours(view, Role.SAID, wrong)
    keys = {(0, i): ("y" if struck else "n", "") for i, struck in enumerate(true)}
    return Feedback(why, Picture(replace(view, colours=colours, keys=keys)))


def _wrong_sound(view: StaffView, phrase: Phrase, right: str, said: str) -> Feedback:
    heard = "; ".join(BY_KEY[key].sound.rstrip(".").lower() for key in phrase.signs)
    return Feedback(
        f"{capital(heard)}. Heard: {right}.", Picture(replace(view, colours=_colours(view, Role.TRUE)))
    )
