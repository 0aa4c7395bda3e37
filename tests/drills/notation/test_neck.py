"""The neck as the player sees it: thickest string at the top, nut at the left, or right for left-handed."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.drawing import Drawing, Role
from drills.notation.neck import NeckView, draw_neck

GUITAR = ("e", "B", "G", "D", "A", "E")


def wires(row: str) -> list[int]:
    """Columns of the nut and the fret wires on a string's row."""
    return [column for column, sign in enumerate(row) if sign in "║┼┿╪"]


def place_of(drawing: Drawing, view: NeckView, sign: str) -> tuple[int, int]:
    """String and fret of the only such sign, counted as a player does: strings from below, wires from the nut."""
    ((row, column),) = [(r, c) for r, text in enumerate(drawing.text()) for c, s in enumerate(text) if s == sign]
    all_wires = wires(drawing.text()[row])
    passed = [w for w in all_wires if (w > column if view.left_handed else w < column)]
    return view.strings - row, len(passed) + (max(view.first, 1) - 1)


@given(st.integers(4, 8), st.integers(1, 15), st.booleans(), st.data())
def test_a_dot_stands_where_the_finger_goes(strings: int, last: int, left: bool, data: st.DataObject) -> None:
    place = (data.draw(st.integers(1, strings)), data.draw(st.integers(0, last)))
    view = NeckView(strings, last=last, left_handed=left, dots={place: ("●", Role.LIT)})
    drawing = draw_neck(view)
    assert drawing.text()[strings - place[0]].count("●") == 1
    if place[1] == 0:
        row = drawing.text()[strings - place[0]]
        assert (row.index("●") < row.index("║")) != left
    else:
        assert place_of(drawing, view, "●") == place


@pytest.mark.parametrize("left", [False, True])
def test_the_thickest_string_is_at_the_top_for_either_hand(left: bool) -> None:
    rows = draw_neck(NeckView(6, labels=GUITAR, left_handed=left)).text()
    labels = [row[-1] if left else row[0] for row in rows[:6]]
    assert labels == ["E", "A", "D", "G", "B", "e"]
    assert [row.count("━") > 0 for row in rows[:6]] == [True, True, True, False, False, False]


def test_left_handed_is_the_mirror_image_but_for_its_texts() -> None:
    dots = {(5, 3): ("●", Role.LIT), (1, 0): ("●", Role.SAID), (4, 1): ("●", Role.TRUE)}
    right = draw_neck(NeckView(6, dots=dots)).text()[:6]
    left = draw_neck(NeckView(6, dots=dots, left_handed=True)).text()[:6]
    width = max(map(len, right))
    assert [row.ljust(width)[::-1].rstrip() for row in right] == left


@pytest.mark.parametrize(("first", "last", "widest"), [(0, 5, 42), (0, 12, 76), (1, 4, 42), (5, 12, 76)])
@pytest.mark.parametrize("strings", range(4, 9))
def test_a_neck_fits_its_screen(first: int, last: int, widest: int, strings: int) -> None:
    labels = tuple("Eb" for _ in range(strings))
    keys = {string: (str(string), str(string)) for string in range(1, strings + 1)}
    drawing = draw_neck(NeckView(strings, first, last, labels=labels, string_keys=keys))
    assert drawing.width <= widest
    assert drawing.height == strings + 1
    frets = last - max(first, 1) + 1
    for row in drawing.text()[:strings]:
        assert len(wires(row)) == frets + 1
        assert len({later - earlier for earlier, later in pairwise(wires(row))}) == 1


@pytest.mark.parametrize("left", [False, True])
@pytest.mark.parametrize("width", [36, 45, 60, 76])
def test_a_neck_is_drawn_closer_where_there_is_less_room(left: bool, width: int) -> None:
    dots = {(2, fret): (sign, Role.LIT) for fret, sign in ((1, "●"), (12, "○"))}
    view = NeckView(6, last=12, left_handed=left, dots=dots, labels=GUITAR)
    drawing = draw_neck(view, width=width)
    assert drawing.width <= width
    assert [place_of(drawing, view, sign) for sign in "●○"] == [(2, 1), (2, 12)]
    assert {"1", "5", "9", "12"} <= set(drawing.text()[-1].replace("•", "").split())


@pytest.mark.parametrize(("first", "nut"), [(0, True), (1, True), (2, False), (5, False)])
def test_the_nut_is_drawn_where_it_is_in_the_picture(first: int, nut: bool) -> None:
    rows = draw_neck(NeckView(6, first, first + 4)).text()
    assert all(("║" in row) == nut for row in rows[:6])


