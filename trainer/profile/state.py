"""``memory.toml`` and ``history.toml``: what follows from the record, with what it covers."""

from __future__ import annotations

import zlib
from dataclasses import dataclass, field
from itertools import chain
from pathlib import Path
from typing import Any, Final, NamedTuple

from trainer.profile.files import Disk
from trainer.profile.tables import Tables, dump, load

FORMAT: Final = 1
MEMORY: Final = "memory.toml"
HISTORY: Final = "history.toml"
_COMMENT: Final = "Made from the record in answers/, and made again when it is missing. Not for editing."


class Covered(NamedTuple):
    """How far a file of the record is counted already.

    Attributes:
        size: bytes from its start.
        sum: CRC-32 of those bytes, so that no change to them goes unseen.
        broken: lines among them that were not understood.
    """

    size: int = 0
    sum: int = 0
    broken: int = 0


@dataclass(slots=True)
class State:
    """All that memory.toml and history.toml say.

    Attributes:
        rules: version of the rules by which memory follows from the record.
        day, key: of the last line that counts, in the record's order; -1 and empty for none.
        numbers: highest running number by device.
        files: what is covered, by file name.
        baseline: the last measured key baseline in seconds, or None; ``baseline_day`` is its day.
        settings: snapshot of the settings, under ``digest``, the hash of profile.toml; None where that file
            had problems, which are to be told again.
        memory, history: the ledger's tables.
    """

    rules: int
    day: int = -1
    key: str = ""
    numbers: dict[str, int] = field(default_factory=dict)
    files: dict[str, Covered] = field(default_factory=dict)
    baseline: float | None = None
    baseline_day: int | None = None
    settings: Tables | None = None
    digest: str = ""
    memory: Tables = field(default_factory=dict)
    history: Tables = field(default_factory=dict)


def _upto(state: State) -> Tables:
    return {
        "day": state.day,
        "key": state.key,
        "numbers": state.numbers,
        "files": {name: list(covered) for name, covered in state.files.items()},
    }


def to_documents(state: State) -> tuple[bytes, bytes]:
    """The bytes of memory.toml and of history.toml."""
    head = {"format": FORMAT, "rules": state.rules}
    memory: Tables = {**head, "upto": _upto(state)}
    if state.baseline is not None:
        memory["baseline"] = {"seconds": state.baseline, "day": state.baseline_day}
    if state.settings is not None:
        memory["snapshot"] = {"digest": state.digest, "settings": state.settings}
    memory["memory"] = state.memory
    history = {**head, "upto": _upto(state), "history": state.history}
    return dump(_COMMENT, memory), dump(_COMMENT, history)


def from_documents(memory: bytes, history: bytes) -> State:
    """The state that two documents hold.

    Raises:
        ValueError: one is broken or newer, or they are not of the same moment.
    """
    table, days = load(memory), load(history)
    try:
        if table["format"] != FORMAT or days["format"] != FORMAT:
            raise ValueError("it has another format")
        if table["upto"] != days["upto"] or table["rules"] != days["rules"]:
            raise ValueError("memory.toml and history.toml are not of the same moment")
        return _state(table, days)
    except (KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"it lacks what it should say: {error}") from None


def _state(table: dict[str, Any], days: dict[str, Any]) -> State:
    upto = table["upto"]
    counts = [table["rules"], upto["day"], *upto["numbers"].values(), *chain(*upto["files"].values())]
    texts = [upto["key"], *upto["numbers"], *upto["files"]]
    inner = [table["memory"], days["history"], table.get("snapshot", {}).get("settings", {})]
    for values, kind in ((counts, int), (texts, str), (inner, dict)):
        if not all(isinstance(value, kind) for value in values):
            raise TypeError(f"{kind.__name__} expected")
    baseline = table.get("baseline", {})
    snapshot = table.get("snapshot", {})
    return State(
        rules=table["rules"],
        day=upto["day"],
        key=upto["key"],
        numbers=dict(upto["numbers"]),
        files={name: Covered(*covered) for name, covered in upto["files"].items()},
        baseline=baseline.get("seconds"),
        baseline_day=baseline.get("day"),
        settings=snapshot.get("settings"),
        digest=snapshot.get("digest", ""),
        memory=table["memory"],
        history=days["history"],
    )


def read_state(folder: Path, disk: Disk) -> tuple[State | None, bool]:
    """The saved state of a profile, or None where there is none that can be used.

    Returns:
        The state, and whether a file is there that is not understood, and so is to be kept aside before
        another takes its place.
    """
    try:
        memory, history = disk.read(folder / MEMORY), disk.read(folder / HISTORY)
    except OSError:
        return None, True
    if memory is None or history is None:
        return None, any(data is not None and not _is_ours(data) for data in (memory, history))
    try:
        return from_documents(memory, history), False
    except ValueError:
        return None, not (_is_ours(memory) and _is_ours(history))


def _is_ours(data: bytes) -> bool:
    """Whether this program wrote the whole document, so that it may be replaced."""
    try:
        return bool(load(data).get("format") == FORMAT)
    except ValueError:
        return False


def write_state(folder: Path, documents: tuple[bytes, bytes], disk: Disk, keep_old: bool, aside: Path) -> None:
    """Replace both files whole; first keep aside what is there and is not understood, where that is said.

    Raises:
        OSError: they cannot be written; what was there is still there.
    """
    for name, data in zip((HISTORY, MEMORY), reversed(documents), strict=True):
        if keep_old:
            old = disk.read(folder / name)
            if old is not None and not _is_ours(old):
                keep_aside(disk, aside, name, old)
        disk.replace(folder / name, data)


def keep_aside(disk: Disk, aside: Path, name: str, data: bytes) -> Path:
    """Keep bytes that are about to leave a file, under a name that says which and what; once if repeated.

    Raises:
        OSError: they cannot be kept; then they must stay where they are.
    """
    path = aside / f"{name}.{zlib.crc32(data):08x}"
    if disk.size(path) != len(data):
        disk.make_folder(aside)
        disk.replace(path, data)
    return path
