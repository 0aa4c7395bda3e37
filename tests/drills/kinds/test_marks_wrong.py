"""Which is written wrongly: just one is, by rules of the notation written down again here."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from math import log2

import pytest

from drills.notation.drawing import Role
from drills.notation.score import Note
from drills.notation.staff import StaffView
from drills.question import Item, Manner, Misreading, Question
from drills.stages import Stage
from tests.drills.samples import CORE, answered, ask, of

# H. Wright, "The Guide to TAB Notation", 1995: a hammer-on goes up, a pull-off down. A slide's line goes where its
# frets go: common practice, no source.
WAYS = {"hammer-on": 1, "pull-off": -1, "slide-up": 1, "slide-down": -1}
# No finger is on an open string to bend it, tap it or slide to it from below; a trill has two frets: what the words
# mean (H. Wright, 1995; MusicXML 4.0, trill-mark).
FINGERED = {"bend", "pre-bend", "tap", "slide-in-up", "vibrato"}
# Half, a third, a quarter and a fifth of the string, and what is left of it: where the first four overtones rest
# (arithmetic), as the nearest fret.
NODES = {round(12 * log2(n / (n - k))) for n in range(2, 6) for k in range(1, n)}


def items(tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == "mark-wrong"]


def staff_of(question: Question) -> StaffView:
    assert question.picture.staff is not None
    return question.picture.staff


def fragments(question: Question) -> Iterator[tuple[str, list[Note]]]:
    """Every fragment's answer and its notes, from one key to the next."""
    view = staff_of(question)
    onsets = view.piece.bars[0].onsets
    starts = sorted(view.keys)
    for (bar, start), (_, end) in zip(starts, [*starts[1:], (0, len(onsets))], strict=True):
        yield view.keys[bar, start][1], [onset.notes[0] for onset in onsets[start:end]]


def is_wrong(notes: list[Note]) -> bool:
    for n, note in enumerate(notes):
        for mark in note.marks:
            if mark.kind.value in WAYS:
                after = notes[n + 1]
                if after.string != note.string or ((after.fret or 0) - (note.fret or 0)) * WAYS[mark.kind.value] <= 0:
                    return True
            if mark.kind.value in FINGERED and note.fret == 0:
                return True
            if mark.kind.value == "trill" and mark.to == note.fret:
                return True
            if mark.kind.value == "harmonic" and note.fret not in NODES:
                return True
    return False


def test_where_overtones_rest() -> None:
    assert {4, 5, 7, 9, 12, 16, 19, 24} >= NODES - {28} >= {4, 5, 7, 9, 12, 19, 24}


@pytest.mark.parametrize("tuning", CORE)
def test_just_one_is_written_wrongly_whatever_the_seed(tuning: str) -> None:
    for item in items(tuning):
        for seed in range(60):
            question = of(tuning).ask(item, random.Random(seed), Manner())
            found = list(fragments(question))
            assert len(found) == 4
            assert [answer for answer, notes in found if is_wrong(notes)] == list(question.answers), item.id


def test_a_sign_that_leaves_its_string_leads_to_no_other_fragment() -> None:
    for item in items():
        for seed in range(60):
            for _, notes in (found := list(fragments(ask(item.id, seed)))):
                linking = [n for n in notes if {mark.kind.value for mark in n.marks} & set(WAYS)]
                for note in linking:
                    if {other.string for other in notes} != {note.string}:
                        others = [n for _, fragment in found if fragment is not notes for n in fragment]
                        assert note.string not in {other.string for other in others}, item.id


def test_the_wrong_one_stands_in_every_place() -> None:
    for item in items():
        places = [
            next(n for n, option in enumerate(question.options) if option.answer in question.answers)
            for question in (ask(item.id, seed) for seed in range(200))
        ]
        # chance alone gives each place 50, with a spread of 6
        assert all(places.count(place) > 25 for place in range(4)), item.id


def test_no_sign_tells_by_how_often_it_stands_there() -> None:
    # One sign stands twice, the wrong one's in half of the cases: so each of the four is wrong in a quarter of them.
    for item in items():
        fault = of().facts(item)["mark"]
        twice = 0
        for seed in range(200):
            signs = [sign_of(answer) for answer, _ in fragments(ask(item.id, seed))]
            mine = sign_of(ask(item.id, seed).answers[0])
            counts = sorted(signs.count(sign) for sign in set(signs))
            assert counts in ([1, 1, 2], [2, 2]), (item.id, signs)
            twice += signs.count(mine) == 2
        assert fault
        assert twice == 200 if item.stage == Stage.NAMES else 60 < twice < 140, item.id


def sign_of(said: str) -> str:
    """The sign that an answer speaks of: ``a hammer-on``, ``a rising line``."""
    return re.split(r" (?:from|to|of|at|on|between|into) ", said)[0]


def test_no_title_tells_what_is_wrong() -> None:
    titles = {item.title for item in items()}
    assert titles == {f"Written wrongly, no. {n}" for n in range(1, len(items()) + 1)}


@pytest.mark.parametrize(
    ("item", "said", "why", "kinds"),
    [
        ("mark-wrong/hammer-down", "a hammer-on from a lower to a higher fret",
         "A hammer-on from a higher to a lower fret is wrong, because a hammer-on brings a finger down on a higher "
         "fret; a hammer-on from a lower to a higher fret is well written.", (Misreading.WRONG_DIRECTION,)),
        ("mark-wrong/bend-open", "a full bend of a fretted note",
         "A full bend of the open string is wrong, because no finger is on an open string to push it; a full bend of a "
         "fretted note is well written.", ()),
    ],
)  # fmt: skip
def test_why_it_is_wrong(item: str, said: str, why: str, kinds: tuple[Misreading, ...]) -> None:
    question = next(
        found for found in (ask(item, seed) for seed in range(40)) if said in {each.answer for each in found.options}
    )
    verdict = answered(question, said)
    assert (verdict.why, verdict.misreadings) == (why, kinds)
    assert verdict.picture.staff is not None
    assert set(verdict.picture.staff.colours.values()) == {Role.TRUE, Role.SAID}


def test_the_facts_name_the_fault_and_its_source() -> None:
    for item in items():
        facts = of().facts(item)
        assert facts["fault"]
        assert facts["source"]
