"""Drawings as plain rows: signs for what colour says on the screen."""

from __future__ import annotations

from drills.notation.drawing import Role
from drills.notation.neck import NeckView
from drills.notation.score import At, Bar, Note, Onset, Piece
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.tuning import shipped
from drills.question import Picture
from trainer.rows import Lit, ascii_text, lit_of, marked_rows

STANDARD = shipped()["standard"]


def tab(*places: tuple[int, int, Role], labels: tuple[str, ...] = (), lines: dict[int, Role] | None = None) -> Picture:
    """Notes one after another in typed tab."""
    onsets = tuple(Onset((Note(string, fret),)) for string, fret, _ in places)
    colours = {At(0, n, string): role for n, (string, _, role) in enumerate(places)}
    return Picture(StaffView(Piece(STANDARD, (Bar(onsets),)), Dialect.TEXT, labels, colours, lines or {}))


def view(picture: Picture) -> StaffView:
    """Its staff."""
    assert picture.staff is not None
    return picture.staff


def test_a_note_alone_needs_no_sign() -> None:
    rows = marked_rows(tab((5, 3, Role.LIT)), plain=True)
    assert rows == ["|-----|"] * 4 + ["|--3--|", "|-----|"]


def test_the_lit_one_of_several_has_a_sign_under_its_first_digit() -> None:
    rows = marked_rows(tab((1, 2, Role.FRET), (6, 12, Role.LIT), (3, 0, Role.FRET)), plain=True)
    assert len(rows) == 7
    assert rows[6].strip() == "^"
    assert rows[5][rows[6].index("^")] == "1"


def test_right_and_answered_have_signs_with_their_meaning() -> None:
    rows = marked_rows(tab((5, 3, Role.TRUE), (5, 5, Role.SAID)), plain=True)
    at = rows[4]
    assert rows[6][at.index("3")] == "o"
    assert rows[6][at.index("5")] == "x"
    assert rows[6].endswith("(o right, x your answer)")


def test_a_whole_line_is_pointed_at() -> None:
    rows = marked_rows(tab(lines={5: Role.LIT, 2: Role.SAID, 1: Role.TRUE}), plain=True)
    assert [row.partition(" ")[2] for row in rows] == [
        "<-- right", "<-- your answer", "", "", "<-- this line", "",
    ]  # fmt: skip


def test_a_string_of_the_neck_is_pointed_at_once_and_dots_differ() -> None:
    neck = NeckView(6, lit_strings={6: Role.LIT}, dots={(5, 2): ("●", Role.TRUE), (4, 2): ("●", Role.SAID)})
    rows = marked_rows(Picture(neck=neck), plain=True)
    assert rows[0].endswith(" <-- this string")
    assert rows[0].count("<--") == 1
    assert ("o" in rows[1], "x" in rows[2]) == (True, True)
    assert all(row.isascii() for row in rows)


def test_staff_and_neck_stand_one_above_the_other() -> None:
    picture = Picture(view(tab((5, 3, Role.LIT))), NeckView(6, dots={(5, 3): ("●", Role.LIT)}))
    rows = marked_rows(picture, plain=False)
    assert rows[6] == ""
    assert any("●" in row for row in rows[7:])


def test_what_is_lit_for_programs() -> None:
    picture = tab((2, 1, Role.FRET), (6, 12, Role.LIT), (1, 3, Role.LIT), labels=tuple("eBGDAE"), lines={4: Role.LIT})
    rows = marked_rows(picture, plain=True)
    line, first, second = lit_of(view(picture))
    assert line == Lit(4, None)
    assert (first.string, second.string) == (6, 1)
    assert first.column is not None
    assert second.column is not None
    assert rows[5][first.column - 1 : first.column + 1] == "12"
    assert rows[0][second.column - 1] == "3"


def test_our_words_in_ascii() -> None:
    assert ascii_text("an arrow up to ½, “and” ♯") == 'an arrow up to 1/2, "and" #'
