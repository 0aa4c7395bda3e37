"""What the strings are, and what was taken for it; pitches against a general music library (music21, BSD)."""

from __future__ import annotations

import pytest
from music21 import pitch as library

from drills.notation.reader import Reading, Severity, TuningFrom, read_tab
from drills.notation.tuning import shipped

GUITAR = ["e", "B", "G", "D", "A", "E"]
ROWS = ("--0--12--", "--1------", "--2------", "--3------", "--4------", "--5------", "--6------", "--7------")


def tab(labels: list[str], prose: str = "") -> str:
    return prose + "\n\n" + "\n".join(f"{label}|{row}" for label, row in zip(labels, ROWS, strict=False))


def pitches(reading: Reading) -> list[int | None]:
    """MIDI numbers of the first onset, from the top row down."""
    found = [reading.pitch(note) for note in reading.piece.bars[0].onsets[0].notes]
    return [pitch.midi if pitch is not None else None for pitch in found]


@pytest.mark.parametrize(
    ("labels", "low_to_high"),
    [
        ("e B G D A E", "E2 A2 D3 G3 B3 E4"),
        ("E B G D A E", "E2 A2 D3 G3 B3 E4"),
        ("e b g d a e", "E2 A2 D3 G3 B3 E4"),
        ("e h g d A E", "E2 A2 D3 G3 B3 E4"),
        ("e B G D A D", "D2 A2 D3 G3 B3 E4"),
        ("D A F C G C", "C2 G2 C3 F3 A3 D4"),
        ("D# A# F# C# G# D#", "D#2 G#2 C#3 F#3 A#3 D#4"),
        ("Eb Bb Gb Db Ab Eb", "E-2 A-2 D-3 G-3 B-3 E-4"),
        ("D A G D A D", "D2 A2 D3 G3 A3 D4"),
        ("D B G D G D", "D2 G2 D3 G3 B3 D4"),
        ("D A F# D A D", "D2 A2 D3 F#3 A3 D4"),
        ("B F# D A E A", "A1 E2 A2 D3 F#3 B3"),
        ("e B G D A E B", "B1 E2 A2 D3 G3 B3 E4"),
        ("e B G D A E B F#", "F#1 B1 E2 A2 D3 G3 B3 E4"),
        ("A E C G", "G4 C4 E4 A4"),
        ("G D A E B", "B0 E1 A1 D2 G2"),
        ("G2 D2 A1 E1", "E1 A1 D2 G2"),
    ],
)
def test_labels_tell_the_pitches(labels: str, low_to_high: str) -> None:
    """Tunings by common practice, no source; pitches of the frets by the library."""
    reading = read_tab(tab(labels.split()))
    opens = [library.Pitch(name).midi for name in low_to_high.split()][::-1]
    assert reading.tuning_from is TuningFrom.LABELS
    assert pitches(reading) == [midi + fret for fret, midi in enumerate(opens)]


@pytest.mark.parametrize("name", [name for name, tuning in shipped().items() if not tuning.short])
def test_every_pitch_on_every_tuning_is_the_library_s(name: str) -> None:
    tuning = shipped()[name]
    rows = ["-".join(str(fret) for fret in range(25)) for _ in range(tuning.lines)]
    reading = read_tab("\n".join("|--" + row + "--|" for row in rows), tuning=tuning)
    for _, _, onset in reading.piece.onsets():
        for note in onset.notes:
            assert note.fret is not None
            found = reading.pitch(note)
            opened = library.Pitch(tuning.strings[note.string - 1].spn(flats=False))
            assert found is not None
            assert found.midi == opened.transpose(note.fret).midi
    assert sum(len(onset.notes) for _, _, onset in reading.piece.onsets()) == 25 * tuning.lines


@pytest.mark.parametrize(
    ("labels", "prose", "name"),
    [
        ("e B G D A E", "Tuning: DADGAD", "dadgad"),
        ("e B G D A E", "Tuning: D A D G A D", "dadgad"),
        ("e B G D A E", "tuning: D-A-D-G-A-D", "dadgad"),
        ("e B G D A E", "Tuning = DADF#AD", "open-d"),
        ("e B G D A E", "Tuning D-A-d-f#-a-d'", "open-d"),
        ("e B G D A E", "Tuned to Eb Ab Db Gb Bb Eb", "half-step-down"),
        ("e B G D A E", "tune down 1/2 step", "half-step-down"),
        ("e B G D A E", "Tuned half step down", "half-step-down"),
        ("e B G D A E", "guitars are tuned down a half-step", "half-step-down"),
        ("e B G D A E", "Tuned down a whole step", "whole-step-down"),
        ("e B G D A E", "Drop D tuning", "drop-d"),
        ("e B G D A E", "(dropped D)", "drop-d"),
        ("e B G D A E", "tuning: drop C", "drop-c"),
        ("e B G D A E", "Double drop D", "double-drop-d"),
        ("e B G D A E", "Open G tuning", "open-g"),
        ("e B G D A E", "Standard tuning", "standard"),
        ("e B G D A E", "Tuning: standard (EADGBE)", "standard"),
        ("e B G D A E", "Tuning: E B G D A E", "standard"),
        ("e B G D A E", "Tuning: E2 A2 D3 G3 B3 E4", "standard"),
        ("G D A E", "bass tab", "bass"),
        ("G D A E", "Tuning: EADG", "bass"),
        ("A E C G", "tuning: GCEA", "ukulele"),
        ("G D A E", "4-string bass, standard tuning", "bass"),
    ],
)
def test_the_text_tells_the_tuning(labels: str, prose: str, name: str) -> None:
    reading = read_tab(tab(labels.split(), prose))
    assert (reading.piece.tuning.name, reading.tuning_from) == (name, TuningFrom.TEXT)
    assert any(doubt.line == 1 and "text says" in doubt.message for doubt in reading.doubts)


