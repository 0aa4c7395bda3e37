"""The name of a piece's file, from a title that may hold anything."""

from __future__ import annotations

import re
from typing import Final
from unicodedata import normalize
from zlib import crc32

from trainer.profile.paths import is_device

UNTITLED: Final = "Untitled"
LONGEST_TITLE: Final = 100
LONGEST: Final = 40
"""Characters of a name without what tells it from others."""


def clean_title(title: str) -> str:
    """A title on one line, without control and direction characters; may be empty."""
    return "".join(sign for sign in " ".join(title.split()) if sign.isprintable())[:LONGEST_TITLE].strip()


def piece_name(title: str, text: str) -> str:
    """A file name without its ending: small letters, digits and dashes, the same one for the same title.

    That is a name on every platform, and no two differ in case alone. Where it cannot hold the whole title (other
    scripts, long titles) a sum of the title follows, so that two songs do not share one.

    Args:
        title: as ``clean_title`` gives it.
        text: of the piece, which names it where it has no title.
    """
    plain = normalize("NFKD", title).lower()
    name = "-".join(re.findall(r"[a-z0-9]+", re.sub(r"[\u0300-\u036f'\u2019]", "", plain)))
    whole = len(name) <= LONGEST and not any(sign.isalnum() and not sign.isascii() for sign in plain)
    if name and whole and not is_device(name):
        return name
    told = crc32((title or text).encode("utf-8", "replace"))
    return f"{name[:LONGEST].strip('-') or 'piece'}-{told:08x}"
