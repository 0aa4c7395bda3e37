"""A staff and a neck into the room there is: nothing moves away from its target, nothing needed is dropped."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from drills.catalogue import catalogue
from drills.notation.drawing import Drawing, Role, Span, Target
from drills.notation.neck import NeckView, draw_neck
from drills.notation.score import Bar, Note, Onset, Piece
from drills.notation.staff import StaffView, draw_staff
from drills.notation.tuning import shipped
from drills.question import Manner, Picture, Question
from trainer.widgets.fitting import WIDEST, above, beside, corner, fit, level, shifted
from trainer.widgets.joining import Placed, join

STANDARD = shipped()["standard"]
CATALOGUE = catalogue(STANDARD)
NECK = NeckView(6, 0, 5, keys={(5, 3): ("a", "5/3"), (2, 1): ("b", "2/1")})
STAFF = StaffView(
    Piece(STANDARD, (Bar((Onset((Note(5, 3),)), Onset((Note(4, 2),)))),)),
    line_keys={1: ("p", "1"), 6: ("r", "6")},
    keys={(0, 0): ("x", "first")},
)


def drawn_at(drawing: Drawing, target: Target) -> list[str]:
    """The characters inside of a target."""
    grid = [line.ljust(200) for line in drawing.text()]
    return [grid[row][target.column : target.column + target.width] for row in
            range(target.row, target.row + target.height)]  # fmt: skip


def hits(drawing: Drawing) -> dict[str, list[str]]:
    """What is drawn where a click gives each answer."""
    return {target.answer: drawn_at(drawing, target) for target in drawing.targets}


BOARD, LINES = draw_neck(NECK), draw_staff(STAFF)


@pytest.mark.parametrize(
    ("moved", "parts"),
    [
        (above(LINES, BOARD, 1), (LINES, BOARD)),
        (above(BOARD, LINES, 0), (BOARD, LINES)),
        (above(draw_staff(STAFF, double=True, width=70), BOARD, 2), (draw_staff(STAFF, double=True, width=70), BOARD)),
        (beside(LINES, BOARD), (LINES, BOARD)),
        (beside(BOARD, LINES), (BOARD, LINES)),
        (beside(draw_staff(STAFF, double=True), BOARD), (draw_staff(STAFF, double=True), BOARD)),
        (shifted(BOARD, 3, 7), (BOARD,)),
        (shifted(LINES, 0, 5), (LINES,)),
        (shifted(LINES, 2, 0), (LINES,)),
    ],
    ids=["above", "above, swapped", "above, double", "beside", "beside, swapped", "beside, double", "both ways",
         "right", "down"],
)  # fmt: skip
def test_a_click_hits_what_is_drawn_there(moved: Drawing, parts: tuple[Drawing, ...]) -> None:
    expected = {answer: cells for part in parts for answer, cells in hits(part).items()}
    assert hits(moved) == expected
    assert any(cells != [""] for cells in expected.values())


@pytest.mark.parametrize("key", ["a", "b"])
def test_the_key_stands_in_its_target(key: str) -> None:
    answer = {"a": "5/3", "b": "2/1"}[key]
    assert any(key in row for row in hits(above(LINES, BOARD, 1))[answer])


@pytest.mark.parametrize("gap", [0, 1, 3])
def test_above_loses_no_row(gap: int) -> None:
    both = above(LINES, BOARD, gap)
    assert both.height == LINES.height + gap + BOARD.height
    assert [line.strip() for line in both.text()] == [
        *(line.strip() for line in LINES.text()), *[""] * gap, *(line.strip() for line in BOARD.text())
    ]  # fmt: skip


def test_beside_loses_no_cell_and_is_level_at_the_bottom() -> None:
    both = beside(LINES, BOARD).text()
    assert len(both) == max(LINES.height, BOARD.height)
    for left, right, row in zip(reversed(LINES.text()), reversed(BOARD.text()), reversed(both), strict=False):
        assert row.startswith(left)
        assert row.endswith(right)


@pytest.mark.parametrize("double", [True, False])
def test_line_1_is_level_with_the_top_string(double: bool) -> None:
    lines = draw_staff(STAFF, double=double, width=20)
    both = level(lines, BOARD)
    first = corner(lines)
    assert first is not None
    assert both.text()[first.row].endswith(BOARD.text()[0])
    assert hits(both) == hits(lines) | hits(BOARD)


def test_the_corner_is_where_line_1_begins() -> None:
    name = next(item for item in CATALOGUE.items if "hammer-on" in item.id)
    marked = CATALOGUE.ask(name, random.Random(1), Manner()).picture.staff
    assert marked is not None
    for double in (True, False):
        found = corner(draw_staff(marked, double=double, width=30))
        assert found is not None
        assert found.row > 0
        assert found.apart == (2 if double else 1)
    neck = corner(BOARD)
    assert neck is not None
    assert (neck.row, neck.apart) == (0, 1)
    assert corner(Drawing(())) is None


@pytest.mark.parametrize(("width", "height"), [(78, 17), (118, 33), (48, 8)])
def test_what_joins_leaves_the_staff_where_it_was(width: int, height: int) -> None:
    plain = Picture(StaffView(STAFF.piece))
    drawing = fit(plain, width, height)
    before = Placed(drawing, (height - drawing.height) * 3 // 4, (width - drawing.width) // 2)
    after = join(plain._replace(neck=NECK), before, width, height)
    assert after is not None
    was, now = corner(before.drawing), corner(after.drawing)
    assert was is not None
    assert now is not None
    assert (before.top + was.row, before.left + was.column) == (after.top + now.row, after.left + now.column)
    assert was.apart == now.apart
    assert after.top + after.drawing.height <= height
    assert after.left + after.drawing.width <= width
    assert {"5/3", "2/1"} <= {target.answer for target in after.drawing.targets}


def test_a_neck_joins_below_where_there_is_room() -> None:
    plain = Picture(StaffView(STAFF.piece))
    drawing = fit(plain, 78, 11)
    after = join(plain._replace(neck=NECK), Placed(drawing, 1, 7), 78, 30)
    assert after is not None
    assert (after.top, after.left) == (1, 7)
    assert after.drawing.text()[: drawing.height] == drawing.text()


def test_what_does_not_fit_does_not_join() -> None:
    before = Placed(draw_staff(STAFF, width=20), 0, 0)
    assert join(Picture(STAFF, NECK), before, 22, 7) is None
    assert join(Picture(STAFF, NECK), Placed(Drawing(()), 0, 0), 78, 20) is None


def test_shifting_by_nothing_changes_nothing() -> None:
    assert shifted(BOARD, 0, 0) == BOARD


def test_a_row_that_is_shifted_stays_one_cell_a_character() -> None:
    drawing = Drawing(((Span("ab", Role.FRET),),), (Target(0, 0, 1, 2, "x"),))
    assert shifted(drawing, 1, 2) == Drawing(
        ((), (Span("  ", Role.BLANK), Span("ab", Role.FRET))), (Target(1, 2, 1, 2, "x"),)
    )


def test_it_is_double_spaced_where_there_is_room() -> None:
    roomy, tight = fit(Picture(STAFF), 78, 30), fit(Picture(STAFF), 78, 10)
    assert roomy.height > 2 * 6 - 1
    assert tight.height <= 10
    assert roomy.height > tight.height


def test_a_staff_is_stretched_only_so_far() -> None:
    assert fit(Picture(STAFF), 200, 60).width <= WIDEST


def test_the_staff_alone_is_shown_where_both_do_not_fit_unless_both_are_needed() -> None:
    both = Picture(STAFF, NECK)
    alone, whole = fit(both, 22, 9), fit(both, 22, 9, whole=True)
    assert not {"5/3", "2/1"} & {target.answer for target in alone.targets}
    assert {"5/3", "2/1", "first"} <= {target.answer for target in whole.targets}


def test_nothing_to_draw_is_nothing() -> None:
    assert fit(Picture(), 78, 13) == Drawing(())


def pictures(question: Question) -> Iterator[Picture]:
    yield question.picture
    yield from (step.draw() for step in question.helps)


def questions() -> Iterator[Question]:
    for item in CATALOGUE.items:
        yield CATALOGUE.ask(item, random.Random(1), Manner())


QUESTIONS = tuple(questions())


def answers_of(picture: Picture) -> set[str]:
    """What can be clicked in a picture that has all the room."""
    return {target.answer for target in fit(picture, 300, 100, whole=True).targets}


def test_every_question_fits_a_terminal_of_80_by_24() -> None:
    """78 x 13 cells are left beside the top row, the prompt, one row of answers and the hints."""
    for question in QUESTIONS:
        for picture in pictures(question):
            drawing = fit(picture, 78, 13, whole=True)
            assert drawing.width <= 78, question.item.id
            assert drawing.height <= 13, question.item.id


def test_no_question_ever_loses_a_place_to_answer() -> None:
    for question in QUESTIONS:
        for picture in pictures(question):
            for width, height in ((78, 13), (40, 6)):
                drawing = fit(picture, width, height, whole=True)
                assert {target.answer for target in drawing.targets} >= answers_of(picture), question.item.id


@pytest.mark.parametrize("left_handed", [False, True])
def test_every_lesson_draws_at_any_size(left_handed: bool) -> None:
    manner = Manner(left_handed=left_handed)
    for item in {item.lesson: item for item in CATALOGUE.items}.values():
        picture = CATALOGUE.explain(item, manner).picture
        for width, height in ((200, 60), (78, 13), (40, 6), (20, 3), (1, 1)):
            drawing = fit(picture, width, height)
            if (width, height) == (78, 13):
                assert drawing.width <= 78, item.lesson
                assert drawing.height <= 13, item.lesson