@pytest.mark.parametrize("prose", ["the decade of tuning", "An open G chord rings", "Drop by on Monday", "in one step"])
def test_other_prose_tells_no_tuning(prose: str) -> None:
    assert read_tab(tab(GUITAR, prose)).tuning_from is TuningFrom.LABELS


@pytest.mark.parametrize("labels", ["G D A E", "G D A D", "E A D G", "Gb Db Ab Eb", "D A E", "A E"])
def test_labels_that_fit_two_instruments_give_no_pitches(labels: str) -> None:
    reading = read_tab(tab(labels.split()))
    assert reading.tuning_from is TuningFrom.UNKNOWN
    assert set(pitches(reading)) == {None}
    warning = next(doubt for doubt in reading.doubts if doubt.severity is Severity.WARNING)
    assert "--tuning" in warning.mend


@pytest.mark.parametrize(("name", "first"), [("bass", 43), ("standard", 55), ("drop-d", 55)])
def test_a_given_tuning_settles_them(name: str, first: int) -> None:
    reading = read_tab(tab(["G", "D", "A", "D" if name == "drop-d" else "E"]), tuning=shipped()[name])
    assert reading.tuning_from is TuningFrom.GIVEN
    assert pitches(reading)[0] == first
    assert reading.piece.bars[0].onsets[0].notes[0].string == (1 if name == "bass" else 3)


@pytest.mark.parametrize(
    ("rows", "name"), [(6, "standard"), (7, "7-string"), (8, "8-string"), (5, None), (4, None), (3, None)]
)
def test_the_number_of_rows_tells_from_six_on(rows: int, name: str | None) -> None:
    reading = read_tab("\n".join("|" + row for row in ROWS[:rows]))
    assert reading.tuning_from is (TuningFrom.ROWS if name else TuningFrom.UNKNOWN)
    assert name is None or reading.piece.tuning.name == name


@pytest.mark.parametrize(
    ("prose", "fret"),
    [
        ("Capo 2", 2), ("capo: 3rd fret", 3), ("Capo on the 5th fret", 5), ("CAPO IV", 4), ("(capo on 1)", 1),
        ("Capo at fret 7", 7), ("2nd fret capo", 2), ("no capo", 0), ("Capo = 2", 2), ("capo second fret", 2),
        ("capo none", 0), ("Capo III", 3), ("capo fret 3", 3), ("capo on 4th", 4), ("Escapo 3", 0),
    ],
)  # fmt: skip
def test_a_capo_in_prose_raises_every_string(prose: str, fret: int) -> None:
    reading = read_tab(tab(GUITAR, prose))
    assert reading.piece.tuning.capo == fret
    assert pitches(reading)[0] == 64 + fret


def test_a_given_capo_counts_more_than_the_text() -> None:
    assert read_tab(tab(GUITAR, "Capo 2"), capo=5).piece.tuning.capo == 5


def test_systems_with_fewer_labelled_rows_are_on_the_strings_that_the_labels_name() -> None:
    reading = read_tab(tab(GUITAR) + "\n\nA|--2--|\nE|--0--|\n\nG|--2--|\nD|--0--|\nA|--1--|\n")
    strings = [[note.string for onset in bar.onsets for note in onset.notes] for bar in reading.piece.bars]
    assert strings[1:] == [[5, 6], [3, 4, 5]]


def test_a_harmonic_sounds_its_overtone() -> None:
    reading = read_tab("e|--<12>--<7>--<5>--|\n" + "\n".join(label + "|" + "-" * 18 + "|" for label in "BGDAE"))
    found = [reading.pitch(onset.notes[0]) for _, _, onset in reading.piece.onsets()]
    assert [pitch.midi - 64 for pitch in found if pitch is not None] == [12, 19, 24]
