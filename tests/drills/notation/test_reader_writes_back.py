"""What the writer writes is what the reader reads."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.reader import Severity, TuningFrom, read_tab
from drills.notation.score import Bar, Metre, Note, Onset, Piece
from drills.notation.tuning import shipped
from drills.notation.writer import WIDTH, write_tab
from tests.drills.notation.pieces import STANDARD, note, piece, pieces
from tests.drills.notation.reading_back import told
from tests.drills.notation.samples import SAMPLES

AGAINST = {"a hammer-on that goes down": "hammer-on", "a rising diagonal between falling frets": "slide-down"}
"""A letter stays what was written; the reader takes the direction of a slide from the frets."""
NOT_TYPED = {"a hammer-on to another string"}
"""A row of typed tab has no sign that leads to another row."""


@pytest.mark.parametrize("name", sorted(SAMPLES.keys() - AGAINST.keys() - NOT_TYPED))
def test_every_mark_is_read_back(name: str) -> None:
    reading = read_tab(write_tab(SAMPLES[name]))
    assert told(reading.piece) == told(SAMPLES[name])
    assert [doubt for doubt in reading.doubts if doubt.severity is not Severity.NOTE] == []


@pytest.mark.parametrize("name", AGAINST)
def test_a_sign_against_its_frets_is_warned_of(name: str) -> None:
    reading = read_tab(write_tab(SAMPLES[name]))
    assert [mark.kind.value for mark in reading.marks] == [AGAINST[name]]
    assert [doubt.severity for doubt in reading.doubts if "goes down" in doubt.message] == [Severity.WARNING]


@given(pieces())
def test_every_note_that_is_written_is_read_back(tab: Piece) -> None:
    reading = read_tab(write_tab(tab), tuning=tab.tuning)
    assert told(reading.piece) == told(tab)
    assert reading.piece.tuning == tab.tuning


@given(pieces())
def test_reading_and_writing_again_changes_nothing(tab: Piece) -> None:
    text = write_tab(tab)
    again = write_tab(read_tab(text, tuning=tab.tuning).piece)
    assert again == text


@given(pieces(marked=False), st.integers(20, 200))
def test_systems_are_as_wide_as_asked(tab: Piece, width: int) -> None:
    text = write_tab(tab, width)
    assert told(read_tab(text, tuning=tab.tuning).piece) == told(tab)
    one_bar = max(len(row) for bar in tab.bars for row in write_tab(Piece(tab.tuning, (bar,))).split("\n")[2:])
    assert all(len(row) <= max(width, one_bar) for row in text.split("\n")[2:])


def test_a_long_piece_wraps_at_the_usual_width() -> None:
    tab = piece(*[tuple(note(1, fret) for fret in (0, 1, 3, 5))] * 12)
    rows = [row for row in write_tab(tab).split("\n") if row.startswith("e|")]
    assert len(rows) > 1
    assert max(map(len, rows)) <= WIDTH
    assert told(read_tab(write_tab(tab)).piece) == told(tab)


def test_title_tuning_capo_and_metre_are_written_in_words() -> None:
    onsets = tuple(note(1, 3, beat=beat) for beat in (1, 2, 3))
    tab = Piece(shipped()["drop-d"].with_capo(3), (Bar(onsets, Metre(3)),), "A waltz of ours")
    reading = read_tab(write_tab(tab))
    assert reading.piece == tab
    assert reading.tuning_from is TuningFrom.TEXT


@pytest.mark.parametrize("name", shipped())
def test_every_tuning_is_read_back(name: str) -> None:
    tuning = shipped()[name]
    tab = Piece(tuning, (Bar(tuple(Onset((Note(string, 0),)) for string in range(1, tuning.lines + 1))),))
    reading = read_tab(write_tab(tab))
    assert reading.piece == tab


@pytest.mark.parametrize("beats", ["1 2 3 4", "1 3/2 2 3", "1 5/4 3/2 7/4 2"])
def test_beats_are_read_back_from_the_count_line(beats: str) -> None:
    at = [Fraction(beat) for beat in beats.split()]
    tab = Piece(STANDARD, (Bar(tuple(note(2, 1, beat=beat) for beat in at), Metre(4)),))
    assert told(read_tab(write_tab(tab)).piece) == told(tab)
