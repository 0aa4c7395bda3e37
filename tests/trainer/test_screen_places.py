"""Today, Explain, Progress and Setup: what they show, what they save, and the way back."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from textual.widgets import Input, OptionList, Select

from tests.trainer.profile.faults import practise
from tests.trainer.screen import NOW, Stand, right, settings, squeezed, standing
from trainer.clock import Clock
from trainer.profile.store import Profile
from trainer.schedule.ahead import look_ahead
from trainer.schedule.event import Event
from trainer.screens.explain import lessons
from trainer.screens.stage import Stage
from trainer.screens.today import counts


def know(home: Path, answers: int = 12, *, days_ago: int = 9) -> None:
    """A profile that met the first items some days ago, each answered rightly but for one."""
    from drills.catalogue import catalogue
    from drills.notation.tuning import shipped

    settings(home, "# mine\nminutes = 10  # ten will do")
    items = catalogue(shipped()["standard"]).items
    profile = Profile.open(home, "me", write=True)
    for n in range(answers):
        at = NOW - timedelta(days=days_ago) + timedelta(seconds=5 * n)
        missed = n == 0
        profile.keep(
            Event(20782 - days_ago, items[n].id, not missed, "1", 1.0, 0.5, 1.7,
                  misreadings=("mirrored-line",) if missed else ()), at,
        )  # fmt: skip
    profile.close(NOW - timedelta(days=days_ago))


async def test_today_counts_what_the_schedule_says(tmp_path: Path) -> None:
    know(tmp_path)
    async with standing(tmp_path, size=(80, 30)) as stand:
        ahead = look_ahead(stand.learner.catalogue, stand.learner.profile.ledger, day=20782, minutes=10)
        assert ahead.due > 0
        assert counts(ahead) in stand.seen()
        assert f"{ahead.due} to go over" in stand.seen()
        assert "Wednesday 25 November" in stand.seen()


@pytest.mark.parametrize(("size", "shown"), [((80, 30), True), ((60, 16), False)])
async def test_the_next_14_days_stand_where_there_is_room(tmp_path: Path, size: tuple[int, int], shown: bool) -> None:
    know(tmp_path, days_ago=0)
    async with standing(tmp_path, size=size) as stand:
        assert stand.at(Stage.TODAY)
        assert ("the next 14 days" in stand.seen()) == shown


async def test_after_a_long_time_it_greets(tmp_path: Path) -> None:
    know(tmp_path, days_ago=40)
    async with standing(tmp_path) as stand:
        assert "Good to have you back." in stand.seen()
        assert "that you knew well" not in stand.seen()  # nothing of it is fluent


async def test_who_was_fluent_once_is_told_that_it_begins_with_that(tmp_path: Path) -> None:
    for day in (60, 57, 54, 50):
        know(tmp_path, days_ago=day)
    async with standing(tmp_path) as stand:
        assert "It begins with a few that you knew well." in squeezed(stand.seen())


async def test_nobody_is_welcomed_back_to_a_tuning_that_is_new_to_them(tmp_path: Path) -> None:
    know(tmp_path, days_ago=40)
    settings(tmp_path, 'tuning = "ukulele"')
    async with standing(tmp_path) as stand:
        assert stand.learner.catalogue.tuning.name == "ukulele"
        assert "back" not in stand.seen()


@pytest.mark.parametrize(("key", "screen"), [("e", "ExplainScreen"), ("p", "Progress"), ("s", "Setup")])
async def test_a_screen_opens_and_goes_back(tmp_path: Path, key: str, screen: str) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press(key)
        assert stand.on == screen
        assert "Esc" in stand.lines("#hints")[0] or "t Today" in stand.lines("#hints")[0]
        await stand.press("escape")
        assert stand.on == "PracticeScreen"
        assert stand.at(Stage.TODAY)
        assert len(stand.app.screen_stack) == 1


async def test_from_screen_to_screen_none_is_left_behind(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        for key, screen in (("e", "ExplainScreen"), ("p", "Progress"), ("e", "ExplainScreen"), ("s", "Setup")):
            await stand.press(key)
            assert stand.on == screen
            assert len(stand.app.screen_stack) == 2
        await stand.press("escape")
        assert len(stand.app.screen_stack) == 1


async def test_keys_lists_what_works_here(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("question_mark")
        assert stand.on == "Keys"
        for name in ("practice.begin", "go.explain", "go.progress", "go.setup", "help.keys", "app.quit"):
            assert f"[{name}]" in stand.seen()
        await stand.press("escape")
        assert stand.on == "PracticeScreen"


async def test_explain_has_every_lesson_in_teaching_order(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("e")
        catalogue, manner = stand.learner.catalogue, stand.learner.manner
        pages = [catalogue.explain(item, manner) for item in lessons(catalogue)]
        options = stand.app.screen.query_one(OptionList)
        assert [str(option.prompt) for option in options.options] == [page.title for page in pages]
        assert squeezed(pages[0].lines[0]) in squeezed(stand.seen())
        first = stand.lines("#picture")
        await stand.press("down", "down")
        assert squeezed(pages[2].lines[0]) in squeezed(stand.seen())
        assert stand.lines("#picture") != first


async def test_progress_counts_states_days_and_misreadings(tmp_path: Path) -> None:
    know(tmp_path)
    async with standing(tmp_path) as stand:
        await stand.press("p")
        told = squeezed(stand.seen())
        total = len(stand.learner.catalogue.items)
        assert f"{total - 12} still to come" in told
        assert "0 kept, 0 fluent, 0 known, 12 shaky" in told
        assert "Monday 16 November 12 answers, 11 right, half under 1.0 s" in told
        assert "1 x the staff read upside down" in told


async def test_progress_of_nobody_says_how_to_begin(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("p")
        assert "Nothing has been practised yet" in stand.seen()


async def choose(stand: Stand, name: str, value: str) -> None:
    """Choose in Setup."""
    stand.app.screen.query_one(f"#{name}", Select).value = value
    await stand.pilot.pause()
    await stand.pilot.pause()


async def test_setup_saves_and_keeps_comments(tmp_path: Path) -> None:
    know(tmp_path)
    path = tmp_path / "profiles" / "me" / "profile.toml"
    async with standing(tmp_path) as stand:
        await stand.press("s")
        stand.app.screen.query_one("#minutes", Select).focus()
        await stand.press("enter", "down", "enter")
        assert "Saved." in stand.seen()
        assert path.read_text(encoding="utf-8") == "format = 1\n# mine\nminutes = 15  # ten will do\n"
        assert stand.learner.settings.minutes == 15


async def test_opening_setup_changes_no_file(tmp_path: Path) -> None:
    path = settings(tmp_path, 'theme = "of-another-version"\nminutes = 7')
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        await stand.press("s")
        assert "7 minutes" in stand.seen()
        await stand.press("tab", "tab", "escape")
        assert stand.on == "PracticeScreen"
    assert path.read_bytes() == before


async def test_another_tuning_is_another_catalogue(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        await choose(stand, "tuning", "ukulele")
        await stand.press("escape")
        assert stand.learner.catalogue.tuning.name == "ukulele"
        await stand.press("enter")
        asked = await stand.ask()
        assert asked.item.tuning.lines == 4
        await stand.press(*right(asked.question))
        assert str(stand.record[0]["item"]).split("/")[1] == "ukulele"


async def test_the_colours_change_at_once(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        assert stand.app.theme == "lamp"
        await choose(stand, "theme", "ink")
        assert stand.app.theme == "ink"
    async with standing(tmp_path) as stand:
        assert stand.app.theme == "ink"


@pytest.mark.parametrize("sentence", ["One two three", "Every Amateur Does Get Better Slowly", "[red] [/]"])
async def test_a_sentence_that_does_not_fit_is_refused(tmp_path: Path, sentence: str) -> None:
    path = settings(tmp_path, "")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        await stand.press("s")
        await submit(stand, sentence)
        assert "give 6 words in E A D G B E" in squeezed(stand.seen())
        assert path.read_bytes() == before


async def test_a_sentence_that_fits_is_saved(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        await submit(stand, "Every  Amateur Does Get Better Eventually")
        assert stand.learner.settings.sentence == "Every Amateur Does Get Better Eventually"
        await submit(stand, "")
        assert stand.learner.settings.sentence == ""


async def test_a_sentence_is_kept_without_enter_too(tmp_path: Path) -> None:
    """Escape promises to keep the settings."""
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        box = stand.app.screen.query_one(Input)
        box.focus()
        box.value = "Every Amateur Does Get Better Eventually"
        await stand.press("escape")
        assert stand.learner.settings.sentence == "Every Amateur Does Get Better Eventually"


async def submit(stand: Stand, sentence: str) -> None:
    box = stand.app.screen.query_one(Input)
    box.focus()
    box.value = sentence
    await stand.press("enter")


async def test_setup_leaves_a_broken_file_alone(tmp_path: Path) -> None:
    path = settings(tmp_path, "minutes = = 3")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        assert "it is not TOML" in squeezed(stand.seen())
        await stand.press("s")
        await choose(stand, "hand", "left")
        assert "Not saved: settings are not saved" in squeezed(stand.seen())
    assert path.read_bytes() == before


async def test_setup_measures_the_hand(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("s")
        stand.app.screen.query_one("#measure").focus()
        await stand.press("enter")
        assert stand.on == "Baseline"
        await stand.press("escape")
        assert stand.on == "Setup"


async def test_a_clock_that_jumped_years_is_confirmed_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    practise(tmp_path, 3)
    monkeypatch.setattr(Clock, "is_set", property(lambda clock: False))
    monkeypatch.setattr(Clock, "now", lambda clock: NOW + timedelta(days=800))
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        assert stand.on == "Confirm"
        assert "2029-02-02" in stand.seen()
        await stand.press("n")
        assert stand.at(Stage.TODAY)
        await stand.press("enter", "y")
        assert not stand.at(Stage.TODAY)
