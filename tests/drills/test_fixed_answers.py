"""What an item asks is fixed: chance may vary the surroundings, never the answers or the facts."""

from __future__ import annotations

import random

import pytest

from drills.catalogue import catalogue
from drills.notation.staff_view import Dialect
from drills.notation.tuning import shipped
from drills.question import Manner


@pytest.mark.parametrize("tuning", ["standard", "bass", "ukulele"])
def test_the_answers_do_not_depend_on_chance(tuning: str) -> None:
    found = catalogue(shipped()[tuning])
    for item in found.items:
        asked = [found.ask(item, random.Random(seed), Manner(dialect=Dialect.TEXT)) for seed in range(8)]
        assert len({question.answers for question in asked}) == 1, item.id
        for question in asked:
            assert all(question.parse(answer) == answer for answer in question.answers), item.id
            assert sum(option.answer in question.answers for option in question.choices) == bool(question.choices)
