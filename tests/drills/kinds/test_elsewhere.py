"""The same pitch elsewhere and octaves, against the semitones of the handbook and against music21."""

from __future__ import annotations

import random

import pytest
from music21.interval import ChromaticInterval
from music21.pitch import Pitch as Outside

from drills.notation.drawing import Role
from drills.question import Item, Kind, Manner
from tests.drills.kinds.theory import OPEN, midi_of
from tests.drills.samples import EVERY, answered, ask, of


def items(tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill in ("same-pitch", "octave")]


def wanted_midi(item: Item, tuning: str) -> tuple[int, int, int]:
    """String and fret that are shown, and the MIDI number that is sought, from the id alone."""
    place, *rest = item.subject.split("-")
    string, fret = map(int, place.split("/"))
    shift = 0 if item.drill == "same-pitch" else -12 if rest == ["down"] else 12
    return string, fret, midi_of(tuning, string, fret) + shift


@pytest.mark.parametrize("tuning", EVERY)
def test_every_right_place_sounds_just_what_is_sought_and_none_is_left_out(tuning: str) -> None:
    short = {"banjo": [5]}.get(tuning, [])
    for item in items(tuning):
        string, fret, midi = wanted_midi(item, tuning)
        top, lines = (9, [int(item.subject[-1])]) if item.kind is Kind.FRET else (12, range(1, len(OPEN[tuning]) + 1))
        there = {
            (s, f) for s in lines for f in range(1 if s in short else top + 1)
            if midi_of(tuning, s, f) == midi and (s, f) != (string, fret)
        }  # fmt: skip
        question = of(tuning).ask(item, random.Random(0), Manner())
        answers = {str(f) for _, f in there} if item.kind is Kind.FRET else {f"{s}/{f}" for s, f in there}
        assert set(question.answers) == answers != set(), item.id
        assert set(of(tuning).facts(item)["places"]) == {f"{s}/{f}" for s, f in there}
        assert f"to {top}" in question.prompt


def test_an_octave_is_twelve_semitones_to_music21() -> None:
    for item in items():
        facts = of().facts(item)
        if item.drill == "octave":
            shift = -12 if item.subject.endswith("-down") else 12
            assert ChromaticInterval(shift).transposePitch(Outside(midi=facts["midi"])).midi == facts["sought"]
        else:
            assert facts["sought"] == facts["midi"]


@pytest.mark.parametrize(
    ("item", "prompt", "answers"),
    [
        # The fifth fret of a string is the next one open, but for the third, whose fourth fret is the second open
        # (how a guitar is tuned by ear: common practice, no source).
        ("same-pitch/standard/1/0-on-2", "This very pitch on string 2: which fret, from 0 to 9?", {"5"}),
        ("same-pitch/standard/2/0-on-3", "This very pitch on string 3: which fret, from 0 to 9?", {"4"}),
        ("same-pitch/standard/5/0-on-6", "This very pitch on string 6: which fret, from 0 to 9?", {"5"}),
        ("same-pitch/standard/1/0", "Where else, from fret 0 to 12, is this very pitch?", {"2/5", "3/9"}),
        # Octave shapes: two strings on and two frets up from strings 6 and 5, three from 4 and 3.
        ("octave/standard/6/3-on-4", "An octave higher on string 4: which fret, from 0 to 9?", {"5"}),
        ("octave/standard/4/3-on-2", "An octave higher on string 2: which fret, from 0 to 9?", {"6"}),
        ("octave/standard/6/3", "Where, from fret 0 to 12, is the same note an octave higher?", {"4/5", "3/0", "5/10"}),
        ("octave/standard/1/3-down", "Where, from fret 0 to 12, is the same note an octave lower?",
         {"3/0", "4/5", "5/10"}),
    ],
)  # fmt: skip
def test_what_is_asked(item: str, prompt: str, answers: set[str]) -> None:
    question = ask(item)
    assert question.prompt == prompt
    assert set(question.answers) == answers
    assert all(answered(question, answer).right for answer in answers)


def test_a_wrong_place_is_explained_and_drawn_beside_the_right_ones() -> None:
    verdict = answered(ask("same-pitch/standard/1/0"), "4/2")
    assert verdict.why == (
        "Open string 1 sounds E, and this very pitch is string 2 at fret 5 or string 3 at fret 9; "
        "string 4 at fret 2 sounds E, lower."
    )
    assert verdict.misreadings == ("octave",)
    assert verdict.picture.neck is not None
    roles = {place: role for place, (_, role) in verdict.picture.neck.dots.items()}
    assert roles == {(1, 0): Role.FRET, (2, 5): Role.TRUE, (3, 9): Role.TRUE, (4, 2): Role.SAID}
    assert answered(ask("octave/standard/6/3-on-4"), "4").misreadings == ("off-by-one-fret",)
    assert answered(ask("octave/standard/5/3"), "5/15").misreadings == ()  # right, but beyond the range that is named


@pytest.mark.parametrize("tuning", ["standard", "banjo", "mandolin", "8-string"])
def test_one_place_of_five_is_right_and_another_is_the_note_at_another_height(tuning: str) -> None:
    # Whoever goes by the name alone must be able to go wrong.
    tempting = 0
    for item in items(tuning):
        if item.kind is not Kind.PLACE:
            continue
        *_, midi = wanted_midi(item, tuning)
        for seed in range(5):
            question = of(tuning).ask(item, random.Random(seed), Manner())
            heights = [midi_of(tuning, *map(int, option.answer.split("/"))) for option in question.options]
            assert len(heights) == 5
            assert heights.count(midi) == 1, item.id
            tempting += any(height != midi and height % 12 == midi % 12 for height in heights)
    assert tempting > 40
