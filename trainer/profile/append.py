"""Writing the record: one append an answer, kept in memory until the file has it, then fsynced."""

from __future__ import annotations

import errno
import os
import zlib
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import Lock

from trainer.profile.files import Disk
from trainer.profile.problem import NewerFileError
from trainer.profile.record import header
from trainer.profile.state import Covered


@dataclass(slots=True)
class _Open:
    """The file that is being appended to. ``unsynced`` is what an fsync must still make safe."""

    name: str
    descriptor: int
    good: int
    unsynced: bytes = b""
    torn: bool = False
    suspect: bool = False
    new: bool = False


class Appender:
    """Appends lines to the files of the record. The caller holds the profile's lock.

    ``add`` and ``write`` belong to one thread; ``sync`` may run in another at the same time.
    """

    def __init__(
        self, disk: Disk, folder: Path, device: str, files: Mapping[str, Covered], newer: Collection[str]
    ) -> None:
        """Append to files in a folder.

        Args:
            disk: the seam.
            folder: ``answers/``, which exists.
            device: written into the header of new files.
            files: how far files are counted, by name: up to their last whole line.
            newer: files that a newer version wrote; they take nothing.
        """
        self.files = dict(files)
        """How far each file goes now, without what failed."""

        self._disk = disk
        self._folder = folder
        self._device = device
        self._newer = newer
        self._pending: list[tuple[str, bytes]] = []
        self._file: _Open | None = None
        self._state = Lock()
        self._syncing = Lock()

    @property
    def pending(self) -> int:
        """How many lines no file has taken yet; they are only in memory."""
        return len(self._pending)

    @property
    def suspect(self) -> bool:
        """Whether the last fsync failed, so that what was written may not survive a power cut."""
        return self._file is not None and self._file.suspect

    def add(self, name: str, line: str) -> None:
        """Take one line for the file of that name; ``write`` puts it there."""
        with self._state:
            self._pending.append((name, line.encode() + b"\n"))

    def write(self) -> None:
        """Append all pending lines, one write for each file; what fails stays pending.

        Raises:
            OSError: a file did not take its lines.
        """
        while self._pending:
            name = self._pending[0][0]
            file = self._file
            if file is None or file.name != name:
                file = self._turn_to(name)
            with self._state:
                count = next((n for n, (other, _) in enumerate(self._pending) if other != name), len(self._pending))
                self._append(file, b"".join(line for _, line in self._pending[:count]))
                del self._pending[:count]

    def sync(self) -> None:
        """Wait until all that was written survives a power cut.

        After a failed fsync the system may have forgotten which bytes are not on the disk yet, so the next
        call first writes the same bytes again where they stand.

        Raises:
            OSError: it may not survive; calling again tries again.
        """
        with self._syncing:
            file = self._file
            if file is None or not (file.unsynced or file.new):
                return
            with self._state:
                data, end = file.unsynced, file.good
            path = self._folder / file.name
            if file.suspect:
                self._disk.overwrite(path, end - len(data), data)
            try:
                self._disk.fsync(file.descriptor, path)
            except OSError:
                file.suspect = True
                raise
            file.suspect = False
            if file.new:
                self._disk.sync_folder(self._folder)
                file.new = False
            with self._state:
                file.unsynced = file.unsynced[len(data) :]

    def close(self) -> None:
        """Close the file; call ``write`` and ``sync`` before, this saves nothing."""
        with self._syncing:
            if self._file is not None:
                self._disk.close(self._file.descriptor)
            self._file = None

    def _turn_to(self, name: str) -> _Open:
        """Open another month's file, after making the last one safe."""
        if self._file is not None:
            with suppress(OSError):  # it is written, and sync has told; the new month must not wait for it
                self.sync()
            self.close()
        path = self._folder / name
        if name in self._newer:
            raise NewerFileError(errno.EPERM, "a newer Sixline wrote this month's file", str(path))
        size = self._disk.size(path)
        self._file = _Open(name, self._disk.open_append(path), size or 0, new=size is None)
        return self._file

    def _append(self, file: _Open, lines: bytes) -> None:
        path = self._folder / file.name
        if file.torn:
            self._disk.truncate(path, file.good)
            file.torn = False
        data = lines if file.good else header(self._device).encode() + lines
        file.torn = True
        taken = self._disk.write(file.descriptor, data, path)
        if taken != len(data):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
        file.torn = False
        file.good += len(data)
        before = self.files.get(file.name, Covered())
        self.files[file.name] = before._replace(size=file.good, sum=zlib.crc32(data, before.sum))
        file.unsynced += data
