"""Chord diagrams: the nut up, the last string at the left, mirrored for left-handed; dots, rings and crosses."""

from __future__ import annotations

import pytest

from drills.notation.diagram import Box, DiagramView, draw_diagram
from drills.notation.shape import parse_shape
from drills.notation.spoken import say_diagram


def boxes(*texts: str, left: bool = False, labels: tuple[str, ...] = ()) -> DiagramView:
    keyed = zip("abcdefgh", texts, strict=False)
    return DiagramView(tuple(Box(parse_shape(text), key, text) for key, text in keyed), left, labels)


def test_an_open_chord() -> None:
    assert draw_diagram(boxes("x32010"), tall=False).text() == [
        "x     ○   ○",
        "╒═╤═╤═╤═╤═╕",
        "│_│_│_│_●_│",
        "│_│_●_│_│_│",
        "│_●_│_│_│_│",
        "│_│_│_│_│_│",
        "     a",
    ]


def test_left_handed_is_mirrored() -> None:
    rows = draw_diagram(boxes("x32010", left=True), tall=False).text()
    assert rows[0] == "○   ○     x"
    assert rows[2] == "│_●_│_│_│_│"


def test_a_shape_further_up_bears_its_fret_instead_of_the_nut() -> None:
    rows = draw_diagram(boxes("x-10-12-12-12-10")).text()
    assert rows[1] == "┌─┬─┬─┬─┬─┐"
    assert rows[2] == "│ ● │ │ │ ● 10"
    assert rows[6] == "│ │ ● ● ● │"


def test_fingers_take_the_place_of_dots() -> None:
    view = DiagramView((Box(parse_shape("x32010"), fingers=(0, 3, 2, 0, 1, 0)),))
    assert [row for row in draw_diagram(view, tall=False).text() if row.strip("│_")][2:5] == [
        "│_│_│_│_1_│", "│_│_2_│_│_│", "│_3_│_│_│_│",
    ]  # fmt: skip


@pytest.mark.parametrize("strings", range(4, 9))
@pytest.mark.parametrize("width", [80, 50, 40])
@pytest.mark.parametrize("tall", [True, False])
def test_four_diagrams_fit_and_a_click_hits_each(strings: int, width: int, tall: bool) -> None:
    texts = [f"{n}" + "0" * (strings - 1) for n in range(1, 5)]
    drawing = draw_diagram(boxes(*texts), width=width, tall=tall)
    assert drawing.width <= width
    assert [target.answer for target in drawing.targets] == texts
    grid = [row.ljust(100) for row in drawing.text()]
    for key, target in zip("abcd", drawing.targets, strict=True):
        rows = range(target.row, target.row + target.height)
        inside = [grid[row][target.column : target.column + target.width] for row in rows]
        assert sum(row.count("●") for row in inside) == 1
        assert key in inside[-1]


def test_in_little_height_nothing_is_lost_but_empty_rows() -> None:
    assert draw_diagram(boxes("x32010", "x46654", labels=tuple("123456")), low=True).text() == [
        "x═╤═╤═○═╤═○      x─┬─┬─┬─┬─┐",
        "│_│_│_│_●_│      │_●_│_│_│_● 4",
        "│_│_●_│_│_│      │_│_│_│_●_│",
        "│_●_│_│_│_│      │_│_●_●_│_│",
        "     a                b",
    ]


def test_in_plain_signs() -> None:
    rows = draw_diagram(boxes("x32010"), tall=False).ascii().text()
    assert rows[:3] == ["x     o   o", "+=+=+=+=+=+", "|_|_|_|_o_|"]


def test_in_words() -> None:
    assert say_diagram(boxes("xx0232")) == [
        "a: string 6 not played; string 5 not played; string 4, open; string 3, fret 2; "
        "string 2, fret 3; string 1, fret 2"
    ]
