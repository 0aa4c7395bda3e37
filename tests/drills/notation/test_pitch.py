"""Names and frequencies, against music21 (a general-purpose library) and ISO 16:1975."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21.pitch import Pitch as Outside

from drills.notation.pitch import FLAT_NAMES, SHARP_NAMES, Naming, Pitch, class_of, parse_note, spell

EVERYDAY = sorted({*SHARP_NAMES, *FLAT_NAMES, "B#", "Cb", "E#", "Fb"})

# From C0 on: music21 cannot tell the minus of octave -1 from its sign for a flat.
pitches = st.integers(min_value=12, max_value=127).map(Pitch)


def outside(name: str) -> Outside:
    """music21 writes a flat as ``-``."""
    return Outside(name.replace("b", "-"))


@given(pitches, st.booleans())
def test_names_say_the_same_pitch_to_music21(pitch: Pitch, flats: bool) -> None:
    assert outside(pitch.spn(flats)).midi == pitch.midi
    for name in pitch.names:
        assert outside(name).pitchClass == pitch.pitch_class == class_of(name)


@given(pitches)
def test_frequency_is_equal_temperament_on_a_440(pitch: Pitch) -> None:
    # ISO 16:1975 sets A4 to 440 Hz; a semitone is the twelfth root of two.
    assert pitch.hz == pytest.approx(440 * 2 ** ((pitch.midi - 69) / 12), rel=1e-12)
    assert pitch.hz == pytest.approx(Outside(midi=pitch.midi).frequency, rel=1e-9)


def test_middle_c_and_a_440() -> None:
    # Scientific pitch notation, R. W. Young, JASA 11, 1939 (from memory); MIDI 60 is common practice.
    assert Pitch.parse("C4") == Pitch(60)
    assert Pitch.parse("A4").hz == 440.0


@given(pitches, st.booleans())
def test_what_is_spelled_is_read_back(pitch: Pitch, flats: bool) -> None:
    assert Pitch.parse(pitch.spn(flats)) == pitch


@pytest.mark.parametrize(("name", "midi"), [("B#3", 60), ("Cb4", 59), ("E#4", 65), ("Fb4", 64), ("F##4", 67)])
def test_an_accidental_may_cross_its_octave(name: str, midi: int) -> None:
    assert Pitch.parse(name).midi == midi == outside(name).midi


@pytest.mark.parametrize("text", ["", "H3", "e2", "E", "E#b2", "E2 ", "[bold]E2", "C\x1b4"])
def test_what_is_no_pitch_is_refused_by_name(text: str) -> None:
    with pytest.raises(ValueError, match="is no pitch"):
        Pitch.parse(text)


@pytest.mark.parametrize("text", ["", "H", "sharp"])
def test_what_has_no_pitch_class_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is no note name"):
        class_of(text)


@given(pitches)
def test_black_keys_have_two_names_and_white_keys_one(pitch: Pitch) -> None:
    assert len(pitch.names) == (1 if pitch.is_natural else 2)
    assert pitch.is_natural == (outside(pitch.names[0]).accidental is None)


@pytest.mark.parametrize("name", EVERYDAY)
def test_german_names_agree_with_music21(name: str) -> None:
    assert spell(name, Naming.GERMAN) == outside(name).german


@pytest.mark.parametrize("name", EVERYDAY)
def test_syllables_agree_with_music21(name: str) -> None:
    spelled = spell(name, Naming.SOLFEGE)
    syllable, accidental = spelled.rstrip("#b"), spelled[-1] if spelled[-1] in "#b" else ""
    assert outside(name).italian == " ".join([syllable, *{"#": ["diesis"], "b": ["bemolle"], "": []}[accidental]])
    french = outside(name).french.replace("é", "e").replace("è", "e")
    assert french == " ".join([syllable, *{"#": ["diese"], "b": ["bemol"], "": []}[accidental]])


@given(st.sampled_from(EVERYDAY), st.sampled_from(Naming), st.sampled_from([str, str.upper, str.lower]))
def test_every_name_is_read_back_in_every_system_and_case(name: str, naming: Naming, case: type[str]) -> None:
    assert parse_note(case(spell(name, naming)), naming) == name


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("b", "B"), ("B", "B"), ("bb", "Bb"), ("Bb", "Bb"), ("BB", "Bb"), ("B♭", "Bb"), ("b flat", "Bb"),
        ("B-Flat", "Bb"), ("c♯", "C#"), ("C Sharp", "C#"), ("  e ", "E"), ("eb", "Eb"), ("EB", "Eb"),
        ("B#", "B#"), ("cb", "Cb"),
    ],
)  # fmt: skip
def test_letters_are_read_as_people_type_them(typed: str, name: str) -> None:
    assert parse_note(typed) == name


@pytest.mark.parametrize(
    ("typed", "name"),
    [("h", "B"), ("H", "B"), ("b", "Bb"), ("B", "Bb"), ("bb", "Bb"), ("cis", "C#"), ("Des", "Db"), ("es", "Eb"),
     ("As", "Ab"), ("Eis", "E#"), ("his", "B#"), ("ces", "Cb"), ("c#", "C#"), ("Eb", "Eb"), ("f sharp", "F#")],
)  # fmt: skip
def test_where_h_is_b_natural_a_lone_b_is_b_flat(typed: str, name: str) -> None:
    assert parse_note(typed, Naming.GERMAN) == name


@pytest.mark.parametrize(
    ("typed", "name"),
    [("do", "C"), ("ut", "C"), ("Ré", "D"), ("mi b", "Eb"), ("fa#", "F#"), ("sol♯", "G#"), ("SOL", "G"),
     ("do diesis", "C#"), ("Fa dièse", "F#"), ("si bémol", "Bb"), ("mi bemolle", "Eb"), ("sol sostenido", "G#"),
     ("fa bemol", "Fb"), ("si", "B"), ("ti", "B"), ("la flat", "Ab"), ("sib", "Bb")],
)  # fmt: skip
def test_syllables_are_fixed_to_their_notes(typed: str, name: str) -> None:
    assert parse_note(typed, Naming.SOLFEGE) == name


@pytest.mark.parametrize("text", ["", "x", "8", "C4", "Cmaj", "[b]", "c e", "#", "sharp", "h"])
def test_what_is_no_note_is_no_note(text: str) -> None:
    assert parse_note(text) is None


@pytest.mark.parametrize("text", ["cs", "ds", "ees", "aes", "do", "i"])
def test_what_is_no_german_note_is_no_note(text: str) -> None:
    assert parse_note(text, Naming.GERMAN) is None


@given(st.text(max_size=12), st.sampled_from(Naming))
def test_any_text_is_a_note_or_none(text: str, naming: Naming) -> None:
    name = parse_note(text, naming)
    assert name is None or 0 <= class_of(name) < 12
