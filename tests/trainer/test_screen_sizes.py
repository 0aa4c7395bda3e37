"""Every size, theme and kind of terminal."""

from __future__ import annotations

import random
import subprocess
import sys
from pathlib import Path

import pytest
from textual.widgets import Static

from tests.trainer.screen import GUITAR, NEW, Stand, inside, right, seen, settings, squeezed, standing, wrong
from tests.trainer.typing_learner import environment
from trainer import themes
from trainer.screens.messages import Go
from trainer.screens.stage import Stage

SIZES = [(200, 60), (80, 24), (50, 15), (40, 12)]
SMALL = [(39, 12), (40, 11), (20, 5), (1, 1)]


async def tour(stand: Stand) -> list[str]:
    """Every screen in turn: what stood on each."""
    pages = [stand.seen()]
    for keys in (["question_mark"], ["escape", "e"], ["p"], ["s"], ["escape", "enter"]):
        await stand.press(*keys)
        pages.append(stand.seen())
    await stand.press(*wrong((await stand.ask()).question))
    pages.append(stand.seen())
    await stand.press("enter")
    await stand.ask()
    pages.append(stand.seen())
    await stand.press("question_mark")
    pages.append(stand.seen())
    await stand.press("ctrl+p", "e")
    pages.append(stand.seen())
    await stand.press("escape", "escape")
    return pages


@pytest.mark.parametrize("size", SIZES)
async def test_every_screen_stands_in_every_size(tmp_path: Path, size: tuple[int, int]) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, size=size) as stand:
        for page in await tour(stand):
            assert page.strip()
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.TODAY)


@pytest.mark.parametrize("size", SIZES)
async def test_question_and_feedback_are_whole_in_every_size(tmp_path: Path, size: tuple[int, int]) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, size=size) as stand:
        asked = await stand.only("tab-to-place/standard/2/1")
        assert squeezed(asked.question.prompt) in squeezed(stand.seen())
        inside(stand, "#prompt", "#answers", "#picture", "#hints")
        for option in asked.question.options:
            assert option.key in "".join(stand.lines("#picture") + stand.lines("#answers"))
        await stand.press(*wrong(asked.question))
        assert "✗ Wrong" in stand.seen()
        inside(stand, "#prompt", "#hints")


@pytest.mark.parametrize("size", SMALL)
async def test_too_small_says_what_it_needs(tmp_path: Path, size: tuple[int, int]) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, size=size) as stand:
        assert stand.on == "TooSmall"
        said = str(stand.app.screen.query_one("#small", Static).content)
        assert said == f"Sixline needs 40x12; this is {size[0]}x{size[1]}. q leaves."
        await stand.pilot.resize_terminal(80, 24)
        await stand.until(lambda: stand.on == "PracticeScreen")
        assert "Begin" in stand.seen()


async def test_the_first_run_waits_for_room(tmp_path: Path) -> None:
    async with standing(tmp_path, size=(20, 5)) as stand:
        assert stand.on == "TooSmall"
        await stand.press(GUITAR, NEW)
        assert not list(tmp_path.iterdir())
        await stand.pilot.resize_terminal(80, 24)
        await stand.until(lambda: stand.on == "FirstRun")
        await stand.press(GUITAR, NEW)
        await stand.until(lambda: stand.on == "PracticeScreen")
        assert stand.at(Stage.LESSON)


async def test_what_opens_in_a_small_window_waits_for_room(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.pilot.resize_terminal(30, 8)
        await stand.until(lambda: stand.on == "TooSmall")
        stand.practice.post_message(Go("progress"))
        await stand.until(lambda: any(type(screen).__name__ == "Progress" for screen in stand.app.screen_stack))
        await stand.pilot.pause()
        assert stand.on == "TooSmall"
        await stand.pilot.resize_terminal(80, 24)
        await stand.until(lambda: stand.on == "Progress")
        await stand.press("escape")
        await stand.until(lambda: stand.on == "PracticeScreen")


async def test_a_question_survives_a_window_that_was_too_small_and_is_untimed(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        asked = await stand.ask()
        await stand.pilot.resize_terminal(30, 8)
        await stand.until(lambda: stand.on == "TooSmall")
        await stand.press(*right(asked.question))
        assert stand.record == []
        await stand.pilot.resize_terminal(80, 24)
        await stand.until(lambda: stand.on == "PracticeScreen")
        assert stand.practice.asked is asked
        await stand.think(*right(asked.question))
        assert stand.record[0]["timed"] is False


async def test_wild_resizing_never_fails(tmp_path: Path) -> None:
    settings(tmp_path, "")
    rng = random.Random(5)
    sizes = [*SIZES, *SMALL, (1, 60), (200, 1), (40, 12), (41, 13)]
    async with standing(tmp_path) as stand:
        for keys in ([], ["e"], ["p"], ["s"], ["escape", "question_mark"], ["escape", "enter"], ["enter"]):
            await stand.pilot.resize_terminal(80, 24)
            await stand.until(lambda: stand.on != "TooSmall")
            await stand.press(*keys)
            for size in rng.sample(sizes, 2):
                await stand.pilot.resize_terminal(*size)
        await stand.pilot.resize_terminal(80, 24)
        await stand.until(lambda: stand.on != "TooSmall")
        assert not any(type(screen).__name__ == "TooSmall" for screen in stand.app.screen_stack)
        assert (await stand.ask()).n == 1


async def test_every_theme_stands_and_tells_right_from_wrong(tmp_path: Path) -> None:
    """On the practice screen, where most of our own colours are; by sign and word, whatever the colours."""
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        question = (await stand.ask()).question
        names = sorted(stand.app.available_themes)
        assert {theme.name for theme in themes.OWN} <= set(names)
        assert len(names) > 20
        for name in names:
            stand.app.theme = name
            await stand.pilot.pause()
            assert stand.practice.asked is not None
            assert seen(stand.practice)
        await stand.press(*wrong(question))
        assert "✗ Wrong" in stand.seen()


@pytest.mark.parametrize("theme", ["ansi-dark", "ansi-light", "textual-dark", "ink"])
async def test_a_theme_of_the_settings_stands_from_the_start(tmp_path: Path, theme: str) -> None:
    settings(tmp_path, f'theme = "{theme}"')
    async with standing(tmp_path) as stand:
        assert stand.app.theme == theme
        await stand.press("enter")
        await stand.press(*wrong((await stand.ask()).question))
        assert "✗ Wrong" in stand.seen()


async def test_a_terminal_of_ascii_gets_nothing_else(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, ascii_only=True) as stand:
        pages = await tour(stand)
        for page in pages:
            assert page.isascii(), sorted({sign for sign in page if not sign.isascii()})
        assert "x Wrong" in pages[6]
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question))
        assert "+ Right" in stand.seen()


