"""Note values against music21: names, dots, lengths; count words and letters are common practice, no source."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from music21.duration import Duration
from music21.meter import TimeSignature

from drills.kinds.rhythm.written import METRES, written_bar
from drills.notation.score import Bar, Metre, Note, Onset, Piece
from drills.notation.tuning import shipped
from drills.notation.values import VALUES, beat_moments, beat_of, beat_word, count_words, parts_of, struck, value_of

STANDARD = shipped()["standard"]
MUSIC21 = {"sixteenth": "16th"}
"""Where music21 spells a value otherwise."""


def bar(text: str, metre: str = "4-4", *, pick_up: bool = False) -> Bar:
    return written_bar(text, METRES[metre], STANDARD, random.Random(1), pick_up=pick_up)


def test_names_dots_and_lengths_are_those_of_music21() -> None:
    assert len(VALUES) == 10
    for length, value in VALUES.items():
        other = Duration(type=MUSIC21.get(value.name, value.name), dots=value.dots)
        assert Fraction(other.quarterLength) == length == value.quarters
        back = Duration(quarterLength=length)
        assert (back.type, back.dots) == (MUSIC21.get(value.name, value.name), value.dots)


@pytest.mark.parametrize("metre", METRES)
def test_a_written_bar_is_as_long_as_music21_makes_it(metre: str) -> None:
    text = {"4-4": "q. e h", "3-4": "h e e", "2-4": "e. s q", "6-8": "q. q e"}[metre]
    written = bar(text, metre)
    unit = Fraction(4, METRES[metre].unit)
    total = sum((onset.length or Fraction(0) for onset in written.onsets), Fraction(0)) * unit
    assert total == Fraction(TimeSignature(metre.replace("-", "/")).barDuration.quarterLength)
    assert [value_of(onset, written).letters for onset in written.onsets] == text.split()


def test_a_pick_up_ends_with_its_bar() -> None:
    assert [onset.beat for onset in bar("q e e", pick_up=True).onsets] == [3, 4, Fraction(9, 2)]
    assert count_words(bar("e", "3-4", pick_up=True), 2) == [(Fraction(7, 2), "&")]


def test_beats_are_counted_as_finely_as_they_are_played() -> None:
    # Common practice, no source: 1 &, 1 e & a, and eighths alone in 6/8.
    def words(text: str, metre: str) -> str:
        piece = Piece(STANDARD, (bar(text, metre),))
        return " ".join(word for _, word in count_words(piece.bars[0], parts_of(piece)))

    assert words("q q", "2-4") == "1 & 2 &"
    assert words("s s e q", "2-4") == "1 e & a 2 e & a"
    assert words("q. q.", "6-8") == "1 2 3 4 5 6"


def test_beat_words_and_back() -> None:
    for word in ("1", "2e", "3&", "4a"):
        assert beat_word(beat_of(word)) == word
    assert beat_of("2a") == Fraction(11, 4)
    with pytest.raises(ValueError, match="no count word"):
        beat_word(Fraction(4, 3))


def test_rests_and_tied_notes_are_not_struck() -> None:
    piece = Piece(STANDARD, (bar("q~ q qr q"), bar("h~ h")))
    assert struck(piece) == [(0, 0), (0, 3), (1, 0)]
    assert beat_moments(piece) == [0, 3, 4]


def test_moments_count_from_the_start_of_a_pick_up() -> None:
    assert beat_moments(Piece(STANDARD, (bar("q", pick_up=True), bar("h h")))) == [0, 1, 3]


def test_lengths_without_a_value_are_refused() -> None:
    with pytest.raises(ValueError, match="tie two notes"):
        value_of(Onset((Note(1, 0),), Fraction(1), Fraction(5, 2)), Bar((), Metre(4)))
    with pytest.raises(ValueError, match="no length"):
        value_of(Onset((Note(1, 0),), Fraction(1)), Bar((), Metre(4)))
