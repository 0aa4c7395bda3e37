"""Why nothing new comes, and when a day's practice is done."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Answer
from tests.minds import SORTS, Mind
from tests.trainer.fakes import TODAY, Learner, badly, make_event, well
from tests.trainer.screen import NOW, settings, standing
from tests.trainer.typing_learner import Terminal
from trainer.nothing_new import FULL, MISSED, MUCH, why_nothing_new
from trainer.practice import Asked
from trainer.profile.store import Profile
from trainer.schedule.ahead import Ahead, look_ahead
from trainer.schedule.ledger import Ledger
from trainer.schedule.outlook import outlook
from trainer.schedule.reaching import Prospect

STANDARD = catalogue(shipped()["standard"])
DAY = 20782
"""The practice day of ``NOW``."""


def missing(home: Path, *, right: bool = False) -> None:
    """A profile that met twelve items two days ago and missed them all, or read them all, yesterday."""
    settings(home, "minutes = 10")
    profile = Profile.open(home, "me", write=True)
    for back in (2, 1):
        for n, item in enumerate(STANDARD.items[:12]):
            at = NOW - timedelta(days=back) + timedelta(seconds=5 * n)
            profile.keep(make_event(item.id, DAY - back, right=right or back == 2), at)
    profile.close(NOW)


def test_nothing_is_said_where_something_new_comes_or_nothing_is_known() -> None:
    assert why_nothing_new(Ahead(3, 0, 5, 1, (0,) * 14), Ledger(), 10) == ""
    assert why_nothing_new(Ahead(3, 0, 0, 1, (0,) * 14), Ledger(), 10) == ""


def test_a_backlog_is_said() -> None:
    assert why_nothing_new(Ahead(150, 30, 0, 10, (0,) * 14), Ledger(), 10) == MUCH


@pytest.mark.parametrize(("due", "minutes", "says"), [(90, 10, FULL), (30, 10, ""), (30, 5, FULL)])
def test_what_fills_the_sitting_is_said(due: int, minutes: int, says: str) -> None:
    assert why_nothing_new(Ahead(due, 0, 0, minutes, (0,) * 14), Ledger(), minutes) == says


@pytest.mark.parametrize("right", [True, False])
def test_who_misses_much_is_told_that_nothing_new_comes_and_that_is_so(right: bool) -> None:
    learner = Learner(STANDARD)
    learner.practise(well, TODAY, seconds=6.0)
    learner.practise(well if right else badly, TODAY + 1, seconds=6.0)
    why = why_nothing_new(look_ahead(STANDARD, learner.ledger, day=TODAY + 2), learner.ledger, 10)
    met = len(learner.ledger.states)
    learner.practise(badly, TODAY + 2, seconds=6.0)
    assert (why == MISSED) == (not right)
    assert (len(learner.ledger.states) == met) or right


def test_where_nothing_new_comes_and_the_stage_lacks_some_no_date_is_told() -> None:
    learner, mind = Learner(STANDARD), Mind(SORTS["wavering"])

    def reply(asked: Asked) -> Answer:
        return Answer(*mind.answer(asked, TODAY))

    held = 0
    for day in range(TODAY, TODAY + 8):
        learner.practise(reply, day, seconds=4.0)
        ahead = look_ahead(STANDARD, learner.ledger, day=day + 1)
        stage = outlook(STANDARD, learner.ledger, ahead, day=day + 1, minutes=10).stage
        if why_nothing_new(ahead, learner.ledger, 10) == MISSED and day > TODAY + 2 and stage.met < stage.target:
            held += 1
            assert stage.prospect is Prospect.WRONG
    assert held


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_today_says_why_and_all_of_it_is_in_the_window(tmp_path: Path, size: tuple[int, int]) -> None:
    missing(tmp_path)
    async with standing(tmp_path, size=size) as stand:
        words = stand.app.screen.query_one("#words")
        assert MISSED in " ".join(" ".join(stand.lines("#words")).split())
        assert words.region.bottom <= size[1] - 1


async def test_today_says_nothing_of_it_to_who_reads_well(tmp_path: Path) -> None:
    missing(tmp_path, right=True)
    async with standing(tmp_path) as stand:
        assert "Nothing new" not in stand.seen()


def test_the_command_says_it_too(terminal: Terminal) -> None:
    missing(terminal.home)
    _, out = terminal.run("today")
    assert MISSED in out.splitlines()


async def test_after_a_sittings_minutes_today_is_done_and_what_is_left_can_wait(tmp_path: Path) -> None:
    missing(tmp_path)
    profile = Profile.open(tmp_path, "me", write=True)
    for n in range(11):
        profile.keep(make_event(STANDARD.items[n % 3].id, DAY, seconds=30.0), NOW + timedelta(seconds=40 * n))
    profile.close(NOW)
    async with standing(tmp_path, now=NOW + timedelta(hours=1)) as stand:
        assert "to go over" in stand.seen()
    profile = Profile.open(tmp_path, "me", write=True)
    for n in range(4):
        profile.keep(make_event(STANDARD.items[3].id, DAY, seconds=30.0), NOW + timedelta(hours=1, seconds=40 * n))
    profile.close(NOW)
    async with standing(tmp_path, now=NOW + timedelta(hours=2)) as stand:
        assert "Done for today" in stand.seen()
        assert "to go over" not in stand.seen()
        assert "What is left can wait." in stand.seen()
        assert "Begin" in stand.lines("#hints")[0]
