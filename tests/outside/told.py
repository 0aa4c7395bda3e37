"""``sixline items --json``, asked for once a tuning; what a program knows and nothing else."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable, Iterator
from contextlib import redirect_stdout
from functools import cache
from pathlib import Path
from typing import Any

from trainer.cli import main

Told = dict[str, Any]
"""One item as it is told."""

NO_HOME = Path(__file__).parent / "no-home"
"""A folder that there is not: reading never makes one."""


@cache
def items(tuning: str = "standard") -> tuple[Told, ...]:
    """Every item of a tuning in teaching order, from the command itself."""
    with io.TextIOWrapper(io.BytesIO(), encoding="utf-8") as out:
        with redirect_stdout(out):
            code = main(["items", "--tuning", tuning, "--json", "--home", str(NO_HOME)])
        out.seek(0)
        text = out.read()
    assert code == 0
    assert not NO_HOME.exists()
    return tuple(json.loads(text))


def of(tuning: str, drills: Iterable[str]) -> Iterator[Told]:
    """The items of some drills."""
    wanted = set(drills)
    return (item for item in items(tuning) if item["drill"] in wanted)
