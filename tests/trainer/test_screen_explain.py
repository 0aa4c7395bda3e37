"""The library: every lesson on its shelf, found by words, in both dialects, also while a question waits."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input, OptionList

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from drills.question import Manner
from tests.trainer.screen import Stand, right, settings, squeezed, standing
from trainer.screens.library import REST, SHELVES, family, find, page_of, pages
from trainer.screens.stage import Stage


@pytest.mark.parametrize("tuning", ["standard", "ukulele"])
def test_every_lesson_stands_once_in_teaching_order(tuning: str) -> None:
    whole, manner = catalogue(shipped()[tuning]), Manner()
    library = pages(whole, manner)
    names = [(page.family, page.name) for page in library]
    assert len(set(names)) == len(names)
    for item in whole.items:
        page = library[page_of(library, whole, item, manner)]
        assert page.told == whole.explain(page.item, manner)
        told = whole.explain(item, manner)
        assert page.told.title == told.title
        assert len(page.told.lines) >= len(told.lines)
    order = {item.id: n for n, item in enumerate(whole.items)}
    for shelf in SHELVES:
        places = [order[page.item.id] for page in library if page.family == shelf]
        assert places == sorted(places)


def test_every_drill_has_a_family() -> None:
    assert {family(drill) for drill in catalogue(shipped()["standard"]).drills} <= set(SHELVES) - {REST}
    assert family("xyz") == REST


def test_words_find_titles_first() -> None:
    library = pages(catalogue(shipped()["standard"]), Manner())
    assert find(library, "  ") == library
    found = find(library, "HAMMER")
    assert "hammer" in found[0].told.title.casefold()
    assert all("hammer" in page.words for page in found)
    assert len(found) < len(library)
    assert find(library, "hammer [/]") == []


@pytest.mark.parametrize(
    ("sign", "page"),
    [("h", "Hammer-on"), ("p", "Pull-off"), ("PM", "Palm mute"), ("tr", "Trill"), ("~", "Vibrato"), ("/", "Slide up"),
     ("p i m a", "Letters for the picking hand")],
)  # fmt: skip
def test_a_sign_is_found_as_it_is_typed(sign: str, page: str) -> None:
    library = pages(catalogue(shipped()["standard"]), Manner())
    found = [each.told.title for each in find(library, sign)]
    assert page in found[:3]
    assert len(found) < len(library) / 3


def test_the_beginning_of_a_word_finds_it_before_it_is_whole() -> None:
    library = pages(catalogue(shipped()["standard"]), Manner())
    assert "Hammer-on" in [page.told.title for page in find(library, "ha")]


def titles(stand: Stand) -> list[str]:
    """The pages that are listed, without the names of the families."""
    options = stand.app.screen.query_one(OptionList).options
    return [" ".join(str(option.prompt).split()) for option in options if not option.disabled]


async def test_the_list_turns_the_pages(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("e")
        library = pages(stand.learner.catalogue, stand.learner.manner)
        assert titles(stand) == [page.name for page in library]
        assert squeezed(library[0].told.lines[0]) in squeezed(stand.seen())
        first = stand.lines("#picture")
        await stand.press("down", "down", "down")
        assert squeezed(library[3].told.lines[0]) in squeezed(stand.seen())
        assert stand.lines("#picture") != first


async def test_a_word_finds_and_escape_forgets_it(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("e")
        every = titles(stand)
        await stand.press("slash", *"hammer")
        assert titles(stand)[0] == "Hammer-on"
        assert len(titles(stand)) < len(every)
        assert "Hammer-on" in "".join(stand.lines("#title"))
        await stand.press("enter")
        assert stand.app.screen.focused is stand.app.screen.query_one(OptionList)
        await stand.press("slash", "escape")
        assert titles(stand) == every
        assert stand.on == "ExplainScreen"
        assert "Hammer-on" in "".join(stand.lines("#title"))
        await stand.press("escape")
        assert stand.on == "PracticeScreen"


async def test_what_is_nowhere_is_said(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("e", "slash")
        stand.app.screen.query_one(Input).value = "[red]zzz"
        await stand.press("down")
        assert "Nothing holds “[red]zzz”." in squeezed(stand.seen())
        await stand.press("escape")
        assert titles(stand)


async def test_one_key_shows_the_other_dialect(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("e", "slash", *"hammer", "enter")
        assert "as it is printed" in stand.seen()
        assert "H" in "".join(stand.lines("#picture"))
        await stand.press("d")
        assert "as people type it" in stand.seen()
        assert "5h7" in "".join(stand.lines("#picture"))
        await stand.press("d")
        assert "as it is printed" in stand.seen()
    assert 'dialect = "text"' not in (tmp_path / "profiles" / "me" / "profile.toml").read_text(encoding="utf-8")


async def test_a_tall_window_shows_both_dialects(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True, size=(120, 44)) as stand:
        await stand.press("e", "slash", *"hammer", "enter")
        assert "as it is printed" in stand.seen()
        assert "as people type it" in stand.seen()
        assert "5h7" in "".join(stand.lines("#other"))


async def test_a_waiting_question_can_be_looked_up_and_is_untimed_after_it(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("enter")
        asked = await stand.ask()
        await stand.press("slash")
        assert stand.on == "LookUp"
        lesson = stand.learner.catalogue.explain(asked.item, stand.learner.manner)
        assert squeezed(lesson.lines[0]) in squeezed(stand.seen())
        assert "Back" in stand.lines("#hints")[0]
        await stand.press("p", "s", "q")
        assert stand.on == "LookUp"
        await stand.press("escape")
        assert stand.at(Stage.ASKING)
        assert stand.asked is asked
        await stand.think(*right(asked.question))
        assert stand.record[0]["timed"] is False


@pytest.mark.parametrize("size", [(40, 12), (50, 15), (80, 24), (200, 60)])
async def test_the_end_of_a_page_can_be_reached(tmp_path: Path, size: tuple[int, int]) -> None:
    async with standing(tmp_path, begun=True, size=size) as stand:
        await stand.press("e", "slash", *"hammer", "enter")
        page = stand.app.screen.query_one("#page")
        body = stand.app.screen.query_one("#body")
        for _ in range(10):
            if page.scroll_offset.y >= page.max_scroll_y:
                break
            await stand.press("space")
        assert page.region.contains_region(body.region.shrink((max(0, body.size.height - 1), 0, 0, 0)))
        assert body.region.bottom <= page.region.bottom


@pytest.mark.parametrize("then", ["(7)", "palm mute"])
async def test_who_types_faster_than_the_list_turns_gets_what_was_typed_last(tmp_path: Path, then: str) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("e", "slash")
        box, listed = stand.app.screen.query_one(Input), stand.app.screen.query_one(OptionList)
        listed.highlighted = len(listed.options) - 1
        box.value = "note"
        box.value = then
        await stand.pilot.pause()
        await stand.pilot.pause()
        assert stand.on == "ExplainScreen"
        assert not titles(stand) or listed.highlighted_option is not None
        if then == "palm mute":
            assert titles(stand)[0] == "Palm mute"
            told = next(page.told for page in find(pages(stand.learner.catalogue, stand.learner.manner), then))
            assert told.lines[0] in squeezed(stand.seen())
