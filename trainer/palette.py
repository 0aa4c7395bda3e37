"""The command palette: what the table of commands allows on the screen that is up."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from textual.command import DiscoveryHit, Hit, Hits, Provider

from trainer import commands
from trainer.screens.base import Place


class TableProvider(Provider):
    """Commands of the screen below, by their words."""

    async def search(self, query: str) -> Hits:
        """Those whose words match."""
        matcher = self.matcher(query)
        for command in self._available():
            text = f"{command.words}: {command.help}"
            if (score := matcher.match(text)) > 0:
                yield Hit(score, matcher.highlight(text), partial(self._run, command), text=text)

    async def discover(self) -> Hits:
        """All of them."""
        for command in self._available():
            yield DiscoveryHit(f"{command.words}: {command.help}", partial(self._run, command))

    def _available(self) -> Iterator[commands.Command]:
        screen = self.screen
        if isinstance(screen, Place):
            for command in commands.at(*screen.PLACES):
                if screen.check_action(command.action.partition("(")[0], ()) is True:
                    yield command

    async def _run(self, command: commands.Command) -> Any:
        await self.screen.run_action(f"screen.{command.action}")
