"""Fingering: numbers and letters of the fingers, one finger a fret, and rows under the staff."""

from __future__ import annotations

import random
import re

import pytest

from drills.notation.staff import Dialect, draw_staff
from drills.question import Item, Manner
from tests.drills.samples import EVERY, answered, ask, of

# As guitar methods print them (common practice, no source).
FRETTING = {"1": "index finger", "2": "middle finger", "3": "ring finger", "4": "little finger"}
PICKING = {"p": "thumb", "i": "index finger", "m": "middle finger", "a": "ring finger"}


def items(tuning: str = "standard", lesson: str = "") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == "finger" and lesson in ("", item.lesson)]


@pytest.mark.parametrize(("signs", "hand"), [(FRETTING, "fretting"), (PICKING, "picking")])
def test_fingers_have_the_signs_that_methods_print(signs: dict[str, str], hand: str) -> None:
    for sign, name in signs.items():
        assert ask(f"finger/name-{sign}").prompt == f"Which finger of the {hand} hand is {sign}?"
        assert ask(f"finger/name-{sign}").answers == (name,)
        assert ask(f"finger/sign-{sign}").answers == (sign,)
        assert name in ask(f"finger/sign-{sign}").prompt
    asked = {item.subject for item in items(lesson=hand)}
    assert asked == {f"{way}-{sign}" for way in ("name", "sign") for sign in signs}


@pytest.mark.parametrize("tuning", EVERY)
def test_one_finger_a_fret(tuning: str) -> None:
    found = items(tuning, "position")
    assert len(found) == 12
    for item in found:
        position, string, fret = map(int, re.findall(r"\d+", item.subject))
        question = of(tuning).ask(item, random.Random(0), Manner())
        # In a position the first finger has its fret and each next finger the next one (common practice, no source).
        assert question.answers == ({0: "1", 1: "2", 2: "3", 3: "4"}[fret - position],)
        assert question.picture.staff is not None
        notes = [note for *_, onset in question.picture.staff.piece.onsets() for note in onset.notes]
        assert [(note.string, note.fret) for note in notes] == [(string, position), (string, fret)]
        assert question.picture.staff.fingering == {(0, 0): "1"}


@pytest.mark.parametrize("dialect", Dialect)
def test_fingers_stand_under_their_frets(dialect: Dialect) -> None:
    for item in items(lesson="row"):
        question = ask(item.id, manner=Manner(dialect=dialect))
        assert question.picture.staff is not None
        *_, line, row = [
            text for text in draw_staff(question.picture.staff, width=60).text() if re.search(r"\d", text)
        ]
        frets = [(match.start(), int(match[0])) for match in re.finditer(r"\d+", line)]
        fingers = [(match.start(), int(match[0])) for match in re.finditer(r"\d+", row)]
        assert [column for column, _ in frets] == [column for column, _ in fingers]
        lowest = min(fret for _, fret in frets)
        assert [finger for _, finger in fingers] == [fret - lowest + 1 for _, fret in frets]
        marked = int(item.subject.rpartition("/")[2])
        assert question.answers == (str(fingers[marked - 1][1]),)
        # A fret is never the right finger by chance: whoever mixes them up is found out.
        assert frets[marked - 1][1] != fingers[marked - 1][1]


def test_a_fret_that_is_given_for_a_finger_is_found_out() -> None:
    question = ask("finger/standard/row-5-7-8-7/4")
    verdict = answered(question, "7")
    assert verdict.misreadings == ("swapped-string-and-fret",)
    assert verdict.why == "The number on the line is the fret, 7, and the one under the staff is the finger, 3."
    assert answered(question, "9").why == (
        "The number on the line is the fret, 7, and the one under the staff is the finger, 3; there is no 9 in that "
        "column."
    )
    assert answered(ask("finger/standard/position-5/5/6"), "3").why == (
        "With the first finger at fret 5, fret 6 is under finger 2; finger 3 is at fret 7."
    )
    assert answered(ask("finger/name-3"), "middle finger").why == (
        "On the fretting hand 3 is the ring finger, and 2 is the middle finger."
    )


def test_a_hand_that_has_to_stretch_is_sent_to_people_who_can_see_it() -> None:
    lines = of().explain(items(lesson="position")[0], Manner()).lines
    assert any("teacher" in line and "doctor" in line for line in lines)
