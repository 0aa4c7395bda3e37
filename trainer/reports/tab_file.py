"""The bytes of a file of tab, or of standard input: never more than the reader takes."""

from __future__ import annotations

import sys
from typing import Final

from drills.notation.reader import MOST_BYTES
from trainer.complaint import Complaint

STDIN: Final = "-"


def read_file(name: str) -> bytes:
    """All of a file; ``-`` is standard input.

    Raises:
        Complaint: it cannot be read, or is larger than 16 MiB.
    """
    where = "standard input" if name == STDIN else name
    try:
        data = _standard_input() if name == STDIN else _file(name)
    except (OSError, ValueError) as error:
        what = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise Complaint(f"cannot be read: {what}", where, "name a file of plain-text tab, or - for input") from None
    if len(data) > MOST_BYTES:
        mend = "cut out the piece that you want to read"
        raise Complaint(f"larger than {MOST_BYTES // 2**20} MiB, so it is hardly tab", where, mend)
    return data


def _file(name: str) -> bytes:
    with open(name, "rb") as file:
        return file.read(MOST_BYTES + 1)


def _standard_input() -> bytes:
    if sys.stdin is None:
        raise ValueError("standard input is closed")
    return sys.stdin.buffer.read(MOST_BYTES + 1)
