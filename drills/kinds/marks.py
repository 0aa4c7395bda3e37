"""Technique signs: name it, find it, what the hands do."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drills import answers, misreadings
from drills.kinds import pictures
from drills.kinds.signs import (
    BY_KEY,
    CAUTION,
    SIGNS,
    Sign,
    example,
    one_bar,
)
from drills.kinds.wording import capital, choice_options
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
        options = choice_options([other.name for other in _offered(sign, rng)])
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
            Option(key, "", _written(other, dialect)) for key, other in zip("123456", offered, strict=False)
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
        options = choice_options([other.act for other in offered])
        return Question(
            item,
            "What do the hands do after the pick?",
            Picture(view),
            (sign.act,),
            answers.choice(options),
            partial(_wrong_sign, item, view),
            options=options,
            choices=options,
            traps=_sign_traps(sign, options, [other.act for other in SIGNS]),
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
        pictures.with_neck(StaffView(one_bar(onsets, item.tuning), dialect), manner),
    )


def _sign(item: Item) -> tuple[Sign, Dialect]:
    key, _, dialect = item.subject.rpartition("-")
    return BY_KEY[key], Dialect(dialect)


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


def _written(sign: Sign, dialect: Dialect) -> str:
    """How a sign is written: the answer where the sign itself is to be found, wherever it stands."""
    return sign.text if dialect is Dialect.TEXT else sign.engraved


def _wrong_sign(item: Item, view: StaffView, said: str) -> Feedback:
    key = item.subject.removesuffix("-engraved").removesuffix("-text")
    sign = BY_KEY[key]
    why = f"This is a {sign.name}: {_written(sign, view.dialect)}"
    other = next((other for other in SIGNS if said in (other.name, other.act)), None)
    if other is not None:
        why += f"; what you chose is a {other.name}: {_written(other, view.dialect)}"
    return Feedback(why + ".", Picture(replace(view, colours=pictures.coloured(view, Role.TRUE))))


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
