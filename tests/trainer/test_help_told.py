"""Help as it is drawn, said and told of: on the screen, line by line, in words, and to programs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.trainer.screen import GUITAR, NEW, right, standing
from tests.trainer.typing_learner import Terminal
from trainer.schedule.fading import GONE
from trainer.screens.stage import Stage

FIRST = """\
Question 1. New. With numbers.
  1|-----------|
   |-----------|
   |-----------|
   |-----------|
  5|-----------|
   |-----------| <-- this line
Which string is this line?
Type the number of the string, from 1 to 6.
Right: string 6.
"""
"""The bottom line, told from those at the other edge and beside it."""


def questions(out: str) -> list[str]:
    """The single questions of a sitting with what follows them."""
    return ["Question " + part for part in out.split("\nQuestion ")[1:]]


def test_line_by_line_the_help_is_drawn_and_goes(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", "--answers", "9", lines=list("615615246"))
    asked = questions(out)
    assert asked[0].rstrip() == FIRST.rstrip()
    bottom = [part for part in asked if "Right: string 6." in part]
    assert [part.splitlines()[0].partition(". ")[2] for part in bottom] == [
        "New. With numbers.", "Once more. With one number.", "Once more. Without help now.",
    ]  # fmt: skip
    labelled = [[line for line in part.splitlines() if line[2:3].isdigit()] for part in bottom]
    assert [len(lines) for lines in labelled] == [2, 1, 0]


def test_in_words_it_is_said(terminal: Terminal) -> None:
    _, out = terminal.run("--plain", "--spoken", "--answers", "9", lines=list("615615246"))
    bottom = [part for part in questions(out) if "Right: string 6." in part]
    said = [[line for line in part.splitlines() if "labelled" in line] for part in bottom]
    top, other = "The top line is labelled 1.", "The second line from the bottom is labelled 5."
    assert said == [[top, other], [top], []]


def test_programs_are_told_the_names_of_what_is_shown(terminal: Terminal) -> None:
    answers = {"6": "6", "1": "1"}

    def reply(ask: dict[str, Any]) -> object:
        line = ask["id"].rpartition("/")[2]
        return {"answer": answers.get(line, line.partition("-")[0]), "seconds": 1.0}

    asks = [line["ask"] for line in terminal.learn(reply, "--answers", "24") if "ask" in line]
    assert all(isinstance(ask["help"], list) for ask in asks)
    bottom = [ask for ask in asks if ask["id"] == "line-to-string/standard/6"]
    assert [ask["help"] for ask in bottom[:3]] == [["numbers"], ["number"], []]
    assert [sum(row[0].isdigit() for row in ask["staff"]) for ask in bottom[:3]] == [2, 1, 0]


async def test_on_the_screen_a_quiet_word_says_what_is_shown_and_stays_with_the_question(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, NEW)
        item = "fret-to-note/standard/5/3"
        await stand.only(item)
        words, necks = [], []
        for _ in range(3):
            asked = await stand.ask()
            (line,) = stand.lines("#time")
            words.append(line.partition("─")[0].partition("━")[0].strip())
            necks.append("║" in stand.seen())
            drawn = stand.lines("#picture")
            await stand.think(*right(asked.question))
            if asked.question.length == 1 and stand.at(Stage.ASKING):
                await stand.press("enter")
            assert stand.at(Stage.RIGHT)
            assert stand.lines("#picture") == drawn
            assert stand.lines("#time") == [line]
            await stand.press("enter")
        assert words == ["with the neck and letters", "with letters", "without help now"]
        assert necks == [True, False, False]
        assert stand.learner.profile.ledger.states[item].step == GONE


async def test_no_word_on_help_stands_over_a_lesson(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, NEW)
        await stand.until(lambda: stand.at(Stage.LESSON))
        assert "with numbers" not in stand.seen()
        await stand.ask()
        assert "with numbers" in stand.seen()
