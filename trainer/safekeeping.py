"""What happens to the profile while the screen draws: lock, warm-up and fsync, in threads."""

from __future__ import annotations

import asyncio

from rich.cells import cell_len

from trainer.learner import Learner
from trainer.profile.lock import HeldError
from trainer.schedule import memory


class Safekeeping:
    """Gets the profile ready to be written after the first frame, and syncs it off the drawing path."""

    def __init__(self, learner: Learner) -> None:
        self._learner = learner
        self._ready: asyncio.Task[str | None] | None = None
        self._synced: asyncio.Task[str | None] | None = None
        self._owed = False

    def prepare(self) -> None:
        """Begin with what the first question need not wait for: the lock of the profile, the memory model."""
        if self._ready is None:
            self._ready = asyncio.create_task(asyncio.to_thread(self._make_ready))

    async def refused(self) -> str | None:
        """Why the profile may not be written by this process, in one line, or None."""
        self.prepare()
        reason = await self._ready if self._ready is not None else None
        if reason is not None:
            self._ready = None
        return reason

    def owe(self) -> None:
        """Something was kept that is not yet synced; ``sync`` or at the latest ``settled`` sees to it."""
        self._owed = True

    def sync(self) -> None:
        """Begin to make what was kept survive a power cut, if that is still owed."""
        if not self._owed:
            return
        self._owed = False
        self._synced = asyncio.create_task(asyncio.to_thread(self._learner.profile.sync))

    async def settled(self) -> None:
        """Wait for the sync that was begun, or is owed."""
        self.sync()
        if self._synced is not None:
            await self._synced

    def _make_ready(self) -> str | None:
        memory.warm()
        cell_len("─")  # loads the tables of cell widths, which the first verdict needs
        if not self._learner.profile.exists:
            return None
        try:
            self._learner.profile.acquire(self._learner.clock.now())
        except HeldError as error:
            return str(error)
        except OSError:
            return None  # practice goes on; the profile says in ``unsaved`` that nothing is being saved
        return None
