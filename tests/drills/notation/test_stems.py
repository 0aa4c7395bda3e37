"""Stems, beams and rests as they are drawn. What they look like is common practice or our own, no source."""

from __future__ import annotations

import random

import pytest

from drills.kinds.rhythm.written import METRES, written_bar
from drills.notation.score import Piece
from drills.notation.spoken import say_staff
from drills.notation.staff import Dialect, StaffView, draw_staff
from drills.notation.stems import beams
from drills.notation.tuning import shipped


def view(text: str, metre: str = "4-4", dialect: Dialect = Dialect.ENGRAVED) -> StaffView:
    tuning = shipped()["standard"]
    return StaffView(
        Piece(tuning, (written_bar(text, METRES[metre], tuning, random.Random(1)),)), dialect, stems=True
    )


def under(text: str, metre: str = "4-4") -> list[str]:
    """The rows under the staff, drawn close."""
    return draw_staff(view(text, metre), width=40).text()[6:]


def test_stems_tell_values_apart() -> None:
    assert under("w") == []
    assert [row.split() for row in under("h q q")] == [["│", "│", "│"], ["│", "│"]]
    assert under("h. q")[0].split() == ["│.", "│"]


def test_short_notes_of_a_beat_share_their_beams() -> None:
    assert under("s s s s e. s h") == [
        "   ├─┼─┼─┤ │.   ╶┤ │",
        "   ╰─┴─┴─╯ ╰─────╯",
    ]
    assert under("s e. q h")[0].startswith("   ├╴│.")
    # A flag where an eighth stands alone; a rest ends a beam.
    assert [row.strip() for row in under("er e er e h")][1].split() == ["╰╴", "╰╴"]


@pytest.mark.parametrize(
    ("text", "metre", "groups"),
    [
        ("e e e e h", "4-4", [[0, 1], [2, 3], [4]]),
        ("e e e q.", "6-8", [[0, 1, 2], [3]]),
        ("q e q e", "6-8", [[0], [1], [2], [3]]),
        ("e er e e h", "4-4", [[0], [2, 3], [4]]),
    ],
)
def test_beams_keep_to_the_beats(text: str, metre: str, groups: list[list[int]]) -> None:
    assert list(beams(view(text, metre).piece.bars[0])) == groups


def test_rests_stand_on_the_middle_line() -> None:
    for text, sign in (("wr", "▄"), ("h hr", "▀"), ("h. qr", "}"), ("q er e h", "y")):
        rows = draw_staff(view(text)).text()[:6]
        assert [n for n, row in enumerate(rows) if sign in row] == [2]
    # Three signs that plain ASCII must still tell apart.
    seen = {next(c for c in draw_staff(view(t)).ascii().text()[2] if c in "wh}yz") for t in ("wr", "h hr", "h. qr")}
    assert len(seen) == 3


def test_text_tab_has_letters_in_line_with_its_numbers() -> None:
    drawn = draw_staff(view("q. er h", dialect=Dialect.TEXT), width=40).text()
    letters = drawn[6]
    assert letters.split() == ["q.", "er", "h"]
    for word in ("q.", "h"):
        assert any(row[letters.index(word)].isdigit() for row in drawn[:6])
    assert not any(row[letters.index("er")].isdigit() for row in drawn[:6])


def test_values_in_words_are_spelled_where_their_name_is_asked() -> None:
    (named,) = say_staff(view("q. e hr"))
    assert [part.split(", ")[-1] for part in named.split(", then ")] == ["a dotted quarter", "an eighth", "a half rest"]
    (spelled,) = say_staff(view("q. e hr"), spell=True)
    assert not {"quarter", "eighth", "half"} & set(spelled.replace(",", "").split())
    (typed,) = say_staff(view("q. e hr", dialect=Dialect.TEXT), spell=True)
    assert "written q, with a dot" in typed
    assert "written hr" in typed
