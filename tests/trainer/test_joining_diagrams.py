"""Chord diagrams between a question and its verdict: what both show stays where it was."""

from __future__ import annotations

import random

import pytest

from drills.catalogue import catalogue
from drills.notation.drawing import Drawing
from drills.notation.tuning import shipped
from drills.question import Answer, Manner, judge
from trainer.widgets.fitting import fit
from trainer.widgets.joining_diagrams import Part, anchors, join_diagrams, laid

WHOLE = catalogue(shipped()["standard"])
DRILLS = ("diagram-to-tab", "tab-to-diagram", "name-to-diagram", "chord-name")


@pytest.mark.parametrize("room", [(78, 16), (118, 26), (198, 40), (60, 14)])
@pytest.mark.parametrize("drill", DRILLS)
def test_staff_and_first_diagram_stay_where_they_were(drill: str, room: tuple[int, int]) -> None:
    width, height = room
    joined = 0
    for item in [item for item in WHOLE.items if item.drill == drill][:12]:
        question = WHOLE.ask(item, random.Random(1), Manner())
        said = next(option.answer for option in question.options if option.answer not in question.answers)
        after = judge(question, Answer(said, 1.0)).picture
        before = fit(question.picture, width, height, whole=True)
        top, left = max(0, height - before.height) // 2, max(0, width - before.width) // 2
        drawing = join_diagrams(after, before, top, left, width, height)
        if drawing is None:
            continue
        joined += 1
        was, now = anchors(before, top, left), anchors(drawing, 0, 0)
        assert drawing.width <= width
        assert drawing.height <= height
        if was.staff is not None:
            assert now.staff == was.staff, item.id
        if was.diagram is not None and now.diagram is not None:
            assert now.diagram[0] == was.diagram[0], item.id
            assert now.diagram[1] == was.diagram[1] or was.staff is not None, item.id
    assert joined or width == 60


def test_parts_keep_their_places_and_their_targets() -> None:
    one, two = (fit(WHOLE.ask(WHOLE.by_id[name], random.Random(1), Manner()).picture, 78, 20) for name in (
        "name-to-diagram/standard/022000", "tab-to-place/standard/5/3",
    ))  # fmt: skip
    whole = laid((Part(one, 2, 3), Part(two, 2, one.width + 6)))
    assert [text[3:].rstrip()[: one.width].rstrip() for text in whole.text()[2 : 2 + one.height]] == [
        text.rstrip() for text in one.text()
    ]
    assert len(whole.targets) == len(one.targets) + len(two.targets)
    assert {target.row for target in whole.targets[: len(one.targets)]} == {target.row + 2 for target in one.targets}


def test_a_picture_without_diagrams_is_not_joined_here() -> None:
    picture = WHOLE.ask(WHOLE.by_id["tab-to-place/standard/5/3"], random.Random(1), Manner()).picture
    assert join_diagrams(picture, Drawing(()), 0, 0, 78, 20) is None
