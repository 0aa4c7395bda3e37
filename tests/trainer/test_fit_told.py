"""``sixline profile fit``, and the fit that comes by itself after a sitting, whoever was asked and how."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from tests.trainer.profile.laid_down import lay_down
from tests.trainer.rememberers import FORGETFUL, answers
from tests.trainer.screen import right, settings, standing
from tests.trainer.typing_learner import Terminal
from trainer.schedule.event import Event
from trainer.screens import after_sitting

YESTERDAY = 20_781
"""The day before the clock of these tests starts."""

TYPED = ["1", "c", "1/1", "c e g"] * 40
"""One of them is an answer, whatever is asked; the others get a hint."""


@cache
def record(cold: int) -> tuple[Event, ...]:
    """What somebody who forgets sooner than published has answered until yesterday, on items that there are."""
    items = [item.id for item in catalogue(shipped()["standard"]).items]
    return tuple(answers(FORGETFUL, cold=cold, items=items, last_day=YESTERDAY))


def fits(home: Path) -> list[dict[str, Any]]:
    """The lines of the record that are fits."""
    found: list[dict[str, Any]] = []
    for path in sorted(home.glob("profiles/me/answers/*.toml")):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        found += [line for line in table.values() if isinstance(line, dict) and "fitted" in line]
    return found


def test_it_says_how_many_answers_are_missing(terminal: Terminal) -> None:
    lay_down(terminal.home, record(388))
    assert terminal.run("profile", "fit") == (1, "")
    assert "12 cold answers missing (profile me): practise on" in terminal.errors
    assert terminal.errors.count("\n") == 1
    assert fits(terminal.home) == []


def test_it_fits_says_what_came_of_it_and_goes_back(terminal: Terminal) -> None:
    lay_down(terminal.home, record(800))
    assert terminal.json("progress")["predicted"]["fitted"] is None
    code, out = terminal.run("profile", "fit")
    assert (code, terminal.errors) == (0, "")
    (line,) = fits(terminal.home)
    assert out.count("\n") == 2
    assert "800 cold answers" in out
    assert f"log loss {line['before']:.4f} before, {line['after']:.4f} after" in out
    assert "\nKept; " in out
    assert terminal.json("progress")["predicted"]["fitted"] == {
        "day": "2026-11-25", "before": line["before"], "after": line["after"],
    }  # fmt: skip
    again = terminal.json("profile", "fit")
    assert again == {
        "cold": 800, "tried_on": again["tried_on"], "before": line["after"], "after": line["after"], "kept": False,
    }  # fmt: skip
    assert len(fits(terminal.home)) == 1
    assert terminal.json("profile", "fit", "--undo") == {"undone": True}
    assert terminal.json("progress")["predicted"]["fitted"] is None
    assert fits(terminal.home)[1:] == [{"day": YESTERDAY + 1, "fitted": []}]
    code, out = terminal.run("profile", "fit", "--undo")
    assert (code, out) == (0, "The published parameters are in use already.\n")
    assert len(fits(terminal.home)) == 2


def test_there_must_be_a_profile(terminal: Terminal) -> None:
    assert terminal.run("profile", "fit", "--profile", "nobody") == (2, "")
    assert "there is no profile nobody" in terminal.errors
    assert not terminal.home.exists()


def test_help_tells_of_it(terminal: Terminal) -> None:
    assert "fit the memory to what the record says" in terminal.run("profile", "--help")[1]
    assert "--undo" in terminal.run("profile", "fit", "--help")[1]


def test_nothing_else_takes_undo(terminal: Terminal) -> None:
    assert terminal.run("profile", "show", "--undo")[0] == 2


@pytest.mark.parametrize("way", [["--json"], []])
def test_it_comes_by_itself_when_a_mark_is_passed(terminal: Terminal, way: list[str]) -> None:
    lay_down(terminal.home, record(899))
    lines = ['{"answer": "1", "seconds": 1.0}'] * 60 if way else TYPED
    code, out = terminal.run("--plain", *way, "--answers", "20", lines=lines)
    assert (code, terminal.errors) == (0, "")
    (line,) = fits(terminal.home)
    assert line["day"] == YESTERDAY + 1
    if way:
        assert out.splitlines()[-1].startswith('{"done"')
    assert terminal.json("progress")["predicted"]["fitted"]["before"] == line["before"]
    terminal.run("--plain", *way, "--answers", "20", lines=lines)
    assert len(fits(terminal.home)) == 1


def test_it_does_not_come_between_the_marks(terminal: Terminal) -> None:
    lay_down(terminal.home, record(920))
    terminal.run("--plain", "--answers", "20", lines=TYPED)
    assert fits(terminal.home) == []


def test_it_does_not_come_after_an_undoing(terminal: Terminal) -> None:
    lay_down(terminal.home, record(899))
    terminal.run("profile", "fit", "--undo")
    terminal.run("--plain", "--answers", "20", lines=TYPED)
    assert fits(terminal.home) == [{"day": YESTERDAY + 1, "fitted": []}]


async def test_on_the_screen_it_comes_after_the_sitting(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(after_sitting, "REST", 0)
    lay_down(tmp_path, record(899))
    settings(tmp_path, "minutes = 10")
    async with standing(tmp_path) as stand:
        old = stand.learner.profile.ledger
        await stand.press("enter")
        for _ in range(3):
            await stand.press(*right((await stand.ask()).question))
        assert fits(tmp_path) == []
        assert stand.learner.profile.ledger is old
        await stand.press("escape")
        await stand.until(lambda: stand.learner.profile.ledger is not old)
        assert len(fits(tmp_path)) == 1
        assert stand.learner.profile.ledger.fit is not None
        assert stand.learner.profile.ledger.events == old.events
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question))
        assert stand.learner.profile.ledger.events == old.events + 1


async def test_who_quits_does_not_wait_for_it(tmp_path: Path) -> None:
    lay_down(tmp_path, record(899))
    settings(tmp_path, "minutes = 10")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        for _ in range(3):
            await stand.press(*right((await stand.ask()).question))
        await stand.press("escape", "q")
    assert fits(tmp_path) == []
