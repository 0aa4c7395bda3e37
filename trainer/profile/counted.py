"""What the record adds up to: from the saved state and the lines after it, or by replay of every line."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from trainer.profile.files import Disk
from trainer.profile.lines import Entry
from trainer.profile.order import settle
from trainer.profile.problem import Problem, mend, reason
from trainer.profile.record import ANSWERS, FileRead, file_names, read_or_tell, read_record
from trainer.profile.state import Covered, State
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.parameters import Fit

Progress = Callable[[int, int], None]
"""Told how many lines of how many are replayed."""

RULES: Final = 7
"""Version of the rules by which memory follows from the record: to be raised whenever a replay of the same
lines would give another ledger, so that saved states of the old rules are made again."""


@dataclass(slots=True)
class Counted:
    """The ledger and how far into the record it goes. See ``State`` for the attributes they share.

    Attributes:
        torn: files with a torn tail, and the bytes before it.
        sizes: bytes of every file of the record when it was read.
        newer: files that a newer version wrote.
        replayed: whether every line was replayed.
        problems: what was found wrong on the way.
    """

    ledger: Ledger
    day: int = -1
    key: str = ""
    numbers: dict[str, int] = field(default_factory=dict)
    files: dict[str, Covered] = field(default_factory=dict)
    baseline: float | None = None
    baseline_day: int | None = None
    torn: dict[str, int] = field(default_factory=dict)
    sizes: dict[str, int] = field(default_factory=dict)
    newer: set[str] = field(default_factory=set)
    replayed: bool = False
    problems: list[Problem] = field(default_factory=list)

    def take(self, entry: Entry) -> None:
        """Count one line, which comes after all that were counted."""
        if entry.event is not None:
            self.believe(entry.event, entry.day)
        self.note(entry)

    def believe(self, what: Event | float, day: int) -> None:
        """Count an answer or a baseline that has no line yet."""
        if isinstance(what, Event):
            self.ledger.apply(what)
        else:
            self.baseline, self.baseline_day = what, day

    def note(self, entry: Entry) -> None:
        """Count a line whose answer the ledger has taken in already."""
        if entry.baseline is not None:
            self.baseline, self.baseline_day = entry.baseline, entry.day
        if self.is_after(entry):
            self.day, self.key = entry.day, entry.key
        self.numbers[entry.device] = max(entry.number, self.numbers.get(entry.device, 0))

    def is_after(self, entry: Entry) -> bool:
        """Whether a line comes after all that were counted."""
        return (entry.day, entry.key) > (self.day, self.key)


def count(disk: Disk, folder: Path, state: State | None, progress: Progress | None = None) -> Counted:
    """Count a profile's record: by its saved state and what came after, or all of it where that does not fit."""
    if state is not None and state.rules == RULES:
        counted = _continue(disk, folder, state)
        if counted is not None:
            return counted
    return replay(disk, folder, progress)


@dataclass(frozen=True, slots=True)
class Gathered:
    """Every line of a record, in the order in which lines count.

    Attributes:
        files: what each file holds.
        entries: the lines that count.
        losers: those that do not, because another has their key.
        problems: why nothing could be read, if so.
    """

    files: list[FileRead] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    losers: list[Entry] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    @property
    def fit(self) -> Fit | None:
        """The last fit of the memory, or None. It holds for the whole record."""
        return next((entry.fit for entry in reversed(self.entries) if entry.fit is not None), None)


def gather(disk: Disk, folder: Path, next_day: tuple[str, int] | None = None) -> Gathered:
    """Read every line of the record.

    Args:
        disk: the seam.
        folder: the profile's folder.
        next_day: a device and the day of the line that it is about to write.
    """
    try:
        files = read_record(disk, folder / ANSWERS, str(folder / ANSWERS))
    except OSError as error:
        return Gathered(problems=[_unreadable(folder, error)])
    return Gathered(files, *settle((entry for file in files for entry in file.entries), next_day))


