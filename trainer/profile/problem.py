"""What is wrong with a file of the learner's, where, and how to mend it."""

from __future__ import annotations

import errno
from pathlib import Path
from typing import Final, Literal, NamedTuple

Severity = Literal["error", "warning", "note"]


def printable(text: str) -> str:
    """Text from outside as it may go to a terminal: one line, no control or direction characters."""
    return text if text.isprintable() else "".join(sign if sign.isprintable() else "?" for sign in text)


class Problem(NamedTuple):
    """One thing that is wrong with one file.

    Attributes:
        severity: an ``error`` was not understood or not saved; a ``note`` lost nothing that was ever shown.
        file: the file, as a path below the home folder or a full one.
        line: line number from 1, or None where it is the whole file.
        message: what is wrong.
        mend: what to do about it.
    """

    severity: Severity
    file: str
    line: int | None
    message: str
    mend: str

    def __str__(self) -> str:
        where = self.file if self.line is None else f"{self.file}, line {self.line}"
        return printable(f"{self.message} ({where}): {self.mend}")


_MENDS: Final = {
    errno.ENOSPC: "free some space on that disk",
    errno.EDQUOT: "free some space, your quota is used up",
    errno.EROFS: "that disk is read-only, make it writable or choose another place with --home",
    errno.EACCES: "give yourself the right to write there, or choose another place with --home",
    errno.EISDIR: "move the folder away that stands there",
    errno.ENOTDIR: "move the file away that stands there",
    errno.EPERM: "give yourself the right to write there, or choose another place with --home",
}


_WORDS: Final = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is full",
    errno.EROFS: "the disk is read-only",
    errno.EACCES: "you may not write there",
    errno.EPERM: "you may not write there",
    errno.EISDIR: "a folder stands in its place",
    errno.ENOTDIR: "a file stands in the place of a folder",
}


class NewerFileError(OSError):
    """A newer version wrote the file, so that nothing may be added to it."""


def mend(error: OSError) -> str:
    """What can be done about a system error."""
    if isinstance(error, NewerFileError):
        return "update Sixline"
    return _MENDS.get(error.errno or 0, "look at that disk, or choose another place with --home")


def reason(error: OSError) -> str:
    """What went wrong, in a few plain words and without the path; else as the system says it."""
    return _WORDS.get(error.errno or 0) or error.strerror or type(error).__name__


def not_saved(error: OSError, folder: Path) -> str:
    """One line that says that answers are only in memory, and why."""
    where = error.filename or folder
    return printable(f"answers are not being saved, {reason(error)} ({where}): {mend(error)}")
