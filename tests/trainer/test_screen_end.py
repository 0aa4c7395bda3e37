"""The end of a sitting on the screen: the summary, going on, and how fast the hand is."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from textual.widgets import Static

from tests.trainer.screen import NOW, Stand, right, settings, standing, wrong
from tests.trainer.test_wording import SPEED
from trainer.practice import Practice
from trainer.profile.store import Profile
from trainer.screens.stage import Stage


async def to_the_end(stand: Stand) -> None:
    """One right and one wrong answer, and then the minutes are over."""
    await stand.press("enter")
    await stand.press(*right((await stand.ask()).question), "enter")
    await stand.press(*wrong((await stand.ask()).question))
    for _ in range(40):
        if stand.on != "PracticeScreen":
            return
        stand.learner.clock.advance(29)
        await stand.press("enter")
        if stand.practice.asked is not None:
            await stand.press(*right(stand.asked.question))
    raise AssertionError("the sitting does not end")


def measured(home: Path, at: int = 0) -> None:
    """A profile whose hand was measured so many days ago."""
    settings(home, "minutes = 1")
    profile = Profile.open(home, "me", write=True)
    profile.new_baseline(0.41, NOW - timedelta(days=at), 20782 - at)
    profile.close(NOW)


async def test_the_summary_tells_the_sitting(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        assert stand.on == "SummaryScreen"
        answers = [line for line in stand.record if "item" in line]
        rights = sum(bool(line["right"]) for line in answers)
        assert rights < len(answers)
        assert f"{len(answers)} answers" in stand.seen()
        assert f"{rights} right" in stand.seen()
        new = {line["item"] for line in answers}
        assert f"{len(new)} met for the first time" in stand.seen()
        assert (tmp_path / "profiles" / "me" / "memory.toml").is_file()
        await stand.press("enter")
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.TODAY)


async def test_a_sitting_without_talk_of_speed(tmp_path: Path) -> None:
    measured(tmp_path)
    settings(tmp_path, "minutes = 1\ntalk_of_speed = false\nshort_words = true")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question), "enter")
        await stand.press(*wrong((await stand.ask()).question))
        assert "Not yet: " in stand.seen()
        await stand.press("enter")
        for _ in range(40):
            if stand.on != "PracticeScreen":
                break
            stand.learner.clock.advance(29)
            await stand.press("enter")
            if stand.practice.asked is not None:
                await stand.press(*right(stand.asked.question))
                assert not SPEED.search(stand.seen())
        assert stand.on == "SummaryScreen"
        assert not SPEED.search(stand.seen())
        assert all(line["seconds"] for line in stand.record if "item" in line)


async def test_a_hand_that_none_has_is_said(tmp_path: Path) -> None:
    settings(tmp_path, "minutes = 1")
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        await stand.press("enter")
        assert stand.on == "Baseline"
        stand.app.screen.dismiss(0.04)
        await stand.pilot.pause()
        assert any("quicker than a hand" in note.message for note in stand.app._notifications)
        assert not any("baseline" in line for line in stand.record)


async def test_more_goes_on(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        before = len(stand.record)
        await stand.press("m")
        assert stand.on == "PracticeScreen"
        assert "5 min left" in stand.seen()
        await stand.press(*right((await stand.ask()).question))
        assert len(stand.record) == before + 1


async def test_a_summary_can_be_left_by_escape_and_lists_its_keys(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        await stand.press("question_mark")
        assert stand.on == "Keys"
        assert "[summary.more]" in stand.seen()
        await stand.press("escape", "escape")
        assert stand.at(Stage.TODAY)


@pytest.mark.parametrize("days", [7, 30])
async def test_the_hand_is_measured_again_about_weekly(tmp_path: Path, days: int) -> None:
    measured(tmp_path, days)
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        await stand.press("enter")
        assert stand.on == "Baseline"


async def test_ten_keys_make_a_baseline(tmp_path: Path) -> None:
    settings(tmp_path, "minutes = 1")
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        await stand.press("enter")
        assert stand.on == "Baseline"
        before = len(stand.record)
        for n in range(10):
            assert f"{10 - n} to go" in stand.seen()
            await stand.press("9")
            assert f"{10 - n} to go" in stand.seen()
            await stand.think(shown_key(stand), seconds=0.3)
        assert stand.on == "PracticeScreen"
        assert len(stand.record) == before + 1
        line = stand.record[-1]
        assert "item" not in line
        seconds = line["baseline"]
        assert isinstance(seconds, float)
        assert 0.3 <= seconds < 2.0
        assert stand.learner.profile.base == seconds
        assert stand.learner.profile.base_day == 20782
    async with standing(tmp_path, now=NOW + timedelta(days=6)) as stand:
        assert stand.learner.profile.base == seconds
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question))
        assert stand.record[-1]["base"] == seconds


def shown_key(stand: Stand) -> str:
    """The key that is to be pressed."""
    return str(stand.app.screen.query_one("#key", Static).content).split("│")[1].strip()


async def test_the_measuring_can_be_put_off(tmp_path: Path) -> None:
    settings(tmp_path, "minutes = 1")
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        await stand.press("enter", "escape")
        assert stand.at(Stage.TODAY)
        assert not any("baseline" in line for line in stand.record)


async def test_leaving_in_the_middle_shows_no_summary(tmp_path: Path) -> None:
    settings(tmp_path, "minutes = 1")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question), "escape")
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.TODAY)


async def test_what_is_new_stays_within_the_sitting(tmp_path: Path) -> None:
    """After a sitting, Today counts what is left; after a night, what is due."""
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        await to_the_end(stand)
        await stand.press("enter")
        met = {line["item"] for line in stand.record if "item" in line}
    async with standing(tmp_path, now=NOW + timedelta(days=3)) as stand:
        assert f"{len(met)} to go over" in stand.seen()


async def all_done(stand: Stand) -> None:
    """A sitting on one item until nothing is left of it."""
    await stand.only("line-to-string/standard/1")
    for _ in range(40):
        if stand.on != "PracticeScreen":
            return
        if stand.practice.asked is None:
            await stand.press("enter")
        else:
            await stand.press(*right(stand.asked.question))
    raise AssertionError("something is still left")


async def test_a_sitting_that_leaves_nothing_says_when_it_goes_on_and_offers_no_more(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        await all_done(stand)
        assert stand.on == "SummaryScreen"
        assert "1 comes back tomorrow, Thursday 26 November." in stand.seen()
        assert "More" not in stand.lines("#hints")[0]
        await stand.press("m")
        assert stand.on == "SummaryScreen"


async def test_with_nothing_left_today_says_that_it_is_done_and_what_can_be_done(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        await all_done(stand)
        await stand.press("enter")
        assert stand.at(Stage.DONE)
        for key, screen in (("enter", "PracticeScreen"), ("e", "ExplainScreen"), ("p", "Progress")):
            await stand.press(key)
            assert stand.on == screen
            await stand.press("escape")
            assert stand.at(Stage.DONE)
            assert "1 comes back tomorrow, Thursday 26 November." in stand.seen()
            assert "look something up" in stand.seen()
            hints = stand.lines("#hints")[0]
            assert "Begin" not in hints
            assert all(words in hints for words in ("Explain", "Progress", "Quit"))
        await stand.press("q")
        assert stand.left


async def test_a_sitting_with_nothing_in_it_has_no_summary(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path) as stand:
        stand.practice.begin(nothing(stand))
        await stand.pilot.pause()
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.DONE)
        assert "Nothing was answered" not in stand.seen()


def nothing(stand: Stand) -> Practice:
    """A sitting on a catalogue of which nothing is left."""
    learner = stand.learner
    whole = learner.catalogue
    return Practice(
        whole._replace(items=(), by_id={}), learner.profile.ledger, keep=lambda event, at: None, day=20782, seed=0,
        sitting=0, minutes=10, manner=learner.manner, started=learner.clock.now(),
    )  # fmt: skip


async def test_the_summary_is_whole_in_the_smallest_window(tmp_path: Path) -> None:
    measured(tmp_path)
    async with standing(tmp_path, size=(40, 12)) as stand:
        await all_done(stand)
        told = " ".join(" ".join(stand.lines("#told")).split())
        assert "take a piece of tab and read it. 1 comes back tomorrow, Thursday 26 November." in told
