"""Days as the record has them: a clock that was wrong, practice half an hour earlier, a backlog of two months.

Through the commands and a real profile; the day that turns at 04:00 and what a wrong clock does are our rules.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import Terminal, start
from trainer.profile.store import Profile
from trainer.schedule.event import Event
from trainer.schedule.state import ItemState

FIRST = 20782
"""2026-11-25, in days since 1970."""


def states(home: Path) -> dict[str, ItemState]:
    """What is known of each item."""
    return dict(Profile.open(home, "me").ledger.states)


def at(day: int, hour: str = "08:00") -> str:
    """A time on the so-manieth day from the first."""
    return f"{(datetime(2026, 11, 25) + timedelta(days=day)):%Y-%m-%d}T{hour}:00Z"


class Learner:
    """Always right, in 1.2 s."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal
        self.right = {item["id"]: next(iter(item["answers"]), "") for item in terminal.json("items")}

    def sit(self, time: str, *argv: str, seconds: float = 1.2) -> list[dict[str, Any]]:
        """What is asked in a sitting that starts then."""

        def reply(ask: dict[str, Any]) -> dict[str, Any]:
            taps = (ask["tapping"] or {"moments": []})["moments"]
            right = self.right[ask["id"]] or " ".join(f"{moment:.2f}" for moment in taps)
            return {"answer": right, "seconds": seconds}

        self.terminal.now(time)
        return [line["ask"] for line in self.terminal.learn(reply, *argv) if "ask" in line]


@pytest.fixture
def learner(terminal: Terminal) -> Learner:
    """Somebody who has practised for five days."""
    learner = Learner(terminal)
    for day in range(5):
        learner.sit(at(day), "--answers", "60")
    return learner


def test_half_an_hour_earlier_the_next_day_is_a_day(terminal: Terminal) -> None:
    learner = Learner(terminal)
    met = {ask["id"] for ask in learner.sit(at(0, "08:30"), "--answers", "12") if ask["why"] == "new"}
    asked = learner.sit(at(1, "08:00"), "--answers", "40")
    assert {ask["id"] for ask in asked if ask["why"] == "due"} == met
    assert all(states(terminal.home)[item].cold == 1 for item in met)
    assert [line["day"] for line in terminal.json("progress")["days"]] == ["2026-11-25", "2026-11-26"]


def test_the_day_turns_by_the_learners_own_clock(terminal: Terminal) -> None:
    for hour in ("17:59", "18:00"):
        # Ten hours ahead of UTC, in the notation of POSIX.
        once = start(terminal.home, "--plain", "--json", "--answers", "1", SIXLINE_NOW=at(0, hour), TZ="XYZ-10")
        once.communicate('{"answer": "1"}\n', timeout=60)
        assert once.returncode == 0
    assert [line["day"] for line in record_lines(terminal.record)] == [FIRST, FIRST + 1]


@pytest.mark.parametrize("wrong", [at(1), "2010-01-01T00:10:00Z", "1971-01-01T12:00:00Z"])
def test_a_clock_set_back_three_days_or_without_a_battery_changes_nothing(learner: Learner, wrong: str) -> None:
    terminal = learner.terminal
    before, told = states(terminal.home), terminal.json("progress")
    asked = learner.sit(wrong, "--answers", "25")
    after = states(terminal.home)
    lately = {item: known for item, known in before.items() if known.last == FIRST + 4}
    assert {ask["id"] for ask in asked} & set(lately)
    for item, known in lately.items():
        assert (after[item].memory, after[item].due, after[item].last) == (known.memory, known.due, known.last), item
        assert (after[item].cold, after[item].fluent) == (known.cold, known.fluent)
    assert {line["day"] for line in record_lines(terminal.record)} == set(range(FIRST, FIRST + 5))
    found = terminal.json("progress")
    assert [line["day"] for line in found["days"]] == [line["day"] for line in told["days"]]
    assert found["days"][-1]["answers"] == told["days"][-1]["answers"] + 25
    assert all(known.last <= FIRST + 4 for known in after.values())
    # ... and the next morning goes on as ever
    terminal.now(at(5))
    due = terminal.json("today")["due"]
    assert due > 0
    assert sum(ask["why"] == "due" for ask in learner.sit(at(5), "--answers", "150")) >= due


