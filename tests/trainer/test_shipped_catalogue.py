"""A sitting on the catalogue as it is shipped."""

from __future__ import annotations

import pytest

from drills.catalogue import catalogue
from tests.trainer.fakes import STANDARD, TODAY, Learner, Reply, slowly, well


@pytest.mark.parametrize(("reply", "seconds"), [(well, 4.0), (slowly, 5.5)])
def test_the_shipped_catalogue_makes_a_first_lesson_of_ten_minutes_and_a_second_day(
    reply: Reply, seconds: float
) -> None:
    learner = Learner(catalogue(STANDARD))
    first = learner.practise(reply, seconds=seconds).summary()
    assert 9.9 <= first.minutes <= 10.2
    assert first.right == first.answers
    assert len(first.new) >= 20
    assert learner.asked[0].lesson is not None
    learner.practise(reply, TODAY + 1, seconds=seconds)
    assert set(learner.ids[: len(first.new)]) == set(first.new)


def test_a_placement_goes_through_the_shipped_catalogue() -> None:
    learner = Learner(catalogue(STANDARD))
    learner.practise(well, placement=True, limit=20)
    assert len({asked.item.drill for asked in learner.asked}) >= 8