@pytest.mark.parametrize("left", [False, True])
def test_numbers_stand_under_their_frets_and_inlays_beside_them(left: bool) -> None:
    drawing = draw_neck(NeckView(6, last=12, left_handed=left))
    words = drawing.text()[-1].split()
    # Dots at 3, 5, 7, 9 and two at 12: common practice, no source.
    expected = ["1", "2", "3•", "4", "5•", "6", "7•", "8", "9•", "10", "11", "12••"]
    assert words == (expected[::-1] if left else expected)
    columns = wires(drawing.text()[0])
    numbers = drawing.text()[-1].ljust(columns[-1])
    cells = [numbers[earlier + 1 : later].strip(" •") for earlier, later in pairwise(columns)]
    assert cells == [str(fret) for fret in (range(12, 0, -1) if left else range(1, 13))]


def test_a_lit_string_differs_by_more_than_colour() -> None:
    drawing = draw_neck(NeckView(6, lit_strings={5: Role.LIT}))
    assert [row.count("═") > 0 for row in drawing.text()[:6]] == [False, True, False, False, False, False]
    assert [row.count("=") > 0 for row in drawing.ascii().text()[:6]] == [False, True, False, False, False, False]
    assert {span.role for span in drawing.rows[1]} == {Role.BLANK, Role.BAR, Role.LIT}


@pytest.mark.parametrize(("strings", "heavy", "rows"), [(4, None, 0), (4, 4, 4), (6, None, 3), (6, 0, 0), (7, None, 4)])
def test_heavy_strings_are_the_last_ones(strings: int, heavy: int | None, rows: int) -> None:
    text = draw_neck(NeckView(strings, heavy=heavy)).text()[:strings]
    assert ["━" in row for row in text] == [True] * rows + [False] * (strings - rows)


@pytest.mark.parametrize("left", [False, True])
def test_a_key_covers_the_space_of_its_place(left: bool) -> None:
    keys = {(s, f): ("abcde"[f], f"{s}/{f}") for s in range(1, 7) for f in range(5)}
    view = NeckView(6, last=4, keys=keys, left_handed=left, labels=GUITAR)
    drawing = draw_neck(view)
    text = drawing.text()
    assert len(drawing.targets) == 30
    taken: set[tuple[int, int]] = set()
    for target in drawing.targets:
        string, fret = map(int, target.answer.split("/"))
        cells = {(target.row, column) for column in range(target.column, target.column + target.width)}
        assert not cells & taken
        taken |= cells
        assert target.height == 1
        assert text[target.row][target.column : target.column + target.width].strip("━─ ") == "abcde"[fret]
        assert target.row == 6 - string
    assert sum(span.role is Role.KEY for row in drawing.rows for span in row) == 30


@pytest.mark.parametrize("left", [False, True])
def test_a_key_at_the_free_end_covers_its_string(left: bool) -> None:
    keys = {string: (str(string), f"string {string}") for string in range(1, 7)}
    drawing = draw_neck(NeckView(6, string_keys=keys, left_handed=left))
    for target in drawing.targets:
        row = drawing.text()[target.row]
        assert (row[0] if left else row[-1]) == target.answer[-1] == str(6 - target.row)
        assert (target.column, target.height, target.width) == (0, 1, drawing.width)


def test_what_lies_outside_of_the_picture_is_left_out() -> None:
    dots = {(3, 2): ("●", Role.LIT), (3, 10): ("●", Role.LIT), (3, 0): ("○", Role.LIT)}
    drawing = draw_neck(NeckView(6, 5, 9, dots=dots, keys={(1, 0): ("a", "1/0")}))
    assert not any(sign in row for row in drawing.text() for sign in "●○a")
    assert drawing.targets == ()


@given(st.integers(4, 8), st.integers(0, 12), st.integers(0, 12), st.booleans())
def test_the_ascii_fallback_tells_the_nut_from_the_frets(strings: int, first: int, more: int, left: bool) -> None:
    view = NeckView(strings, first, max(first, 1) + more, left_handed=left, dots={(1, first): ("●", Role.LIT)})
    plain = draw_neck(view).ascii()
    assert all(row.isascii() for row in plain.text())
    assert [row.count("|") for row in plain.text()[:strings]] == [int(first <= 1)] * strings
    assert plain.text()[strings - 1].count("o") == 1
