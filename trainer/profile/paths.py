"""Where the learner's files are, and which names a profile may have."""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from trainer.profile.files import Disk

DEFAULT_NAME: Final = "me"
PIECES_FILE: Final = "pieces.toml"
"""In the profile's folder; known here, since most have none and then nothing else of it is imported."""

_NAME: Final = re.compile(r"[A-Za-z0-9_-](?:[A-Za-z0-9 _-]{0,38}[A-Za-z0-9_-])?")
_DEVICES: Final = frozenset(
    ["con", "prn", "aux", "nul", "conin", "conout", "clock"]
    + [f"{port}{number}" for port in ("com", "lpt") for number in range(10)]
)
"""Device names of Windows and DOS (Microsoft, "Naming Files, Paths, and Namespaces"), without case."""


def home_folder(given: str | None, environ: Mapping[str, str]) -> Path:
    """The folder of all profiles: ``--home``, ``SIXLINE_HOME``, ``XDG_DATA_HOME``, else the platform's own.

    ``XDG_DATA_HOME`` counts on every Unix, macOS included, if it is absolute (XDG Base Directory
    Specification 0.8: relative paths are to be ignored).
    """
    chosen = given or environ.get("SIXLINE_HOME")
    if chosen:
        return Path(chosen).expanduser().absolute()
    data = environ.get("XDG_DATA_HOME", "")
    if sys.platform != "win32" and Path(data).is_absolute():
        return Path(data) / "sixline"
    from platformdirs import user_data_dir  # late: 20 ms that only this branch needs

    return Path(user_data_dir("sixline", appauthor=False))


def check_name(name: str) -> str:
    """The name, if a profile may have it.

    Raises:
        ValueError: one line that says what a name may be.
    """
    if not _NAME.fullmatch(name):
        raise ValueError(
            f"{name[:60]!a} is no profile name: use 1 to 40 letters A-Z, digits, inner spaces, - and _"
        )
    if is_device(name):
        raise ValueError(f"{name!a} is no profile name: some systems keep it for a device, choose another")
    return name


def is_device(name: str) -> bool:
    """Whether some platform keeps a name for a device, whatever its case and ending."""
    return name.lower() in _DEVICES


def profile_folder(home: Path, name: str, disk: Disk) -> Path:
    """The folder of a profile, whether or not it exists; one that differs only in case is the same profile.

    Raises:
        ValueError: no profile may have this name.
        OSError: the home folder cannot be read.
    """
    folder = home / "profiles"
    wanted = check_name(name).lower()
    for existing in disk.names(folder):
        if existing.lower() == wanted:
            return folder / existing
    return folder / name


def profile_names(home: Path, disk: Disk) -> list[str]:
    """The names of all profiles, sorted without case.

    Raises:
        OSError: the home folder cannot be read.
    """
    folder = home / "profiles"
    found = [name for name in disk.names(folder) if _NAME.fullmatch(name) and disk.is_folder(folder / name)]
    return sorted(found, key=lambda name: (name.lower(), name))
