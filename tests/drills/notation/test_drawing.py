"""Cells, roles and the ASCII fallback."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.drawing import PARTS, TO_ASCII, Canvas, Drawing, Role, Span, Target


def drawn(*strokes: tuple[int, int, str, Role]) -> Drawing:
    canvas = Canvas()
    for row, column, text, role in strokes:
        canvas.put(row, column, text, role)
    return canvas.drawing()


def test_gaps_are_blank_and_runs_of_a_role_are_one_span() -> None:
    drawing = drawn((0, 2, "ab", Role.LINE), (0, 4, "c", Role.LINE), (2, 0, "x", Role.BAR))
    assert drawing.rows == ((Span("  ", Role.BLANK), Span("abc", Role.LINE)), (), (Span("x", Role.BAR),))
    assert (drawing.width, drawing.height) == (5, 3)


def test_later_strokes_cover_earlier_ones() -> None:
    assert drawn((0, 0, "-----", Role.LINE), (0, 2, "7", Role.LIT)).rows[0] == (
        Span("--", Role.LINE), Span("7", Role.LIT), Span("--", Role.LINE),
    )  # fmt: skip


def test_what_lies_left_of_or_above_the_canvas_is_left_out() -> None:
    assert drawn((0, -2, "abcd", Role.LINE), (-1, 0, "no", Role.LINE)).text() == ["cd"]


def test_nothing_drawn_is_an_empty_drawing() -> None:
    assert (Canvas().drawing().width, Canvas().drawing().height) == (0, 0)
    assert Canvas().at(0, 0) == " "


def test_targets_survive_the_ascii_fallback() -> None:
    canvas = Canvas()
    canvas.put(0, 0, "●", Role.FRET)
    canvas.target(Target(0, 0, 1, 1, "5/3"))
    assert canvas.drawing().ascii() == Drawing(((Span("o", Role.FRET),),), (Target(0, 0, 1, 1, "5/3"),))


def test_every_sign_is_one_cell_and_has_one_ascii_character() -> None:
    for sign, plain in TO_ASCII.items():
        assert unicodedata.east_asian_width(chr(sign)) in {"N", "Na", "A", "H"}
        assert len(plain) == 1
        assert plain.isascii()


@pytest.mark.parametrize(
    ("amount", "plain"), [("½", "1/2"), ("1½", "1 1/2"), ("1", "1"), ("¾  ▲", "3/4^"), ("½   1", "1/2 1")]
)
def test_a_part_of_a_step_is_written_out(amount: str, plain: str) -> None:
    assert drawn((0, 0, amount, Role.MARK)).ascii().text() == [plain]


@given(st.text(alphabet="".join(map(chr, TO_ASCII)) + "abc 123", max_size=40))
def test_the_fallback_keeps_every_column(text: str) -> None:
    plain = drawn((0, 0, text, Role.LINE)).ascii()
    assert all(span.text.isascii() for row in plain.rows for span in row)
    assert plain.width == len(text)


def test_a_written_out_part_moves_nothing_that_stands_apart() -> None:
    plain = drawn((0, 3, "1½", Role.MARK), (0, 10, "½", Role.MARK), (0, 20, "▲", Role.MARK)).ascii().text()[0]
    assert (plain[3:8], plain[10:13], plain[20]) == ("1 1/2", "1/2", "^")
    assert set(PARTS) == {"¼", "½", "¾"}
