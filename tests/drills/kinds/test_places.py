"""Places on the neck and on the staff: the number is the fret, the line is the string."""

from __future__ import annotations

import random

import pytest

from drills.notation.drawing import Drawing, Role
from drills.notation.neck import NeckView, draw_neck
from drills.notation.staff import draw_staff
from drills.question import Item, Manner
from tests.drills.kinds.theory import NAMES, hertz_of, midi_of
from tests.drills.samples import EVERY, answered, ask, of

PLACES = ("tab-to-place", "place-to-tab")


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


def on_the_neck(drawing: Drawing, view: NeckView, sign: str) -> tuple[int, int]:
    """String and fret where a sign is drawn, counted from the picture as a player would."""
    ((row, column),) = [
        (n, c) for n, text in enumerate(drawing.text()[: view.strings]) for c, s in enumerate(text) if s == sign
    ]
    wires = [c for c, s in enumerate(drawing.text()[row]) if s in "║┼┿"]
    passed = [wire for wire in wires if (wire > column if view.left_handed else wire < column)]
    return view.strings - row, len(passed)


@pytest.mark.parametrize("tuning", EVERY)
def test_what_sounds_at_a_place(tuning: str) -> None:
    for item in [*items("tab-to-place", tuning), *items("place-to-tab", tuning), *items("fret-to-note", tuning)]:
        string, fret = map(int, item.id.split("/")[-2:])
        midi = midi_of(tuning, string, fret)
        facts = of(tuning).facts(item)
        assert facts == {"string": string, "fret": fret, "midi": midi, "names": NAMES[midi % 12], "hz": facts["hz"]}
        assert facts["hz"] == pytest.approx(hertz_of(midi), abs=0.0006)


@pytest.mark.parametrize("left", [False, True])
@pytest.mark.parametrize("tuning", ["standard", "bass", "ukulele"])
@pytest.mark.parametrize("drill", PLACES)
def test_five_candidates_are_always_on_the_picture(drill: str, tuning: str, left: bool) -> None:
    for item in items(drill, tuning):
        for seed in range(6):
            question = of(tuning).ask(item, random.Random(seed), Manner(left_handed=left))
            neck, staff = question.picture.neck, question.picture.staff
            assert neck is not None
            assert staff is not None
            assert len({option.answer for option in question.options}) == 5, item.id
            drawing = draw_neck(neck, width=80)
            if drill == "tab-to-place":
                for option in question.options:
                    assert on_the_neck(drawing, neck, option.key) == tuple(map(int, option.answer.split("/")))
                assert {target.answer for target in drawing.targets} == {option.answer for option in question.options}
            else:
                assert on_the_neck(drawing, neck, "●") == tuple(map(int, item.subject.split("/")))
                for (_, onset), (key, answer) in staff.keys.items():
                    (note,) = staff.piece.bars[0].onsets[onset].notes
                    assert f"{note.string}/{note.fret}" == answer
                    assert (key, answer) in {(option.key, option.answer) for option in question.options}
                assert {target.answer for target in draw_staff(staff).targets} == {o.answer for o in question.options}


@pytest.mark.parametrize("drill", PLACES)
def test_the_upside_down_line_is_always_offered(drill: str) -> None:
    # The reversal is what beginners get wrong, so that slip must be there to make.
    for item in items(drill):
        string, fret = item.subject.split("/")
        assert f"{7 - int(string)}/{fret}" in {option.answer for option in ask(item.id, 3).options}


def test_the_frets_that_are_drawn_tell_nothing_of_the_answer() -> None:
    for drill in PLACES:
        drawn = set()
        for item in items(drill):
            neck = ask(item.id, 1).picture.neck
            assert neck is not None
            drawn.add((item.stage > 2, neck.first, neck.last))
        assert drawn == {(False, 0, 5), (True, 0, 13)}


@pytest.mark.parametrize(
    ("item", "said", "why"),
    [
        ("tab-to-place/standard/5/3", "2/3",
         "The second line from the bottom is string 5, and the number is the fret, 3; you took string 2, fret 3."),
        ("tab-to-place/standard/1/0", "6/0",
         "The top line is string 1, and 0 is the open string; you took string 6, open."),
        ("place-to-tab/standard/6/3", "6/2",
         "The top string of the neck is the bottom line, and fret 3 is a 3 on it; you took string 6, fret 2."),
        ("place-to-tab/bass/4/3", "1/3",
         "The top string of the neck is the bottom line, and fret 3 is a 3 on it; you took string 1, fret 3."),
    ],
)  # fmt: skip
def test_a_wrong_place_is_explained(item: str, said: str, why: str) -> None:
    verdict = answered(ask(item, tuning=item.split("/")[1]), said)
    assert verdict.why == why
    assert verdict.picture.neck is not None
    roles = {place: role for place, (_, role) in verdict.picture.neck.dots.items()}
    right, wrong = (tuple(map(int, place.split("/"))) for place in (verdict.answer, said))
    assert roles == {right: Role.TRUE, wrong: Role.SAID}


def test_both_places_are_drawn_however_far_apart() -> None:
    verdict = answered(ask("tab-to-place/standard/6/0"), "1/20")
    assert verdict.picture.neck is not None
    drawn = "".join(draw_neck(verdict.picture.neck, width=80).text())
    assert (drawn.count("●"), drawn.count("×")) == (1, 1)
