"""Reading the record: ``answers/YYYY-MM.DEVICE.toml``, line by line, around whatever is broken."""

from __future__ import annotations

import re
import zlib
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from trainer.profile.files import Disk
from trainer.profile.lines import Entry, parse_line
from trainer.profile.problem import Problem, reason

FORMAT: Final = 1
ANSWERS: Final = "answers"
ASIDE: Final = "aside"
"""Folder in the profile for what was cut off or could not be understood."""

FILE_NAME: Final = re.compile(r"\d{4}-(?:0[1-9]|1[0-2])\.([a-z0-9]{6})\.toml", re.ASCII)
_FORMAT_LINE: Final = re.compile(r"format\s*=\s*(\d{1,9})\s*(?:#.*)?", re.ASCII)
_DEVICE_LINE: Final = re.compile(r'device\s*=\s*"[a-z0-9]{6}"\s*(?:#.*)?', re.ASCII)
_CHECK: Final = "`sixline profile check` lists every such line; mend the line or leave it out"


@dataclass(slots=True)
class FileRead:
    """What one file of the record holds.

    Attributes:
        name: the file's name in ``answers/``.
        size: its bytes.
        whole: bytes up to and with the last newline; what follows is a torn tail.
        entries: its sound lines, as they stand.
        broken: how many lines were not understood.
        sum: CRC-32 of its bytes up to ``whole``.
        newer: whether a newer version wrote it, so that nothing of it was read.
        problems: what is wrong with it.
    """

    name: str
    size: int
    whole: int
    entries: list[Entry] = field(default_factory=list)
    broken: int = 0
    sum: int = 0
    newer: bool = False
    problems: list[Problem] = field(default_factory=list)


def header(device: str) -> str:
    """The first lines of a file of the record."""
    return f'format = {FORMAT}\ndevice = "{device}"\n'


def file_name(key: str) -> str:
    """The file that a line belongs into: the month of its key (UTC) and its device."""
    return f"{key[:7]}.{key[25:31]}.toml"


def file_names(folder: Path, disk: Disk) -> list[str]:
    """The names of the record's files in ``answers/``, oldest month first."""
    return [name for name in disk.names(folder) if FILE_NAME.fullmatch(name)]


def sound_end(data: bytes) -> int:
    """How many bytes of a file count: up to the last newline, without last lines that NULs have spoilt."""
    end = data.rfind(b"\n") + 1
    while end:
        start = data.rfind(b"\n", 0, end - 1) + 1
        if b"\0" not in data[start:end] or _is_answer(data[start:end].strip(b"\0\r\n ")):
            break
        end = start
    return end


def _is_answer(line: bytes) -> bool:
    try:
        parse_line(line.decode())
    except ValueError:
        return False
    return True


def read_file(disk: Disk, path: Path, shown: str, start: int = 0, before: int = 0) -> FileRead:
    """Read one file of the record from byte ``start`` (0, or just after a newline).

    Args:
        disk: the seam.
        path: the file.
        shown: how problems name it.
        start: bytes that are known already.
        before: CRC-32 of those.

    Raises:
        OSError: it cannot be read.
    """
    data = disk.read(path, start) or b""
    whole = sound_end(data)
    found = FileRead(path.name, start + len(data), start + whole)
    found.sum = zlib.crc32(memoryview(data)[:whole], before)
    if whole < len(data):
        found.problems.append(
            Problem(
                "note",
                shown,
                None,
                f"its last {len(data) - whole} bytes are no whole line: power went while an answer was written",
                "nothing to do, the next practice cuts them off and keeps them aside",
            )
        )
    lines = data[:whole].split(b"\n")
    lines.pop()
    number = 0
    if start == 0:
        number = _read_header(lines, shown, found)
    first = _lazy_line_count(disk, path, start)
    for index in range(number, len(lines)):
        try:
            text = lines[index].decode()
            found.entries.append(parse_line(text))
        except ValueError as error:
            _read_odd_line(lines[index], error, found, shown, index, first)
    return found


def _read_header(lines: list[bytes], shown: str, found: FileRead) -> int:
    """Read the lines before the first answer; returns how many there are."""
    form: int | None = None
    for number, line in enumerate(lines):
        text = line.decode("utf-8", "replace").strip()
        stated = _FORMAT_LINE.fullmatch(text)
        if stated:
            form = int(stated[1])
            if form > FORMAT:
                found.newer = True
                found.problems.append(
                    Problem("error", shown, number + 1, f"a newer Sixline wrote it (format {form})", "update Sixline")
                )
                return len(lines)
        elif text and not text.startswith("#") and not _DEVICE_LINE.fullmatch(text):
            break
    else:
        number = len(lines)
    if lines and form is None:
        found.problems.append(
            Problem("warning", shown, 1, "it does not say its format", f"put the line `format = {FORMAT}` first")
        )
    return number


def _lazy_line_count(disk: Disk, path: Path, start: int) -> Callable[[], int]:
    return lambda: (disk.read(path) or b"")[:start].count(b"\n")


def _read_odd_line(
    line: bytes, error: ValueError, found: FileRead, shown: str, index: int, first: Callable[[], int]
) -> None:
    """A line that is no answer as it stands: empty, a comment, after NULs, ended as on Windows, or broken."""
    kept = line.strip(b"\0\r ")
    if not kept or kept.startswith(b"#"):
        return
    if kept != line:
        try:
            found.entries.append(parse_line(kept.decode()))
        except ValueError as inner:
            error = inner
        else:
            return
    found.broken += 1
    if b"\0" in line:
        found.problems.append(
            Problem("note", shown, first() + index + 1, "power went while this line was written", "nothing to do")
        )
        return
    what = "it is not UTF-8" if isinstance(error, UnicodeDecodeError) else str(error)[:120]
    found.problems.append(
        Problem("error", shown, first() + index + 1, f"this line is no answer and is left out: {what}", _CHECK)
    )


def read_record(disk: Disk, folder: Path, shown: str) -> list[FileRead]:
    """Read every file of ``answers/``; a file that cannot be read is a problem, not an end.

    Raises:
        OSError: the folder itself cannot be read.
    """
    return [read_or_tell(disk, folder / name, f"{shown}/{name}") for name in file_names(folder, disk)]


def read_or_tell(disk: Disk, path: Path, shown: str, start: int = 0, before: int = 0) -> FileRead:
    """``read_file``, with a system error told as the file's problem."""
    try:
        return read_file(disk, path, shown, start, before)
    except OSError as error:
        found = FileRead(path.name, start, start, sum=before)
        found.problems.append(
            Problem("error", shown, None, f"it cannot be read: {reason(error)}", "look at the disk and its rights")
        )
        return found
