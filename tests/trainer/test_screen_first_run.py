"""The first run: two keys from nothing to the first lesson, and a profile only then."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.screen import GUITAR, NEW, NOW, right, settings, squeezed, standing, wrong
from trainer.profile.store import Profile
from trainer.screens.stage import Stage


async def test_two_keys_from_nothing_to_the_first_lesson(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        assert stand.on == "FirstRun"
        await stand.press(GUITAR)
        assert stand.on == "FirstRun"
        assert not list(tmp_path.iterdir())
        await stand.press(NEW)
        assert stand.on == "PracticeScreen"
        first = stand.learner.catalogue.explain(stand.learner.catalogue.items[0], stand.learner.manner)
        assert stand.at(Stage.LESSON)
        assert first.title in stand.seen()
        assert squeezed(first.lines[0]) in squeezed(stand.seen())
        assert (tmp_path / "profiles" / "me" / "profile.toml").is_file()
        await stand.press("enter")
        assert not stand.asked.placement


async def test_enter_takes_the_first_answers_of_what_is_left(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press("3", "enter")
        assert stand.at(Stage.LESSON)
        assert stand.learner.settings.tuning == "ukulele"
        assert not stand.learner.settings.reader


async def test_enter_alone_is_the_guitar_from_the_start(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        assert stand.at(Stage.LESSON)
        assert (stand.learner.settings.tuning, stand.learner.settings.reader) == ("standard", False)


@pytest.mark.parametrize(("key", "tuning"), [("1", "standard"), ("2", "bass"), ("4", "drop-d")])
async def test_the_instrument_is_kept(tmp_path: Path, key: str, tuning: str) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(key, NEW)
    async with standing(tmp_path) as stand:
        assert stand.on == "PracticeScreen"
        assert stand.learner.catalogue.tuning.name == tuning


async def test_those_who_read_are_placed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, "2")
        asked = await stand.ask()
        assert asked.placement
        assert asked.lesson is None
        assert asked.help == ()


@pytest.mark.parametrize("reads", [True, False])
async def test_a_placement_says_how_far_it_is_and_what_it_found(tmp_path: Path, reads: bool) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, "2")
        n = 0
        while not stand.at(Stage.LESSON):
            n += 1
            assert stand.asked.placement
            assert f"Finding out what you read: {n} of 20" in stand.lines("#time")[0]
            await stand.press(*(right if reads else wrong)(stand.asked.question), "enter")
            await stand.until(lambda: stand.practice.asked is not None or stand.at(Stage.LESSON))
        assert n == (20 if reads else 5)
        found = stand.seen()
        assert ("You read 20 of 20 at once." if reads else "Nothing of it was read at once yet.") in found
        assert "Finding out" not in found
        await stand.press("enter")
        assert "at once" not in stand.seen()
        assert not (await stand.ask()).placement


async def test_a_reader_who_left_before_the_first_answer_is_placed_next_time(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, "2", "escape")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        assert (await stand.ask()).placement


async def test_leaving_before_it_begins_makes_nothing(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, "q")
        assert stand.left
    assert not list(tmp_path.iterdir())


async def test_other_keys_do_nothing(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press("7", "x", "escape", "space", "left_square_bracket")
        assert stand.on == "FirstRun"
        await stand.press(GUITAR, "3", "9")
        assert stand.on == "FirstRun"
    assert not list(tmp_path.iterdir())


async def test_a_click_answers_too(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.click("#answers", "bass")
        await stand.click("#answers", "not yet")
        assert stand.at(Stage.LESSON)
        assert stand.learner.settings.tuning == "bass"


async def test_a_profile_that_is_there_is_not_asked_again(tmp_path: Path) -> None:
    settings(tmp_path, "minutes = 5")
    async with standing(tmp_path) as stand:
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.TODAY)


async def test_a_profile_that_another_window_made_meanwhile_is_said_on_today(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR)
        other = Profile.open(tmp_path, "me", write=True)
        other.acquire(NOW)
        await stand.press(NEW)
        assert stand.at(Stage.TODAY)
        assert "Another window is practising" in stand.seen()
        assert stand.practice.asked is None
        other.close(NOW)
        await stand.press("enter")
        assert (await stand.ask()).n == 1
