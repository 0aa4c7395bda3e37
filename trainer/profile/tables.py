"""Tables of plain values <-> TOML, one row a line, under a sum that proves that a file is whole.

``memory.toml`` has hundreds of rows and stands between a keystroke and the first question. Its rows are
written so that what follows the ``=`` is JSON too, and when the sum proves that every byte is ours, they are
read as JSON (1 ms instead of tomllib's 20). Both readings give the same tables; tests hold them together.
"""

from __future__ import annotations

import json
import math
import re
import zlib
from collections.abc import Mapping
from typing import Any, Final

from trainer.profile.toml import parse, quote

Tables = dict[str, Any]

_KEY: Final = re.compile(r'("(?:[^"\\]|\\.)*") = ')
_ODD_HEADER: Final = re.compile(r"^\[.*\\", re.MULTILINE)
_SUM: Final = re.compile(rb'# [^\n]*\nsum = "([0-9a-f]{8})"\n')


def dump(comment: str, tables: Mapping[str, Any]) -> bytes:
    """A TOML document: values first, then tables by dotted headers.

    Args:
        comment: its first line, without ``#``.
        tables: values are bools, ints, finite floats, texts, lists of such, or mappings of such by text.

    Raises:
        ValueError: a value has no place in TOML or in JSON.
    """
    lines: list[str] = []
    _dump_table(lines, "", tables)
    body = ("\n".join(lines) + "\n").encode()
    return f'# {comment}\nsum = "{zlib.crc32(body):08x}"\n'.encode() + body


def load(data: bytes) -> Tables:
    """The tables of a document that ``dump`` wrote.

    Raises:
        ValueError: the document is cut, changed or was never ours.
    """
    stated = _SUM.match(data)
    if stated is None or int(stated[1], 16) != zlib.crc32(memoryview(data)[stated.end() :]):
        raise ValueError("it is not as Sixline wrote it")
    text = data[stated.end() :].decode()
    if "\\U" in text or _ODD_HEADER.search(text):  # JSON knows no \U; headers are split at their dots
        return parse(text)
    return _load_rows(text)


def _load_rows(text: str) -> Tables:
    root: Tables = {}
    for block in ("\n" + text).split("\n["):
        head, _, rows = block.partition("\n") if block.startswith('"') else ("", "", block)
        table = root
        for name in head[1:-2].split('"."') if head else []:
            table = table.setdefault(name, {})
        pairs = ",".join(_pair(row) for row in rows.split("\n") if row)
        table.update(json.loads("{" + pairs + "}"))
    return root


def _pair(row: str) -> str:
    if "\\" not in row:
        return row.replace('" = ', '": ', 1)
    return _KEY.sub(r"\1: ", row, count=1)


def _dump_table(lines: list[str], path: str, table: Mapping[str, Any]) -> None:
    inner = {name: value for name, value in table.items() if isinstance(value, Mapping)}
    lines += [f"{quote(name)} = {_value(value)}" for name, value in table.items() if name not in inner]
    for name, value in inner.items():
        below = f"{path}.{quote(name)}" if path else quote(name)
        lines += ["", f"[{below}]"]
        _dump_table(lines, below, value)


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(int(value))
    if isinstance(value, float) and math.isfinite(value):
        return repr(float(value))
    if isinstance(value, str):
        return quote(value)
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_value, value))}]"
    raise ValueError(f"{type(value).__name__} has no place in TOML")