def recount(gathered: Gathered, folder: Path, fit: Fit | None, progress: Progress | None = None) -> Counted:
    """Count every line from the first on, by the memory that a fit leaves in use; ``progress`` is called now and then.
    """
    counted = Counted(Ledger(fit=fit), replayed=True, problems=list(gathered.problems))
    entries = gathered.entries
    for done, entry in enumerate(entries):
        if progress is not None and done % 1000 == 0:
            progress(done, len(entries))
        counted.take(entry)
    if progress is not None:
        progress(len(entries), len(entries))
    _note_files(counted, folder / ANSWERS, gathered.files)
    for loser in gathered.losers:
        counted.problems.append(clash(folder, loser))
    return counted


def replay(
    disk: Disk, folder: Path, progress: Progress | None = None, next_day: tuple[str, int] | None = None
) -> Counted:
    """Count every line of the record from the first on; see ``gather`` and ``recount``."""
    gathered = gather(disk, folder, next_day)
    return recount(gathered, folder, gathered.fit, progress)


def clash(folder: Path, loser: Entry) -> Problem:
    """Two lines have one key and differ."""
    return Problem(
        "warning",
        str(folder / ANSWERS),
        None,
        f"two different lines have the key {loser.key}",
        "the bytewise smaller one counts; nothing to do",
    )


def extend(counted: Counted, disk: Disk, folder: Path) -> bool:
    """Count the lines that were written since, in place.

    Returns:
        False, with nothing changed, where they do not simply follow what is counted: then it takes a replay.

    Raises:
        OSError: the record cannot be read.
    """
    names = file_names(folder / ANSWERS, disk)
    tails = None if set(counted.files) - set(names) else _tails(disk, folder / ANSWERS, counted.files, names)
    if tails is None:
        return False
    entries, losers = settle(entry for file in tails for entry in file.entries)
    if losers or (entries and not counted.is_after(entries[0])):
        return False
    if any(entry.fit not in (None, counted.ledger.fit) for entry in entries):
        return False  # a fit holds for all that came before it
    for entry in entries:
        counted.take(entry)
    _note_files(counted, folder / ANSWERS, tails)
    return True


def _continue(disk: Disk, folder: Path, state: State) -> Counted | None:
    """The saved state and the lines after it, or None where they do not fit together."""
    try:
        ledger = Ledger.from_data(state.memory, state.history)
        counted = Counted(
            ledger, state.day, state.key, dict(state.numbers), dict(state.files), state.baseline, state.baseline_day
        )
        return counted if extend(counted, disk, folder) else None
    except (OSError, ValueError):
        return None


def _tails(
    disk: Disk, folder: Path, files: Mapping[str, Covered], names: Iterable[str]
) -> list[FileRead] | None:
    """What the files hold beyond what is covered, or None where a file is not the one that it was."""
    tails: list[FileRead] = []
    for name in names:
        path = folder / name
        covered = files.get(name, Covered())
        data = disk.read(path) or b""
        if len(data) < covered.size or zlib.crc32(memoryview(data)[: covered.size]) != covered.sum:
            return None
        if len(data) > covered.size:
            tails.append(read_or_tell(disk, path, str(path), covered.size, covered.sum))
        else:
            tails.append(FileRead(name, covered.size, covered.size, sum=covered.sum))
    return tails


def _note_files(counted: Counted, folder: Path, files: Iterable[FileRead]) -> None:
    for file in files:
        counted.sizes[file.name] = file.size
        if file.newer:
            counted.newer.add(file.name)
            counted.problems += file.problems
            continue
        before = counted.files.get(file.name, Covered())
        if file.whole:
            counted.files[file.name] = Covered(file.whole, file.sum, before.broken + file.broken)
        counted.torn.pop(file.name, None)
        if file.whole < file.size:
            counted.torn[file.name] = file.whole
        counted.problems += file.problems
        if before.broken:
            counted.problems.append(_left_out(folder / file.name, before.broken))


def _left_out(path: Path, broken: int) -> Problem:
    count = "1 line of it is no answer and is" if broken == 1 else f"{broken} lines of it are no answers and are"
    return Problem(
        "warning", str(path), None, f"{count} left out", "`sixline profile check` shows where; mend or leave it"
    )


def _unreadable(folder: Path, error: OSError) -> Problem:
    return Problem(
        "error", str(folder / ANSWERS), None, f"it cannot be read: {reason(error)}", mend(error)
    )
