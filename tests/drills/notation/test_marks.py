"""How marks are drawn: arcs over what they join, diagonals, arrows, and the letters of typed tab."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.drawing import Role
from drills.notation.score import At, Mark, MarkKind, Note, Onset, Piece
from drills.notation.staff import Dialect, StaffView, draw_staff, note_columns
from tests.drills.notation.pieces import (
    DOWN,
    DOWN_PICKED,
    HAMMER,
    PULL,
    RELEASE,
    UP,
    UP_PICKED,
    bend,
    note,
    piece,
    pieces,
    pre_bend,
    strung,
)

FOOT_LEFT, FOOT_RIGHT = "╭┬", "╮┬"


def drawn(tab: Piece, double: bool = True) -> tuple[list[str], dict[At, tuple[int, int]]]:
    view = StaffView(tab)
    return draw_staff(view, double=double).text(), note_columns(view, double=double)


def typed(tab: Piece) -> list[str]:
    return draw_staff(StaffView(tab, Dialect.TEXT)).text()


@given(
    frets=st.lists(st.integers(0, 24), min_size=2, max_size=5),
    lines=st.integers(4, 8),
    data=st.data(),
    double=st.booleans(),
)
def test_an_arc_stands_over_the_numbers_that_it_joins(
    frets: list[int], lines: int, data: st.DataObject, double: bool
) -> None:
    string = data.draw(st.integers(1, lines))
    marks = [HAMMER if later > earlier else PULL for earlier, later in pairwise(frets)]
    tab = piece(
        tuple(note(string, f, *m) for f, m in zip(frets, [*((m,) for m in marks), ()], strict=True)),
        tuning=strung(lines),
    )
    rows, columns = drawn(tab, double)
    for index, mark in enumerate(marks):
        row, start = columns[At(0, index, string)]
        end = columns[At(0, index + 1, string)][1]
        over = rows[row - 1]
        foot = start + len(str(frets[index])) - 1
        assert over[foot] in FOOT_LEFT
        assert over[end] in FOOT_RIGHT
        assert over[foot + 1 : end].strip("─") == ("H" if mark is HAMMER else "P")


def _count(tab: Piece, *marks: Mark) -> int:
    return sum(mark in marks for _, _, onset in tab.onsets() for n in onset.notes for mark in n.marks)


@given(pieces(), st.booleans(), st.integers(0, 150))
def test_no_engraved_mark_is_lost(tab: Piece, double: bool, width: int) -> None:
    drawing = draw_staff(StaffView(tab), double=double, width=width)
    marks = "".join(span.text for row in drawing.rows for span in row if span.role is Role.MARK)
    kinds = [mark.kind for _, _, onset in tab.onsets() for n in onset.notes for mark in n.marks]
    assert marks.count("H") == kinds.count(MarkKind.HAMMER_ON)
    assert marks.count("P") == kinds.count(MarkKind.PULL_OFF)
    assert marks.count("╱") == kinds.count(MarkKind.SLIDE_UP)
    assert marks.count("╲") == kinds.count(MarkKind.SLIDE_DOWN)
    assert marks.count("▲") == kinds.count(MarkKind.BEND) + kinds.count(MarkKind.PRE_BEND)
    assert marks.count("▼") == kinds.count(MarkKind.RELEASE)
    assert marks.count("╭") + marks.count("┬") == _count(tab, HAMMER, PULL, UP, DOWN)


@given(pieces(), st.integers(0, 150))
def test_no_typed_mark_is_lost(tab: Piece, width: int) -> None:
    text = "".join(draw_staff(StaffView(tab, Dialect.TEXT), width=width).text())
    kinds = [mark.kind for _, _, onset in tab.onsets() for n in onset.notes for mark in n.marks]
    assert text.count("h") == kinds.count(MarkKind.HAMMER_ON)
    assert text.count("/") == kinds.count(MarkKind.SLIDE_UP)
    assert text.count("\\") == kinds.count(MarkKind.SLIDE_DOWN)
    assert text.count("pb") == kinds.count(MarkKind.PRE_BEND)
    assert text.count("p") == kinds.count(MarkKind.PULL_OFF) + kinds.count(MarkKind.PRE_BEND)
    assert text.count("b") == kinds.count(MarkKind.BEND) + kinds.count(MarkKind.PRE_BEND)
    assert text.count("r") == kinds.count(MarkKind.RELEASE)


@pytest.mark.parametrize("double", [True, False])
@pytest.mark.parametrize("string", [1, 3, 6])
@pytest.mark.parametrize(("low", "high"), [(5, 7), (0, 12), (9, 10), (10, 24)])
@pytest.mark.parametrize(("rises", "falls", "arc"), [(UP, DOWN, True), (UP_PICKED, DOWN_PICKED, False)])
def test_a_diagonal_rises_when_the_pitch_does(
    double: bool, string: int, low: int, high: int, rises: Mark, falls: Mark, arc: bool
) -> None:
    rows, columns = drawn(piece((note(string, low, rises), note(string, high, falls), note(string, low))), double)
    for index, sign in enumerate("╱╲"):
        row, start = columns[At(0, index, string)]
        end = columns[At(0, index + 1, string)][1]
        between = rows[row][start:end].lstrip("0123456789")
        assert between.strip("─") == sign
        assert between[0] == between[-1] == "─"
        assert abs(between.index(sign) - (len(between) - 1) / 2) <= 0.5
        assert (row > 0 and rows[row - 1][end] in FOOT_RIGHT) == arc


@pytest.mark.parametrize("double", [True, False])
@pytest.mark.parametrize("string", [1, 2, 3, 6])
@pytest.mark.parametrize(
    ("amount", "text", "plain"),
    [(0.5, "½", "1/2"), (1, "1", "1"), (1.5, "1½", "1 1/2"), (2, "2", "2"), (0.25, "¼", "1/4")],
)
def test_an_arrow_leads_from_the_number_up_to_its_amount(
    double: bool, string: int, amount: float, text: str, plain: str
) -> None:
    tab = piece((note(4, 0), note(string, 10, bend(amount)), note(string, 5)))
    rows, columns = drawn(tab, double)
    row, column = columns[At(0, 1, string)]
    assert rows[row][column : column + 4] == "10─╯"
    shaft = column + 3
    assert [line[shaft] for line in rows[2:row]] == ["│"] * (row - 2)
    assert rows[1][shaft] == "▲"
    assert rows[0].split() == [text]
    assert rows[0].index(text) == shaft
    assert draw_staff(StaffView(tab), double=double).ascii().text()[0] == " " * shaft + plain


@pytest.mark.parametrize("double", [True, False])
@pytest.mark.parametrize("string", [1, 3, 6])
def test_a_release_comes_down_again(double: bool, string: int) -> None:
    rows, columns = drawn(piece((note(string, 7, bend(1), RELEASE), note(4, 5))), double)
    row, column = columns[At(0, 0, string)]
    assert rows[1][column + 2 : column + 6] == "▲──╮"
    assert rows[row][column : column + 6] == "7─╯──▼"
    assert all(line[column + 5] == "│" for line in rows[2:row])


@pytest.mark.parametrize("double", [True, False])
@pytest.mark.parametrize("string", [1, 3, 6])
def test_a_pre_bend_goes_straight_up_from_its_number(double: bool, string: int) -> None:
    rows, columns = drawn(piece((note(string, 7, pre_bend(1)), note(4, 5))), double)
    row, column = columns[At(0, 0, string)]
    assert [line[column] for line in rows[: row + 1]] == ["1", "▲", *["│"] * (row - 2), "7"]
    assert not any("╯" in line for line in rows)


def test_a_pre_bend_under_another_number_does_not_cross_it() -> None:
    chord = Onset((Note(1, 5), Note(3, 7, (pre_bend(1),))))
    rows, columns = drawn(piece((chord,)))
    row, column = columns[At(0, 0, 3)]
    assert rows[columns[At(0, 0, 1)][0]][column] == "5"
    assert rows[row][column : column + 3] == "7─┘"
    assert rows[1][column + 2] == "▲"


def test_two_bends_of_a_chord_have_an_arrow_each() -> None:
    chord = Onset((Note(1, 7, (bend(1),)), Note(3, 7, (bend(0.5),))))
    rows, _ = drawn(piece((chord,)))
    assert rows[0].split() == ["1", "½"]
    assert [i for i, sign in enumerate(rows[0]) if sign in "1½"] == [i for i, s in enumerate(rows[1]) if s == "▲"]


def test_an_arrow_never_ends_in_an_arc() -> None:
    # Line 1 hammers on while line 3 bends: the arrow goes through the arc and ends above it.
    rows, columns = drawn(piece((Onset((Note(1, 7, (HAMMER,)), Note(3, 7, (bend(1),)))), note(1, 8))))
    column = columns[At(0, 0, 3)][1] + 2
    assert [row[column] for row in rows[:3]] == ["1", "▲", "┼"]
    assert "H" in rows[2]


@pytest.mark.parametrize("amount", [None, Fraction(1)])
def test_an_unknown_amount_is_left_out(amount: Fraction | None) -> None:
    mark = Mark(MarkKind.BEND, amount)
    rows, _ = drawn(piece((note(2, 7, mark),)))
    assert [row.strip() for row in rows[:2]] == ["1" if amount else "", "▲"]
    assert typed(piece((note(2, 7, mark),)))[1] == ("|--7b9--|" if amount else "|--7b--|")


def test_two_marks_of_a_chord_are_both_told_where_lines_are_close() -> None:
    first = Onset((Note(1, 5, (HAMMER,)), Note(2, 5, (HAMMER,)), Note(3, 5, (UP,))))
    tab = piece((first, Onset((Note(1, 7), Note(2, 7), Note(3, 7)))))
    assert drawn(tab, double=False)[0][:4] == [
        "    ╭──H──╮",
        "│───5─────7───│",
        "│───5─╭H╮─7───│",
        "│───5─╭╱╮─7───│",
    ]
    assert [sum("╭" in row for row in drawn(tab, double=True)[0])] == [3]


@pytest.mark.parametrize("double", [True, False])
def test_a_mark_crosses_a_bar_line_and_leaves_it_whole(double: bool) -> None:
    view = StaffView(piece((note(3, 5, HAMMER),), (note(3, 7, DOWN),), (note(3, 5),)))
    rows = draw_staff(view, double=double).text()
    edges = [column for column, sign in enumerate(rows[0]) if sign == "│"]
    assert len(edges) == 4
    assert all(row[column] in "│┼" for row in rows for column in edges)
    row = note_columns(view, double=double)[At(0, 0, 3)][0]
    assert rows[row - 1].count("H") == 1
    assert rows[row].count("╲") == 1


def test_a_mark_that_leads_nowhere_is_open_at_its_end() -> None:
    rows, columns = drawn(piece((note(1, 5, HAMMER),)))
    assert rows[0].strip() == "╭─H──"
    assert rows[0].index("╭") == columns[At(0, 0, 1)][1]
    assert typed(piece((note(1, 5, HAMMER),)))[0] == "|--5h--|"


@pytest.mark.parametrize(
    ("tab", "row"),
    [
        # H. Wright, "The Guide to TAB Notation", 1995: h, p, / and \\, b with the fret it sounds like, r.
        (piece((note(1, 5, HAMMER), note(1, 7, PULL), note(1, 5))), "|--5h7p5--|"),
        (piece((note(1, 5, UP), note(1, 7, DOWN), note(1, 5))), "|--5/7\\5--|"),
        (piece((note(1, 7, bend(1)),)), "|--7b9--|"),
        (piece((note(1, 7, bend(0.5)),)), "|--7b8--|"),
        (piece((note(1, 10, bend(1.5)),)), "|--10b13--|"),
        (piece((note(1, 7, bend(1), RELEASE),)), "|--7b9r7--|"),
        (piece((note(1, 7, bend(1), RELEASE, PULL), note(1, 5))), "|--7b9r7p5--|"),
        (piece((note(1, None), note(1, 0))), "|--x--0--|"),
        # Common practice, no source.
        (piece((note(1, 7, pre_bend(1), RELEASE),)), "|--7pb9r7--|"),
        (piece((note(1, 7, bend(0.25)),)), "|--7b7.5--|"),
        (piece((note(1, 5, HAMMER),), (note(1, 7),)), "|--5-h|--7--|"),
        (piece((note(1, 5, HAMMER), note(2, 0), note(1, 7))), "|--5--h--7--|"),
    ],
)
def test_typed_marks(tab: Piece, row: str) -> None:
    assert typed(tab)[0] == row


def test_typed_chords_keep_their_columns_beside_two_digits() -> None:
    first = Onset((Note(1, 10, (HAMMER,)), Note(2, 9, (HAMMER,))))
    rows = typed(piece((first, Onset((Note(1, 12), Note(2, 11))))))
    assert rows[:2] == ["|--10h12--|", "|--9h-11--|"]


def test_ascii_tells_an_arc_from_a_slide() -> None:
    tab = piece((note(3, 5, HAMMER), note(3, 7), note(3, 5, UP), note(3, 7), note(3, 5, UP_PICKED), note(3, 7)))
    rows = draw_staff(StaffView(tab), double=True).ascii().text()
    assert rows[3:5] == [
        "|   .--H--.   .-----.             |",
        "|---5-----7---5--/--7---5--/--7---|",
    ]
