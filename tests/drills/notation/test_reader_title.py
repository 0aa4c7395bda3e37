"""What a file calls the piece, as one line that a terminal may be told."""

from __future__ import annotations

import pytest

from drills.notation.reader import read_tab

ROWS = "\n".join(label + "|--0--|" for label in "eBGDAE")


@pytest.mark.parametrize(
    ("head", "title"),
    [
        ("A slow waltz", "A slow waltz"),
        ("Title: A slow waltz\nBy: us", "A slow waltz"),
        ("Artist: us\nSong: A slow waltz", "A slow waltz"),
        ("# A slow waltz", "A slow waltz"),
        ("*** A slow waltz ***", "A slow waltz"),
        ("Tuning: standard\nA slow waltz", "A slow waltz"),
        ("Capo 2\n\nIntro", ""),
        ("  Am      G", ""),
        ("  1 & 2 & 3 &", ""),
        ("PM------|", ""),
        ("", ""),
        ("A \x1b[31mslow\x07 waltz\u202e", "A [31mslow waltz"),
        ("w" * 500, "w" * 80),
    ],
)
def test_the_title_stands_before_the_rows(head: str, title: str) -> None:
    assert read_tab(head + "\n" + ROWS).piece.title == title


def test_what_stands_behind_the_rows_is_no_title() -> None:
    assert read_tab(ROWS + "\n\nTitle: too late\n").piece.title == ""
