"""The pieces that a learner keeps: ``pieces/NAME.txt`` as they were read, ``pieces.toml`` for what is known of them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, Final, NamedTuple

from trainer.profile import toml
from trainer.profile.files import Disk
from trainer.profile.paths import PIECES_FILE
from trainer.profile.problem import Problem
from trainer.profile.tables import dump, load

PIECES: Final = "pieces"
"""Folder in the profile for the texts."""
FORMAT: Final = 1

_COMMENT: Final = "Pieces that you learn; `sixline learn FILE` adds one. Their texts are in pieces."
_FILE_NAME: Final = re.compile(r"[a-z0-9-]{1,60}\.txt", re.ASCII)
_MEND: Final = "mend it or move it away; it is left as it is until then, and no piece comes first"


class KeptPiece(NamedTuple):
    """One piece.

    Attributes:
        title: as people know it, on one line.
        file: the name of its text in ``pieces``.
        day: when it was kept, as an ISO date.
        items: ids of the items that it needs, in teaching order.
        tuning: as it was given because the text could not tell, or None.
        capo: as it was given, or None.
    """

    title: str
    file: str
    day: str
    items: tuple[str, ...]
    tuning: str | None = None
    capo: int | None = None


def parse_pieces(data: bytes | None, shown: str) -> tuple[tuple[KeptPiece, ...], Problem | None]:
    """The pieces of a ``pieces.toml`` in their order, and what is wrong with it: then there are none.

    Args:
        data: the file's bytes, or None where there is none.
        shown: how the problem names the file.
    """
    if data is None:
        return (), None
    try:
        table = _tables(data)
        if type(form := table.get("format", FORMAT)) is int and form > FORMAT:
            return (), Problem("error", shown, None, f"a newer Sixline wrote it (format {form})", "update Sixline")
        if form != FORMAT:
            raise ValueError(f"format is {form!a}")
        rows = table.get("pieces", {})
        return tuple(_piece(rows[name]) for name in sorted(rows, key=lambda name: int(rows[name]["order"]))), None
    except UnicodeDecodeError:
        return (), Problem("error", shown, None, "it is not UTF-8", _MEND)
    except ValueError as error:
        return (), Problem("error", shown, None, f"it cannot be understood: {str(error)[:80]}", _MEND)
    except (KeyError, TypeError, AttributeError):
        return (), Problem("error", shown, None, "a piece lacks what it should say", _MEND)


def keep_piece(folder: Path, piece: KeptPiece, text: str, disk: Disk) -> bool:
    """Keep a piece and its text; one with the same file is replaced where it stands.

    Args:
        folder: the profile's folder. The caller holds its lock.
        piece: what is known of it.
        text: exactly as it was read.
        disk: the seam.

    Returns:
        Whether another one was replaced.

    Raises:
        ValueError: ``pieces.toml`` is broken or newer, and stays as it is.
        OSError: it cannot be written; what was there is still there.
    """
    path = folder / PIECES_FILE
    kept, problem = parse_pieces(disk.read(path), str(path))
    if problem is not None:
        raise ValueError(f"the piece is not kept, {problem}")
    replaced = any(other.file == piece.file for other in kept)
    pieces = [piece if other.file == piece.file else other for other in kept] + ([] if replaced else [piece])
    texts = folder / PIECES
    disk.make_folder(texts)
    disk.replace_all({texts / piece.file: text.encode("utf-8", "replace"), path: _document(pieces)})
    return replaced


def _tables(data: bytes) -> dict[str, Any]:
    """What stands in the file: fast where it is as we wrote it, else as any TOML."""
    try:
        return load(data)
    except ValueError:
        return toml.parse(data)


def _piece(row: dict[str, Any]) -> KeptPiece:
    title, file, day, items = row["title"], row["file"], row["day"], row["items"]
    tuning, capo = row.get("tuning"), row.get("capo")
    if not all(isinstance(text, str) for text in (title, file, day, *items)) or not isinstance(items, list):
        raise TypeError("text expected")
    if not _FILE_NAME.fullmatch(file):
        raise ValueError(f"{file[:60]!a} is no name of a piece's file")
    if not (tuning is None or isinstance(tuning, str)) or not (capo is None or type(capo) is int):
        raise TypeError("the name of a tuning and the fret of a capo expected")
    return KeptPiece(title, file, day, tuple(items), tuning, capo)


def _document(pieces: list[KeptPiece]) -> bytes:
    rows: dict[str, Any] = {}
    for order, piece in enumerate(pieces, start=1):
        known = piece._asdict() | {"items": list(piece.items)}
        given = {name: value for name, value in known.items() if value is not None}
        rows[piece.file.removesuffix(".txt")] = {"order": order, **given}
    return dump(_COMMENT, {"format": FORMAT, "pieces": rows})
