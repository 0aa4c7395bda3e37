"""Note names: a semitone a fret, naturals first, sharps and flats by either name."""

from __future__ import annotations

import random

import pytest
from music21.pitch import Pitch as Outside

from drills.notation.neck import draw_neck
from drills.notation.pitch import Naming
from drills.question import Item, Manner
from drills.stages import Stage
from tests.drills.kinds.theory import NAMES, midi_of, outside_class
from tests.drills.samples import EVERY, answered, ask, of


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


@pytest.mark.parametrize("tuning", EVERY)
def test_names_up_to_the_twelfth_fret_are_those_of_music21(tuning: str) -> None:
    for item in items("fret-to-note", tuning):
        string, fret = map(int, item.subject.split("/"))
        if fret > 12:
            continue
        answers = of(tuning).ask(item, random.Random(0), Manner()).answers
        heard = Outside(midi=midi_of(tuning, string, fret))
        # Libraries spell black keys differently: pitch classes are compared, then our own table of names.
        assert {outside_class(name) for name in answers} == {heard.pitchClass}
        assert list(answers) == NAMES[midi_of(tuning, string, fret) % 12]


# The first position of each string, low E first, as method books print it (common practice, no source).
FIRST_POSITION = {6: "E F . G .", 5: "A . B C .", 4: "D . E F .", 3: "G . A . B", 2: "B C . D .", 1: "E F . G ."}


@pytest.mark.parametrize("string", FIRST_POSITION)
def test_the_naturals_of_the_first_position_come_first(string: int) -> None:
    stages = {item.subject: item.stage for item in items("fret-to-note")}
    for fret, name in enumerate(FIRST_POSITION[string].split()):
        assert (stages[f"{string}/{fret}"] == Stage.FIRST_NOTES) == (name != ".")
        if name != ".":
            assert ask(f"fret-to-note/standard/{string}/{fret}").answers == (name,)
            assert ask(f"note-to-fret/standard/{string}/{name.lower()}").answers == (str(fret),)


@pytest.mark.parametrize("tuning", EVERY)
def test_a_note_is_found_at_every_fret_that_sounds_it_in_the_range(tuning: str) -> None:
    for item in items("note-to-fret", tuning):
        string = int(item.subject.split("/")[0])
        name, _, reach = item.subject.split("/")[1].partition("-")
        top = int(reach or 4)
        names = next(names for names in NAMES if name.capitalize() in names)
        frets = [f for f in range(top + 1) if NAMES[midi_of(tuning, string, f) % 12] == names]
        question = of(tuning).ask(item, random.Random(0), Manner())
        assert question.answers == tuple(map(str, frets))
        assert f"from 0 to {top}" in question.prompt
        assert question.prompt.startswith(f"{' or '.join(names)} on string {string}: ")
        assert len(frets) == (2 if top == 15 else 1)
        facts = of(tuning).facts(item)
        assert (facts["frets"], facts["midi"]) == (frets, midi_of(tuning, string, frets[0]))
        assert (facts["names"], facts["range"]) == (names, [0, top])


def test_a_note_that_is_twice_in_the_range_has_two_right_frets() -> None:
    # A string repeats its notes twelve frets up: C on string 5 is fret 3 and fret 15 (common practice, no source).
    question = ask("note-to-fret/standard/5/c-15")
    assert question.prompt == "C on string 5: which fret, from 0 to 15?"
    assert question.answers == ("3", "15")
    assert answered(question, "3").right
    assert answered(question, "15").right
    verdict = answered(question, "10")
    assert verdict.why == "C on string 5 is fret 3 and fret 15; fret 10 is G."
    assert verdict.picture.neck is not None
    assert set(verdict.picture.neck.dots) == {(5, 3), (5, 15), (5, 10)}


def test_sharps_and_flats_are_asked_by_both_their_names() -> None:
    question = ask("note-to-fret/standard/5/c#")
    assert (question.prompt, question.answers) == ("C# or Db on string 5: which fret, from 0 to 4?", ("4",))
    assert ask("note-to-fret/standard/6/a#-12", manner=Manner(Naming.GERMAN)).prompt.startswith("Ais or B on string 6")
    for string in range(1, 7):
        asked = [item.subject for item in items("note-to-fret") if item.subject.startswith(f"{string}/")]
        assert len([subject for subject in asked if "#" in subject]) == 5  # the black keys of an octave


