"""Order in time: left to right, and what stands in one column is struck together."""

from __future__ import annotations

import random
import re

import pytest

from drills.notation.drawing import Role
from drills.notation.score import At
from drills.notation.staff import Dialect, draw_staff
from drills.question import Item, Kind, Manner
from tests.drills.samples import EVERY, answered, ask, of


def read(item: Item, tuning: str, seed: int, dialect: Dialect) -> list[set[int]]:
    """The columns of the drawn staff from left to right, each as the lines that have a number in it."""
    question = of(tuning).ask(item, random.Random(seed), Manner(dialect=dialect))
    assert question.picture.staff is not None
    columns: dict[int, set[int]] = {}
    rows = [row for row in draw_staff(question.picture.staff, width=60).text() if re.search(r"[─-]{3}", row)]
    for line, row in enumerate(rows, start=1):
        for match in re.finditer(r"\d+", row):
            columns.setdefault(match.start(), set()).add(line)
    return [columns[column] for column in sorted(columns)]


@pytest.mark.parametrize("dialect", Dialect)
@pytest.mark.parametrize("tuning", EVERY)
def test_the_answer_is_what_is_drawn_read_from_left_to_right(tuning: str, dialect: Dialect) -> None:
    # Left to right is time, one column is one stroke (H. Wright, "The Guide to TAB Notation", 1995).
    for n, item in enumerate(item for item in of(tuning).items if item.drill == "order"):
        columns = read(item, tuning, n, dialect)
        question = of(tuning).ask(item, random.Random(n), Manner())
        facts = of(tuning).facts(item)
        assert [set(onset) for onset in facts["strings"]] == columns
        assert facts["onsets"] == len(columns)
        if item.kind is Kind.COUNT:
            assert question.answers == (str(len(columns)),)
        elif item.kind is Kind.ORDER:
            assert question.answers == (" ".join(str(line) for column in columns for line in column),)
            assert all(len(column) == 1 for column in columns)
        else:
            (column,) = columns
            assert question.answers == (" ".join(map(str, sorted(column))),)
            assert len(column) > 1


def test_single_notes_and_stacks_are_both_counted() -> None:
    counts = {item.subject: ask(item.id).answers[0] for item in of().items if item.id.startswith("order/standard/hit")}
    assert counts["hit-3.4"] == "1"
    assert counts["hit-1-2"] == counts["hit-1-2.3"] == "2"
    assert counts["hit-1.2-3.4-2-5.6"] == "4"
    assert len(set(counts.values())) >= 4


def test_why_a_count_is_wrong() -> None:
    assert answered(ask("order/standard/hit-3.4"), "2").why == (
        "Each column is one stroke, however many numbers stand in it, and there is 1 column here."
    )
    assert answered(ask("order/standard/hit-2-3.4-1"), "4").why == (
        "Each column is one stroke, however many numbers stand in it, and there are 3 columns here."
    )


def test_the_strings_of_an_order_that_went_wrong_are_marked_where_they_went_wrong() -> None:
    question = ask("order/standard/seq-1-3-2")
    verdict = answered(question, "1 2 3")
    assert verdict.why == "From left to right, whatever the line: strings 1, 3, 2."
    assert verdict.picture.staff is not None
    assert verdict.picture.staff.spots == {At(0, 1, 2): ("×", Role.SAID), At(0, 2, 3): ("×", Role.SAID)}
    assert answered(question, "1,3,2").right
    assert question.show("1 3 2") == "1, 3, 2"


def test_a_set_is_right_in_any_order() -> None:
    question = ask("order/standard/set-1.2.4")
    for said in ("1 2 4", "4 2 1", "2,4,1", "1 1 2 4", "421"):
        assert answered(question, said).right
    for said in ("1 2", "1 2 3 4", "1 2 3"):
        assert answered(question, said).why == "Every number in the column is struck at once: strings 1, 2, 4."


def test_frets_vary_and_strings_do_not() -> None:
    drawn = [ask("order/standard/seq-4-1-3-2", seed).picture.staff for seed in range(30)]
    frets = {tuple(note.fret for _, _, onset in view.piece.onsets() for note in onset.notes) for view in drawn if view}
    assert len(frets) > 10


def test_frets_that_are_given_for_strings_are_called_so() -> None:
    for item in ("order/standard/seq-4-1-3-2", "order/standard/set-1.2.4"):
        question = ask(item, 9)
        view = question.picture.staff
        assert view is not None
        frets = [str(note.fret) for _, _, onset in view.piece.onsets() for note in onset.notes]
        verdict = answered(question, " ".join(frets))
        assert not verdict.right
        assert (verdict.why or "").endswith("; what you gave are the numbers on the lines, which are frets.")
