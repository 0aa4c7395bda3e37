"""What ``sixline today`` says is likely."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.typing_learner import Terminal
from tests.weeks import practised
from trainer.reports import today
from trainer.schedule.ahead import Ahead
from trainer.schedule.outlook import Outlook
from trainer.schedule.reaching import Prospect, StageAhead

STAGE_KEYS = {"number", "title", "items", "met", "fluent", "target", "prospect", "fluent_by"}
KEYS = {"profile", "day", "due", "waiting", "new", "minutes", "days", "expected", "stage"}
STAGE = StageAhead(1, "The lines", 26, 20, 3, 24, Prospect.DATED, 20790, 20793, 20799)
DAYS = (0, 0, 5, 2, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0)


@pytest.fixture(scope="module")
def weeks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return practised(tmp_path_factory.mktemp("weeks"), 2, answers=60)


def test_for_somebody_new_there_is_no_date(terminal: Terminal) -> None:
    found = terminal.json("today")
    assert set(found) == KEYS
    assert set(found["stage"]) == STAGE_KEYS
    assert len(found["expected"]) == len(found["days"]) == 14
    assert (found["stage"]["prospect"], found["stage"]["fluent_by"]) == ("too-early", None)
    assert "fluent" not in terminal.run("today")[1]


def test_after_weeks_there_is_one_with_its_range(terminal: Terminal, weeks: Path) -> None:
    terminal.home = weeks
    found = terminal.json("today")
    date = found["stage"]["fluent_by"]
    assert "2026-11-25" <= date["early"] <= date["likely"] <= date["late"] <= "2027-11-25"
    assert sum(found["expected"]) > sum(day["due"] for day in found["days"])
    progress = terminal.json("progress")["stage"]
    assert {key: found["stage"][key] for key in progress} == progress
    _, told = terminal.run("today")
    assert f"Stage {found['stage']['number']}, {found['stage']['title']}: " in told
    assert "fluent around" in told


def test_what_is_known_and_what_is_likely_have_signs_and_numbers_of_their_own() -> None:
    ahead = Ahead(due=0, waiting=0, new=3, minutes=1, days=DAYS)
    likely = (3, 0, 5, 6, 0, 0, 0, 1, 0, 0, 0, 0, 0, 2)
    assert today.lines(20782, ahead, Outlook(likely, STAGE)) == [
        "Wednesday, 2026-11-25",
        "To go over: 0. New: about 3. About 1 minute.",
        "Stage 1, The lines: nine tenths of it fluent around 6 December (between 3 and 12 December)",
        "",
        "To go over on the next 14 days (- known now, . likely besides):",
        "  Thu 2026-11-26    0   +3 ...",
        "  nothing until Sat 2026-11-28",
        "  Sat 2026-11-28    5      -----",
        "  Sun 2026-11-29    2   +4 --....",
        "  nothing until Thu 2026-12-03",
        "  Thu 2026-12-03    1      -",
        "  nothing until Wed 2026-12-09",
        "  Wed 2026-12-09    0   +2 ..",
    ]


def test_with_every_stage_fluent_no_line_is_left_empty() -> None:
    ahead = Ahead(due=1, waiting=0, new=0, minutes=1, days=DAYS)
    done = STAGE._replace(prospect=Prospect.ALL_FLUENT, early=None, likely=None, late=None)
    lines = today.lines(20782, ahead, Outlook(DAYS, done))
    assert lines[2] == ""
    assert not any("Stage" in line for line in lines)
