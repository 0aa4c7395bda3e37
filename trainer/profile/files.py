"""The one seam to the file system: every read and write of the learner's files goes through a ``Disk``."""

from __future__ import annotations

import errno
import os
import stat
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Final

_BINARY: Final = getattr(os, "O_BINARY", 0)
TEMPORARY: Final = ".new"
"""Ending of a file that is being written before it takes another's place."""


class Disk:
    """Real files. Tests override ``reach`` to fail, wait or count at any point, and ``write`` to write short.

    Every method raises OSError as the system does; a missing file is no error where a method says so.
    """

    def reach(self, point: str, path: Path) -> None:
        """Called before each system call with its name; does nothing here."""

    def size(self, path: Path) -> int | None:
        """Bytes in a file, or None where there is none."""
        self.reach("size", path)
        try:
            return os.stat(path).st_size
        except (FileNotFoundError, NotADirectoryError):
            return None

    def is_folder(self, path: Path) -> bool:
        """Whether there is a folder of this name."""
        self.reach("size", path)
        return os.path.isdir(path)

    def stands_in(self, path: Path, *, folder: bool = False) -> str | None:
        """What stands in the place of a file (or of a folder) and is none, in a few words; None where all is well."""
        self.reach("size", path)
        try:
            mode = os.stat(path).st_mode
        except OSError:
            return None  # what it is cannot be told; reading it tells why
        if folder:
            return None if stat.S_ISDIR(mode) else "a file"
        return None if stat.S_ISREG(mode) else "a folder" if stat.S_ISDIR(mode) else "no ordinary file"

    def names(self, folder: Path) -> list[str]:
        """The names in a folder, sorted; none where nothing has its name."""
        self.reach("names", folder)
        try:
            return sorted(os.listdir(folder))
        except FileNotFoundError:
            return []

    def read(self, path: Path, start: int = 0) -> bytes | None:
        """What a file holds from byte ``start`` on, or None where there is no such file."""
        self.reach("read", path)
        try:
            if stat.S_ISFIFO(os.stat(path).st_mode):
                raise OSError(errno.EINVAL, "it is no ordinary file", str(path))  # opening it would wait for ever
            with open(path, "rb") as file:
                file.seek(start)
                return file.read()
        except (FileNotFoundError, NotADirectoryError):
            return None

    def make_folder(self, folder: Path) -> None:
        """Make a folder and those above it, so that they survive a power cut; it may exist already."""
        self.reach("make_folder", folder)
        missing = []
        above = folder
        while not above.exists() and above != above.parent:
            missing.append(above)
            above = above.parent
        os.makedirs(folder, exist_ok=True)
        for made in reversed(missing):
            self.sync_folder(made.parent)

    def open_append(self, path: Path) -> int:
        """A descriptor that writes at the end of a file, which is made if it is missing."""
        self.reach("open", path)
        return os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT | _BINARY, 0o666)

    def write(self, descriptor: int, data: bytes, path: Path) -> int:
        """One write of all bytes; returns how many were taken (fewer when the disk fills up)."""
        self.reach("write", path)
        return os.write(descriptor, data)

    def fsync(self, descriptor: int, path: Path) -> None:
        """Wait until what was written survives a power cut."""
        self.reach("fsync", path)
        os.fsync(descriptor)

    def close(self, descriptor: int) -> None:
        """Give a descriptor back."""
        os.close(descriptor)

    def truncate(self, path: Path, size: int) -> None:
        """Cut a file after ``size`` bytes."""
        self.reach("truncate", path)
        os.truncate(path, size)

    def overwrite(self, path: Path, start: int, data: bytes) -> None:
        """Write the same bytes again where they stand, because an fsync of them failed."""
        self.reach("overwrite", path)
        with open(path, "r+b", buffering=0) as file:
            file.seek(start)
            if file.write(data) != len(data):
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    def sync_folder(self, folder: Path) -> None:
        """Make new and renamed names in a folder survive a power cut; Windows needs and knows no such call."""
        self.reach("sync_folder", folder)
        if sys.platform == "win32":
            return
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)

    def rename(self, path: Path, target: Path) -> None:
        """Give a file another name, taking the place of what has it."""
        self.reach("rename", path)
        os.replace(path, target)

    def remove(self, path: Path) -> None:
        """Remove a file; it may be missing."""
        self.reach("remove", path)
        path.unlink(missing_ok=True)

    def replace(self, path: Path, data: bytes) -> None:
        """Put ``data`` in the place of a whole file: after a crash there is the old file or the new one."""
        self.replace_all({path: data})

    def replace_all(self, files: Mapping[Path, bytes]) -> None:
        """Put other bytes in the places of whole files: none is replaced before the disk has taken them all."""
        temporaries = {path.with_name(path.name + TEMPORARY): path for path in files}
        try:
            for temporary, path in temporaries.items():
                self._write_whole(temporary, files[path])
            for temporary, path in temporaries.items():
                self.rename(temporary, path)
        except OSError:
            for temporary in temporaries:
                with suppress(OSError):  # the first error is the one to tell; a left-over is overwritten next time
                    self.remove(temporary)
            raise
        for folder in dict.fromkeys(path.parent for path in files):
            self.sync_folder(folder)

    def _write_whole(self, path: Path, data: bytes) -> None:
        self.reach("create", path)
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | _BINARY, 0o666)
        try:
            view = memoryview(data)
            while view:
                taken = self.write(descriptor, bytes(view), path)
                view = view[taken:]
            self.fsync(descriptor, path)
        finally:
            os.close(descriptor)
