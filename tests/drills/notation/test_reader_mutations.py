"""The same tab through mail, editors and converters: the same notes are read, or a doubt says what is wrong."""

from __future__ import annotations

import random
from collections.abc import Callable
from html import escape
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.reader import read_bytes, read_tab
from drills.notation.score import Piece
from drills.notation.writer import write_tab
from tests.drills.notation.pieces import pieces
from tests.drills.notation.reading_back import told
from tests.drills.notation.test_reader_samples import SAMPLES

USUAL: Final = [name for name in SAMPLES if not any(word in name for word in ("HTML", "em dashes", "program"))]

SAME: Final[dict[str, Callable[[str], str]]] = {
    "CRLF": lambda text: text.replace("\n", "\r\n"),
    "CR": lambda text: text.replace("\n", "\r"),
    "a byte order mark": lambda text: "\ufeff" + text,
    "no-break spaces": lambda text: text.replace(" ", "\u00a0"),
    "em dashes": lambda text: text.replace("-", "\u2014"),
    "en dashes": lambda text: text.replace("-", "\u2013"),
    "minus signs": lambda text: text.replace("-", "\u2212"),
    "box drawing": lambda text: text.replace("-", "\u2500").replace("|", "\u2502"),
    "full width": lambda text: text.translate({ord(c): chr(ord(c) + 0xFEE0) for c in "-|0123456789"}),
    "blanks behind": lambda text: text.replace("\n", "   \n"),
    "an indent": lambda text: "    " + text.replace("\n", "\n    "),
    "TABs before": lambda text: "\t" + text.replace("\n", "\n\t"),
    "quoted in a mail": lambda text: "> " + text.replace("\n", "\n> "),
    "HTML": lambda text: f"<pre>{escape(text)}</pre>",
    "a fence": lambda text: "```\n" + text + "\n```\n",
    "prose around": lambda text: "Words before it, two lines\nof them - no more.\n\n" + text + "\n\nAnd words behind.",
}


def notes(piece: Piece) -> object:
    return told(piece._replace(title=""))


@pytest.mark.parametrize("how", SAME)
@pytest.mark.parametrize("name", USUAL)
def test_what_programs_do_to_a_text_changes_no_note(name: str, how: str) -> None:
    tab, _ = SAMPLES[name]
    assert notes(read_tab(SAME[how](tab)).piece) == notes(read_tab(tab).piece)


ENCODINGS: Final = ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "latin-1", "cp1252")


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_every_encoding_is_known(encoding: str) -> None:
    tab = "Übung für zwei Saiten\n\ne|--0--3--|\nB|--1--½--|\nG|--------|\nD|--------|\nA|--------|\nE|--------|\n"
    reading = read_bytes(tab.replace("½", "3").encode(encoding))
    assert reading.piece.title == "Übung für zwei Saiten"
    assert notes(reading.piece) == notes(read_tab(tab.replace("½", "3")).piece)


def test_a_few_broken_bytes_do_not_make_utf_8_another_code_page() -> None:
    tab = "Übung, größer, später\n\n" + SAMPLES["tidy: one bar of open strings"][0]
    reading = read_bytes(tab.encode() + b"\xff")
    assert reading.piece.title == "Übung, größer, später"
    assert any("UTF-8" in doubt.message for doubt in reading.doubts)


def test_a_tab_inside_a_row_is_blanks_up_to_the_eighth_column() -> None:
    rows = ["e|--0\t--3--|", "B|--1   --3--|", *(label + "|---   -----|" for label in "GDAE")]
    reading = read_tab("\n".join(rows))
    assert notes(reading.piece) == notes(read_tab("\n".join([rows[0].replace("\t", "   "), *rows[1:]])).piece)
    assert [source.column for source in reading.sources[0][1]] == [9, 11]


@given(pieces(marked=False), st.randoms(use_true_random=False))
def test_a_cut_line_keeps_what_stands_before_the_cut(tab: Piece, rng: random.Random) -> None:
    """Some editors cut long lines: the notes of the other rows stay, and none is invented."""
    head, system = write_tab(tab, 500).split("\n\n")
    rows = system.split("\n")
    rows = rows[: tab.tuning.lines]
    cut = rng.randrange(len(rows))
    rows[cut] = rows[cut][: rng.randrange(6, len(rows[cut]) + 1)]
    reading = read_tab(head + "\n\n" + "\n".join(rows), tuning=tab.tuning)
    before = sorted((n.string, n.fret or -1) for _, _, onset in tab.onsets() for n in onset.notes)
    after = sorted((n.string, n.fret or -1) for _, _, onset in reading.piece.onsets() for n in onset.notes)
    assert [n for n in after if n[0] != cut + 1] == [n for n in before if n[0] != cut + 1]


@given(st.sampled_from(sorted(SAMPLES)), st.data())
def test_a_changed_character_never_breaks_a_reading(name: str, data: st.DataObject) -> None:
    tab, _ = SAMPLES[name]
    at = data.draw(st.integers(0, len(tab) - 1))
    new = data.draw(st.sampled_from(["", "-", "|", " ", "5", "x", "h", "(", ")", "\t", "\n", "~", "~~~", "é", "\x00"]))
    reading = read_tab(tab[:at] + new + tab[at + 1 :])
    assert all(doubt.message.isprintable() for doubt in reading.doubts)
