"""Every string and fret of every shipped tuning, against music21, ISO 16:1975 and a table."""

from __future__ import annotations

import pytest
from music21.interval import ChromaticInterval
from music21.pitch import Pitch as Outside

from drills.notation.pitch import Naming, Pitch
from drills.notation.tuning import FRETS, Tuning, flats_fit, parse_tuning, sentence_fits, shipped

# Open strings from the last to string 1, MIDI note numbers: common practice, no source.
HANDBOOK = {
    "standard": [40, 45, 50, 55, 59, 64],
    "drop-d": [38, 45, 50, 55, 59, 64],
    "half-step-down": [39, 44, 49, 54, 58, 63],
    "whole-step-down": [38, 43, 48, 53, 57, 62],
    "drop-c": [36, 43, 48, 53, 57, 62],
    "double-drop-d": [38, 45, 50, 55, 59, 62],
    "dadgad": [38, 45, 50, 55, 57, 62],
    "open-g": [38, 43, 50, 55, 59, 62],
    "open-d": [38, 45, 50, 54, 57, 62],
    "open-c": [36, 43, 48, 55, 60, 64],
    "open-e": [40, 47, 52, 56, 59, 64],
    "open-a": [40, 45, 52, 57, 61, 64],
    "7-string": [35, 40, 45, 50, 55, 59, 64],
    "8-string": [30, 35, 40, 45, 50, 55, 59, 64],
    "bass-5": [23, 28, 33, 38, 43],
    "banjo": [67, 50, 55, 59, 62],
    "mandolin": [55, 62, 69, 76],
    "bass": [28, 33, 38, 43],
    "ukulele": [67, 60, 64, 69],
}
# The same strings' names, as guitar books print them.
PRINTED = {
    "standard": "E2 A2 D3 G3 B3 E4",
    "drop-d": "D2 A2 D3 G3 B3 E4",
    "half-step-down": "Eb2 Ab2 Db3 Gb3 Bb3 Eb4",
    "whole-step-down": "D2 G2 C3 F3 A3 D4",
    "drop-c": "C2 G2 C3 F3 A3 D4",
    "double-drop-d": "D2 A2 D3 G3 B3 D4",
    "dadgad": "D2 A2 D3 G3 A3 D4",
    "open-g": "D2 G2 D3 G3 B3 D4",
    "open-d": "D2 A2 D3 F#3 A3 D4",
    "open-c": "C2 G2 C3 G3 C4 E4",
    "open-e": "E2 B2 E3 G#3 B3 E4",
    "open-a": "E2 A2 E3 A3 C#4 E4",
    "7-string": "B1 E2 A2 D3 G3 B3 E4",
    "8-string": "F#1 B1 E2 A2 D3 G3 B3 E4",
    "bass-5": "B0 E1 A1 D2 G2",
    "banjo": "G4 D3 G3 B3 D4",
    "mandolin": "G3 D4 A4 E5",
    "bass": "E1 A1 D2 G2",
    "ukulele": "G4 C4 E4 A4",
}
EVERY = sorted(shipped())


def test_every_shipped_tuning_is_in_the_handbook() -> None:
    assert sorted(HANDBOOK) == sorted(PRINTED) == EVERY


@pytest.mark.parametrize("name", sorted(HANDBOOK))
def test_open_strings_are_those_of_the_handbook(name: str) -> None:
    tuning = shipped()[name]
    assert [tuning.open(string).midi for string in range(tuning.lines, 0, -1)] == HANDBOOK[name]


@pytest.mark.parametrize("name", sorted(PRINTED))
def test_open_strings_are_named_as_printed(name: str) -> None:
    tuning = shipped()[name]
    letters = [tuning.letter(string) for string in range(tuning.lines, 0, -1)]
    assert letters == [word[:-1] for word in PRINTED[name].split()]
    assert [tuning.open(s).midi for s in range(tuning.lines, 0, -1)] == [
        Outside(word.replace("b", "-")).midi for word in PRINTED[name].split()
    ]


@pytest.mark.parametrize("name", EVERY)
def test_every_place_sounds_what_music21_and_the_formula_say(name: str) -> None:
    tuning = shipped()[name]
    for string in range(1, tuning.lines + 1):
        root = Outside(midi=tuning.strings[string - 1].midi)
        for fret in range(FRETS + 1):
            pitch, there = tuning.sound(string, fret), ChromaticInterval(fret).transposePitch(root)
            assert pitch.midi == there.midi
            assert pitch.hz == pytest.approx(there.frequency, rel=1e-9)
            # ISO 16:1975: A4, note 69, is 440 Hz.
            assert pitch.hz == pytest.approx(440 * 2 ** ((pitch.midi - 69) / 12), rel=1e-12)
            assert there.pitchClass in {Outside(n.replace("b", "-")).pitchClass for n in pitch.names}


def test_a_capo_raises_every_string() -> None:
    # MusicXML 4.0, ``capo``: "changes the open tuning ... by the specified number of half-steps".
    plain, clamped = shipped()["standard"], shipped()["standard"].with_capo(3)
    for string in range(1, 7):
        assert clamped.sound(string, 2) == plain.sound(string, 5)
    assert clamped.letter(6) == "G"


@pytest.mark.parametrize(("string", "fret"), [(0, 1), (7, 1), (1, -1), (-1, 0)])
def test_a_place_off_the_neck_is_refused(string: int, fret: int) -> None:
    with pytest.raises(ValueError, match="there is no string"):
        shipped()["standard"].sound(string, fret)


