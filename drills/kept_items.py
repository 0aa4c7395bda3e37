"""The items of a tuning as they were worked out before, kept beside the bytecode for the next start.

They follow from the code and the shipped data alone, as bytecode does, and are used only while neither has changed.
To work them out takes every drill's module; the first question needs one.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Final
from zlib import crc32

from drills import resources
from drills.notation.tuning import Tuning
from drills.question import Item, Kind

FOLDER: Final = Path(__file__).parent / "__pycache__"
_KINDS: Final = {kind.value: kind for kind in Kind}


def read(tuning: Tuning) -> tuple[Item, ...] | None:
    """The items as they were kept, or None where there are none for the code and the data as they are now."""
    try:
        head, _, body = _file(tuning).read_text(encoding="utf-8").partition("\n")
        if head != _head(body):
            return None
        return tuple(_item(line.split("\t"), tuning) for line in body.split("\n"))
    except (OSError, ValueError, KeyError):
        return None


def write(tuning: Tuning, items: tuple[Item, ...]) -> None:
    """Keep items, if that can be done: where no bytecode is kept, these are not either."""
    if sys.dont_write_bytecode or sys.pycache_prefix is not None:
        return
    body = "\n".join(map(_line, items))
    file = _file(tuning)
    new = file.with_suffix(f".{os.getpid()}")
    try:
        new.write_text(f"{_head(body)}\n{body}", encoding="utf-8")
        new.replace(file)
    except OSError:
        new.unlink(missing_ok=True)


def _file(tuning: Tuning) -> Path:
    return FOLDER / f"items-{tuning.name}.tsv"


def _head(body: str) -> str:
    """What the items follow from, and what they are: a file that was harmed is as good as none."""
    return f"items {crc32(body.encode()):08x} of {_fingerprint():08x}"


def _fingerprint() -> int:
    """Of the name, size and time of every source and data file that items follow from."""
    seen = []
    waiting = [str(Path(__file__).parent), str(resources.data_folder())]
    while waiting:
        with os.scandir(waiting.pop()) as entries:
            for entry in entries:
                if entry.name.endswith((".py", ".txt", ".toml")):
                    state = entry.stat()
                    seen.append(f"{entry.path} {state.st_size} {state.st_mtime_ns}")
                elif entry.is_dir() and entry.name not in ("__pycache__", "data", "pictures"):
                    waiting.append(entry.path)
    return crc32("\n".join(sorted(seen)).encode())


def _line(item: Item) -> str:
    fields = (
        item.id, item.drill, item.subject, item.kind.value, str(int(item.stage)), item.title, item.lesson,
        " ".join(item.needs), str(item.think),
    )  # fmt: skip
    return "\t".join(fields)


def _item(fields: list[str], tuning: Tuning) -> Item:
    """One line back again.

    Raises:
        ValueError, KeyError: it is no such line.
    """
    id, drill, subject, kind, stage, title, lesson, needs, think = fields
    return Item(
        id, drill, tuning, subject, _KINDS[kind], int(stage), title, lesson, tuple(needs.split()), float(think)
    )
