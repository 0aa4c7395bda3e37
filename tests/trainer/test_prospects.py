"""When a stage should be fluent, in words that fit."""

from __future__ import annotations

import pytest

from trainer.prospects import prospect
from trainer.schedule.reaching import Prospect, StageAhead
from trainer.wording import Voice

DATED = StageAhead(
    2, "Places", items=64, met=30, fluent=12, target=58, prospect=Prospect.DATED, early=20791, likely=20796, late=20807
)
"""Early on 4 December 2026, likely on the 9th, late on the 20th."""


@pytest.mark.parametrize(
    ("width", "told"),
    [
        (78, "Nine tenths of it fluent around 9 December (between 4 and 20 December)"),
        (58, "Nine tenths fluent around 9 December (4 to 20 December)"),
        (50, "Nine tenths fluent around 9 Dec (4 to 20 Dec)"),
        (38, "Fluent about 9 Dec (4 to 20 Dec)"),
    ],
)
def test_a_date_comes_with_its_range(width: int, told: str) -> None:
    assert prospect(DATED, width) == told


def test_both_months_are_named_where_they_differ() -> None:
    stage = DATED._replace(early=20785, late=20825, target=64)
    told = "All of it fluent around 9 December (between 28 November and 7 January)"
    assert prospect(stage, 80) == told


@pytest.mark.parametrize(
    ("width", "told"),
    [
        (80, "Nine tenths of it fluent around early December (between November and May 2027)"),
        (74, "Nine tenths fluent around early December (November to May 2027)"),
        (58, "Nine tenths fluent around early Dec (Nov to May 2027)"),
        (38, "Fluent: Nov to May 2027"),
    ],
)
def test_a_range_of_months_names_no_days(width: int, told: str) -> None:
    assert prospect(DATED._replace(early=20785, late=20950), width) == told


def test_a_range_of_one_day_is_none() -> None:
    assert prospect(DATED._replace(early=20796, late=20796), 80) == "Nine tenths of it fluent around 9 December"


@pytest.mark.parametrize("width", [38, 58, 74])
@pytest.mark.parametrize("kind", Prospect)
@pytest.mark.parametrize("speed", [True, False])
def test_every_sentence_fits_into_one_row(kind: Prospect, width: int, speed: bool) -> None:
    # The longest of all dates: long names of months, two figures each.
    stage = DATED._replace(prospect=kind)
    if kind is Prospect.DATED:
        assert len(prospect(stage._replace(early=20709, likely=20724, late=20815), width)) <= width
        stage = stage._replace(early=20709, likely=20724, late=20740)
    else:
        stage = stage._replace(early=None, likely=None, late=None)
    told = prospect(stage, width, Voice(speed=speed))
    assert len(told) <= width
    assert bool(told) == (kind is not Prospect.ALL_FLUENT)


def test_who_does_not_want_to_hear_of_speed_does_not() -> None:
    slow = DATED._replace(prospect=Prospect.SLOW, early=None, likely=None, late=None)
    assert "slow" in prospect(slow, 74)
    assert "slow" not in prospect(slow, 74, Voice(speed=False))
    assert "quick" not in prospect(slow, 74, Voice(speed=False))
