"""Which machine this is: an id of its own, so that records of several machines can be put together."""

from __future__ import annotations

import os
import re
import sys
import zlib
from pathlib import Path
from typing import Final

from trainer.profile.files import Disk
from trainer.profile.toml import parse

FILE: Final = "device.toml"
_ID: Final = re.compile(r"[a-z0-9]{6}", re.ASCII)
_SIGNS: Final = "abcdefghijklmnopqrstuvwxyz0123456789"


def host_name() -> str:
    """The machine's name without its domain, which changes with the network."""
    name = os.environ.get("COMPUTERNAME", "") if sys.platform == "win32" else os.uname().nodename
    return name.split(".")[0].lower()[:60] or "unknown"


def new_id() -> str:
    """Six random characters of a-z and 0-9."""
    return "".join(_SIGNS[byte % len(_SIGNS)] for byte in os.urandom(6))


def known_device(home: Path, disk: Disk, host: str) -> str | None:
    """This machine's id, or None where it has none yet or the file came from another machine.

    Raises:
        OSError: the file cannot be read.
    """
    return _parse(disk.read(home / FILE), host)


def own_device(home: Path, disk: Disk, host: str) -> str:
    """This machine's id; draws and writes one where it has none yet or was copied from another machine.

    A file that is not ours is kept beside the new one.

    Raises:
        OSError: the file cannot be read or written.
    """
    path = home / FILE
    data = disk.read(path)
    known = _parse(data, host)
    if known is not None:
        return known
    if data is not None and not _understood(data):
        disk.rename(path, home / f"device.kept-{zlib.crc32(data):08x}.toml")
    drawn = new_id()
    import tomli_w  # late: writing comes after the first question

    text = "# This machine, as the record of answers names it.\n" + tomli_w.dumps(
        {"format": 1, "id": drawn, "host": host}
    )
    disk.make_folder(home)
    disk.replace(path, text.encode())
    return drawn


def _load(data: bytes) -> dict[str, object]:
    try:
        return parse(data)
    except ValueError:
        return {}


def _understood(data: bytes) -> bool:
    table = _load(data)
    return table.get("format", 1) == 1 and isinstance(table.get("id"), str)


def _parse(data: bytes | None, host: str) -> str | None:
    if data is None or not _understood(data):
        return None
    table = _load(data)
    drawn = str(table["id"])
    return drawn if _ID.fullmatch(drawn) and table.get("host") == host else None
