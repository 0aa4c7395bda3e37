"""Changing ``profile.toml``: only Setup does it, and the comments of whoever edits it stay."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from trainer.profile.files import Disk
from trainer.profile.settings import FILE, parse

TEMPLATE: Final = """\
# Your settings. Edit them as you like; Setup changes single values and keeps your comments.
format = 1

# The tuning that you learn to read: `sixline tunings` lists them.
tuning = "standard"

# Note names: "letters" (C D E F G A B), "german" (H for B, B for B flat) or "solfege" (do re mi).
naming = "letters"

# How the staff is drawn: "engraved" (printed signs) or "text" (as people type it).
dialect = "engraved"

# The hand that plucks: "right" or "left". "left" mirrors the neck, never the staff.
hand = "right"

# Your own sentence for the strings, one word a string, or empty for ours.
sentence = ""

# Minutes of one sitting.
minutes = 10

# Colours by name, or empty for the usual ones.
theme = ""

# Whether letters and the neck are shown while something is new.
help = true

# Whether you could read tab before: then it starts with a placement instead of first lessons.
reader = false

# Your own keys: id of a command = key. The help screen lists the ids.
[keys]
"""


def save_settings(folder: Path, changes: Mapping[str, Any], disk: Disk) -> None:
    """Change single settings in a profile's file, which is made with its comments if it is missing.

    Args:
        folder: the profile's folder; it is made if it is missing.
        changes: new values by setting; ``keys`` takes a mapping whose lines are changed one by one,
            and None as a key gives the command its own key back.
        disk: the seam.

    Raises:
        ValueError: a value is not possible, or the file is broken or newer and is therefore left as it is.
        OSError: the file cannot be read or written.
    """
    from trainer.profile.guard import check_changes

    plain = {name: _plain(value) for name, value in changes.items()}
    keys: dict[str, str | None] = dict(plain.pop("keys", {}))
    check_changes(plain | {"keys": {name: key for name, key in keys.items() if key is not None}})
    path = folder / FILE
    data = disk.read(path)
    text = TEMPLATE if data is None else _editable(data, str(path))
    import tomlkit  # late: 30 ms, only when saving

    document = tomlkit.parse(text)
    for name, value in plain.items():
        if document.get(name) != value:
            document[name] = value
    if keys:
        if not isinstance(document.get("keys"), Mapping):
            document["keys"] = tomlkit.table()
        table = document["keys"]
        for name, key in keys.items():
            if key is None:
                table.pop(name, None)
            else:
                table[name] = key
    changed = tomlkit.dumps(document)
    tomllib.loads(changed)  # never put a file in place that could not be read back
    disk.make_folder(folder)
    disk.replace(path, changed.encode())


def _editable(data: bytes, shown: str) -> str:
    _, problem = parse(data, shown)
    if problem is not None:
        raise ValueError(f"settings are not saved, {problem}")
    return data.decode("utf-8-sig")


def _plain(value: Any) -> Any:
    return str(value) if isinstance(value, str) else value
