"""Today, and the way to the other screens and back."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from tests.trainer.known import know
from tests.trainer.profile.faults import practise
from tests.trainer.screen import NOW, settings, squeezed, standing
from trainer.clock import Clock
from trainer.schedule.ahead import look_ahead
from trainer.screens.stage import Stage
from trainer.screens.today import counts


async def test_today_counts_what_the_schedule_says(tmp_path: Path) -> None:
    know(tmp_path)
    async with standing(tmp_path, size=(80, 30)) as stand:
        ahead = look_ahead(stand.learner.catalogue, stand.learner.profile.ledger, day=20782, minutes=10)
        assert ahead.due > 0
        assert counts(ahead) in stand.seen()
        assert f"{ahead.due} to go over" in stand.seen()
        assert "Wednesday 25 November" in stand.seen()


@pytest.mark.parametrize(("size", "shown"), [((80, 30), True), ((60, 16), False)])
async def test_the_next_14_days_stand_where_there_is_room(tmp_path: Path, size: tuple[int, int], shown: bool) -> None:
    know(tmp_path, days_ago=0)
    async with standing(tmp_path, size=size) as stand:
        assert stand.at(Stage.TODAY)
        assert ("the next 14 days" in stand.seen()) == shown


async def test_after_a_long_time_it_greets(tmp_path: Path) -> None:
    know(tmp_path, days_ago=40)
    async with standing(tmp_path) as stand:
        assert "Good to have you back." in stand.seen()
        assert "that you knew well" not in stand.seen()  # nothing of it is fluent


async def test_who_was_fluent_once_is_told_that_it_begins_with_that(tmp_path: Path) -> None:
    for day in (60, 57, 54, 50):
        know(tmp_path, days_ago=day)
    async with standing(tmp_path) as stand:
        assert "It begins with a few that you knew well." in squeezed(stand.seen())


async def test_nobody_is_welcomed_back_to_a_tuning_that_is_new_to_them(tmp_path: Path) -> None:
    know(tmp_path, days_ago=40)
    settings(tmp_path, 'tuning = "ukulele"')
    async with standing(tmp_path) as stand:
        assert stand.learner.catalogue.tuning.name == "ukulele"
        assert "back" not in stand.seen()


@pytest.mark.parametrize(("key", "screen"), [("e", "ExplainScreen"), ("p", "Progress"), ("s", "Setup")])
async def test_a_screen_opens_and_goes_back(tmp_path: Path, key: str, screen: str) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press(key)
        assert stand.on == screen
        assert "Esc" in stand.lines("#hints")[0] or "t Today" in stand.lines("#hints")[0]
        await stand.press("escape")
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.TODAY)
        assert len(stand.app.screen_stack) == 1


async def test_from_screen_to_screen_none_is_left_behind(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        for key, screen in (("e", "ExplainScreen"), ("p", "Progress"), ("e", "ExplainScreen"), ("s", "Setup")):
            await stand.press(key)
            assert stand.on == screen
            assert len(stand.app.screen_stack) == 2
        await stand.press("escape")
        assert len(stand.app.screen_stack) == 1


async def test_keys_lists_what_works_here(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("question_mark")
        assert stand.on == "Keys"
        for name in ("practice.begin", "go.explain", "go.progress", "go.setup", "help.keys", "app.quit"):
            assert f"[{name}]" in stand.seen()
        await stand.press("escape")
        assert stand.on == "PracticeScreen"


async def test_a_clock_that_jumped_years_is_confirmed_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    practise(tmp_path, 3)
    monkeypatch.setattr(Clock, "is_set", property(lambda clock: False))
    monkeypatch.setattr(Clock, "now", lambda clock: NOW + timedelta(days=800))
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        assert stand.on == "Confirm"
        assert "2029-02-02" in stand.seen()
        await stand.press("n")
        assert stand.at(Stage.TODAY)
        await stand.press("enter", "y")
        assert not stand.at(Stage.TODAY)


async def test_after_a_resize_today_and_a_lesson_are_cut_anew(tmp_path: Path) -> None:
    know(tmp_path, days_ago=0)
    async with standing(tmp_path, size=(60, 16)) as stand:
        assert "the next 14 days" not in stand.seen()
        await stand.pilot.resize_terminal(80, 30)
        await stand.pilot.pause()
        assert "the next 14 days" in stand.seen()
    async with standing(tmp_path / "new", size=(50, 12)) as stand:
        await stand.press("1", "1")
        assert stand.at(Stage.LESSON)
        lines = stand.learner.catalogue.explain(stand.learner.catalogue.items[0], stand.learner.manner).lines
        assert squeezed(lines[-1]) not in squeezed(stand.seen())
        await stand.pilot.resize_terminal(80, 24)
        await stand.pilot.pause()
        assert squeezed(lines[-1]) in squeezed(stand.seen())
