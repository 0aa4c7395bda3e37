"""Progress: places shaded by sign and shade, stages, misreadings, days, and other tunings."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from drills.catalogue import catalogue
from drills.notation.drawing import Role
from drills.notation.tuning import shipped
from tests.trainer.known import DAY, know
from tests.trainer.screen import NOW, settings, squeezed, standing
from trainer.profile.store import Profile
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.status import Status
from trainer.screens.progress_words import bar, misread_rows, misreadings, stage_row
from trainer.screens.shading import SIGNS, asked_places, by_stage, elsewhere, shading
from trainer.widgets.places_map import neck_map, staff_map
from trainer.widgets.sheet import Sheet
from trainer.wording import status_word

STANDARD = catalogue(shipped()["standard"])


def ledger(*answers: tuple[int, str, bool, str]) -> Ledger:
    """A record of answers: day, item, right, misreading or nothing."""
    found = Ledger()
    for day, item, right, kind in answers:
        found.apply(Event(day, item, right, "9", 1.0, 0.5, 1.7, misreadings=(kind,) if kind else ()))
    return found


def test_every_state_has_a_sign_of_its_own() -> None:
    for ascii_only, signs in SIGNS.items():
        assert set(signs) == set(Status)
        assert len(set(signs.values())) == len(Status)
        assert all(len(sign) == 1 and sign.isascii() == ascii_only for sign in signs.values() if sign != "·")


def test_places_are_those_of_the_facts() -> None:
    asked = asked_places(STANDARD.tuning)
    for each in asked:
        facts = STANDARD.facts(STANDARD.by_id[each.id])
        assert each.place == (facts["string"], facts["fret"])
    drills = {each.id.split("/")[0] for each in asked}
    assert {"tab-to-place", "place-to-tab", "fret-to-note"} <= drills
    for item in STANDARD.items:
        if item.drill in ("tab-to-place", "place-to-tab", "fret-to-note"):
            assert item.id in {each.id for each in asked}


def test_a_place_is_as_weak_as_its_weakest_that_was_met() -> None:
    days = (1, 2, 3, 4)
    known = [(day, "tab-to-place/standard/6/3", True, "") for day in days]
    found = shading(STANDARD, ledger(*known).states)
    assert found.staff[6, 3] is Status.KNOWN
    assert found.neck[6, 3] is Status.NEW
    assert found.highest == 3
    weak = shading(STANDARD, ledger(*known, (5, "fret-to-note/standard/6/3", True, "")).states)
    assert weak.staff[6, 3] is Status.SHAKY


def test_stages_count_every_item() -> None:
    states = ledger((1, "tab-to-place/standard/6/3", True, "")).states
    counts = by_stage(STANDARD, states)
    assert sum(sum(stage.values()) for stage in counts.values()) == len(STANDARD.items)
    assert sum(stage[Status.SHAKY] for stage in counts.values()) == 1


@pytest.mark.parametrize("room", [8, 20, 40])
def test_a_bar_shows_all_that_there_is(room: int) -> None:
    counts = dict.fromkeys(Status, 0) | {Status.NEW: 900, Status.KEPT: 1, Status.FLUENT: 1, Status.SHAKY: 1}
    cells = dict(bar(counts, room))
    assert sum(cells.values()) == room
    assert all(bool(cells[state]) == bool(counts[state]) for state in Status)
    assert dict(bar(dict.fromkeys(Status, 0) | {Status.KEPT: 3}, room))[Status.KEPT] == room


@pytest.mark.parametrize("width", [100, 76, 60, 40])
def test_a_stage_counts_as_fluent_what_is_kept_too_as_today_does(width: int) -> None:
    counts = dict.fromkeys(Status, 0) | {Status.NEW: 20, Status.KNOWN: 3, Status.FLUENT: 18, Status.KEPT: 44}
    row = stage_row("The neck", counts, width)
    told = f"{row.title}{row.told}"
    assert "62 of" in told
    assert ("62 of  85 fluent,  44 kept" in told) == (width != 60)  # where there is no room for more


def test_a_habit_still_happens_until_its_items_were_read_twice_and_then_stands_apart() -> None:
    one, two = "tab-to-place/standard/6/3", "tab-to-place/standard/1/3"
    had = [(1, one, False, "mirrored-line"), (1, two, False, "mirrored-line"), (2, one, False, "mirrored-line")]
    slip = [(2, "tab-to-place/standard/5/3", False, "octave")]
    clean = [(day, item, True, "") for day in (3, 4) for item in (one, two, "tab-to-place/standard/5/3")]
    found = misreadings(ledger(*had, *slip, *clean[:-3]))
    assert found.there == [("mirrored-line", 3, 2), ("octave", 1, 2)]
    assert not found.gone
    found = misreadings(ledger(*had, *slip, *clean))
    assert found.gone == [("mirrored-line", 3, 4)]
    assert not found.there  # a slip that was made up for: neither
    rid = ["Misreadings you are rid of", "  + reading the staff upside down, 3 times, gone since Mon 5 Jan"]
    assert misread_rows(ledger(*had, *slip, *clean), "+", 80) == rid
    again = misread_rows(ledger(*had, *slip, *clean, (9, one, False, "mirrored-line")), "+", 80)
    assert again == [rid[0], rid[1].replace("3 times", "4 times")]  # one slip later is no habit, and never "last on"


def test_a_misreading_of_an_unknown_kind_is_told_by_its_name() -> None:
    rows = misread_rows(ledger((1, "tab-to-place/standard/6/3", False, "read\x1b[31m")), "+", 80)
    assert rows[0] == "Misreadings that still happen"
    assert "read" in rows[1]
    assert "\x1b" not in rows[1]


def test_what_is_known_elsewhere_is_counted_by_tuning() -> None:
    ukulele = catalogue(shipped()["ukulele"])
    there = ["tab-to-place/standard/6/3", "fret-to-note/standard/6/3"]
    met = [*there, "mark-name/hammer-on-engraved", ukulele.items[0].id]
    assert elsewhere(ukulele, met) == {"standard": 2}


def test_staff_and_neck_stand_fret_over_fret_and_upside_down() -> None:
    places = {(string, fret): "ox"[string == 6] for string in range(1, 7) for fret in range(13)}
    labels = ("e", "B", "G", "D", "A", "E")
    for width in (38, 60, 86):
        staff = staff_map(places, labels, 12, width).rows
        neck = neck_map(places, labels, 12, width).rows
        for string in range(1, 7):
            assert columns(staff[string - 1]) == columns(neck[6 - string]), (width, string)
        assert len(columns(staff[0])) == 13


def columns(row: tuple[tuple[str, Role], ...]) -> list[tuple[int, str]]:
    """Column and sign of every place in a row."""
    found, at = [], 0
    for text, role in row:
        found += [(at + n, sign) for n, sign in enumerate(text) if role is Role.FRET]
        at += len(text)
    return found


async def test_progress_counts_states_days_and_misreadings(tmp_path: Path) -> None:
    know(tmp_path)
    async with standing(tmp_path) as stand:
        await stand.press("p")
        told = squeezed(stand.seen())
        total = len(stand.learner.catalogue.items)
        assert f"· {total - 12} new ○ 12 met ◐ 0 known ● 0 fluent ◆ 0 kept" in told
        assert "Mon 16 Nov" in told
        assert "12 answers, 11 right, half under 1.0 s" in told
        assert "1 x reading the staff upside down" in told
        assert "The lines" in told


async def test_nothing_is_said_of_speed_where_it_is_not_wanted(tmp_path: Path) -> None:
    know(tmp_path)
    settings(tmp_path, "talk_of_speed = false")
    async with standing(tmp_path) as stand:
        await stand.press("p")
        told = squeezed(stand.seen())
        assert "12 answers, 11 right" in told
        assert "half under" not in told
        assert not re.search(r"\d s\b", told)


async def test_progress_of_nobody_says_how_to_begin(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.press("p")
        assert "Nothing has been practised yet: it begins with Enter" in squeezed(stand.seen())


async def test_another_tuning_begins_anew_and_the_first_is_not_forgotten(tmp_path: Path) -> None:
    know(tmp_path)
    settings(tmp_path, 'tuning = "ukulele"')
    async with standing(tmp_path) as stand:
        await stand.press("p")
        told = squeezed(stand.seen())
        assert "Ukulele" in stand.lines("#date")[0]
        assert "Nothing has been practised yet on this tuning" in told
        assert "Guitar, standard: 12 met, all of it kept for you there." in told
        assert "Mon 16 Nov" in told


async def test_high_frets_are_shown_once_they_are_met(tmp_path: Path) -> None:
    settings(tmp_path, "")
    profile = Profile.open(tmp_path, "me", write=True)
    profile.keep(Event(DAY - 1, "fret-to-note/standard/6/15", True, "G", 1.0, 0.5, 1.7), NOW - timedelta(days=1))
    profile.close(NOW)
    async with standing(tmp_path, size=(120, 40)) as stand:
        await stand.press("p")
        assert any(line.split()[-1:] == ["24"] for line in stand.lines("#maps"))


@pytest.mark.parametrize("size", [(40, 12), (50, 15), (80, 24), (120, 40), (200, 60)])
@pytest.mark.parametrize("tuning", ["standard", "8-string", "ukulele"])
async def test_no_row_is_cut(tmp_path: Path, size: tuple[int, int], tuning: str) -> None:
    know(tmp_path, 60)
    settings(tmp_path, f'tuning = "{tuning}"\nnaming = "solfege"')
    async with standing(tmp_path, size=size) as stand:
        await stand.press("p")
        for sheet in stand.app.screen.query(Sheet):
            rows = stand.lines(f"#{sheet.id}")
            assert any(rows)
            assert all(len(row) <= sheet.size.width + 1 for row in rows)
            assert sheet.region.right <= size[0]
            maps = [row for row in rows if "─" in row or "━" in row]
            assert all(row.rstrip("─━┼┿┤│╪•0123456789 ") != "" for row in maps)


@pytest.mark.parametrize("ascii_only", [False, True])
async def test_five_states_differ_by_sign_and_by_shade(tmp_path: Path, ascii_only: bool) -> None:
    settings(tmp_path, "")
    async with standing(tmp_path, ascii_only=ascii_only) as stand:
        await stand.press("p")
        legend = stand.lines("#maps")[0] if stand.lines("#maps")[0].strip() else stand.lines("#maps")[1]
        for state, sign in SIGNS[ascii_only].items():
            assert f"{sign} " in legend
            assert status_word(state) in legend
        sheet = stand.app.screen.query_one("#maps", Sheet)
        shades = [(str(style.color), style.bold) for style in sheet.look().shades.values()]
        assert len(set(shades)) == len(Status)