def test_a_plain_letter_is_one_key_while_only_naturals_are_asked() -> None:
    keys = [option.key for option in ask("fret-to-note/standard/5/3").options]
    assert sorted(keys) == list("abcdefg")
    german = ask("fret-to-note/standard/2/0", manner=Manner(Naming.GERMAN))
    assert sorted(option.key for option in german.options) == list("acdefgh")
    assert [answered(german, option.answer).right for option in german.options if option.key == "h"] == [True]
    solfege = ask("fret-to-note/standard/2/0", manner=Manner(Naming.SOLFEGE)).options
    assert [(option.key, option.text) for option in solfege] == [
        ("1", "do"), ("2", "re"), ("3", "mi"), ("4", "fa"), ("5", "sol"), ("6", "la"), ("7", "si"),
    ]  # fmt: skip


def test_how_a_note_is_entered_depends_on_the_stage_alone() -> None:
    for tuning in EVERY:
        ways: dict[int, set[int]] = {}
        for item in items("fret-to-note", tuning):
            ways.setdefault(item.stage, set()).add(len(of(tuning).ask(item, random.Random(0), Manner()).options))
        assert all(len(found) == 1 for found in ways.values())
    ends = ask("fret-to-note/standard/5/4").ends
    assert [ends(typed) for typed in ("c", "c#", "bb", "b", "cx")] == [False, True, True, False, False]


@pytest.mark.parametrize(
    ("item", "said", "why"),
    [
        ("5/3", "D", "String 5 is A, and 3 frets up from it is C; D on that string is at fret 5."),
        ("6/1", "E", "String 6 is low E, and 1 fret up from it is F; E on that string is the open string."),
        ("2/0", "A", "0 is the open string, and string 2 is B; A on that string is at fret 10."),
        ("6/6", "B", "String 6 is low E, and 6 frets up from it is A# or Bb; B on that string is at fret 7."),
        ("5/15", "D",
         "Fret 15 has the name of fret 3, twelve lower: on string 5 that is C; D on that string is at fret 17."),
        ("5/24", "B",
         "Fret 24 has the name of fret 12, twelve lower: on string 5 that is A; B on that string is at fret 14."),
        ("5/3", "nonsense", "String 5 is A, and 3 frets up from it is C."),
    ],
)  # fmt: skip
def test_a_wrong_note_is_explained(item: str, said: str, why: str) -> None:
    assert answered(ask(f"fret-to-note/standard/{item}"), said).why == why


@pytest.mark.parametrize("tuning", EVERY)
def test_the_note_that_was_said_is_drawn_at_its_nearest_fret(tuning: str) -> None:
    for item in items("fret-to-note", tuning):
        string, fret = map(int, item.subject.split("/"))
        for said in ("C", "F#", "Bb"):
            verdict = answered(of(tuning).ask(item, random.Random(0), Manner()), said)
            if verdict.right:
                continue
            neck = verdict.picture.neck
            assert neck is not None
            (there,) = [f for (s, f) in neck.dots if f != fret]
            assert all(s == string for s, _ in neck.dots)
            assert midi_of(tuning, string, there) % 12 == outside_class(said)
            assert abs(there - fret) <= 6 or 0 in range(fret - 6, fret + 7) or fret > 18
            # What was said differs from what was true by its sign, not by colour alone.
            drawn = "".join(draw_neck(neck, width=80).text())
            assert (drawn.count("●"), drawn.count("×")) == (1, 1), (item.id, said)


def test_a_wrong_fret_is_explained() -> None:
    assert answered(ask("note-to-fret/standard/5/c"), "2").why == "C on string 5 is fret 3; fret 2 is B."
    assert answered(ask("note-to-fret/standard/6/e"), "2").why == (
        "E on string 6 is the open string; fret 2 is F# or Gb."
    )
    assert answered(ask("note-to-fret/standard/4/c-12"), "0").why == "C on string 4 is fret 10; the open string is D."
    german = Manner(Naming.GERMAN)
    assert answered(ask("note-to-fret/standard/2/b", manner=german), "3").why == (
        "H on string 2 is the open string; fret 3 is D."
    )
    assert ask("note-to-fret/standard/5/b", manner=german).prompt.startswith("H on string 5")


def test_the_two_half_steps_of_the_lesson_are_half_steps() -> None:
    # E to F and B to C are a semitone, every other neighbour two (music21).
    steps = {a + b: (outside_class(b) - outside_class(a)) % 12 for a, b in zip("CDEFGAB", "DEFGABC", strict=True)}
    assert {pair for pair, size in steps.items() if size == 1} == {"EF", "BC"}
    assert set(steps.values()) == {1, 2}
    lines = " ".join(of().explain(of().by_id["fret-to-note/standard/5/3"], Manner()).lines)
    assert "Only E to F and B to C are one fret apart" in lines
