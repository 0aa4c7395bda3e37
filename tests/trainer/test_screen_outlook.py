"""What is likely, on Today: it comes after the first frame, into rows that are kept for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.known import know
from tests.trainer.screen import Stand, standing
from tests.weeks import practised
from trainer.schedule.outlook import Outlook
from trainer.schedule.parameters import Fit
from trainer.screens import foresight
from trainer.screens.stage import Stage

SIZES = [(100, 30), (80, 24), (60, 20), (40, 12)]


@pytest.fixture(autouse=True)
def at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits for the moment that Today stands before."""
    monkeypatch.setattr(foresight, "REST", 0.0)


@pytest.fixture(scope="module")
def weeks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return practised(tmp_path_factory.mktemp("weeks"), 2, answers=60)


def places(stand: Stand) -> dict[str, tuple[int, int]]:
    """Where the rows begin that stand there all the time."""
    wanted = ("to go over", "Stage ", "the next 14 days")
    region = stand.app.screen.query_one("#words").region
    lines = stand.lines("#words")
    found = {name: (region.y + at, region.height) for name in wanted for at, line in enumerate(lines) if name in line}
    return found | {"picture": (stand.app.screen.query_one("#picture").region.y, 0)}


@pytest.mark.parametrize("size", SIZES)
async def test_it_comes_into_rows_that_are_kept_for_it(
    weeks: Path, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(foresight, "REST", 3600.0)
        async with standing(weeks, size=size) as stand:
            assert "luent a" not in stand.seen()
            before = places(stand)
    async with standing(weeks, size=size) as stand:
        await stand.until(lambda: "luent a" in stand.seen())
        assert places(stand) == before
        assert ("the next 14 days" in stand.seen()) == (size[1] >= 20)
        assert stand.app.screen.query_one("#words").region.bottom <= size[1] - 1
        if size[1] >= 20:
            assert "likely besides" in stand.seen()
            assert any("+" in line for line in stand.lines("#words"))


async def test_what_is_likely_has_signs_of_its_own_in_ascii_too(weeks: Path) -> None:
    async with standing(weeks, ascii_only=True) as stand:
        await stand.until(lambda: "luent a" in stand.seen())
        assert "% known now, | likely besides" in stand.seen()
        assert all(line.isascii() for line in stand.lines("#words"))


async def test_after_one_day_it_is_too_early_to_say(tmp_path: Path) -> None:
    know(tmp_path)
    async with standing(tmp_path) as stand:
        await stand.until(lambda: "Too early to say when it will be fluent." in stand.seen())


async def test_who_has_not_begun_is_told_no_date(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.pilot.pause()
        assert "fluent" in stand.seen()  # of how many, as before
        assert "Too early" not in stand.seen()


async def test_who_begins_at_once_waits_for_nothing(weeks: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object) -> Outlook:
        raise AssertionError("it was worked out")

    monkeypatch.setattr(foresight, "REST", 3600.0)
    monkeypatch.setattr(foresight.Foresight, "_work_out", never)
    async with standing(weeks) as stand:
        await stand.press("enter")
        assert stand.practice.stage is not Stage.TODAY
        assert not [worker for worker in stand.app.workers if worker.group == foresight.GROUP and worker.is_running]


async def test_an_answer_makes_it_be_worked_out_anew(tmp_path: Path) -> None:
    know(tmp_path)
    async with standing(tmp_path) as stand:
        await stand.until(lambda: "Too early" in stand.seen())
        asked = await stand.ask()
        await stand.press(*asked.question.model)
        await stand.until(lambda: not stand.at(Stage.ASKING))
        await stand.press("escape", "escape")
        await stand.until(lambda: stand.at(Stage.TODAY) and stand.on == "PracticeScreen")
        await stand.until(lambda: "Too early" in stand.seen())


async def test_once_another_memory_is_in_use_what_is_likely_is_worked_out_anew(weeks: Path) -> None:
    async with standing(weeks) as stand:
        await stand.until(lambda: "luent a" in stand.seen())
        looking = stand.practice._foresight
        assert looking.found is not None
        stand.learner.profile.ledger.fit = Fit(20_782)
        assert looking.found is None
