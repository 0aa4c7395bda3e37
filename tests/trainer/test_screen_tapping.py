"""A bar tapped against the pulse: what counts as a tap, when it ends, and what is answered."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from textual.app import App, ComposeResult
from textual.events import Key

from drills.tapping import Tapping
from tests.trainer.screen import squeezed, standing
from trainer.screens.messages import stamp
from trainer.screens.tapped import AGAIN, START, Tapped
from trainer.widgets.answer_bar import AnswerBar

FAST = Tapping(tempo=600, lead_in=2, moments=(0.0, 0.1, 0.2), length=0.3, window=0.06)
"""Three beats of a tenth of a second after two that count in: over in 0.55 s."""
LEAD = 0.2
TAPPED = "value-tap/4-4/q-q-h"


class Host(App[None]):
    """Nothing but the row that answers stand on."""

    def compose(self) -> ComposeResult:
        yield AnswerBar()


class Tapper:
    """One bar, and what came of it."""

    def __init__(self, host: Host) -> None:
        self.bar = host.query_one(AnswerBar)
        self.answers: list[tuple[str, float]] = []
        self.over = asyncio.Event()
        self.way = Tapped(FAST, self.bar, self.keep)

    async def keep(self, answer: str, seconds: float) -> None:
        self.answers.append((answer, seconds))
        self.over.set()

    async def space(self) -> None:
        await self.way.key(Key("space", " "))

    async def tap(self, *times: float) -> None:
        """Start the pulse now and tap so many seconds after it."""
        began = stamp()
        await self.space()
        for time in times:
            await self.way.click("tap", began + time)

    def shown(self) -> str:
        """What stands on it, as one line."""
        return " ".join(str(self.bar.content).split())


async def test_taps_are_answered_from_where_the_bar_begins_once_it_is_over() -> None:
    host = Host()
    async with host.run_test():
        tapper = Tapper(host)
        assert START in tapper.shown()
        await tapper.tap(LEAD + 0.01, LEAD + 0.11, LEAD + 0.22)
        assert tapper.answers == []
        await asyncio.wait_for(tapper.over.wait(), 10)
        times = [float(part) for part in tapper.answers[0][0].split()]
        assert [round(later - times[0], 2) for later in times] == [0.0, 0.1, 0.21]
        assert FAST.fits(times)


async def test_tapping_along_with_the_count_in_and_a_bouncing_key_are_no_taps() -> None:
    host = Host()
    async with host.run_test():
        tapper = Tapper(host)
        await tapper.tap(0.02, 0.1, LEAD, LEAD + 0.01, LEAD + 0.1, LEAD + 0.2)
        await asyncio.wait_for(tapper.over.wait(), 10)
        assert len(tapper.answers[0][0].split()) == 3


async def test_a_tap_a_little_before_the_bar_counts_and_no_time_is_negative() -> None:
    host = Host()
    async with host.run_test():
        tapper = Tapper(host)
        await tapper.tap(LEAD - 0.03, LEAD + 0.07, LEAD + 0.17)
        await asyncio.wait_for(tapper.over.wait(), 10)
        assert tapper.answers[0][0].split()[0] == "0.00"


async def test_a_bar_without_a_tap_is_no_answer_and_can_be_begun_again() -> None:
    host = Host()
    async with host.run_test() as pilot:
        tapper = Tapper(host)
        await tapper.tap()
        async with asyncio.timeout(10):
            while AGAIN not in tapper.shown():
                await pilot.pause()
        assert tapper.answers == []
        await tapper.tap(LEAD, LEAD + 0.1, LEAD + 0.2)
        await asyncio.wait_for(tapper.over.wait(), 10)
        assert len(tapper.answers) == 1


async def test_backspace_starts_over_and_an_explanation_stops_the_pulse() -> None:
    host = Host()
    async with host.run_test() as pilot:
        tapper = Tapper(host)
        await tapper.tap(LEAD, LEAD + 0.1)
        assert "[1]" in tapper.shown()
        await tapper.way.key(Key("backspace", None))
        assert START in tapper.shown()
        await tapper.tap(LEAD, LEAD + 0.1, LEAD + 0.2)
        tapper.way.stop()
        began = stamp()
        while stamp() < began + 0.7:
            await pilot.pause()
        assert tapper.answers == []


async def test_the_pulse_says_where_it_is_without_colour() -> None:
    host = Host()
    async with host.run_test():
        tapper = Tapper(host)
        await tapper.space()
        assert tapper.shown().startswith("[1] 2 ")
        assert "counting in" in tapper.shown()
        tapper.way.stop()


async def test_the_beat_brightens_more_once_the_bar_has_begun_and_taps_leave_marks() -> None:
    host = Host()
    async with host.run_test() as pilot:
        tapper = Tapper(host)
        await tapper.space()
        assert not reversed_signs(tapper)
        async with asyncio.timeout(10):
            while "counting in" in tapper.shown():
                await pilot.pause()
        assert reversed_signs(tapper) == "[1]"
        await tapper.space()
        assert tapper.shown().count("●") == 1
        tapper.way.stop()


async def test_what_stands_under_the_staff_stays_in_another_window(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.only(TAPPED)
        await stand.pilot.resize_terminal(50, 15)
        await stand.pilot.pause()
        assert "Space starts the pulse" in squeezed(stand.seen())
        await stand.press("space")
        await stand.pilot.resize_terminal(80, 24)
        await stand.pilot.pause()
        assert "counting in" in stand.seen()
        await stand.press("escape")


@pytest.mark.parametrize("away", ["slash", "ctrl+p", "suspended"])
async def test_the_pulse_stops_where_the_bar_cannot_be_seen(tmp_path: Path, away: str) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.only(TAPPED)
        await stand.press("space")
        assert "counting in" in stand.seen()
        if away == "suspended":
            stand.app.app_suspend_signal.publish(stand.app)
            await stand.pilot.pause()
        else:
            await stand.press(away, "escape")
        assert START in squeezed(stand.seen())
        assert stand.asked.item.id == TAPPED


async def test_a_click_starts_the_pulse(tmp_path: Path) -> None:
    async with standing(tmp_path, begun=True) as stand:
        await stand.only(TAPPED)
        await stand.click("#answers", "Space starts")
        assert "counting in" in stand.seen()
        await stand.press("escape")


def reversed_signs(tapper: Tapper) -> str:
    """What stands in light on the row."""
    strips = tapper.bar.render_lines(tapper.bar.region.reset_offset)
    return "".join(run.text for strip in strips for run in strip if run.style and run.style.reverse)
