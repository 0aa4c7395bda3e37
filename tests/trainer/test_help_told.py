"""Help as it is drawn, said and told of: on the screen, line by line, in words, and to programs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from drills.question import Help, Picture
from tests.trainer.fakes import Learner, make_catalogue, well
from tests.trainer.screen import GUITAR, NEW, right, standing
from tests.trainer.typing_learner import Terminal
from trainer.screens.stage import Stage
from trainer.wording import help_word

MANY = ("--answers", "24")

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


def right_line(ask: dict[str, Any]) -> str:
    """The right answer to a question of a first lesson; any other question is answered with 1."""
    drill, _, last = ask["id"].split("/", 2)
    return str(last.partition("-")[0]) if drill in ("line-to-string", "neck-to-line", "string-to-line") else "1"


def sitting(terminal: Terminal, *argv: str) -> list[str]:
    """What is said of each question of a first sitting in lines of text, right answers in every first lesson."""
    asked = [line["ask"] for line in terminal.learn(lambda ask: {"answer": right_line(ask)}, *MANY) if "ask" in line]
    lines = [right_line(ask) for ask in asked]
    _, out = terminal.run("--plain", "--profile", "again", *MANY, *argv, lines=lines)
    return ["Question " + part for part in out.split("\nQuestion ")[1:]]


def test_line_by_line_the_help_is_drawn_and_goes(terminal: Terminal) -> None:
    asked = sitting(terminal)
    assert asked[0].rstrip() == FIRST.rstrip()
    bottom = [part for part in asked if "Right: string 6." in part]
    heads = [part.splitlines()[0].partition(". ")[2] for part in bottom]
    assert heads[:2] == ["New. With numbers.", "Once more. With one number."]
    assert not [head for head in heads[2:] if "With " in head]
    labelled = [len([line for line in part.splitlines() if line[2:3].isdigit()]) for part in bottom]
    assert labelled == [2, 1, *[0] * (len(bottom) - 2)]


def test_in_words_it_is_said(terminal: Terminal) -> None:
    bottom = [part for part in sitting(terminal, "--spoken") if "Right: string 6." in part]
    said = [[line for line in part.splitlines() if "labelled" in line] for part in bottom]
    top, other = "The top line is labelled 1.", "The second line from the bottom is labelled 5."
    assert said == [[top, other], [top], *[[]] * (len(bottom) - 2)]


def test_programs_are_told_the_names_of_what_is_shown(terminal: Terminal) -> None:
    asks = [line["ask"] for line in terminal.learn(lambda ask: {"answer": right_line(ask)}, *MANY) if "ask" in line]
    assert all(isinstance(ask["help"], list) for ask in asks)
    bottom = [ask for ask in asks if ask["id"] == "line-to-string/standard/6"]
    rest = len(bottom) - 2
    assert [ask["help"] for ask in bottom] == [["numbers"], ["number"], *[[]] * rest]
    assert [sum(row[0].isdigit() for row in ask["staff"]) for ask in bottom] == [2, 1, *[0] * rest]


def test_the_word_on_help() -> None:
    learner = Learner(make_catalogue())
    learner.practise(well, limit=1)
    (asked,) = learner.asked
    assert help_word(asked) == "with letters"
    assert help_word(asked._replace(aid=Help(("neck", "letter"), Picture))) == "with the neck and one letter"
    assert help_word(asked._replace(aid=None, bare=True)) == "without help now"
    assert help_word(asked._replace(aid=None)) == ""


async def test_on_the_screen_a_quiet_word_says_what_is_shown_and_stays_with_the_question(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, NEW)
        await stand.only("fret-to-note/standard/5/3")
        words, necks = [], []
        for _ in range(2):
            asked = await stand.ask()
            (line,) = stand.lines("#time")
            words.append(line.partition("─")[0].partition("━")[0].strip())
            necks.append("║" in stand.seen())
            drawn = stand.lines("#picture")
            await stand.think(*right(asked.question))
            assert stand.at(Stage.RIGHT)
            assert stand.lines("#picture") == drawn
            assert stand.lines("#time") == [line]
            await stand.press("enter")
        assert words == ["with the neck and letters", "with letters"]
        assert necks == [True, False]


async def test_no_word_on_help_stands_over_a_lesson(tmp_path: Path) -> None:
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, NEW)
        await stand.until(lambda: stand.at(Stage.LESSON))
        assert "with numbers" not in stand.seen()
        await stand.ask()
        assert "with numbers" in stand.seen()


async def test_a_neck_that_is_but_a_help_gives_way_to_the_staff_in_a_small_window(tmp_path: Path) -> None:
    item = "note-to-fret/standard/1/g-15"
    seen = {}
    for size in ((40, 12), (80, 24)):
        async with standing(tmp_path / f"{size[0]}", size=size) as stand:
            await stand.press(GUITAR, NEW)
            asked = await stand.only(item)
            assert asked.help == ("neck", "letters")
            seen[size] = stand.lines("#picture")
    small, large = ("\n".join(rows) for rows in seen.values())
    assert [row.strip()[:1] for row in seen[40, 12] if row.strip()] == list("eBGDAE")
    assert ("┿" in small, "┿" in large) == (False, True)
