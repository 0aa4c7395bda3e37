"""The one reader of the data folder."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any


@cache
def data_folder() -> Path:
    """The shipped data: inside the installed package, else the checkout's own ``data/``."""
    here = Path(__file__).resolve().parent
    return here / "data" if (here / "data").is_dir() else here.parent / "data"


def read_toml(name: str) -> dict[str, Any]:
    """One shipped TOML file, by its name below the data folder.

    Raises FileNotFoundError or tomllib.TOMLDecodeError: shipped data is broken only if the install is.
    """
    return tomllib.loads((data_folder() / name).read_text(encoding="utf-8"))


def read_table(name: str) -> list[list[str]]:
    """The lines of one shipped table of words, without its comments: far quicker to read than TOML."""
    lines = (data_folder() / name).read_text(encoding="utf-8").splitlines()
    return [line.split() for line in lines if line and not line.startswith("#")]
