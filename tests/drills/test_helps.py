"""Help that fades: every step is drawn, shows less than the one before it, and never what is asked."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import pairwise

import pytest

from drills.notation.shape import parse_shape
from drills.question import Item, Kind, Manner, Picture, Question
from tests.drills.samples import CORE, MANNERS, ask, of
from trainer.widgets.fitting import fit

TWO_STEPS = frozenset({
    "line-to-string", "neck-to-line", "tab-to-place", "place-to-tab", "fret-to-note", "note-to-fret", "same-pitch",
    "octave", "chord-name", "chord-symbol", "chord-tones", "chord-sounds", "chord-upper", "chord-interval",
    "diagram-to-tab", "tab-to-diagram", "name-to-diagram",
})  # fmt: skip
ALL_OPEN = frozenset({
    "chord-name/standard/000000", "chord-name/standard/xxx000", "chord-sounds/standard/xxx000",
    "chord-upper/standard/022000/3",
})  # fmt: skip
"""Every letter that could be counted from is a note of what is asked: the neck is the one help."""
NAMES = {"letters", "letter", "numbers", "number", "neck"}


def questions(tuning: str, manner: Manner | None = None) -> Iterator[Question]:
    for item in of(tuning).items:
        yield of(tuning).ask(item, random.Random(1), manner or Manner())


def seen(picture: Picture) -> set[tuple[object, ...]]:
    """All that a picture shows beside the notes: labels at their places, and dots on a neck."""
    found: set[tuple[object, ...]] = set()
    for part, view in zip(("staff", "neck", "diagram"), picture, strict=True):
        if view is not None:
            found.add((part,))
            found |= {(part, n, label) for n, label in enumerate(view.labels, start=1) if label}
    if picture.neck is not None:
        found |= {("dot", *at, role) for at, (_, role) in picture.neck.dots.items()}
        found |= {("lit", string) for string in picture.neck.lit_strings}
    return found


@pytest.mark.parametrize("tuning", CORE)
def test_each_step_shows_less_than_the_one_before_it_and_the_question_least(tuning: str) -> None:
    for question in questions(tuning):
        steps = [*(seen(step.draw()) for step in question.helps), seen(question.picture)]
        for more, less in pairwise(steps):
            assert less < more, question.item.id


def test_each_step_looks_another_way_where_it_is_drawn() -> None:
    for turn, manner in enumerate(MANNERS):
        for question in list(questions("standard", manner))[turn :: len(MANNERS)]:
            drawn = [step.draw() for step in question.helps] + [question.picture]
            rows = [tuple(fit(picture, 78, 13, whole=True).text()) for picture in drawn]
            assert len(set(rows)) == len(rows), question.item.id


def test_help_goes_in_two_steps_wherever_strings_are_told_apart() -> None:
    for question in questions("standard"):
        item, names = question.item, [step.names for step in question.helps]
        assert {name for each in names for name in each} <= NAMES
        # Three right answers in a row are given with help, with less, and without any.
        assert len(names) <= 2, item.id
        if item.id in ALL_OPEN:
            assert names == [("neck",)]
        elif item.drill in TWO_STEPS or item.lesson == "position" or item.subject.startswith(("seq-", "set-")):
            assert len(names) == 2, item.id
        assert len(set(names)) == len(names)


def beside(question: Question, string: int) -> Iterator[str]:
    """What the helps write beside a string, on the staff or on the neck."""
    for step in question.helps:
        for view in step.draw()[:2]:
            if view is not None and view.labels:
                yield view.labels[string - 1]


def string_of(item: Item) -> int:
    return int(item.subject.partition("-")[0].partition("/")[0])


@pytest.mark.parametrize("tuning", CORE)
def test_no_help_writes_the_answer_beside_what_is_asked(tuning: str) -> None:
    for question in questions(tuning):
        item = question.item
        if item.drill in ("line-to-string", "neck-to-line"):
            assert not any(beside(question, string_of(item))), item.id
        elif item.kind is Kind.NOTE and item.drill == "fret-to-note":
            letters = {label.upper() for label in beside(question, string_of(item))}
            assert not letters & set(question.answers), item.id
        elif item.drill == "note-to-fret" and "0" in question.answers:
            assert not any(beside(question, string_of(item))), item.id


def test_with_a_capo_too() -> None:
    for question in questions("standard"):
        if question.item.drill == "capo" and "/" in question.item.subject:
            string = int(question.item.subject.split("/")[1])
            assert not {label.upper() for label in beside(question, string)} & set(question.answers), question.item.id


@pytest.mark.parametrize("tuning", CORE)
def test_the_letters_of_open_strings_are_left_out_where_a_chord_is_asked_for(tuning: str) -> None:
    checked = 0
    for question in questions(tuning):
        if question.item.drill in ("chord-tones", "chord-sounds", "chord-name", "chord-upper", "chord-symbol"):
            shape = parse_shape(question.item.subject.partition("/")[0])
            for string, fret in shape.places:
                checked += fret == 0
                assert fret or not any(beside(question, string)), question.item.id
    assert checked > 5


def test_what_is_pressed_is_counted_from_its_letter() -> None:
    staff = ask("chord-tones/standard/022000").helps[1].draw().staff
    assert staff is not None
    assert staff.labels == ("", "", "", "D", "A", "")


def test_the_letter_of_a_string_is_told_from_those_beside_it() -> None:
    labels = [step.draw().staff for step in ask("line-to-string/standard/3-name").helps]
    assert [view.labels for view in labels if view is not None] == [
        ("", "B", "", "D", "", ""), ("", "", "", "D", "", ""),
    ]  # fmt: skip
    # Both outer strings are E: its own letter would stand at the other one.
    labels = [step.draw().staff for step in ask("fret-to-note/standard/6/12").helps]
    assert [view.labels for view in labels if view is not None] == [
        ("", "", "", "D", "A", ""), ("", "", "", "", "A", ""),
    ]  # fmt: skip


def test_the_number_of_a_line_is_told_from_the_edges() -> None:
    shown = {
        line: [
            "".join(label or "." for label in view.labels)
            for view in (step.draw().staff for step in ask(f"line-to-string/standard/{line}").helps)
            if view is not None
        ]
        for line in (1, 3, 6)
    }
    assert shown == {1: [".2...6", ".....6"], 3: ["1....6", "1....."], 6: ["1...5.", "1....."]}


def test_notes_are_counted_on_the_neck_first() -> None:
    whole, less = ask("fret-to-note/standard/5/3").helps
    assert (whole.names, less.names) == (("neck", "letters"), ("letters",))
    picture = whole.draw()
    assert picture.neck is not None
    assert set(picture.neck.dots) == {(5, 3)}
    assert picture.neck.labels == ("e", "B", "G", "D", "A", "E")
    assert less.draw().neck is None


def test_nothing_is_drawn_before_it_is_asked_for() -> None:
    question = ask("fret-to-note/standard/5/3")
    assert question.helps[0].draw() == question.helps[0].draw()
    assert question.helps[0].draw() is not question.helps[0].draw()
