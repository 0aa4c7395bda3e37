"""What people type for a chord: what it means to two music libraries, how it is shown, and what is no name at all.

Libraries: pychord (MIT) spells a symbol out; music21 (BSD) gives the pitches of a figure (it writes flats as ``-``).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21.harmony import ChordSymbol
from pychord import Chord

from drills.chord_answers import chord, parse_symbol, without_bass
from drills.kinds.chord_pictures import say_chord
from drills.kinds.chord_shapes import readings, taught
from drills.notation.pitch import Naming
from drills.notation.tuning import shipped
from tests.drills.kinds.theory import outside_class

SYMBOLS = (
    "C", "Db", "F#", "B", "Am", "Ebm", "C#m", "A5", "F#5", "C7", "Bb7", "G7", "Am7", "F#m7", "Cmaj7", "CM7", "Bbmaj7",
    "Dsus4", "Dsus", "Asus2", "G6", "Am6", "Cadd9", "Emadd9", "Cdim", "Caug", "C+", "Bm7b5", "C#m7b5", "Cdim7",
    "E7sus4", "AmM7", "C9", "Cmaj9", "CM9", "Dm9", "C69", "E7#9", "E7b9", "C7#5", "C7b5", "D/F#", "C/E", "Am/G",
    "Am7/G", "Bb/D", "C11", "Dm11", "C13", "A-", "Bø7", "Co7", "Amin", "Am7-5", "E7+9",
)  # fmt: skip
# What a library does not read, or reads otherwise, and why. Every other symbol must agree.
PYCHORD_DIFFERS = {
    "C+": "it has no plus alone", "Bø7": "it has no sign for half-diminished", "Co7": "it writes it dim7",
    "C13": "it counts the eleventh in, which players leave out beside a major third",
}  # fmt: skip
MUSIC21_DIFFERS = {
    "Cmaj9": "it writes it M9", "C69": "it takes it for a ninth chord", "E7+9": "it has no plus for sharp",
    "C13": "it counts the eleventh in, which players leave out beside a major third",
    "A-": "a minus is its flat", "Am7-5": "a minus is its flat",
}  # fmt: skip
# As they are shown, and other ways to write them (common practice, no source).
SAME = {
    "Am": ("am", "A m", "Amin", "A min", "A minor", "a minor", "A-", "Ami", "A-moll", "Am chord"),
    "A": ("a", "AM", "Amaj", "A major", "Ama", "A-Dur"),
    "Bb": ("bb", "B♭", "B flat", "A#", "a sharp"),
    "B": ("b",), "B5": ("b5",), "Bbm": ("bbm", "B♭m", "A#m", "A♯m", "B flat minor"),
    "Cmaj7": ("CM7", "Cma7", "CΔ", "CΔ7", "C∆", "cmaj7", "CMAJ7", "C major 7", "C(maj7)", "C major seventh"),
    "Cm7": ("cm7", "Cmin7", "C-7", "C minor 7th", "Cmi7"), "Cm(maj7)": ("CmM7", "Cmmaj7", "CmΔ", "C-Δ7", "Cm/maj7"),
    "Cdim": ("Co", "C°", "Cº", "cdim", "C diminished", "Cm(b5)"), "Cdim7": ("Co7", "C°7"),
    "Caug": ("C+", "C(#5)", "C augmented"), "C7#5": ("C+7", "Caug7", "C7+5", "C7(#5)"),
    "Csus4": ("Csus", "csus4", "C suspended"), "C7sus4": ("C7sus", "C7(sus4)"),
    "Cadd9": ("C(add9)", "Cadd2", "C add 9", "CMadd9"), "Em(add9)": ("Emadd9", "E-(add9)", "Eminadd9"),
    "Bm7b5": ("Bø", "Bø7", "bm7-5", "B-7b5", "B m7(b5)", "B half-diminished", "Bm7♭5"),
    "C6/9": ("C69", "C6add9", "C 6/9"), "E7#9": ("E7+9", "E7(#9)", "e7♯9"), "E7b9": ("E7-9",),
    "C5": ("C(no3)", "C power", "C power chord"), "D/F#": ("d/f#", "D / F#", "D/Gb", "D major/F sharp"),
    "C6/9/E": ("c69/e",), "C": ("C/C", "B#"), "Dm7(add11)": ("Dm7add11", "Dm7add4"), "G7": ("G dominant 7", "Gdom7"),
}  # fmt: skip


def meant(text: str) -> set[int] | None:
    found = parse_symbol(text)
    return None if found is None else set(found.tones)


def by_pychord(text: str) -> set[int] | None:
    try:
        return {outside_class(name) for name in Chord(text).components(visible=True)}
    except ValueError:
        return None


def by_music21(text: str) -> set[int] | None:
    try:
        return {pitch.pitchClass for pitch in ChordSymbol(text[:1] + text[1:2].replace("b", "-") + text[2:]).pitches}
    except ValueError:
        return None


@pytest.mark.parametrize("text", SYMBOLS)
def test_two_libraries_mean_the_same(text: str) -> None:
    assert meant(text)
    assert (by_pychord(text) == meant(text)) == (text not in PYCHORD_DIFFERS)
    assert (by_music21(text) == meant(text)) == (text not in MUSIC21_DIFFERS)


def test_there_are_symbols_enough() -> None:
    assert len(set(SYMBOLS)) >= 50
    assert {*PYCHORD_DIFFERS, *MUSIC21_DIFFERS} <= set(SYMBOLS)
    # Where both differ, it is for a reason that they share.
    assert {*PYCHORD_DIFFERS} & {*MUSIC21_DIFFERS} == {"C13"}


@pytest.mark.parametrize(("shown", "typed"), [(shown, each) for shown, ways in SAME.items() for each in (shown, *ways)])
def test_it_may_be_written_in_other_ways(shown: str, typed: str) -> None:
    found = parse_symbol(typed)
    assert found is not None
    assert found.shown() == shown


@pytest.mark.parametrize(
    ("naming", "typed", "shown"),
    [
        (Naming.GERMAN, "H7", "B7"), (Naming.GERMAN, "hm", "Bm"), (Naming.GERMAN, "B", "Bb"),
        (Naming.GERMAN, "Es", "Eb"), (Naming.GERMAN, "Esus4", "Esus4"), (Naming.GERMAN, "Essus4", "Ebsus4"),
        (Naming.GERMAN, "Asus2", "Asus2"), (Naming.GERMAN, "As7", "Ab7"), (Naming.GERMAN, "Fism7", "F#m7"),
        (Naming.GERMAN, "D/Fis", "D/F#"), (Naming.GERMAN, "a-Moll", "Am"), (Naming.GERMAN, "Ddim", "Ddim"),
        (Naming.SOLFEGE, "do7", "C7"), (Naming.SOLFEGE, "Lam7", "Am7"), (Naming.SOLFEGE, "mim", "Em"),
        (Naming.SOLFEGE, "sib", "Bb"), (Naming.SOLFEGE, "solsus4", "Gsus4"), (Naming.SOLFEGE, "Ré", "D"),
        (Naming.SOLFEGE, "la mineur", "Am"), (Naming.SOLFEGE, "fa dièse mineur", "F#m"),
        (Naming.SOLFEGE, "sol/si", "G/B"), (Naming.SOLFEGE, "redim", "Ddim"), (Naming.SOLFEGE, "Am", "Am"),
        (Naming.LETTERS, "H", None), (Naming.LETTERS, "sol", None), (Naming.GERMAN, "sol", None),
    ],
)  # fmt: skip
def test_roots_are_said_as_the_learner_says_notes(naming: Naming, typed: str, shown: str | None) -> None:
    found = parse_symbol(typed, naming)
    assert (None if found is None else found.shown()) == shown


@pytest.mark.parametrize(
    "text", ["", " ", "/", "C/", "/E", "C/Z", "banana", "7", "m", "maj7", "ø", "x32010", "5/3", "C E G", "²", "Cxyz",
             "Q7", "C" * 50, "C7" + "(" * 60, "[b]", "\n"],
)  # fmt: skip
def test_what_is_no_chord_name(text: str) -> None:
    assert parse_symbol(text) is None


@pytest.mark.parametrize("tuning", sorted(shipped()))
def test_every_name_is_read_as_it_is_shown(tuning: str) -> None:
    strings = shipped()[tuning]
    for entry in taught(strings):
        for reading in readings(entry.shape, strings):
            for naming in Naming:
                found = parse_symbol(say_chord(reading.name, naming), naming)
                assert found is not None, reading.name
                assert found.shown(flats=strings.flats) == reading.name
                assert found.root == reading.root
                # Players leave out the fifth; the name says the whole chord.
                assert found.tones >= set(reading.tones)


def test_a_bass_of_the_chord_itself_may_be_left_out() -> None:
    assert [without_bass(name) for name in ("C/E", "Am7/G", "Am/G", "C", "C6/9")] == ["C", "Am7", None, None, None]
    read = chord(("C/E",), Naming.LETTERS)
    assert [read(text) for text in ("C", "c/e", "C/G", "Em", "?")] == ["C/E", "C/E", "C/G", "Em", None]
    # The second name is not the everyday one: it is right as a whole alone.
    assert chord(("Am7", "C6/A"), Naming.LETTERS)("C6") == "C6"


@given(st.text(max_size=50), st.sampled_from(Naming))
def test_no_text_breaks_it(text: str, naming: Naming) -> None:
    found = parse_symbol(text, naming)
    assert found is None or parse_symbol(found.shown()) is not None
