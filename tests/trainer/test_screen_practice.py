"""A sitting on the screen: right and wrong, explaining, looking away, leaving, the mouse."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events

from drills.question import Kind, Question
from tests.trainer.screen import GUITAR, NEW, Stand, right, settings, squeezed, standing, wrong
from trainer.screens import practice
from trainer.screens.stage import Stage


async def first_question(stand: Stand) -> Question:
    await stand.press(GUITAR, NEW)
    return (await stand.ask()).question


async def test_a_right_answer_goes_on_by_itself(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press(*right(question))
        assert stand.at(Stage.RIGHT)
        assert "✓ Right" in stand.seen()
        assert question.show(question.model) in stand.seen()
        await stand.until(lambda: not stand.at(Stage.RIGHT))
        assert (await stand.ask()).n == 2


async def test_a_key_goes_on_at_once_and_answers_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(practice, "BREATH", 60.0)
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press(*right(question))
        await stand.press("1")
        assert stand.asked.n == 2
        assert len(stand.record) == 1


async def test_a_wrong_answer_shows_both_and_waits(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        said = next(option.answer for option in question.options if option.answer not in question.answers)
        before = stand.lines("#picture")
        await stand.press(*wrong(question))
        assert stand.at(Stage.WRONG)
        told = squeezed(stand.seen())
        assert "✗ Wrong" in told
        assert f"it is {question.show(question.model)}; you said {question.show(said)}" in told
        assert squeezed(question.explain_wrong(said).why) in told
        await stand.until(lambda: stand.lines("#picture") != before)
        await stand.press("1", "x", "2")
        assert stand.at(Stage.WRONG)
        await stand.press("enter")
        assert not stand.at(Stage.WRONG)


async def test_the_misreading_is_named_when_only_one_fits(tmp_path: Path) -> None:
    from drills.misreadings import SPOKEN

    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        kinds = {
            option: [kind for kind, answers in question.traps.items() if option.answer in answers]
            for option in question.options
            if option.answer not in question.answers
        }
        option, (kind,) = next((option, found) for option, found in kinds.items() if len(found) == 1)
        await stand.press(option.key)
        assert squeezed(SPOKEN[kind]) in squeezed(stand.seen())
        assert stand.record[0]["misreadings"] == [str(kind)]


async def test_explaining_makes_the_answer_untimed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press("question_mark")
        assert stand.at(Stage.EXPLAINING)
        assert stand.learner.catalogue.explain(question.item, stand.learner.manner).title in stand.seen()
        await stand.press("enter")
        assert stand.asked.question is question
        await stand.think(*right(question), seconds=9.0)
        assert stand.record[0]["timed"] is False
        assert "slow" not in stand.seen()


async def test_an_answer_that_was_looked_at_is_timed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.think(*right(question))
        assert "timed" not in stand.record[0]
        seconds = stand.record[0]["seconds"]
        assert isinstance(seconds, float)
        assert 1.0 <= seconds < 20.0


async def test_looking_away_makes_the_answer_untimed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        stand.app.post_message(events.AppBlur())
        await stand.pilot.pause()
        stand.app.post_message(events.AppFocus())
        await stand.think(*right(question))
        assert stand.record[0]["timed"] is False


async def test_a_question_that_comes_while_looking_away_is_untimed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press(*right(question))
        stand.app.post_message(events.AppBlur())
        await stand.until(lambda: stand.practice.asked is not None)
        await stand.think(*right(stand.asked.question))
        assert stand.record[1]["timed"] is False
        await stand.press("enter")
        await stand.think(*right(stand.asked.question))
        assert "timed" not in stand.record[2]


async def test_the_palette_over_a_question_makes_it_untimed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press("ctrl+p", "escape")
        assert stand.on == "PracticeScreen"
        await stand.think(*right(question))
        assert stand.record[0]["timed"] is False


async def test_a_question_that_comes_under_the_palette_is_untimed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press(*right(question), "ctrl+p")
        assert stand.on == "CommandPalette"
        await stand.until(lambda: stand.practice.asked is not None)
        await stand.press("escape")
        await stand.think(*right(stand.asked.question))
        assert [line.get("timed") for line in stand.record][1:] == [False]


async def test_suspending_the_program_makes_the_answer_untimed(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        stand.app.app_suspend_signal.publish(stand.app)
        await stand.think(*right(question))
        assert stand.record[0]["timed"] is False


@pytest.mark.parametrize("key", ["escape", "q"])
async def test_leaving_in_the_middle_loses_nothing(tmp_path: Path, key: str) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press(*right(question), "enter")
        second = (await stand.ask()).question
        await stand.press(*wrong(second), "enter")
        await stand.ask()
        await stand.press(key)
        lines = stand.record
        assert [line["item"] for line in lines] == [question.item.id, second.item.id]
        assert [line["right"] for line in lines] == [True, False]
        assert [line["said"] == line_answer for line, line_answer in zip(
            lines, (question.model, second.answers[0]), strict=True
        )] == [True, False]  # fmt: skip
        assert stand.left == (key == "q")
        if key == "escape":
            assert stand.at(Stage.TODAY)
    assert (tmp_path / "profiles" / "me" / "memory.toml").is_file()


async def test_after_leaving_it_goes_on_from_there(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.press(*right(question), "escape")
        assert stand.at(Stage.TODAY)
        await stand.press("enter")
        assert stand.asked.lesson is None
        await stand.press(*right(stand.asked.question))
        assert len(stand.record) == 2


async def test_an_answer_of_several_keys_shows_them_and_takes_them_back(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        order = [item.id for item in stand.learner.catalogue.items if item.kind is Kind.ORDER]
        asked = await stand.only(order[0])
        assert asked.question.length == 2
        first, second = right(asked.question)
        await stand.press(first)
        assert f"{first}  ·" in stand.seen()
        await stand.press("backspace")
        assert f"{first}  ·" not in stand.seen()
        assert stand.practice.asked is asked
        await stand.press(first, second)
        assert [line["right"] for line in stand.record] == [True]


async def test_what_is_typed_is_shown_and_ends_with_enter(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        question = (await stand.only("fret-to-note/standard/5/1")).question
        assert question.options == ()
        await stand.press("x", "y")
        assert "xy▏" in stand.seen()
        await stand.press("backspace", "backspace", *right(question))
        assert stand.record[0]["right"] is True


async def test_a_click_on_an_answer_answers(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        await stand.click("#answers", right(question)[0])
        assert stand.record[0]["right"] is True
        assert stand.at(Stage.RIGHT)
        await stand.pilot.click("#picture")
        await stand.pilot.pause()
        assert stand.practice.asked is not None or stand.at(Stage.LESSON)


async def test_a_click_on_a_place_of_the_neck_answers(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        asked = await stand.only("tab-to-place/standard/2/1")
        key = right(asked.question)[0]
        rows = stand.lines("#picture")
        neck = [(row, line.index(key)) for row, line in enumerate(rows) if key in line and ("┿" in line or "┼" in line)]
        row, column = neck[0]
        assert await stand.pilot.click("#picture", offset=(column, row))
        await stand.pilot.pause()
        assert [(line["right"], line["said"]) for line in stand.record] == [(True, "2/1")]


async def test_a_click_on_a_hint_does_what_its_key_does(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await first_question(stand)
        await stand.click("#hints", "Explain")
        assert stand.at(Stage.EXPLAINING)
        await stand.click("#hints", "Go on")
        assert stand.practice.asked is not None
        await stand.click("#hints", "Leave")
        assert stand.at(Stage.TODAY)
        assert stand.record == []


async def test_a_lesson_is_told_a_paragraph_at_a_time_in_a_low_window(tmp_path: Path) -> None:
    async with standing(tmp_path, size=(50, 15)) as stand:
        await stand.press(GUITAR, NEW)
        lesson = stand.learner.catalogue.explain(stand.learner.catalogue.items[0], stand.learner.manner)
        assert len(lesson.lines) > 1
        for line in lesson.lines:
            assert stand.at(Stage.LESSON)
            assert squeezed(line) in squeezed(stand.seen())
            await stand.press("enter")
        assert stand.practice.asked is not None


async def test_held_keys_answer_one_question_only(tmp_path: Path) -> None:
    """Three keys that were pressed before the next question was made: one answers, one goes on, one is lost."""
    async with standing(tmp_path) as stand:
        question = await first_question(stand)
        key = right(question)[0]
        for each in [events.Key(key, key) for _ in range(3)]:
            stand.app.post_message(each)
        await stand.until(lambda: stand.practice.asked is not None and stand.asked.n == 2)
        await stand.pilot.pause()
        assert len(stand.record) == 1


async def test_own_keys_work_and_the_old_ones_are_dead(tmp_path: Path) -> None:
    settings(tmp_path, '[keys]\n"practice.explain" = "f3"\n"practice.leave" = "f2"\n"go.setup" = "x"')
    async with standing(tmp_path) as stand:
        assert "x Setup" in stand.lines("#hints")[0]
        await stand.press("s")
        assert stand.on == "PracticeScreen"
        await stand.press("question_mark")
        assert stand.on == "Keys"
        assert "x " in stand.seen()
        await stand.press("escape", "enter")
        question = (await stand.ask()).question
        assert "f3 Explain" in stand.lines("#hints")[0]
        await stand.press("question_mark", "escape")
        assert stand.practice.asked is not None
        await stand.press("f3")
        assert stand.at(Stage.EXPLAINING)
        await stand.press("enter")
        await stand.press(*right(question))
        await stand.press("f2")
        assert stand.at(Stage.TODAY)
        await stand.press("x")
        assert stand.on == "Setup"


async def test_own_keys_that_cannot_be_used_are_told(tmp_path: Path) -> None:
    settings(tmp_path, '[keys]\n"practice.leave" = "a"\n"go.setup" = "p"\n"go.[/]" = "f1"')
    async with standing(tmp_path) as stand:
        messages = [note.message for note in stand.app._notifications]
        assert len(messages) == 3
        assert any("'a' for practice.leave answers questions" in message for message in messages)
        assert any("'p' for go.setup is the key of go.progress" in message for message in messages)
        assert any("no command 'go.[/]'" in message for message in messages)
        assert "no command 'go.[/]'" in squeezed(stand.seen())
        await stand.press("p")
        assert stand.on == "Progress"
