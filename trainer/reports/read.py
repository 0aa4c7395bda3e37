"""``sixline read``."""

from __future__ import annotations

import json
from typing import Any, NamedTuple

from drills.notation.reader import read_bytes
from drills.uncollected import uncollected
from trainer.clock import Clock
from trainer.complaint import DONE, ERRORS
from trainer.opening import Choices, find_tuning, open_profile
from trainer.reports import print_lines, tell_problems
from trainer.reports.inked import print_drawings, room
from trainer.reports.piece_rows import System, systems
from trainer.reports.reach import reach_of
from trainer.reports.read_document import document
from trainer.reports.read_words import coverage, head, problems
from trainer.reports.tab_file import read_file


class Given(NamedTuple):
    """What is to be read.

    Attributes:
        file: its name, ``-`` for standard input.
        tuning: the name of one, where the text cannot tell.
        capo: its fret, where the text cannot tell.
    """

    file: str
    tuning: str | None = None
    capo: int | None = None


def report(choices: Choices, clock: Clock, given: Given, *, as_json: bool) -> int:
    """Print a piece as it was read, what is doubtful in it, and how much of it the learner reads; the exit code.

    Raises:
        Complaint: the file cannot be read or is too large, or there is no such tuning.
    """
    profile = open_profile(choices, clock, write=False)
    tell_problems(profile.problems)
    tuning = None if given.tuning is None else find_tuning(given.tuning, profile.settings.own_tuning)
    data = read_file(given.file)
    with uncollected():
        reading = read_bytes(data, tuning=tuning, capo=given.capo)
        reach = reach_of(reading, profile.ledger.states)
        if as_json:
            _print_document(document(reading, reach))
        else:
            print_lines(head(reading))
            drawn = systems(reading, room(), profile.settings.naming)
            print_drawings((_heading(system), system.drawing) for system in drawn)
            print_lines(problems(reading.doubts))
            print_lines(coverage(reading, reach))
    return ERRORS if reading.errors else DONE


def _heading(system: System) -> str:
    first = f"{system.first} (continued)" if system.continued else str(system.first)
    return f"Bar {first}" if system.first == system.last else f"Bars {first} to {system.last}"


def _print_document(found: dict[str, Any]) -> None:
    """A line for each key, and for each bar, mark and problem: only the slow encoder of the library indents."""
    lines = []
    for key, value in found.items():
        if isinstance(value, list) and value:
            inner = ",\n".join(map(json.dumps, value))
            lines.append(f"{json.dumps(key)}: [\n{inner}\n]")
        else:
            lines.append(f"{json.dumps(key)}: {json.dumps(value)}")
    print("{\n" + ",\n".join(lines) + "\n}", flush=True)
