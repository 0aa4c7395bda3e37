"""What the learner is told."""

from __future__ import annotations

import pytest

from tests.trainer.fakes import TODAY, make_event
from trainer.schedule import state
from trainer.schedule.state import ItemState
from trainer.schedule.status import Status, status

FAST, SLOW, WRONG, UNTIMED = "fast", "slow", "wrong", "untimed"


def after(*answers: tuple[int, str]) -> ItemState:
    """The state of an item met on day 0 and answered on later days."""
    found = state.after(None, make_event())
    for day, how in answers:
        seconds = {FAST: 1.0, SLOW: 4.0, WRONG: 1.0}.get(how)
        found = state.after(found, make_event(day=TODAY + day, right=how != WRONG, seconds=seconds))
    return found


FLUENT = ((1, FAST), (2, FAST), (5, FAST))


@pytest.mark.parametrize(
    ("answers", "told"),
    [
        ((), Status.SHAKY),
        (((1, FAST),), Status.SHAKY),
        (((1, FAST), (2, FAST)), Status.KNOWN),
        (((1, SLOW), (2, UNTIMED)), Status.KNOWN),
        (((1, FAST), (2, FAST), (3, WRONG)), Status.SHAKY),
        (((1, FAST), (2, FAST), (4, FAST)), Status.KNOWN),  # the last after two days only
        (FLUENT, Status.FLUENT),
        (((1, FAST), (2, SLOW), (5, FAST)), Status.KNOWN),
        (((1, FAST), (2, UNTIMED), (3, FAST), (6, FAST)), Status.KNOWN),  # no three in a row within the limit
        (((1, FAST), (2, UNTIMED), (3, FAST), (4, FAST), (7, FAST)), Status.FLUENT),
        ((*FLUENT, (6, SLOW)), Status.FLUENT),
        ((*FLUENT, (6, SLOW), (7, SLOW)), Status.KNOWN),
        ((*FLUENT, (6, SLOW), (7, FAST), (8, SLOW)), Status.FLUENT),
        ((*FLUENT, (6, SLOW), (7, UNTIMED), (8, SLOW)), Status.FLUENT),
        ((*FLUENT, (6, UNTIMED)), Status.FLUENT),
        ((*FLUENT, (6, WRONG)), Status.SHAKY),
        ((*FLUENT, (12, FAST)), Status.KEPT),
        ((*FLUENT, (11, FAST)), Status.FLUENT),
        ((*FLUENT, (12, SLOW)), Status.FLUENT),
        ((*FLUENT, (12, FAST), (13, SLOW)), Status.KEPT),
        ((*FLUENT, (12, FAST), (13, SLOW), (14, SLOW)), Status.KNOWN),
        ((*FLUENT, (12, FAST), (13, WRONG)), Status.SHAKY),
    ],
)
def test_status(answers: tuple[tuple[int, str], ...], told: Status) -> None:
    assert status(after(*answers)) is told


def test_what_was_never_met_is_new() -> None:
    assert status(None) is Status.NEW


def test_more_on_the_same_day_changes_no_status() -> None:
    fluent = after(*FLUENT)
    for right in (False, False, True):
        fluent = state.after(fluent, make_event(day=fluent.last, right=right, seconds=5.0))
    assert status(fluent) is Status.FLUENT


def test_statuses_rise_in_their_order() -> None:
    assert [told.rank for told in Status] == [0, 1, 2, 3, 4]
