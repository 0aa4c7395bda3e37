"""What the tests of the drills ask: catalogues, items of every sort, manners that take turns."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import product

from drills.catalogue import Catalogue, catalogue
from drills.kinds.chord_pictures import say_chord
from drills.notation.pitch import Naming, spell
from drills.notation.staff import Dialect
from drills.notation.tuning import shipped
from drills.question import Answer, Item, Kind, Manner, Question, Verdict, judge

EVERY = tuple(sorted(shipped()))
CORE = ("standard", "ukulele", "banjo", "8-string")
"""One tuning of each sort: the plain one, re-entrant, with a short string, of the most lines."""
MANNERS = tuple(
    Manner(naming=naming, dialect=dialect, left_handed=left)
    for naming, dialect, left in product(Naming, Dialect, (False, True))
)
"""Every naming, dialect and hand."""


def of(tuning: str = "standard") -> Catalogue:
    """A shipped tuning's catalogue."""
    return catalogue(shipped()[tuning])


def sort_of(item: Item) -> tuple[str, str, str, int]:
    """Items of one sort are asked by the same lines of code."""
    *_, last = item.subject.rpartition("/")
    return item.drill, item.kind, item.lesson + ("-name" if last.endswith("-name") else ""), item.stage


def one_of_each(tuning: str = "standard") -> list[Item]:
    """One item of every sort."""
    return list({sort_of(item): item for item in of(tuning).items}.values())


def ask(item_id: str, seed: int = 0, manner: Manner | None = None, tuning: str = "standard") -> Question:
    """One asking of an item."""
    found = of(tuning)
    return found.ask(found.by_id[item_id], random.Random(seed), manner or Manner())


def typed(question: Question, answer: str, manner: Manner) -> str:
    """An answer in normal form as that learner types it (B natural is H where notes are named so)."""
    if question.item.drill == "chord-tones":
        return ", ".join(spell(name, manner.naming) for name in answer.split())
    if question.item.kind is Kind.CHORD:
        return say_chord(answer, manner.naming)
    return spell(answer, manner.naming) if question.item.kind is Kind.NOTE else answer


def answered(question: Question, text: str) -> Verdict:
    """What becomes of a typed text."""
    return judge(question, Answer(text))


def wrong_answers(question: Question, rng: random.Random) -> Iterator[str]:
    """What the keys of a question give that is wrong: every one key, or some of many."""
    if question.length == 1:
        yield from (o.answer for o in question.options if question.parse(o.answer) not in question.answers)
        return
    for _ in range(6):
        said = question.joiner.join(rng.choice(question.options).answer for _ in range(question.length))
        if question.parse(said) not in question.answers:
            yield said
