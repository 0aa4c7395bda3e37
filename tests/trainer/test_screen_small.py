"""Nothing is lost in small windows, nothing moves under a wrong answer, and there is always a way out."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.screen import GUITAR, NEW, Stand, inside, right, rows, settings, squeezed, standing, wrong
from trainer.app import SixlineApp
from trainer.screens.stage import Stage


@pytest.mark.parametrize("begun", [True, False])
async def test_q_leaves_a_window_that_is_too_small(tmp_path: Path, begun: bool) -> None:
    async with standing(tmp_path, size=(20, 5), begun=begun) as stand:
        assert stand.on == "TooSmall"
        await stand.press("q")
        assert stand.left


@pytest.mark.parametrize("size", [(80, 24), (50, 15), (40, 12)])
async def test_the_first_pages_show_all_lines_and_all_words(tmp_path: Path, size: tuple[int, int]) -> None:
    async with standing(tmp_path, size=size) as stand:
        for key in (GUITAR, NEW):
            assert "".join(stand.lines("#picture")).count("─│") >= 6
            inside(stand, "#picture", "#prompt", "#answers", "#hints")
            await stand.press(key)
        lesson = stand.learner.catalogue.explain(stand.learner.catalogue.items[0], stand.learner.manner)
        told = []
        while stand.at(Stage.LESSON):
            staff = [line for line in stand.lines("#picture") if "│──" in line]
            assert len(staff) == 6
            assert "║" in "".join(stand.lines("#picture"))
            inside(stand, "#picture", "#prompt", "#words", "#hints")
            told.append(" ".join(stand.lines("#words")))
            await stand.press("enter")
        assert squeezed(" ".join(told)).strip() == squeezed(" ".join(lesson.lines))


async def test_the_welcome_is_whole_where_it_is_shown(tmp_path: Path) -> None:
    async with standing(tmp_path, size=(50, 15)) as stand:
        assert "and you will read tab as you play." in squeezed(" ".join(stand.lines("#date")))


@pytest.mark.parametrize(
    ("size", "item"),
    [
        ((200, 60), "line-to-string/standard/2"), ((200, 60), "tab-to-place/standard/2/1"),
        ((80, 24), "line-to-string/standard/2"), ((80, 24), "tab-to-place/standard/2/1"),
        ((80, 24), "fret-to-note/standard/5/3"), ((50, 15), "line-to-string/standard/2"),
    ],
)  # fmt: skip
async def test_the_staff_stays_where_it_was_when_the_answer_is_wrong(
    tmp_path: Path, size: tuple[int, int], item: str
) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, size=size) as stand:
        asked = await stand.only(item)
        before, drawn = await steady(stand), stand.lines("#picture")
        await stand.press(*wrong(asked.question))
        await stand.until(lambda: stand.lines("#picture") != drawn)
        assert await steady(stand) == before
        assert "║" in "".join(stand.lines("#picture"))


async def steady(stand: Stand) -> tuple[list[int], list[int]]:
    """Where the staff is, once all has found its place."""
    last, found = None, staff_at(stand)
    while found != last:
        await stand.pilot.pause(0.01)
        last, found = found, staff_at(stand)
    return found


def staff_at(stand: Stand) -> tuple[list[int], list[int]]:
    """Columns and rows, on the screen, at which the six lines begin."""
    picture = stand.app.screen.query_one("#picture")
    starts = [(line.find("│"), row) for row, line in enumerate(rows(picture))]
    found = [
        (column, picture.region.y + row)
        for column, row in starts
        if column >= 0 and rows(picture)[row][column + 1] in "─═┄"
    ]
    return [column for column, _ in found], [row for _, row in found]


async def test_the_staff_is_whole_under_a_wrong_answer_in_the_smallest_window(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, size=(40, 12)) as stand:
        for item in ("line-to-string/standard/2", "tab-to-place/standard/2/1"):
            asked = await stand.only(item)
            await stand.press(*wrong(asked.question))
            await stand.until(lambda: len([line for line in stand.lines("#picture") if "│" in line]) == 6)
            assert squeezed(asked.question.explain_wrong(said_of(stand)).why) in squeezed(stand.seen())


def said_of(stand: Stand) -> str:
    """What was answered last."""
    return str(stand.record[-1]["said"])


@pytest.mark.parametrize("size", [(80, 24), (50, 15), (40, 12)])
async def test_the_way_out_is_always_among_the_hints(tmp_path: Path, size: tuple[int, int]) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, size=size) as stand:
        hints = stand.lines("#hints")[0]
        assert hints.endswith("q Quit")
        assert hints.startswith(" Enter Begin")
        if size[0] >= 50:
            assert all(words in hints for words in ("Explain", "Progress", "Setup"))


async def test_ctrl_z_suspends(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the framework does then is its own; here, that the key gets there from everywhere."""
    suspended: list[str] = []
    monkeypatch.setattr(SixlineApp, "action_suspend_process", lambda self: suspended.append(type(self.screen).__name__))
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("ctrl+z", "s", "ctrl+z", "escape", "enter")
        question = (await stand.ask()).question
        await stand.press("ctrl+z", *right(question), "ctrl+z")
        assert stand.at(Stage.RIGHT)
        await stand.pilot.resize_terminal(20, 5)
        await stand.until(lambda: stand.on == "TooSmall")
        await stand.press("ctrl+z")
    assert suspended == ["PracticeScreen", "Setup", "PracticeScreen", "PracticeScreen", "TooSmall"]


async def test_after_a_suspension_all_is_drawn_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        drawn: list[bool] = []
        with monkeypatch.context() as patched:
            patched.setattr(SixlineApp, "refresh", lambda self, **how: drawn.append(how.get("layout", False)))
            stand.app.app_resume_signal.publish(stand.app)
            await stand.until(lambda: True in drawn)


async def test_the_palette_opens_once_however_small_the_window(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("ctrl+p")
        assert stand.on == "CommandPalette"
        await stand.pilot.resize_terminal(20, 5)
        await stand.pilot.pause()
        await stand.press("ctrl+p")
        assert stand.on == "TooSmall"
        await stand.pilot.resize_terminal(80, 24)
        await stand.pilot.pause()
        assert stand.on == "CommandPalette"
