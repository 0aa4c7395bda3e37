"""The capo, against music21: frets are counted from it, and everything sounds as many semitones higher."""

from __future__ import annotations

import random

import pytest
from music21.interval import ChromaticInterval
from music21.pitch import Pitch as Outside

from drills.notation.drawing import Role
from drills.notation.pitch import Naming
from drills.question import Item, Kind, Manner
from tests.drills.kinds.theory import NAMES, midi_of, outside_class
from tests.drills.samples import EVERY, answered, ask, of


def items(tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == "capo"]


@pytest.mark.parametrize("tuning", EVERY)
def test_a_note_sounds_as_much_higher_as_the_capo_is_up_the_neck(tuning: str) -> None:
    # MusicXML 4.0, ``capo``: "changes the open tuning ... by the specified number of half-steps".
    asked = [item for item in items(tuning) if "/" in item.subject]
    assert asked
    for item in asked:
        capo, string, fret = map(int, item.subject.split("/"))
        heard = ChromaticInterval(capo).transposePitch(Outside(midi=midi_of(tuning, string, fret)))
        question = of(tuning).ask(item, random.Random(0), Manner())
        assert list(question.answers) == NAMES[heard.midi % 12]
        assert of(tuning).facts(item)["midi"] == heard.midi
        assert question.picture.staff is not None
        # The number on the staff is counted from the capo.
        assert [note.fret for *_, onset in question.picture.staff.piece.onsets() for note in onset.notes] == [fret]


def test_shapes_sound_as_their_roots_do() -> None:
    for item in items():
        if "/" in item.subject:
            continue
        what, one, other = item.subject.split("-")
        root = Outside(one.removesuffix("m").capitalize())
        (answer, *_) = ask(item.id).answers
        if what == "to":
            assert root.transpose(int(answer)).pitchClass == outside_class(other.capitalize())
        else:
            capo = int(other) if what == "shape" else -int(other)
            assert root.transpose(capo).pitchClass == outside_class(answer)
        if what == "played":
            assert answer in ("C", "A", "G", "E", "D")  # open shapes that beginners know


@pytest.mark.parametrize(
    ("item", "prompt", "answer"),
    [
        ("capo/standard/2/5/0", "With a capo at fret 2, which note sounds here?", "B"),
        ("capo/standard/shape-c-2", "The C shape with a capo at fret 2: which chord sounds?", "D"),
        ("capo/standard/shape-am-2", "The Am shape with a capo at fret 2: which minor chord sounds?", "B"),
        ("capo/standard/played-d-2", "With a capo at fret 2, D sounds: which shape is played?", "C"),
        ("capo/standard/played-a#-1",
         "With a capo at fret 1, A# or Bb sounds: which shape is played?", "A"),
        ("capo/standard/to-c-d", "The C shape is to sound as D: at which fret is the capo, from 1 to 9?", "2"),
    ],
)  # fmt: skip
def test_what_is_asked(item: str, prompt: str, answer: str) -> None:
    question = ask(item)
    assert (question.prompt, question.answers) == (prompt, (answer,))


def test_a_minor_chord_may_be_typed_with_its_m() -> None:
    question = ask("capo/standard/shape-em-3")
    for typed in ("G", "g", "Gm", "g minor", "Gmin"):
        assert answered(question, typed).right, typed
    assert not answered(question, "Am").right
    assert question.parse("m") is None
    assert answered(ask("capo/standard/shape-em-3", manner=Manner(Naming.SOLFEGE)), "solm").right
    assert not answered(ask("capo/standard/shape-c-2"), "Dm").right


def test_where_h_is_b_natural_a_capo_says_so_too() -> None:
    question = ask("capo/standard/2/5/0", manner=Manner(Naming.GERMAN))
    assert answered(question, "H").right
    assert not answered(question, "B").right
    assert question.show("B") == "H"


@pytest.mark.parametrize(
    ("item", "said", "why", "kinds"),
    [
        ("2/5/0", "A", "With the capo at fret 2, 0 is the string at the capo: B, where A sounds without it; "
                       "A on string 5 is the open string without a capo.", ()),
        ("3/5/2", "E", "With the capo at fret 3, fret 2 is fret 5 of the neck: D, where B sounds without it; "
                       "E on string 5 is at fret 7 of the neck.", ("mirrored-line",)),
        ("shape-c-2", "Bb", "A capo at fret 2 lifts the C shape by 2 semitones, to D; "
                            "Bb on string 6 is at fret 6 of the neck.", ("wrong-direction",)),
        ("shape-e-1", "F#", "A capo at fret 1 lifts the E shape by 1 semitone, to F; "
                            "F# on string 6 is at fret 2 of the neck.", ("off-by-one-fret", "sharp-flat")),
        ("to-c-d#", "2", "From C up to D# or Eb is 3 semitones, a fret for each; at fret 2 it would sound as D.",
         ("off-by-one-fret",)),
        ("to-g-a#", "9", "From G up to A# or Bb is 3 semitones, a fret for each; at fret 9 it would sound as E.",
         ("wrong-direction",)),
    ],
)  # fmt: skip
def test_a_wrong_answer_is_explained(item: str, said: str, why: str, kinds: tuple[str, ...]) -> None:
    verdict = answered(ask(f"capo/standard/{item}"), said)
    assert (verdict.why, verdict.misreadings) == (why, kinds)
    assert verdict.picture.neck is not None
    assert {Role.TRUE, Role.SAID} <= {role for _, role in verdict.picture.neck.dots.values()}


def test_two_capos_differ_by_more_than_colour() -> None:
    neck = answered(ask("capo/standard/to-c-d"), "4").picture.neck
    assert neck is not None
    assert {(fret, text) for (_, fret), (text, _) in neck.dots.items()} == {(2, "┃"), (4, "×")}


def test_the_capo_is_drawn_over_the_full_strings_alone() -> None:
    # The short string of a banjo runs beside it, with a peg of its own.
    for tuning, strings in (("standard", {1, 2, 3, 4, 5, 6}), ("banjo", {1, 2, 3, 4})):
        item = next(item for item in items(tuning) if item.subject == "shape-c-2")
        neck = of(tuning).ask(item, random.Random(0), Manner()).picture.neck
        assert neck is not None
        assert set(neck.dots) == {(string, 2) for string in strings}
    assert {item.kind for item in items()} == {Kind.NOTE, Kind.FRET}
