"""Every mark as it is drawn: looked at once by eye, and kept. Forms: the sources named in ``tokens`` and ``signs``."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drills.notation.drawing import PARTS, SMALL, TO_ASCII, Drawing, Role
from drills.notation.score import MarkKind, Piece
from drills.notation.staff import Dialect, StaffView, draw_staff, note_columns
from tests.drills.notation.pieces import strung
from tests.drills.notation.samples import SAMPLES, golden

LINES = 6
WAYS = [(Dialect.TEXT, False), (Dialect.ENGRAVED, False), (Dialect.ENGRAVED, True)]


def drawn(tab: Piece, way: tuple[Dialect, bool], width: int = 0) -> Drawing:
    return draw_staff(StaffView(tab, way[0]), double=way[1], width=width)


@pytest.mark.parametrize("name", SAMPLES)
def test_each_mark_is_drawn_as_it_is_written(name: str) -> None:
    typed, engraved = golden()[name]
    assert drawn(SAMPLES[name], (Dialect.TEXT, False)).text()[: len(typed)] == typed
    assert drawn(SAMPLES[name], (Dialect.ENGRAVED, False)).text()[: len(engraved)] == engraved


def test_the_samples_show_every_mark() -> None:
    shown = {
        mark.kind
        for sample in SAMPLES.values()
        for _, _, onset in sample.onsets()
        for note in onset.notes
        for mark in note.marks
    }
    by_other_means = {MarkKind.SLIDE_DOWN, MarkKind.MUTE, MarkKind.REPEAT}  # mirrored; an x; of a bar
    assert shown | by_other_means == set(MarkKind)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("width", [0, 1, 40, 50, 80])
@pytest.mark.parametrize("sample", SAMPLES.values(), ids=SAMPLES)
def test_numbers_stand_where_they_are_said_to_and_the_width_is_kept(
    sample: Piece, way: tuple[Dialect, bool], width: int
) -> None:
    view = StaffView(sample, way[0])
    drawing = draw_staff(view, double=way[1], width=width)
    rows = drawing.text()
    if width >= 40:
        assert drawing.width == width
    for at, (row, column) in note_columns(view, double=way[1], width=width).items():
        fret = sample.bars[at.bar].onsets[at.onset].on(at.string)
        assert fret is not None
        there = rows[row][column:].translate(TO_ASCII)
        assert there.startswith("x" if fret.fret is None else str(fret.fret))


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("sample", SAMPLES.values(), ids=SAMPLES)
def test_in_ascii_every_column_stays(sample: Piece, way: tuple[Dialect, bool]) -> None:
    drawing = drawn(sample, way, 60)
    plain = drawing.ascii().text()
    assert all(row.isascii() for row in plain)
    for row, told in zip(drawing.text(), plain, strict=True):
        # A part of a step takes blanks at its right; a small number the line at its left.
        kept = [i for i, sign in enumerate(row) if sign not in (" ", *PARTS) and row[i + 1 : i + 2] not in {*SMALL}]
        assert [told[i] for i in kept] == [row[i].translate(TO_ASCII) for i in kept]


def test_a_grace_note_is_told_from_a_plain_one_in_ascii() -> None:
    plain = drawn(SAMPLES["a grace note"], (Dialect.ENGRAVED, False)).ascii().text()
    assert plain[:2] == ["    .--H--.", "|--g5-----7---|"]
    two = drawn(SAMPLES["a grace note of two digits"], (Dialect.ENGRAVED, False)).ascii().text()
    assert two[1] == "|--g10--/--12---|"


@pytest.mark.parametrize("sample", SAMPLES.values(), ids=SAMPLES)
def test_double_spacing_changes_nothing_over_the_staff(sample: Piece) -> None:
    single = drawn(sample, (Dialect.ENGRAVED, False))
    double = drawn(sample, (Dialect.ENGRAVED, True))
    above = single.height - LINES
    assert double.text()[:above] == single.text()[:above]
    assert double.height - above == 2 * LINES - 1


@pytest.mark.parametrize(("lines", "dots"), [(6, [2, 3]), (4, [1, 2]), (5, [1, 3]), (7, [2, 4])])
def test_the_dots_of_a_repeat_stand_around_the_middle(lines: int, dots: list[int]) -> None:
    tab = SAMPLES["repeats"]._replace(tuning=strung(lines))
    rows = drawn(tab, (Dialect.ENGRAVED, False)).text()[1:]
    assert [n for n, row in enumerate(rows) if "•" in row] == dots
    heavy = [column for column, sign in enumerate(rows[0]) if sign == "┃"]
    assert all(row[column] == "┃" for row in rows for column in heavy)


def test_a_repeat_whose_bar_line_is_hidden_is_hidden_too() -> None:
    view = StaffView(SAMPLES["repeats"], hidden_bar_lines=frozenset({0}))
    rows = draw_staff(view).text()
    assert rows[1].count("┃") == 2
    assert rows[3].count("•") == 2


@pytest.mark.parametrize("way", WAYS)
def test_a_legend_stands_under_all_and_is_wrapped(way: tuple[Dialect, bool]) -> None:
    tie = SAMPLES["a tie"]
    legend = ("One [b]sentence[/b] that is a good deal longer than 40 cells.", "Two.")
    view = StaffView(tie, way[0], keys={(0, 0): ("a", "1")}, legend=legend)
    drawing = draw_staff(view, double=way[1], width=40)
    bare = draw_staff(replace(view, legend=()), double=way[1], width=40)
    assert drawing.rows[: bare.height] == bare.rows
    wrapped = ["", "One [b]sentence[/b] that is a good deal", "longer than 40 cells.", "Two."]
    assert drawing.text()[bare.height :] == wrapped
    assert {span.role for row in drawing.rows[bare.height :] for span in row} == {Role.LABEL}
    assert drawing.targets == bare.targets
    assert draw_staff(view, double=way[1], width=1).width >= 20
