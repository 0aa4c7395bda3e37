"""Chord names from pitches: against two music libraries on every taught shape, and what is ambiguous by nature.

Method: music21 (BSD) names notes that are spelled by our own key-aware speller, bass included; pychord (MIT) is asked
for the pitch classes upward from the bass and as they lie, with sharps and with flats, and its answers are united.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.kinds.chord_shapes import readings, taught
from drills.notation.chords import chord_names, chord_tones, chords, interval_name, tone_names
from drills.notation.shape import parse_shape
from drills.notation.tuning import shipped
from tests.drills.kinds.chord_names_outside import by_music21, by_pychord, plain
from tests.drills.kinds.theory import OPEN, outside_class

STANDARD = shipped()["standard"]
SHAPES = tuple(entry.shape.text for entry in taught(STANDARD))

# Where a library does not say what we say, and why.
MUSIC21_DIFFERS = {
    "x32310": "C7 without its fifth: it names no seventh chord that lacks the fifth",
    "x32030": "it writes an added ninth by the note, CaddD",
    "022002": "it writes an added ninth by the note, EmaddF#",
    "020200": "it knows no suspended seventh chord",
    "x7678x": "E7#9 without its fifth: it names no altered chord that lacks the fifth",
    "000000": "it writes an added eleventh by the note, Em7addA",
}
PYCHORD_DIFFERS = {
    "x32310": "C7 without its fifth: it knows the full chord alone",
    "x7678x": "E7#9 without its fifth: it knows the full chord alone",
    "x32333": "its C9 lists the ninth above the octave, so no order of pitch classes is found",
    "022002": "it has no minor chord with an added ninth in this order",
    "000000": "it has no seventh chord with an added eleventh",
}
# Names that pychord has and we do not: all of them name an omission or an addition that a plainer name has already.
PYCHORD_MORE = {
    "x32030": {"Em7+5/C": "a raised fifth that is the root of Cadd9"},
    "x2323x": {"F6b5/B": "a flat fifth with a sixth, for what is B half-diminished"},
    "020200": {"Asus4add2/E": "two added notes, for what is E7sus4"},
}
LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}


def pitches_of(text: str) -> tuple[int, ...]:
    """From the open strings as a handbook prints them."""
    frets = [None if sign == "x" else int(sign) for sign in text]
    held = zip(range(6, 0, -1), frets, strict=True)
    return tuple(sorted(OPEN["standard"][string - 1] + fret for string, fret in held if fret is not None))


def spelled(pitches: tuple[int, ...]) -> list[str]:
    """Every note by the name that the plainest reading gives it, with its octave."""
    tones = chords(pitches)[0].tones
    names = [tones[pitch % 12] for pitch in pitches]
    shifts = [LETTERS[name[0]] + name.count("#") - name.count("b") for name in names]
    return [f"{name}{(pitch - shift) // 12 - 1}" for name, pitch, shift in zip(names, pitches, shifts, strict=True)]


def test_there_are_shapes_enough() -> None:
    assert len(SHAPES) >= 60
    assert {*MUSIC21_DIFFERS, *PYCHORD_DIFFERS, *PYCHORD_MORE} <= set(SHAPES)


@pytest.mark.parametrize("text", SHAPES)
def test_music21_names_it_alike(text: str) -> None:
    pitches = pitches_of(text)
    named = by_music21(spelled(pitches))
    ours = {plain(name) for name in chord_names(pitches)}
    assert (named is not None and plain(named) in ours) == (text not in MUSIC21_DIFFERS), (named, chord_names(pitches))


@pytest.mark.parametrize("text", SHAPES)
def test_pychord_names_it_alike(text: str) -> None:
    pitches = pitches_of(text)
    named = by_pychord(pitches)
    ours = {plain(name) for name in chord_names(pitches)}
    assert bool(ours & {plain(name) for name in named}) == (text not in PYCHORD_DIFFERS), (named, ours)
    assert {name for name in named if plain(name) not in ours} == set(PYCHORD_MORE.get(text, ()))


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("x02010", {"Am7", "C6/A"}),
        ("022030", {"Em7", "G6/E"}),
        ("xx0233", {"Dsus4", "Gsus2/D"}),
        ("x02200", {"Asus2", "Esus4/A"}),
        ("x32110", {"Caug", "Eaug/C", "Abaug/C"}),
        ("xx1212", {"Ebdim7", "Cdim7/Eb", "F#dim7/Eb", "Adim7/Eb"}),
        ("3x2210", {"Am7/G", "Am/G"}),
        ("022xxx", {"E5"}),
        ("2x0232", {"D/F#"}),
        ("x13331", {"Bb"}),
        ("244222", {"F#m"}),
        ("032010", {"C/E"}),
    ],
)
def test_every_name_that_fits_is_given(text: str, names: set[str]) -> None:
    # Ambiguous by nature; common practice, the libraries agree.
    assert names <= set(chord_names(pitches_of(text)))


def test_names_are_spelled_by_their_key() -> None:
    # The key signature with fewer sharps or flats (common practice): Bb, Eb, Ab and Db major, F#, C# and G# minor.
    major = [chord_names([60 + n, 64 + n, 67 + n])[0] for n in range(12)]
    minor = [chord_names([60 + n, 63 + n, 67 + n])[0] for n in range(12)]
    assert major == ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]
    assert minor == ["Cm", "C#m", "Dm", "Ebm", "Em", "Fm", "F#m", "Gm", "G#m", "Am", "Bbm", "Bm"]
    assert chord_names([66, 70, 73], flats=True) == ("Gb",)
    assert list(tone_names([62, 66, 69]).values()) == ["D", "F#", "A"]
    assert list(tone_names([58, 62, 65]).values()) == ["Bb", "D", "F"]


def test_where_strings_are_not_in_order_a_bass_is_no_part_of_the_name() -> None:
    f_major = (60, 65, 69)
    assert chord_names(f_major) == ("F/C",)
    assert chord_names(f_major, bass=False)[0] == "F"


def test_what_is_no_chord_has_no_name() -> None:
    assert chord_names([]) == chord_names([60]) == chord_names([60, 61, 62, 63]) == ()


@given(st.lists(st.integers(30, 90), min_size=1, max_size=6))
def test_every_name_sounds_as_it_says(pitches: list[int]) -> None:
    for chord in chords(pitches):
        assert set(chord.tones) == {pitch % 12 for pitch in pitches}
        assert {outside_class(name) for name in chord.tones.values()} == set(chord.tones)
        name, _, bass = chord.name.partition("/") if "6/9" not in chord.name else (chord.name, "", "")
        if bass:
            assert outside_class(bass) == min(pitches) % 12
        assert outside_class(name[:2] if name[1:2] in ("#", "b") else name[:1]) == chord.root


@pytest.mark.parametrize("tuning", sorted(shipped()))
def test_every_taught_shape_of_every_tuning_has_a_name(tuning: str) -> None:
    for entry in taught(shipped()[tuning]):
        assert readings(entry.shape, shipped()[tuning]), entry.shape.text


def test_tones_of_a_name_and_distances() -> None:
    assert chord_tones("F#m") == {6, 9, 1}
    assert chord_tones("G7") == {7, 11, 2, 5}
    with pytest.raises(ValueError, match="'H7' is no chord name"):
        chord_tones("H7")
    assert [interval_name(n) for n in (3, 4, 5, 7, 12)] == ["minor third", "major third", "fourth", "fifth", "octave"]
    with pytest.raises(ValueError, match="13 semitones"):
        interval_name(13)


def test_a_shape_sounds_as_the_handbook_says() -> None:
    for text in SHAPES:
        assert parse_shape(text).pitches(STANDARD) == pitches_of(text)