async def test_the_first_run_in_ascii(tmp_path: Path) -> None:
    async with standing(tmp_path, ascii_only=True) as stand:
        assert stand.seen().isascii()
        await stand.press(GUITAR, NEW)
        assert stand.seen().isascii()


async def test_every_drill_in_ascii(tmp_path: Path) -> None:
    settings(tmp_path, 'naming = "german"')
    async with standing(tmp_path, ascii_only=True) as stand:
        drills = {item.drill: item.id for item in stand.learner.catalogue.items}
        for name in drills.values():
            await stand.only(name)
            assert stand.seen().isascii(), name


COLOURS = """
import asyncio, sys
from pathlib import Path
from tests.trainer.screen import standing, wrong, right

async def main():
    async with standing(Path(sys.argv[1])) as stand:
        await stand.press("enter")
        await stand.press(*wrong((await stand.ask()).question))
        assert "\u2717 Wrong" in stand.seen(), stand.seen()
        styles = colours(stand)
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question))
        assert "\u2713 Right" in stand.seen(), stand.seen()
        print(stand.app.no_color, stand.app.console.color_system, stand.app.theme, styles)

def colours(stand):
    picture = stand.app.screen.query_one("#picture")
    found = set()
    for strip in picture.render_lines(picture.region.reset_offset):
        for segment in strip:
            style = segment.style
            if segment.text.strip() and style and style.color == style.bgcolor and not style.color.is_default:
                found.add(segment.text.strip())
    return sorted(found)

asyncio.run(main())
"""


@pytest.mark.parametrize(
    ("env", "theme", "told"),
    [
        ({"NO_COLOR": "1"}, "", "True truecolor lamp []"),
        ({"NO_COLOR": "1"}, "ansi-dark", "True truecolor lamp []"),
        ({"TEXTUAL_COLOR_SYSTEM": "standard"}, "", "False standard lamp []"),
        ({"TEXTUAL_COLOR_SYSTEM": "standard"}, "ansi-dark", "False standard ansi-dark []"),
        ({"TEXTUAL_COLOR_SYSTEM": "256"}, "ink", "False 256 ink []"),
    ],
    ids=["no colour", "no colour, own palette", "16", "16, own palette", "256"],
)
def test_few_colours_hide_nothing(tmp_path: Path, env: dict[str, str], theme: str, told: str) -> None:
    settings(tmp_path, f'theme = "{theme}"')
    clean = {"COLORTERM": "truecolor", "TERM": "xterm-256color"}
    done = subprocess.run(
        [sys.executable, "-c", COLOURS, str(tmp_path)],
        env=environment(tmp_path, **clean, **env), capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == told


async def test_the_palette_has_exactly_what_can_be_done(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        assert await palette(stand) == {
            "Begin: Begin today's practice.", "Explain: Look up every idea and sign.",
            "Progress: What you read, and how well.", "Setup: Tuning, names, signs, minutes.",
            "Keys: Every key that works here.", "Quit: Quit; everything is kept.",
        }  # fmt: skip
        await stand.press("enter")
        await stand.ask()
        assert await palette(stand) == {
            "Explain: Explain what is asked.", "Look up: Look anything up; the answer after it is not timed.",
            "Leave off: Leave off; nothing is lost.", "Quit: Quit; everything is kept.",
        }  # fmt: skip
        await stand.press("ctrl+p", *"leave")
        await stand.until(lambda: bool(choices(stand)))
        await stand.press("enter")
        await stand.until(lambda: stand.on == "PracticeScreen" and stand.at(Stage.TODAY))


async def palette(stand: Stand) -> set[str]:
    """Open the palette, read it, close it."""
    await stand.press("ctrl+p")
    await stand.until(lambda: bool(choices(stand)))
    found = choices(stand)
    await stand.press("escape")
    await stand.until(lambda: stand.on == "PracticeScreen")
    return found


def choices(stand: Stand) -> set[str]:
    from textual.widgets import OptionList

    return {str(option.prompt) for option in stand.app.screen.query_one(OptionList).options}
