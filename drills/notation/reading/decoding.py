"""Bytes -> text, whatever wrote them: UTF-8, UTF-16 with or without its mark, or an old Western code page."""

from __future__ import annotations

import codecs
from typing import Final

_MARKS: Final = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
"""Longer marks first where one begins with another."""

_LOOKED_AT: Final = 4096


def decode(data: bytes) -> tuple[str, str]:
    """The text of a file, and the name of the encoding that it was taken for. Never raises."""
    for mark, name in _MARKS:
        if data.startswith(mark):
            return data[len(mark) :].decode(name, "replace"), name
    if name := _wide(data[:_LOOKED_AT]):
        return data.decode(name, "replace"), name
    try:
        return data.decode("utf-8"), "utf-8"
    except UnicodeDecodeError:
        return _western(data)


def _wide(start: bytes) -> str:
    """UTF-16 without its mark: tab is mostly ASCII, so every other byte is zero."""
    half = len(start) // 2
    if half < 2:
        return ""
    if start[1::2].count(0) > 0.7 * half and start[0::2].count(0) < 0.1 * half:
        return "utf-16-le"
    if start[0::2].count(0) > 0.7 * half and start[1::2].count(0) < 0.1 * half:
        return "utf-16-be"
    return ""


def _western(data: bytes) -> tuple[str, str]:
    """UTF-8 with a few broken characters where most that is not ASCII is sound, else Windows-1252 or Latin-1."""
    mended = data.decode("utf-8", "replace")
    broken = mended.count("\ufffd")
    sound = sum(1 for character in mended if character > "\x7f") - broken
    if sound > 2 * broken:
        return mended, "utf-8"
    try:
        return data.decode("cp1252"), "windows-1252"
    except UnicodeDecodeError:
        return data.decode("latin-1"), "latin-1"
