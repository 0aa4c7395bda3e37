"""What an item looks like when it is misread: by facts alone."""

from __future__ import annotations

import random

import pytest

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Facts, Manner, Misreading
from drills.taken_for import answers_of, fits, in_common, same_ending

STANDARD = catalogue(shipped()["standard"])


@pytest.mark.parametrize("name", ["standard", "ukulele"])
def test_answers_that_facts_hold_are_those_of_the_question(name: str) -> None:
    found = catalogue(shipped()[name])
    kinds = set()
    for item in found.items:
        answers = answers_of(item, found.facts(item))
        if answers is not None:
            kinds.add(item.kind)
            assert set(answers) == set(found.ask(item, random.Random(1), Manner()).answers), item.id
    assert kinds == {"note", "string", "line", "place", "fret", "picked"}


def place(string: int, fret: int) -> Facts:
    """A number on a line."""
    return {"string": string, "fret": fret, "midi": 40 + fret}


@pytest.mark.parametrize(
    ("kind", "near", "far"),
    [
        (Misreading.MIRRORED_LINE, [place(1, 3)], [place(1, 2), place(5, 3), place(6, 3)]),
        (Misreading.NEIGHBOUR_LINE, [place(5, 3)], [place(5, 4), place(4, 3), place(6, 3)]),
        (Misreading.OFF_BY_ONE_FRET, [place(6, 2), place(6, 4)], [place(6, 5), place(5, 4), place(6, 3)]),
        (Misreading.SWAPPED, [place(3, 6)], [place(6, 3), place(3, 5)]),
        (Misreading.OCTAVE, [place(6, 15)], [place(6, 14), place(5, 15)]),
    ],
)
def test_a_place_is_taken_for_those_that_it_is_misread_as(
    kind: Misreading, near: list[Facts], far: list[Facts]
) -> None:
    assert all(fits(kind, place(6, 3), other, "", 6) for other in near)
    assert not any(fits(kind, place(6, 3), other, "", 6) for other in far)


def mark(name: str, *picked: bool, sounds: tuple[int, ...] = ()) -> Facts:
    """A sign with what is picked."""
    return {"mark": name, "picked": list(picked), "sounds": list(sounds)}


def test_up_is_taken_for_down_where_as_much_is_picked() -> None:
    up = mark("slide-up", True, False)
    assert fits(Misreading.WRONG_DIRECTION, up, mark("slide-down", True, False), "", 6)
    assert not fits(Misreading.WRONG_DIRECTION, up, mark("slide-down", True, True), "", 6)
    assert not fits(Misreading.WRONG_DIRECTION, up, mark("slide-up", True, False), "", 6)
    rising, falling = mark("bend", True, sounds=(1, 2)), mark("trill", True, sounds=(2, 1))
    assert fits(Misreading.WRONG_DIRECTION, rising, falling, "", 6)
    octave_up, octave_down = {**place(5, 3), "sought": 55}, {**place(5, 3), "sought": 31}
    assert fits(Misreading.WRONG_DIRECTION, octave_up, octave_down, "", 6)
    assert not fits(Misreading.WRONG_DIRECTION, octave_up, octave_up, "", 6)


def test_what_is_picked_is_taken_for_as_many_notes_with_more_or_fewer_picks() -> None:
    slurred, plain = mark("hammer-on", True, False), mark("", True, True)
    assert fits(Misreading.PICKED_FOR_SLURRED, slurred, plain, "", 6)
    assert fits(Misreading.SLURRED_FOR_PICKED, plain, slurred, "", 6)
    assert not fits(Misreading.PICKED_FOR_SLURRED, plain, slurred, "", 6)
    assert not fits(Misreading.SLURRED_FOR_PICKED, slurred, slurred, "", 6)
    assert not fits(Misreading.PICKED_FOR_SLURRED, slurred, mark("", True, True, True), "", 6)


@pytest.mark.parametrize("kind", list(Misreading))
def test_nothing_looks_like_what_has_no_facts(kind: Misreading) -> None:
    assert not fits(kind, {}, {}, "5", 6)
    assert not fits(kind, place(6, 3), {}, "5", 6)


def test_what_is_shared_is_counted() -> None:
    assert in_common(place(6, 3), place(6, 4)) == 1
    assert in_common({"mark": None}, {"mark": None}) == 0
    by_id = STANDARD.by_id
    text = by_id["mark-name/hammer-on-text"]
    assert same_ending(text, by_id["mark-name/pull-off-text"]) > same_ending(text, by_id["mark-name/pull-off-engraved"])
