"""Setup: what is changed is saved, seen at once, and kept with the comments around it."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input

from tests.trainer.known import know
from tests.trainer.screen import Stand, right, settings, squeezed, standing
from trainer.profile.settings import Settings
from trainer.screens.setup import TYPED
from trainer.screens.setup_rows import ABOUT, settings_of
from trainer.widgets.choice_row import ChoiceRow

OTHER = {"keys", "reader", "key_seconds", "own_tuning", "sentence"}
"""Settings without values to turn through: typed, measured, or asked in the first run."""


def row(stand: Stand, name: str) -> ChoiceRow:
    """The row of a setting, focused."""
    found = stand.app.screen.query_one(f"#{name}", ChoiceRow)
    found.focus()
    return found


async def choose(stand: Stand, name: str, value: object) -> None:
    """Turn a row until it has a value."""
    found = row(stand, name)
    for _ in found.options:
        if found.value == value:
            return
        await stand.press("right")
    assert found.value == value, found.options


async def typed(stand: Stand, name: str, text: str, *, enter: bool = True) -> None:
    """Type into a row."""
    box = stand.app.screen.query_one(f"#{name}", Input)
    box.focus()
    box.value = text
    if enter:
        await stand.press("enter")


def test_every_setting_has_a_row() -> None:
    from dataclasses import fields

    rows = settings_of(Settings(), ("lamp", "ink"))
    assert set(rows) | OTHER == {each.name for each in fields(Settings)}
    assert {name for name, *_ in TYPED} <= OTHER
    for name, found in rows.items():
        assert len(found.options) > 1, name
        assert str(getattr(Settings(), name)) in [str(value) for _, value in found.options]


async def test_setup_saves_and_keeps_comments(tmp_path: Path) -> None:
    know(tmp_path)
    path = tmp_path / "profiles" / "me" / "profile.toml"
    async with standing(tmp_path) as stand:
        await stand.press("s")
        row(stand, "minutes")
        await stand.press("right")
        assert "Saved." in stand.seen()
        assert path.read_text(encoding="utf-8") == "format = 1\n# mine\nminutes = 15  # ten will do\n"
        assert stand.learner.settings.minutes == 15
        await stand.press("left")
        assert path.read_text(encoding="utf-8") == "format = 1\n# mine\nminutes = 10  # ten will do\n"


async def test_opening_setup_changes_no_file(tmp_path: Path) -> None:
    path = settings(tmp_path, 'theme = "of-another-version"\nminutes = 7')
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        await stand.press("s")
        assert "7 minutes" in stand.seen()
        await stand.press("tab", "down", "up", "escape")
        assert stand.on == "PracticeScreen"
    assert path.read_bytes() == before


async def test_every_value_of_every_row_can_be_kept(tmp_path: Path) -> None:
    """What Setup offers, the file takes."""
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        for name in settings_of(stand.learner.settings, ()):
            if name == "theme":
                continue
            found = row(stand, name)
            for _ in range(len(found.options)):
                await stand.press("right")
                assert "Saved." in stand.seen(), (name, stand.seen())
                assert str(getattr(stand.learner.settings, name)) == str(found.value)


async def test_a_list_and_the_mouse_choose_too(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        row(stand, "tuning")
        await stand.press("enter")
        assert stand.on == "Pick"
        await stand.press("down", "enter")
        assert stand.on == "Setup"
        assert stand.learner.settings.tuning == "drop-d"
        await stand.press("enter", "down", "escape")
        assert stand.learner.settings.tuning == "drop-d"
        await stand.click("#hand", "the right hand picks")
        assert stand.learner.settings.hand == "left"


async def test_another_tuning_is_another_catalogue(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        assert "own items" in stand.seen()
        await choose(stand, "tuning", "ukulele")
        assert "G4 C4 E4 A4" in squeezed(stand.seen())
        await stand.press("escape")
        assert stand.learner.catalogue.tuning.name == "ukulele"
        await stand.press("enter")
        asked = await stand.ask()
        assert asked.item.tuning.lines == 4
        await stand.press(*right(asked.question))
        assert str(stand.record[0]["item"]).split("/")[1] == "ukulele"


async def test_the_picture_follows_at_once(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        seen = [stand.seen()]
        for name, value in (
            ("dialect", "text"), ("hand", "left"), ("naming", "solfege"), ("capo", 2), ("tuning", "bass"),
            ("help", "never"), ("talk_of_speed", False), ("short_words", True),
        ):  # fmt: skip
            picture = stand.lines("#drawn") + stand.lines("#board") + stand.lines("#samples")
            await choose(stand, name, value)
            seen.append(stand.seen())
            assert stand.lines("#drawn") + stand.lines("#board") + stand.lines("#samples") != picture, name
        assert "do, 1.2 s" in seen[3]
        assert "sounds re, with the capo on fret 2" in squeezed(seen[4])
        assert " s." not in "".join(stand.lines("#samples")).replace("sounds", "")


async def test_the_colours_change_at_once(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        assert stand.app.theme == "lamp"
        await choose(stand, "theme", "ink")
        assert stand.app.theme == "ink"
    async with standing(tmp_path) as stand:
        assert stand.app.theme == "ink"


async def test_motion_stops_at_once(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        await choose(stand, "motion", "off")
        assert stand.app.animation_level == "none"


async def test_a_tuning_of_ones_own_is_typed(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        await typed(stand, "own_tuning", "D2 A2 D3 F#3 A3 D4")
        assert stand.learner.catalogue.tuning.lines == 6
        assert stand.learner.catalogue.tuning.name == "own-38-45-50-54-57-62"
        assert "my own, D2 A2 D3 F#3 A3 D4" in squeezed(stand.seen())
        await choose(stand, "tuning", "standard")
        await choose(stand, "tuning", "own")
        await typed(stand, "own_tuning", "")
        assert "choose another one first" in squeezed(stand.seen())


@pytest.mark.parametrize("text", ["D2 A2 D3", "D2 A2 D3 F#3 A3 H4", "[red]", "E4 B3 G3 D3 A2 E2"])
async def test_a_tuning_that_cannot_be_is_refused_in_a_line(tmp_path: Path, text: str) -> None:
    path = settings(tmp_path, "")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        await stand.press("s")
        await typed(stand, "own_tuning", text)
        assert "That is no tuning:" in squeezed(stand.seen())
        assert path.read_bytes() == before
        assert stand.learner.settings.tuning == "standard"


@pytest.mark.parametrize("sentence", ["One two three", "Every Amateur Does Get Better Slowly", "[red] [/]"])
async def test_a_sentence_that_does_not_fit_is_refused(tmp_path: Path, sentence: str) -> None:
    path = settings(tmp_path, "")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        await stand.press("s")
        await typed(stand, "sentence", sentence)
        assert "give six words that begin with E, A, D, G, B, E" in squeezed(stand.seen())
        assert path.read_bytes() == before


async def test_a_sentence_that_fits_is_saved(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        await typed(stand, "sentence", "Every  Amateur Does Get Better Eventually")
        assert stand.learner.settings.sentence == "Every Amateur Does Get Better Eventually"
        await typed(stand, "sentence", "")
        assert stand.learner.settings.sentence == ""


async def test_a_sentence_is_kept_without_enter_too(tmp_path: Path) -> None:
    """Escape promises to keep the settings."""
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        await typed(stand, "sentence", "Every Amateur Does Get Better Eventually", enter=False)
        await stand.press("escape")
        assert stand.learner.settings.sentence == "Every Amateur Does Get Better Eventually"


async def test_setup_leaves_a_broken_file_alone(tmp_path: Path) -> None:
    path = settings(tmp_path, "minutes = = 3")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        assert "it is not TOML" in squeezed(stand.seen())
        await stand.press("s")
        row(stand, "hand")
        await stand.press("right")
        assert "Not saved: settings are not saved" in squeezed(stand.seen())
        assert row(stand, "hand").value == "right"
    assert path.read_bytes() == before


async def test_setup_measures_the_hand(tmp_path: Path) -> None:
    settings(tmp_path, "key_seconds = 0.3")
    async with standing(tmp_path) as stand:
        await stand.press("s")
        assert "0.30 s, as you set it" in stand.seen()
        stand.app.screen.query_one("#measure").focus()
        await stand.press("enter")
        assert stand.on == "Baseline"
        await stand.press("escape")
        assert stand.on == "Setup"
        assert "0.50 s; Enter measures" in stand.seen()


@pytest.mark.parametrize("size", [(40, 12), (50, 15), (80, 24), (120, 16), (200, 60)])
@pytest.mark.parametrize("tuning", ["standard", "8-string", "bass"])
async def test_row_and_picture_fit_in_every_size(tmp_path: Path, size: tuple[int, int], tuning: str) -> None:
    settings(tmp_path, f'tuning = "{tuning}"')
    async with standing(tmp_path, size=size) as stand:
        stand.app.animation_level = "none"
        await stand.press("s")
        for _ in range(14):
            focused = stand.app.screen.focused
            assert focused is not None
            assert stand.app.screen.query_one("#choices").region.contains_region(focused.region)
            await stand.press("down")
        drawn = [line for line in stand.lines("#drawn") if "─" in line or "━" in line]
        assert len(drawn) >= stand.learner.catalogue.tuning.lines
        for name in ("#drawn", "#hints", "#looks"):
            assert stand.app.screen.region.contains_region(stand.app.screen.query_one(name).region), name


@pytest.mark.parametrize("about", [*(row.about for row in settings_of(Settings(), ()).values()), *ABOUT.values()])
def test_what_a_row_is_about_is_one_line_even_after_a_word(about: str) -> None:
    assert len(f" Saved. {about} ") <= 80
