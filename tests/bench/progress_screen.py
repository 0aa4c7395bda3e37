"""A Progress screen of 600 items, pushed and drawn, against a plain screen of header, text and footer.

Both in one app and one run, in turn: from the push to the first frame after all that it brought about.
"""

from __future__ import annotations

import asyncio
import gc
import tempfile
import time
from pathlib import Path

from textual.app import ComposeResult
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Footer, Header, Static

from tests.bench.figures import show
from tests.bench.record import fill
from tests.pictures import open_app
from trainer.app import SixlineApp
from trainer.screens.progress import Progress

PAIRS = 15
SIZE = (120, 40)
FEWEST = 600


class Plain(Screen[None]):
    """The floor: as little as a screen can be, with as many rows of text as there is room for."""

    BINDINGS = [("t", "app.pop_screen", "Today"), ("e", "app.bell", "Explain"), ("q", "app.quit", "Quit")]

    def compose(self) -> ComposeResult:
        yield Header()
        yield Static("\n".join("a row of text " * 8 for _ in range(36)), markup=False)
        yield Footer()


def main() -> None:
    """Print the ratio."""
    with tempfile.TemporaryDirectory() as folder:
        ours, floor, items = asyncio.run(measure(fill(Path(folder), 12_000)))
    print(f"{items} items (meant for {FEWEST} and more); first one {ours[0] * 1000:.1f} ms")
    show("Progress screen", ours[1:], floor[1:], "at most 1.5")


async def measure(home: Path) -> tuple[list[float], list[float], int]:
    """Seconds of each push of ours and of the floor, and how many items there are."""
    ours: list[float] = []
    floor: list[float] = []
    app = open_app(home)
    async with app.run_test(size=SIZE) as pilot:
        await pilot.pause()
        for _ in range(PAIRS + 1):
            ours.append(await pushed(app, pilot, Progress(app.learner)))
            floor.append(await pushed(app, pilot, Plain()))
    return ours, floor, len(app.learner.catalogue.items)


async def pushed(app: SixlineApp, pilot: Pilot[None], screen: Screen[None]) -> float:
    """Seconds from the push until a frame with all of it has been drawn."""
    gc.collect()
    drawn = asyncio.Event()
    start = time.perf_counter()
    await app.push_screen(screen)
    screen.call_after_refresh(drawn.set)
    await drawn.wait()
    seconds = time.perf_counter() - start
    await pilot.pause()
    app.pop_screen()
    await pilot.pause()
    return seconds


if __name__ == "__main__":
    main()
