"""A learner's own tuning: read from pitches, kept in its name, and every mistake told in one line with its mend."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21.pitch import Pitch as Outside

from drills.catalogue import catalogue
from drills.notation.own_tuning import own_tuning, tuning_named
from drills.notation.pitch import Pitch
from drills.notation.tuning import FRETS, Tuning, shipped


def told_of(read: Callable[[str], Tuning], text: str) -> Tuning | str:
    """The tuning of a text, or what is said of its mistake."""
    try:
        return read(text)
    except ValueError as error:
        return str(error)


pitches = st.lists(st.integers(16, 103), min_size=4, max_size=8, unique=True)


@pytest.mark.parametrize(
    ("text", "name", "title"),
    [
        ("D2 A2 D3 G3 B3 E4", "own-38-45-50-55-59-64", "Own: D2 A2 D3 G3 B3 E4"),
        ("  d2, a2, d3, f#3, a3, d4 ", "own-38-45-50-54-57-62", "Own: D2 A2 D3 F#3 A3 D4"),
        ("D2-A2-D3-G3-A3-D4", "own-38-45-50-55-57-62", "Own: D2 A2 D3 G3 A3 D4"),
        ("D#2 G#2 C#3 F#3 A#3 D#4", "own-39-44-49-54-58-63", "Own: Eb2 Ab2 Db3 Gb3 Bb3 Eb4"),
        ("B♭1 F2 bb2 D3", "own-34-41-46-50", "Own: Bb1 F2 Bb2 D3"),
        ("re-entrant G4 C4 E4 A4", "own-re-entrant-67-60-64-69", "Own: G4 C4 E4 A4"),
    ],
)
def test_pitches_are_read_from_low_to_high(text: str, name: str, title: str) -> None:
    tuning = own_tuning(text)
    assert (tuning.name, tuning.title) == (name, title)
    assert tuning_named(name) == tuning
    heard = [Outside(word.replace("b", "-")).midi for word in title.removeprefix("Own: ").split()]
    assert [tuning.open(string).midi for string in range(tuning.lines, 0, -1)] == heard


@given(pitches)
def test_a_name_keeps_its_pitches_whatever_their_order(midis: list[int]) -> None:
    text = " ".join(Pitch(midi).spn() for midi in midis)
    tuning = own_tuning(f"re-entrant {text}")
    assert [pitch.midi for pitch in tuning.strings] == midis[::-1]
    assert tuning_named(tuning.name) == tuning
    rising = own_tuning(" ".join(Pitch(midi).spn(flats=True) for midi in sorted(midis)))
    assert rising.name == "own-" + "-".join(map(str, sorted(midis)))
    assert rising.gauge_ordered
    # Every fret of it can be heard and has a MIDI number (hearing: 20 Hz to 20 kHz, common practice, no source).
    assert all(20 < tuning.sound(s, f).hz < 20_000 for s in range(1, tuning.lines + 1) for f in (0, FRETS))
    assert re.fullmatch(r"[a-z0-9-]{1,46}", tuning.name)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("H2 E2 A2 D3", "'H2' is no pitch: did you mean B2?"),
        ("EE2 A2 D3 G3", "'EE2' is no pitch: did you mean E2?"),
        ("E2 A2 D3 Q3", "'Q3' is no pitch: write a letter from A to G, maybe # or b, and the octave, such as E2"),
        ("E A D G B E", "'E' has no octave: write E2, E3 or E4 (the strings of a guitar are E2 A2 D3 G3 B3 E4)"),
        ("E2 A2 D3", "a tuning of 3 strings: give 4 to 8 pitches, from the lowest string to the highest, "
                     "such as E2 A2 D3 G3 B3 E4"),
        ("A1 B1 C2 D2 E2 F2 G2 A2 B2", "a tuning of 9 strings: give 4 to 8 pitches, from the lowest string to the "
                                       "highest, such as E2 A2 D3 G3 B3 E4"),
        ("", "a tuning without pitches: give 4 to 8 pitches, from the lowest string to the highest, "
             "such as E2 A2 D3 G3 B3 E4"),
        ("E4 B3 G3 D3 A2 E2", "these pitches fall: give the lowest first, E2 A2 D3 G3 B3 E4"),
        ("E2 A2 D3 B3 G3 E4", "G3 is lower than B3 before it: give the lowest first, E2 A2 D3 G3 B3 E4; or begin with "
                              "the word re-entrant where the strings really lie so"),
        ("C0 A2 D3 G3", "C0 is 16.4 Hz, too low to hear: give E0 (20.6 Hz) or higher"),
        ("A2 D3 G3 G#7", "G#7 is too high, beyond G9 (MIDI 127) at fret 24: give G7 or lower"),
        ("E2 E2 A2 D3", "two strings sound E2: give each a pitch of its own, for questions could not tell them apart"),
        ("\x1b[2J A2 D3 G3", "'\\x1b[2J' is no pitch: write a letter from A to G, maybe # or b, and the octave, "
                             "such as E2"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_its_mend(text: str, told: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(told)}$"):
        own_tuning(text)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("standrad", "there is no tuning 'standrad'"),
        ("own-38-45-50", "a tuning of 3 strings: give 4 to 8, such as own-40-45-50-55-59-64"),
        ("own-64-59-55-50-45-40", "these pitches fall"),
        ("own-40-45-50-59-55-64", "G3 is lower than B3 before it"),
        ("own-3-45-50-55", "too low to hear"),
        ("own-40-45-50-999", "give G7 or lower"),
        ("own-٤٠-45-50-55", "there is no tuning"),
        ("own-", "there is no tuning 'own-'"),
        ("../../etc/passwd\n", "there is no tuning '../../etc/passwd\\n'"),
    ],
)
def test_a_name_that_is_no_tuning_is_refused(name: str, told: str) -> None:
    with pytest.raises(ValueError, match=re.escape(told)):
        tuning_named(name)


@given(st.text(max_size=60))
def test_any_text_is_a_tuning_or_one_plain_line(text: str) -> None:
    for read in (own_tuning, tuning_named):
        found = told_of(read, text)
        if isinstance(found, str):
            assert re.fullmatch(r".+: .+", found)
            assert found.isprintable()
        else:
            assert 4 <= found.lines <= 8


def test_shipped_tunings_are_found_by_name() -> None:
    assert all(tuning_named(name) is tuning for name, tuning in shipped().items())


@given(pitches)
def test_whatever_the_strings_the_catalogue_holds_together(midis: list[int]) -> None:
    found = catalogue(own_tuning("re-entrant " + " ".join(Pitch(midi).spn() for midi in midis)))
    place = {item.id: n for n, item in enumerate(found.items)}
    for item in found.items:
        assert re.fullmatch(r"[a-z0-9\-/#.]{1,80}", item.id)
        assert all(place[need] < place[item.id] for need in item.needs), item.id
