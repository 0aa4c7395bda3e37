"""Changing ``profile.toml``: only Setup does it, and the comments of whoever edits it stay."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from trainer.profile.files import Disk
from trainer.profile.settings import FILE, OWN_TABLE, parse
from trainer.profile.tunings import OWN

if TYPE_CHECKING:
    from tomlkit import TOMLDocument

TEMPLATE: Final = """\
# Your settings. Edit them as you like; Setup changes single values and keeps your comments.
format = 1

# The tuning that you learn to read: `sixline tunings` lists them. "own" is the one in [own-tuning] below.
tuning = "standard"

# The fret that your capo is on, 0 for none.
capo = 0

# Note names: "letters" (C D E F G A B), "german" (H for B, B for B flat) or "solfege" (do re mi).
naming = "letters"

# How the staff is drawn: "engraved" (printed signs) or "text" (as people type it).
dialect = "engraved"

# The hand that plucks: "right" or "left". "left" mirrors the neck, never the staff.
hand = "right"

# Your own sentence for the strings, one word a string, or empty for ours.
sentence = ""

# Minutes of one sitting, 1 to 180.
minutes = 10

# Colours by name, such as "lamp" (dark) or "ink" (light); empty for the usual ones.
theme = ""

# When letters and the neck are shown: "fading" (less and less while something is new), "always" (then nothing counts
# as read without them) or "never".
help = "fading"

# Whether you could read tab before: then it starts with a placement instead of first lessons.
reader = false

# Motion on the screen: "auto" or "off".
motion = "auto"

# Whether you are told things in few and easy words, for children.
short_words = false

# Whether slow, fast and seconds are spoken of. They are kept in either case.
talk_of_speed = true

# Seconds that your hand needs for a key, 0.15 to 5; 0 means as the ten keys in Setup measured it.
key_seconds = 0

# A tuning of your own, one pitch a string, which `tuning = "own"` chooses: strings = "D2 A2 D3 G3 B3 D4".
[own-tuning]
strings = ""

# Your own keys: id of a command = key, such as "practice.explain" = "f1". The README lists the ids.
[keys]
"""


def save_settings(folder: Path, changes: Mapping[str, Any], disk: Disk) -> None:
    """Change single settings in a profile's file, which is made with its comments if it is missing.

    Args:
        folder: the profile's folder; it is made if it is missing.
        changes: new values by setting, as ``Settings`` names them; ``keys`` takes a mapping whose lines are changed
            one by one, and None as a key gives the command its own key back.
        disk: the seam.

    Raises:
        ValueError: a value is not possible, or the file is broken or newer and is therefore left as it is.
        OSError: the file cannot be read or written.
    """
    from trainer.profile.guard import check_changes

    plain = {name: _plain(value) for name, value in changes.items()}
    keys: dict[str, str | None] = dict(plain.pop("keys", {}))
    path = folder / FILE
    data = disk.read(path)
    text = TEMPLATE if data is None else _editable(data, str(path))
    known = {OWN_TABLE: tomllib.loads(text).get(OWN_TABLE, {})} if plain.get("tuning") == OWN else {}
    check_changes(known | plain | {"keys": {name: key for name, key in keys.items() if key is not None}})
    own = plain.pop("own_tuning", None)
    import tomlkit  # late: 30 ms, only when saving

    document = tomlkit.parse(text)
    for name, value in plain.items():
        if document.get(name) != value:
            document[name] = value
    if own is not None:
        _table(document, OWN_TABLE)["strings"] = own
    if keys:
        table = _table(document, "keys")
        for name, key in keys.items():
            _set_key(table, name, key)
    changed = tomlkit.dumps(document)
    tomllib.loads(changed)  # never put a file in place that could not be read back
    disk.make_folder(folder)
    disk.replace(path, changed.encode())


def _set_key(table: Any, name: str, key: str | None) -> None:
    """Change one line of ``[keys]``, whose id may have been written without quotes: a table in a table then."""
    head, _, end = name.partition(".")
    inner = table.get(head)
    if isinstance(inner, Mapping) and end in inner:
        table, name = inner, end
    if key is None:
        table.pop(name, None)
    else:
        table[name] = key


def _table(document: TOMLDocument, name: str) -> Any:
    """A table of the document, which is made where there is none."""
    import tomlkit

    if not isinstance(document.get(name), Mapping):
        document[name] = tomlkit.table()
    return document[name]


def _editable(data: bytes, shown: str) -> str:
    _, problem = parse(data, shown)
    if problem is not None:
        raise ValueError(f"settings are not saved, {problem}")
    return data.decode("utf-8-sig")


def _plain(value: Any) -> Any:
    return str(value) if isinstance(value, str) else value