def test_a_day_with_the_clock_a_year_ahead_leaves_no_item_stranded(learner: Learner) -> None:
    terminal = learner.terminal
    learner.sit(at(365), "--answers", "40")
    met = set(states(terminal.home))
    terminal.now(at(5))
    assert terminal.json("progress")["items"] == len(learner.right)
    asked: set[str] = set()
    for day in range(5, 17):
        asked |= {ask["id"] for ask in learner.sit(at(day), "--answers", "100")}
        today = FIRST + day
        for item, known in states(terminal.home).items():
            assert known.met <= known.last <= today, item
            assert known.due <= today + 181, item
    assert met <= asked
    found = terminal.json("progress")
    assert max(line["day"] for line in found["days"]) == at(16)[:10]
    assert found["fluent"] + found["kept"] > 20


def long_ago(home: Path, items: list[str], days_ago: int) -> None:
    """A record in which those items were met, and read the day after, so long ago."""
    start = datetime(2026, 11, 25, 8, tzinfo=UTC) - timedelta(days=days_ago)
    profile = Profile.open(home, "me", write=True)
    for later in range(2):
        for n, item in enumerate(items):
            event = Event(FIRST - days_ago + later, item, True, "C", 3.0, 0.5, 4.0)
            profile.keep(event, start + timedelta(days=later, seconds=n))
    profile.close(start + timedelta(days=1, hours=1))


@pytest.mark.parametrize("seconds", [1.2, 3.9, 9.0])
def test_five_hundred_overdue_items_after_sixty_days_give_one_sitting_and_nothing_new(
    terminal: Terminal, seconds: float
) -> None:
    learner = Learner(terminal)
    long_ago(terminal.home, list(learner.right)[:500], 60)
    terminal.now(at(0))
    today = terminal.json("today")
    assert today["new"] == 0
    assert today["due"] + today["waiting"] == 500
    assert today["due"] <= 150
    assert today["minutes"] <= 10
    asked = learner.sit(at(0), seconds=seconds)
    assert "new" not in {ask["why"] for ask in asked}
    due = [ask["id"] for ask in asked if ask["why"] == "due"]
    assert len(due) == len(set(due)) == min(150, round(600 / seconds + 0.49))
    assert terminal.json("progress")["new"] == len(learner.right) - 500
    # Nothing of the backlog is lost: what was not asked is still there.
    today = terminal.json("today")
    assert today["due"] + today["waiting"] >= 500 - len(due)


def test_days_out_of_order_and_items_that_are_gone_do_no_harm(terminal: Terminal) -> None:
    learner = Learner(terminal)
    learner.sit(at(0), "--answers", "30")
    met = set(states(terminal.home))
    (file,) = terminal.record
    device = file.stem.split(".")[1]
    lines = [
        f'"2026-11-25T09:00:0{n}.000Z {device} {900 + n:06}" = '
        f'{{ day = {day}, item = "{item}", right = {right}, said = "C", seconds = 1.40, base = 0.50, limit = 1.70 }}'
        for n, (day, item, right) in enumerate([
            (FIRST + 2, "gone/standard/5/3", "true"), (FIRST - 4, "line-to-string/standard/5", "false"),
            (FIRST + 1, "line-to-string/standard/5", "true"), (FIRST - 9, "gone/1", "true"), (FIRST, "gone/1", "false"),
        ])
    ]  # fmt: skip
    file.write_text(file.read_text() + "\n".join(lines) + "\n")
    for day in range(1, 6):
        asked = learner.sit(at(day), "--answers", "60")
        assert asked
        assert not {ask["id"] for ask in asked} & {"gone/standard/5/3", "gone/1"}
    found = terminal.json("progress")
    assert sum(found[state] for state in ("new", "shaky", "known", "fluent", "kept")) == found["items"]
    assert found["items"] == len(learner.right)
    assert met | {"gone/1", "gone/standard/5/3"} <= set(states(terminal.home))
    code, out = terminal.run("profile", "check")
    assert code == 0, out
