"""Small pieces of TOML that the profile's files share."""

from __future__ import annotations

import tomllib
from typing import Any


def parse(data: bytes | str) -> dict[str, Any]:
    """The table of a TOML document, with or without a byte order mark.

    Raises:
        ValueError: it is not UTF-8 or not TOML; UnicodeDecodeError and TOMLDecodeError are such.
    """
    text = data.decode("utf-8-sig") if isinstance(data, bytes) else data
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise ValueError("it is nested too deeply") from None


def quote(text: str) -> str:
    """A TOML basic string on one line; whatever is not plainly printable is escaped.

    That is every control, direction, line-separating and unassigned character (``str.isprintable``), so that
    showing a file in a terminal can do no harm.
    """
    if text.isprintable() and '"' not in text and "\\" not in text:
        return f'"{text}"'
    return '"' + "".join(map(_escape, text)) + '"'


def _escape(sign: str) -> str:
    if sign in '"\\':
        return "\\" + sign
    if sign.isprintable():
        return sign
    return f"\\u{ord(sign):04X}" if ord(sign) < 0x10000 else f"\\U{ord(sign):08X}"
