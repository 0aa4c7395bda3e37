"""Both own themes can be read, every theme stands on every screen, and what may move."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator, Mapping
from pathlib import Path

import pytest
from rich.color import Color
from textual.types import AnimationLevel

from tests.trainer.known import know
from tests.trainer.screen import Stand, standing, widgets, wrong
from trainer import themes

TEXT, SIGN = 4.5, 3.0
"""WCAG 2.2, success criteria 1.4.3 (contrast, minimum) and 1.4.11 (non-text contrast)."""


def luminance(rgb: tuple[int, int, int]) -> float:
    """Relative luminance as WCAG 2.2 defines it."""

    def linear(value: int) -> float:
        share = value / 255
        return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)

    red, green, blue = map(linear, rgb)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: tuple[int, int, int], other: tuple[int, int, int]) -> float:
    """Contrast ratio as WCAG 2.2 defines it: 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_gives_the_published_extremes() -> None:
    """WCAG 2.2: 21:1 for black on white; #767676 is the lightest grey that passes on white (W3C, G18)."""
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((0x76, 0x76, 0x76), (255, 255, 255)) >= TEXT > contrast((0x77, 0x77, 0x77), (255, 255, 255))


async def screens(stand: Stand) -> AsyncIterator[str]:
    """Every screen in turn, by a name."""
    yield "today"
    for name, keys in (
        ("keys", ["question_mark"]), ("explain", ["escape", "e"]), ("finding", ["slash", "s"]),
        ("progress", ["escape", "p"]), ("setup", ["s"]), ("list", ["enter"]),
    ):  # fmt: skip
        await stand.press(*keys)
        yield name
    await stand.press("escape", "escape", "enter")
    yield "practice"
    question = (await stand.ask()).question
    yield "question"
    await stand.press("slash")
    yield "look up"
    await stand.press("escape", *wrong(question))
    await stand.pilot.pause(0.05)
    yield "wrong"


def pale(stand: Stand) -> Iterator[str]:
    """Every run of text on the screen that is harder to read than it may be."""
    for widget in widgets(stand.app.screen):
        for strip in widget.render_lines(widget.region.reset_offset):
            for segment in strip:
                text, style = segment.text.strip(), segment.style
                if not text or style is None or style.color is None or style.bgcolor is None:
                    continue
                ink, paper = rgb(style.color), rgb(style.bgcolor)
                least = TEXT if any(sign.isalnum() for sign in text) else SIGN
                if (found := contrast(ink, paper)) < least:
                    yield f"{type(widget).__name__} {text!r} {found:.2f}"


def rgb(colour: Color) -> tuple[int, int, int]:
    red, green, blue = colour.get_truecolor()
    return red, green, blue


@pytest.mark.parametrize("theme", [theme.name for theme in themes.OWN])
async def test_own_themes_can_be_read_on_every_screen(tmp_path: Path, theme: str) -> None:
    know(tmp_path, 40)
    async with standing(tmp_path, size=(100, 40)) as stand:
        stand.app.theme = theme
        await stand.pilot.pause()
        seen = 0
        async for name in screens(stand):
            assert sorted(set(pale(stand))) == [], name
            seen += 1
        assert seen > 9


async def test_what_is_pale_is_found(tmp_path: Path) -> None:
    """So that the test above can fail."""
    know(tmp_path)
    async with standing(tmp_path) as stand:
        stand.app.screen.query_one("#prompt").styles.color = "#333333"
        stand.app.screen.query_one("#words").styles.color = "#333333"
        await stand.pilot.pause()
        assert list(pale(stand))


async def test_every_theme_stands_on_every_screen(tmp_path: Path) -> None:
    know(tmp_path, 40)
    async with standing(tmp_path) as stand:
        names = sorted(stand.app.available_themes)
        assert len(names) > 20
        async for screen in screens(stand):
            before = stand.seen()
            for name in names:
                stand.app.theme = name
                await stand.pilot.pause()
                assert stand.seen() == before, (screen, name)


@pytest.mark.parametrize(
    ("environ", "wanted", "level"),
    [
        ({}, "auto", "full"),
        ({}, "off", "none"),
        ({"SSH_CONNECTION": "10.0.0.1 50000 10.0.0.2 22"}, "auto", "none"),
        ({"SSH_TTY": "/dev/pts/3"}, "auto", "none"),
        ({"SSH_TTY": "/dev/pts/3", "TEXTUAL_ANIMATIONS": "basic"}, "auto", "basic"),
        ({"TEXTUAL_ANIMATIONS": "none"}, "auto", "none"),
        ({"TEXTUAL_ANIMATIONS": "FULL"}, "off", "none"),
        ({"TEXTUAL_ANIMATIONS": "wild"}, "auto", "full"),
    ],
)
def test_what_may_move(environ: Mapping[str, str], wanted: str, level: AnimationLevel) -> None:
    assert themes.motion(environ, wanted) == level
