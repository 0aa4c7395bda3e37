"""What the reading commands print: a document for programs, lines for people. Nothing here creates a file."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from typing import Any

from trainer.complaint import shown
from trainer.profile.problem import Problem
from trainer.rows import ascii_text


def print_json(document: Any) -> None:
    """One JSON document, in ASCII whatever the terminal; of a list a line for each of its parts."""
    if isinstance(document, list):  # without indentation, which only the slow encoder of the library knows
        text = ",\n".join(map(json.dumps, document))
        print(f"[\n{text}\n]" if text else "[]", flush=True)
    else:
        print(json.dumps(document, indent=1), flush=True)


def print_lines(lines: Iterable[str]) -> None:
    """Our own words and outside text, a flush a line; nothing in them can steer the terminal."""
    signs = knows_signs()
    for line in lines:
        line = shown(line)
        print(line if signs else ascii_text(line), flush=True)


def knows_signs() -> bool:
    """Whether standard output can take more than ASCII."""
    encoding = getattr(sys.stdout, "encoding", None) or ""
    return encoding.lower().replace("-", "") == "utf8"


def table(rows: Sequence[Sequence[str]]) -> list[str]:
    """Columns side by side, two blanks between them."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    ]


def tell_problems(problems: Iterable[Problem]) -> None:
    """What is wrong with the learner's files, a line each on stderr; the sound part is used all the same."""
    for problem in problems:
        print(f"sixline: {problem.severity}: {shown(str(problem))}", file=sys.stderr)