def test_strings_that_share_a_letter_are_told_apart() -> None:
    assert [shipped()["standard"].string_name(n) for n in range(1, 7)] == ["high E", "B", "G", "D", "A", "low E"]
    assert [shipped()["standard"].string_name(n, Naming.GERMAN) for n in (2, 6)] == ["H", "low E"]
    assert shipped()["drop-d"].string_name(4) == "high D"
    three = parse_tuning("own", {"strings": "D4 A3 F#3 D3 A2 D2"})
    assert [three.string_name(n) for n in (1, 4, 6)] == ["high D", "middle D", "low D"]


def test_strings_of_one_letter_all_have_a_name_of_their_own() -> None:
    four = parse_tuning("own", {"strings": "E5 E4 E3 E2 B1 E1"})
    assert [four.string_name(n) for n in range(1, 7)] == ["high E", "fourth E", "third E", "second E", "B", "low E"]
    for name in EVERY:
        for naming in Naming:
            names = [shipped()[name].string_name(n, naming) for n in range(1, shipped()[name].lines + 1)]
            assert len(set(names)) == len(names)


def test_only_a_re_entrant_tuning_is_out_of_gauge_order() -> None:
    # A ukulele's bottom line and a banjo's fifth string sound higher than others above them on the page.
    assert [name for name in EVERY if not shipped()[name].gauge_ordered] == ["banjo", "ukulele"]


def test_of_a_banjos_short_string_only_the_open_sound_is_asked() -> None:
    # It begins at the fifth fret, and typed tab counts its frets in two ways (common practice, no source).
    assert {name: shipped()[name].short for name in EVERY if shipped()[name].short} == {"banjo": (5,)}
    assert list(shipped()["banjo"].frets(5)) == list(shipped()["banjo"].frets(5, 12)) == [0]
    assert list(shipped()["banjo"].frets(4, 2)) == [0, 1, 2]
    assert len(shipped()["standard"].frets(6)) == FRETS + 1


def test_tunings_that_pull_harder_than_standard_say_so() -> None:
    # More tension wherever a guitar string is tuned above standard (string physics: frequency grows with tension).
    standard = HANDBOOK["standard"]
    for name in EVERY:
        tuning = shipped()[name]
        raised = "guitar" in tuning.title.lower() and tuning.lines == 6 and any(
            ours > theirs for ours, theirs in zip(HANDBOOK[name], standard, strict=True)
        )  # fmt: skip
        assert ("pull harder" in tuning.remark) == (raised and name != "open-c"), name
        assert len(tuning.remark) < 300
    for high, low in (("open-e", "open-d"), ("open-a", "open-g")):
        # What the caution offers instead sounds the same.
        assert [pitch + 2 for pitch in HANDBOOK[low]] == HANDBOOK[high]
        assert low.replace("-", " ").replace("d", "D").replace("g", "G") in shipped()[high].remark


@pytest.mark.parametrize(
    ("pitches", "flats"),
    [("Eb2 Ab2 Db3 Gb3 Bb3 Eb4", True), ("D2 A2 D3 F#3 A3 D4", False), ("E2 B2 E3 G#3 B3 E4", False),
     ("Bb1 F2 Bb2 D3", True), ("F2 C3 Eb3 Ab3", True), ("E2 A2 D3 G3", False), ("F#1 B1 E2 A2", False)],
)  # fmt: skip
def test_open_strings_are_spelled_as_a_key_would(pitches: str, flats: bool) -> None:
    assert flats_fit([Pitch.parse(pitch) for pitch in pitches.split()]) is flats
    assert not flats_fit([])


@pytest.mark.parametrize("strings", ["", "E4 B3 G3", "E4 B3 G3 D3 A2 E2 B1 F#1 C1"])
def test_a_tuning_of_too_few_or_too_many_strings_is_refused(strings: str) -> None:
    with pytest.raises(ValueError, match="give 4 to 8"):
        parse_tuning("own", {"strings": strings})


def test_a_tuning_with_a_wrong_pitch_says_which() -> None:
    with pytest.raises(ValueError, match="'H3'"):
        parse_tuning("own", {"strings": "E4 H3 G3 D3"})


@pytest.mark.parametrize(
    ("sentence", "fits"),
    [
        ("Every apple does go bad eventually", "up"),
        ("even big green dogs are eager", "down"),
        ("“Eels” All Dance Gladly, Because Earth spins", None),
        ("Every apple does go bad", None),
        ("Every apple does bad go eventually", None),
        ("", None),
    ],
)
def test_a_memory_sentence_is_checked_by_its_initials(sentence: str, fits: str | None) -> None:
    assert sentence_fits(sentence, shipped()["standard"]) == fits


def test_a_memory_sentence_follows_the_naming_and_the_tuning() -> None:
    standard = shipped()["standard"]
    assert sentence_fits("Ein Anfänger der Gitarre hat Eifer", standard, Naming.GERMAN) == "up"
    assert sentence_fits("Ein Anfänger der Gitarre hat Eifer", standard) is None
    assert sentence_fits("«Go,» came every answer", shipped()["ukulele"]) == "up"
    assert sentence_fits("Each animal does good bending exercises", shipped()["half-step-down"]) == "up"


def test_frequencies_of_the_open_strings() -> None:
    # As guitar books print them, common practice, no source; rounded to the hundredth of a hertz.
    printed = [329.63, 246.94, 196.00, 146.83, 110.00, 82.41]
    tuning: Tuning = shipped()["standard"]
    assert [round(pitch.hz, 2) for pitch in tuning.strings] == printed
    assert all(isinstance(pitch, Pitch) for pitch in tuning.strings)
