"""A scripted learner over several days: what was met comes back when it is due."""

from __future__ import annotations

from typing import Any

from tests.trainer.test_programs import of
from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import Terminal


class Learner:
    """Always right, in 1.2 s: the answers are those that ``items --json`` gives first."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal
        self.right = {item["id"]: next(iter(item["answers"]), "") for item in terminal.json("items")}

    def sit(self, time: str, *argv: str) -> list[dict[str, Any]]:
        """What is asked in a sitting that starts then; every answer is right."""
        self.terminal.now(time)
        lines = self.terminal.learn(lambda ask: {"answer": self.right[ask["id"]], "seconds": 1.2}, *argv)
        assert all(verdict["right"] for verdict in of(lines, "verdict"))
        return of(lines, "ask")


def test_tomorrow_brings_what_was_met_today(terminal: Terminal) -> None:
    learner = Learner(terminal)
    first = learner.sit("2026-11-25T08:00:00Z", "--answers", "60")
    met = {ask["id"] for ask in first if ask["why"] == "new"}
    assert len(met) >= 6
    assert all(ask["why"] != "due" for ask in first)
    terminal.now("2026-11-26T08:00:00Z")
    assert terminal.json("today")["due"] == len(met)
    second = learner.sit("2026-11-26T08:00:00Z", "--answers", "60")
    due = [ask["id"] for ask in second if ask["why"] == "due"]
    assert set(due) == met
    assert len(due) == len(met)
    assert second[0]["why"] == "due"
    assert {line["day"] for line in record_lines(terminal.record)} == {20782, 20783}


def test_a_week_ends_with_something_fluent(terminal: Terminal) -> None:
    learner = Learner(terminal)
    for day in ("11-25", "11-26", "11-27", "12-01", "12-08"):
        learner.sit(f"2026-{day}T08:00:00Z", "--answers", "80")
    found = terminal.json("progress")
    assert found["fluent"] + found["kept"] > 0
    assert found["by_drill"]["line-to-string"]["fluent"] > 0
    assert len(found["days"]) == 5
    assert found["predicted"]["log_loss"] is not None
    assert sum(each["n"] for each in found["predicted"]["bins"]) > 0
    assert found["notes_per_minute"] is None or found["notes_per_minute"] == 50


def test_late_in_the_night_is_still_the_evening_before(terminal: Terminal) -> None:
    learner = Learner(terminal)
    met = {ask["id"] for ask in learner.sit("2026-11-25T20:00:00Z", "--answers", "9") if ask["why"] == "new"}
    night = learner.sit("2026-11-26T03:30:00Z", "--answers", "9")
    assert all(ask["why"] != "due" for ask in night)
    morning = learner.sit("2026-11-26T04:00:00Z", "--answers", "40")
    assert met <= {ask["id"] for ask in morning if ask["why"] == "due"}


def test_a_sitting_without_a_limit_ends_by_itself(terminal: Terminal) -> None:
    lines = terminal.learn(lambda ask: {"answer": "no idea", "seconds": 20.0})
    done = lines[-1]["done"]
    assert done["reason"] in ("limit", "nothing-left")
    assert 20 <= done["answers"] <= 60


def test_untimed_practice_ends_with_its_minutes_though_the_clock_stands_still(terminal: Terminal) -> None:
    learner = Learner(terminal)
    lines = terminal.learn(lambda ask: {"answer": learner.right[ask["id"]]})
    assert lines[-1]["done"]["reason"] == "limit"
    assert lines[-1]["done"]["answers"] == 200  # three seconds each
