"""A small catalogue of plain questions, and learners who answer them."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from drills.catalogue import Catalogue
from drills.notation.tuning import Tuning, shipped
from drills.question import (
    Answer,
    Explanation,
    Facts,
    Feedback,
    Help,
    Item,
    Kind,
    Manner,
    Misreading,
    Picture,
    Question,
)
from trainer.practice import Asked, Outcome, Practice
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger

TODAY = 20782
STANDARD = shipped()["standard"]


@dataclass
class FakeDrill:
    """Asks for a number; the mirrored string is its one trap."""

    name: str
    made: tuple[Item, ...]
    title: str = "Fake"

    def items(self, tuning: Tuning) -> Iterable[Item]:
        return self.made

    def facts(self, item: Item) -> Facts:
        return {"string": int(item.subject.split("/")[0])}

    def ask(self, item: Item, rng: random.Random, manner: Manner) -> Question:
        string, *rest = item.subject.split("/")
        right = "/".join([string, *rest])
        mirrored = "/".join([str(7 - int(string)), *rest])
        return Question(
            item=item,
            prompt="Which?",
            picture=Picture(),
            answers=(right,),
            parse=lambda text: text.strip() or None,
            explain_wrong=lambda said: Feedback("No.", Picture()),
            traps={Misreading.MIRRORED_LINE: frozenset({mirrored})},
            helps=(Help(("letters",), Picture), Help(("letter",), Picture)),
        )

    def explain(self, item: Item, manner: Manner) -> Explanation:
        return Explanation(item.lesson, ("So it is.",))


def make_items(drill: str, frets: int, *, lesson: str, needs: str | None = None) -> tuple[Item, ...]:
    """Six strings by so many frets; each may need an item of another drill on its string."""
    return tuple(
        Item(
            id=f"{drill}/{string}/{fret}",
            drill=drill,
            tuning=STANDARD,
            subject=f"{string}/{fret}" if frets > 1 else str(string),
            kind=Kind.PLACE,
            stage=1,
            title=f"{drill} {string} {fret}",
            lesson=lesson,
            needs=(needs.format(string=string),) if needs else (),
        )
        for fret in range(frets)
        for string in range(1, 7)
    )


def make_catalogue(*, roots: int = 8, frets: int = 13) -> Catalogue:
    """Lines; places that need nothing (6 x ``roots``); notes that need their line (6 x ``frets``)."""
    lines = make_items("line", 1, lesson="lines")
    places = make_items("place", roots, lesson="places")
    notes = make_items("note", frets, lesson="notes", needs="line/{string}/0")
    items = lines + places + notes
    return Catalogue(
        tuning=STANDARD,
        items=items,
        by_id={item.id: item for item in items},
        drills={made[0].drill: FakeDrill(made[0].drill, made) for made in (lines, places, notes) if made},
        stages={1: "All"},
    )


def make_event(
    item: str = "line/1/0",
    day: int = TODAY,
    *,
    right: bool = True,
    seconds: float | None = 1.0,
    said: str = "1",
    misreadings: tuple[str, ...] = (),
    helps: tuple[str, ...] = (),
) -> Event:
    """One answer with a limit of 1.7 s; without seconds it is untimed."""
    return Event(
        day, item, right, said, seconds, 0.5, 1.7, seconds is not None, misreadings=misreadings, help=helps
    )


Reply = Callable[[Asked], Answer]


def well(asked: Asked) -> Answer:
    """Right and fast."""
    return Answer(asked.question.model, 0.9)


def slowly(asked: Asked) -> Answer:
    """Right, well over the limit."""
    return Answer(asked.question.model, 4.0)


def badly(asked: Asked) -> Answer:
    """Wrong, by no known misreading."""
    return Answer("nothing", 2.0)


@dataclass
class Learner:
    """Practises day after day on one ledger and keeps all that was asked and recorded."""

    catalogue: Catalogue
    ledger: Ledger = field(default_factory=Ledger)
    record: list[Event] = field(default_factory=list)
    asked: list[Asked] = field(default_factory=list)
    outcomes: list[Outcome] = field(default_factory=list)

    def practise(
        self,
        reply: Reply,
        day: int = TODAY,
        *,
        seconds: float = 4.0,
        sitting: int = 1,
        seed: int = 7,
        minutes: float = 10.0,
        limit: int | None = None,
        placement: bool = False,
        helped: str = "fading",
        first: tuple[str, ...] = (),
    ) -> Practice:
        """One sitting to its end; every question takes ``seconds`` of the clock."""
        now = datetime(2026, 11, 25, 8, tzinfo=UTC) + timedelta(days=day - TODAY)
        practice = Practice(
            self.catalogue,
            self.ledger,
            keep=lambda event, when: self.record.append(event),
            day=day,
            seed=seed,
            sitting=sitting,
            minutes=minutes,
            manner=Manner(),
            started=now,
            limit=limit,
            placement=placement,
            helped=helped,
            first=first,
        )
        self.asked, self.outcomes = [], []
        while (asked := practice.next(now)) is not None:
            now += timedelta(seconds=seconds)
            self.asked.append(asked)
            self.outcomes.append(practice.answer(reply(asked), now))
        return practice

    @property
    def ids(self) -> list[str]:
        """What was asked in the last sitting, in order."""
        return [asked.item.id for asked in self.asked]


def mixed(seed: int, right: float = 0.8) -> Reply:
    """A learner who is right so often, sometimes slow, and mirrors lines."""
    rng = random.Random(seed)

    def reply(asked: Asked) -> Answer:
        if rng.random() < right:
            return Answer(asked.question.model, rng.choice((0.8, 1.3, 3.0)))
        (mirrored,) = next(iter(asked.question.traps.values()))
        return Answer(mirrored, 1.5)

    return reply


def reasons(learner: Learner) -> Counter[str]:
    """Why the questions of the last sitting were asked."""
    return Counter(str(asked.why) for asked in learner.asked)


def overdue(count: int, day: int) -> Learner:
    """So many items met and known once, the last time on that day."""
    catalogue = make_catalogue(roots=90)
    learner = Learner(catalogue)
    for when in (day - 1, day):
        for item in catalogue.items[:count]:
            learner.ledger.apply(make_event(item.id, when))
    return learner
