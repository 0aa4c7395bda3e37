"""The picture at the end of a sitting: what became known or fluent today, by sign, on staff and neck or by name."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.trainer.screen import settings, standing
from trainer.schedule.status import Status
from trainer.schedule.summary import Summary
from trainer.screens.better import better, changed, shortened
from trainer.screens.summary import SummaryScreen
from trainer.widgets.sheet import Rows, Sheet

FOUND = {
    "tab-to-place/standard/5/3": Status.KEPT,
    "fret-to-note/standard/5/3": Status.KNOWN,
    "place-to-tab/standard/2/1": Status.FLUENT,
    "mark-name/hammer-on-engraved": Status.KNOWN,
    "diagram-to-tab/standard/022000": Status.SHAKY,
    "value-name/whole": Status.FLUENT,
}


def texts(rows: Rows) -> list[str]:
    return ["".join(run.text for run in row).rstrip() for row in rows.rows]


def test_the_best_comes_first_and_what_is_new_counts_as_met() -> None:
    summary = Summary(3, 3, 0, None, 1.0, ("a", "b"), (("b", Status.KNOWN), ("c", Status.FLUENT)), None)
    assert list(changed(summary).items()) == [("c", Status.FLUENT), ("b", Status.KNOWN), ("a", Status.SHAKY)]


@pytest.mark.parametrize("size", [(76, 30), (76, 22), (38, 40)])
async def test_places_are_drawn_and_the_rest_is_named(tmp_path: Path, size: tuple[int, int]) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("p")
        look = stand.app.screen.query_one("#maps", Sheet).look()
        rows = texts(better(stand.learner, FOUND, look, *size))
        told = "\n".join(rows)
        assert len(rows) <= size[1]
        assert all(len(row) <= size[0] for row in rows)
        assert "◆ 1 kept for a week and more" in told
        assert "● 2 now fluent" in told
        assert "Numbers on the staff" in told
        assert "Places on the neck" in told
        assert "◆" in next(row for row in rows if row.startswith("A ")), "the better of two on one place"
        for item in ("mark-name/hammer-on-engraved", "diagram-to-tab/standard/022000", "value-name/whole"):
            title = shortened(stand.learner.catalogue.by_id[item].title, size[0] - 2)
            assert f"{'○' if 'diagram' in item else '●' if 'value' in item else '◐'} {title}" in told


async def test_what_has_no_room_is_counted(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("p")
        look = stand.app.screen.query_one("#maps", Sheet).look()
        signs = {item.id: Status.KNOWN for item in stand.learner.catalogue.items if item.drill == "mark-name"}
        rows = texts(better(stand.learner, signs, look, 76, 8))
        assert len(rows) == 8
        named = sum(row.count("◐") for row in rows[1:])
        assert f"and {len(signs) - named} more" in rows[-1]


@pytest.mark.parametrize("drill", ["line-to-string", "mark-name", "order", "bar-count"])
async def test_the_count_of_what_has_no_room_is_never_cut(tmp_path: Path, drill: str) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("p")
        look = stand.app.screen.query_one("#maps", Sheet).look()
        items = [item.id for item in stand.learner.catalogue.items if item.drill == drill]
        for many in range(3, len(items) + 1):
            signs = dict.fromkeys(items[:many], Status.KNOWN)
            for width, height in ((76, 4), (76, 5), (40, 4), (38, 5)):
                rows = texts(better(stand.learner, signs, look, width, height))
                assert len(rows) <= height
                assert all(len(row) <= width for row in rows), rows
                named = sum(row.count("◐") for row in rows[1:])
                assert named == many or rows[-1].endswith(f"and {many - named} more")


@pytest.mark.parametrize("size", [(76, 5), (76, 3), (60, 6), (38, 5), (38, 30)])
async def test_of_many_drills_each_is_counted(tmp_path: Path, size: tuple[int, int]) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        await stand.press("p")
        look = stand.app.screen.query_one("#maps", Sheet).look()
        drills = ["mark-name", "order", "bar-count", "value-name", "diagram-to-tab", "mark-picked"]
        items = [item for item in stand.learner.catalogue.items if item.drill in drills and item.stage <= 6]
        found = {item.id: Status.FLUENT if n % 2 else Status.SHAKY for n, item in enumerate(items)}
        rows = texts(better(stand.learner, found, look, *size))
        assert len(rows) <= size[1]
        assert all(len(row) <= size[0] for row in rows), rows
        told = "\n".join(rows[-size[1] + 1 :])
        counts = [int(count) for count in re.findall(r"[○●] (\d+)\b(?! (?:now|met))", told)]
        more = re.search(r"and (\d+) more", told)
        assert sum(counts) + int(more[1] if more else 0) == len(items)


@pytest.mark.parametrize(("room", "says"), [
    (40, "The second line from the top, by number"), (38, "The second line from the top, by…"),
    (30, "The second line from the top…"), (18, "The second line…"), (5, "The…"), (3, "Th…"),
])  # fmt: skip
def test_a_title_that_does_not_fit_ends_at_a_blank(room: int, says: str) -> None:
    assert shortened("The second line from the top, by number", room) == says
    assert len(says) <= room


async def test_where_nothing_rose_it_is_said_why(tmp_path: Path) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path) as stand:
        stand.app.push_screen(SummaryScreen(stand.learner, stand.learner.begin()))
        await stand.pilot.pause()
        assert "come with the days" in stand.seen()
        assert not stand.app.screen.query_one("#better").display
