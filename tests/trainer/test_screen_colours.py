"""Every screen with no colours, and with sixteen: nothing is lost in what is behind it."""

from __future__ import annotations

from pathlib import Path

import pytest
from rich.color import ColorSystem
from rich.segment import Segment
from rich.style import Style
from textual.screen import Screen

from tests.trainer.screen import Stand, settings, shown, standing, widgets, wrong
from tests.weeks import practised
from trainer.screens.summary import SummaryScreen

KINDS = (
    "tab-to-place/standard/5/3", "mark-name/hammer-on-engraved", "diagram-to-tab/standard/022000", "value-name/whole",
)  # fmt: skip


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Somebody who has practised for two weeks."""
    return practised(tmp_path_factory.mktemp("weeks"), 2)


async def every_screen(stand: Stand) -> list[tuple[str, list[Segment]]]:
    """Each screen in turn by its name, with all that stands on it."""
    found = [("today", segments(stand.app.screen))]
    for name, keys in {"explain": "e", "progress": "p", "setup": "s", "keys": "question_mark"}.items():
        await stand.press(keys)
        found.append((name, segments(stand.app.screen)))
        await stand.press("escape")
    stand.app.push_screen(SummaryScreen(stand.learner, stand.learner.begin()))
    await stand.pilot.pause()
    found.append(("summary", segments(stand.app.screen)))
    await stand.press("escape")
    return found


async def every_verdict(stand: Stand) -> list[tuple[str, list[Segment]]]:
    """Questions and wrong answers to them."""
    found = []
    for item in KINDS:
        asked = await stand.only(item)
        found.append((item, segments(stand.app.screen)))
        await stand.press(*wrong(asked.question))
        await stand.pilot.pause(0.05)
        found.append((f"{item}, wrong", segments(stand.app.screen)))
    return found


def segments(screen: Screen[object]) -> list[Segment]:
    """Every run of cells that is to be read, as it goes to the terminal."""
    found: list[Segment] = []
    for widget in widgets(screen):
        if shown(widget) and not widget.children:
            for strip in widget.render_lines(widget.region.reset_offset):
                found += [segment for segment in strip if segment.text.strip()]
    return found


def ends(style: Style | None) -> tuple[object, object]:
    """What 16 colours make of a run: the number of its colour, and that of what is behind it."""
    front, behind = (style.color, style.bgcolor) if style is not None else (None, None)
    return (
        front.downgrade(ColorSystem.STANDARD).number if front else "front",
        behind.downgrade(ColorSystem.STANDARD).number if behind else "behind",
    )


async def pages(home: Path, fresh: Path, theme: str) -> list[tuple[str, list[Segment]]]:
    """Everything in a theme: the screens of ``home``, questions and verdicts in ``fresh``."""
    settings(fresh, "")
    found = []
    for folder, pages_of in ((home, every_screen), (fresh, every_verdict)):
        async with standing(folder) as stand:
            stand.app.theme = theme
            await stand.pilot.pause()
            found += await pages_of(stand)
    return found


@pytest.mark.parametrize("theme", ["lamp", "ink"])
async def test_sixteen_colours_leave_everything_readable(home: Path, tmp_path: Path, theme: str) -> None:
    for name, runs in await pages(home, tmp_path, theme):
        assert runs, name
        lost = {run.text for run in runs if len(set(ends(run.style))) == 1}
        assert not lost, (name, lost)


async def test_without_colours_all_is_grey_and_reads_the_same(
    home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    coloured = await pages(home, tmp_path / "with", "lamp")
    monkeypatch.setenv("NO_COLOR", "1")
    for (name, runs), (_, before) in zip(await pages(home, tmp_path / "without", "lamp"), coloured, strict=True):
        assert len(runs) >= len(before) // 2, name
        for run in runs:
            front, behind = greys(run)
            assert contrast(front, behind) >= 2.5, (name, run.text)


def greys(run: Segment) -> tuple[float, float]:
    """How bright a run and what is behind it are, from 0 to 1; they have no hue."""
    style = run.style or Style()
    found = []
    for colour in (style.color, style.bgcolor):
        assert colour is not None, run.text
        red, green, blue = colour.get_truecolor()
        assert red == green == blue, (run.text, colour)
        share = red / 255
        found.append(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)
    return found[0], found[1]


def contrast(one: float, two: float) -> float:
    """The contrast ratio of WCAG 2.2."""
    return (max(one, two) + 0.05) / (min(one, two) + 0.05)
