"""The staff as a reader finds it: numbers on lines in time, labels, keys, the count line."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.drawing import Drawing, Role
from drills.notation.score import At, Metre, Note, Onset, Piece
from drills.notation.staff import Dialect, StaffView, draw_staff, note_columns
from tests.drills.notation.pieces import HAMMER, bend, note, piece, pieces, read, strung, written

ENGRAVED, TEXT = Dialect.ENGRAVED, Dialect.TEXT
EVERY_WAY = [(TEXT, False), (ENGRAVED, False), (ENGRAVED, True)]
GUITAR = ("e", "B", "G", "D", "A", "E")


def role_at(drawing: Drawing, row: int, column: int) -> Role:
    """The role of one cell."""
    for span in drawing.rows[row]:
        if column < len(span.text):
            return span.role
        column -= len(span.text)
    raise AssertionError("nothing is drawn there")


def lines_of(view: StaffView, double: bool = False, width: int = 0) -> list[str]:
    """The rows of the lines alone, from the last one, which nothing stands under, upwards."""
    rows = draw_staff(view, double=double, width=width).text()
    return rows[:: -2 if double else -1][: view.piece.tuning.lines][::-1]


@given(pieces(), st.integers(0, 200))
def test_typed_rows_read_back_as_the_piece(tab: Piece, width: int) -> None:
    rows = lines_of(StaffView(tab, TEXT), width=width)
    assert read(rows, marks="br").bars == written(tab)
    assert all(row.isascii() for row in rows)
    assert len(rows) == tab.tuning.lines
    assert len({len(row) for row in rows}) == 1


@given(pieces(), st.booleans(), st.integers(0, 200))
def test_engraved_rows_read_back_as_the_piece(tab: Piece, double: bool, width: int) -> None:
    rows = lines_of(StaffView(tab), double, width)
    assert read(rows).bars == written(tab)
    assert len({len(row) for row in rows}) == 1


@given(pieces(), st.sampled_from(EVERY_WAY), st.integers(0, 150))
def test_note_columns_are_where_the_numbers_stand(tab: Piece, way: tuple[Dialect, bool], width: int) -> None:
    dialect, double = way
    view = StaffView(tab, dialect, labels=tuple("abcdefgh"[: tab.tuning.lines]))
    rows = draw_staff(view, double=double, width=width).text()
    columns = note_columns(view, double=double, width=width)
    for bar, index, onset in tab.onsets():
        assert len({columns[At(bar, index, n.string)][1] for n in onset.notes}) == 1
        for n in onset.notes:
            row, column = columns[At(bar, index, n.string)]
            assert rows[row][column:].startswith("x" if n.fret is None else str(n.fret))


@given(pieces(marked=False), st.booleans())
def test_numbers_have_air_on_both_sides(tab: Piece, double: bool) -> None:
    view = StaffView(tab)
    rows = draw_staff(view, double=double).text()
    columns = note_columns(view, double=double)
    for bar, index, onset in tab.onsets():
        for n in onset.notes:
            row, column = columns[At(bar, index, n.string)]
            assert rows[row][column - 1] == "─"
            assert rows[row][column + len("x" if n.fret is None else str(n.fret))] == "─"


@given(pieces(), st.booleans())
def test_the_ascii_fallback_is_ascii_and_keeps_the_numbers(tab: Piece, double: bool) -> None:
    view = StaffView(tab)
    drawing = draw_staff(view, double=double)
    plain = drawing.ascii()
    assert all(row.isascii() for row in plain.text())
    for row, column in note_columns(view, double=double).values():
        assert plain.text()[row][column] == drawing.text()[row][column]


@pytest.mark.parametrize("lines", range(4, 9))
@pytest.mark.parametrize(("way", "rows"), [((TEXT, False), 1), ((ENGRAVED, False), 1), ((ENGRAVED, True), 2)])
def test_an_empty_bar_is_a_plain_stretch_of_lines(lines: int, way: tuple[Dialect, bool], rows: int) -> None:
    drawing = draw_staff(StaffView(piece((), tuning=strung(lines)), way[0]), double=way[1])
    assert drawing.height == (lines - 1) * rows + 1
    for row in drawing.text()[::rows]:
        assert set(row[1:-1]) == {"-" if way[0] is TEXT else "─"}


def test_typed_rows_look_as_people_type_them() -> None:
    tab = piece((note(3, 5, HAMMER), note(3, 7), Onset((Note(1, 10), Note(2, 0)))), (note(3, 7, bend(1)),))
    assert draw_staff(StaffView(tab, TEXT, GUITAR)).text() == [
        "e|-------10--|-------|",
        "B|-------0---|-------|",
        "G|--5h7------|--7b9--|",
        "D|-----------|-------|",
        "A|-----------|-------|",
        "E|-----------|-------|",
    ]


def test_rows_without_labels_begin_with_a_bar_line() -> None:
    assert draw_staff(StaffView(piece((note(1, 3),)), TEXT)).text()[:2] == ["|--3--|", "|-----|"]


def test_labels_are_padded_to_one_width() -> None:
    view = StaffView(piece((note(1, 3),)), TEXT, ("F#", "B", "G", "D", "A", "E"))
    assert {row.index("|") for row in draw_staff(view).text()} == {2}
    drawing = draw_staff(replace(view, dialect=ENGRAVED))
    assert {row.index("│") for row in drawing.text()} == {3}
    assert role_at(drawing, 0, 1) is Role.LABEL


@pytest.mark.parametrize("way", EVERY_WAY)
def test_a_number_may_be_lit_and_its_marks_stay_marks(way: tuple[Dialect, bool]) -> None:
    at = At(0, 0, 3)
    view = StaffView(piece((note(3, 7, bend(1)), note(2, 5))), way[0], colours={at: Role.LIT})
    drawing = draw_staff(view, double=way[1])
    row, column = note_columns(view, double=way[1])[at]
    assert role_at(drawing, row, column) is Role.LIT
    assert role_at(drawing, row, column + 1) is Role.MARK
    assert sum(len(s.text) for r in drawing.rows for s in r if s.role is Role.LIT) == 1
    assert sum(len(s.text) for r in drawing.rows for s in r if s.role is Role.FRET) == 1


def test_a_lit_line_differs_by_more_than_colour() -> None:
    drawing = draw_staff(StaffView(piece(()), lines={5: Role.LIT}))
    assert [row[1] for row in drawing.text()] == ["─"] * 4 + ["═", "─"]
    assert [row[1] for row in drawing.ascii().text()] == ["-"] * 4 + ["=", "-"]
    assert role_at(drawing, 4, 5) is Role.LIT
    assert role_at(drawing, 3, 5) is Role.LINE


@pytest.mark.parametrize("way", EVERY_WAY)
@pytest.mark.parametrize("width", [40, 61, 100, 200])
def test_a_staff_is_stretched_to_the_width(way: tuple[Dialect, bool], width: int) -> None:
    view = StaffView(piece((note(1, 3), note(2, 10), note(6, 0)), ()), way[0], GUITAR)
    drawing = draw_staff(view, double=way[1], width=width)
    assert drawing.width == width
    columns = [column for _, column in note_columns(view, double=way[1], width=width).values()]
    assert abs((columns[2] - columns[1]) - (columns[1] - columns[0])) <= 3


def test_a_long_staff_draws_marks_closer() -> None:
    view = StaffView(piece(tuple(note(3, fret, HAMMER) for fret in range(1, 10))))
    assert draw_staff(view, width=45).width < draw_staff(view).width


@pytest.mark.parametrize("way", EVERY_WAY)
@pytest.mark.parametrize("count", [False, True])
def test_a_key_stands_under_its_onset_and_may_be_clicked(way: tuple[Dialect, bool], count: bool) -> None:
    tab = piece((note(5, 3, beat=1), note(1, 12, beat=2)), (note(2, 5, beat=1),), metre=Metre(3))
    keys = {(0, 1): ("a", "2"), (1, 0): ("b", "3")}
    view = StaffView(tab, way[0], GUITAR, keys=keys, count=count)
    drawing = draw_staff(view, double=way[1])
    columns = note_columns(view, double=way[1])
    assert drawing.text()[-1].split() == ["a", "b"]
    assert drawing.height == max(row for row, _ in note_columns(_on_last_line(view), double=way[1]).values()) + (
        3 if count else 2
    )
    for (at, target), key in zip([(At(0, 1, 1), 0), (At(1, 0, 2), 1)], "ab", strict=True):
        row, column = columns[at]
        clickable = drawing.targets[target]
        assert drawing.text()[-1][column] == key
        assert role_at(drawing, drawing.height - 1, column) is Role.KEY
        assert clickable.column <= column < clickable.column + clickable.width
        assert clickable.row <= row < clickable.row + clickable.height == drawing.height
    assert [target.answer for target in drawing.targets] == ["2", "3"]


def _on_last_line(view: StaffView) -> StaffView:
    return replace(view, piece=piece((note(6, 0, beat=1), note(6, 0, beat=2)), (note(6, 0, beat=1),)))


@given(pieces(), st.sampled_from(EVERY_WAY), st.integers(0, 120))
def test_what_may_be_clicked_never_overlaps(tab: Piece, way: tuple[Dialect, bool], width: int) -> None:
    keys = {(bar, index): ("a", f"{bar} {index}") for bar, index, _ in tab.onsets()}
    drawing = draw_staff(StaffView(tab, way[0], keys=keys), double=way[1], width=width)
    ends = sorted((target.column, target.column + target.width) for target in drawing.targets)
    assert len(ends) == len(keys)
    assert all(end <= later for (_, end), (later, _) in pairwise(ends))


@pytest.mark.parametrize("way", EVERY_WAY)
def test_a_key_stands_at_the_end_of_its_line(way: tuple[Dialect, bool]) -> None:
    keys = {line: (str(line), f"line {line}") for line in range(1, 7)}
    drawing = draw_staff(StaffView(piece(()), way[0], line_keys=keys), double=way[1], width=50)
    assert drawing.width == 50
    for target, line in zip(drawing.targets, range(1, 7), strict=True):
        assert drawing.text()[target.row].endswith(f" {line}")
        assert (target.row, target.height, target.width) == ((line - 1) * (1 + way[1]), 1, 50)
        assert target.answer == f"line {line}"


@pytest.mark.parametrize("way", EVERY_WAY)
@pytest.mark.parametrize(("beats", "words"), [(4, "1 & 2 & 3 & 4 &"), (3, "1 & 2 & 3 &"), (2, "1 & 2 &")])
def test_every_half_beat_has_a_word_and_its_own_column(way: tuple[Dialect, bool], beats: int, words: str) -> None:
    tab = piece((note(5, 3, beat=1), note(4, 2, HAMMER, beat=1.5), note(4, 3, beat=2)), (), metre=Metre(beats))
    view = StaffView(tab, way[0], GUITAR, count=True)
    drawing = draw_staff(view, double=way[1])
    row = drawing.text()[-1]
    assert row.split() == words.split() * 2
    places = [column for column, sign in enumerate(row) if sign != " "][: 2 * beats]
    assert len({later - earlier for earlier, later in pairwise(places)}) == 1
    assert [column for _, column in note_columns(view, double=way[1]).values()] == places[:3]
    assert all(role_at(drawing, drawing.height - 1, column) is Role.COUNT for column in places)


def test_a_bar_without_a_metre_is_counted_in_four() -> None:
    view = StaffView(piece((note(5, 3, beat=2),)), TEXT, count=True)
    assert draw_staff(view).text()[-1].split() == ["1", "&", "2", "&", "3", "&", "4", "&"]


@given(st.lists(st.integers(0, 23), unique=True, max_size=10), st.integers(0, 120), st.sampled_from(EVERY_WAY))
def test_onsets_between_the_halves_keep_their_order(
    sixths: list[int], width: int, way: tuple[Dialect, bool]
) -> None:
    beats = [1 + Fraction(n, 6) for n in sorted(sixths)]
    tab = piece(tuple(note(1 + i % 3, 10 + i, beat=beat) for i, beat in enumerate(beats)), metre=Metre(4))
    view = StaffView(tab, way[0], count=True)
    rows = draw_staff(view, double=way[1], width=width).text()[:-1]
    assert read(rows[::2] if way[1] else rows).bars == written(tab)


def test_a_count_line_asks_for_every_beat() -> None:
    with pytest.raises(ValueError, match="onset 2 has no beat"):
        draw_staff(StaffView(piece((note(1, 0, beat=1), note(1, 2))), count=True))
    with pytest.raises(ValueError, match="do not rise"):
        draw_staff(StaffView(piece((note(1, 0, beat=2), note(1, 2, beat=2))), count=True))


@pytest.mark.parametrize("way", EVERY_WAY)
@pytest.mark.parametrize("count", [False, True])
def test_a_hidden_bar_line_leaves_no_trace(way: tuple[Dialect, bool], count: bool) -> None:
    bars = [tuple(note(2, 5, beat=beat) for beat in range(1, 4))] * 3
    view = StaffView(piece(*bars, metre=Metre(3)), way[0], count=count, hidden_bar_lines=frozenset({0}))
    rows = draw_staff(view, double=way[1]).text()[: 11 if way[1] else 6]
    assert len(read(rows).bar_lines) == 3
    columns = [column for _, column in note_columns(view, double=way[1]).values()]
    assert len({later - earlier for earlier, later in pairwise(columns[:6])}) == 1


def test_the_last_bar_line_may_be_hidden_too() -> None:
    view = StaffView(piece((note(1, 3),)), TEXT, hidden_bar_lines=frozenset({0}))
    assert draw_staff(view).text()[0] == "|--3---"


@pytest.mark.parametrize("way", EVERY_WAY)
def test_a_wrong_answer_is_drawn_beside_the_right_one(way: tuple[Dialect, bool]) -> None:
    spots = {At(0, 0, 3): ("17", Role.SAID), At(0, 0, 2): ("5", Role.SAID), At(0, 2, 6): ("9", Role.SAID)}
    view = StaffView(piece((note(3, 5), note(1, 0))), way[0], colours={At(0, 0, 3): Role.TRUE}, spots=spots)
    drawing = draw_staff(view, double=way[1])
    rows = drawing.text()[:: 1 + way[1]]
    row, column = note_columns(view, double=way[1])[At(0, 0, 3)]
    line = rows[row // (1 + way[1])]
    assert (line[column], line[column + 2 : column + 4]) == ("5", "17")
    assert rows[1][column] == "5"
    assert role_at(drawing, row, column) is Role.TRUE
    assert role_at(drawing, row, column + 2) is Role.SAID
    assert "9" in rows[5][note_columns(view, double=way[1])[At(0, 1, 1)][1] :]


@pytest.mark.parametrize("way", EVERY_WAY)
def test_a_spot_on_a_bare_staff_finds_its_line(way: tuple[Dialect, bool]) -> None:
    view = StaffView(piece(()), way[0], spots={At(0, 0, 5): ("3", Role.TRUE)})
    assert read(draw_staff(view, double=way[1]).text()[:: 1 + way[1]]).bars == [[{5: "3"}]]
