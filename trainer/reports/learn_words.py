"""What is said of a piece that was kept: where, how much of it is read, how much of it comes first."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from drills.notation.reading.shapes import Doubt, Reading, Severity, TuningFrom
from drills.notation.tuning import Tuning
from trainer.reports.reach import Reach
from trainer.wording import counted


class Learned(NamedTuple):
    """What became of a piece.

    Attributes:
        title: on one line.
        reading: as it was read.
        reach: how much of it the learner reads.
        kept: where its text is, or None where it was not kept.
        replaced: whether one of the same name was kept before.
        first: ids of what was not met yet and comes first, in teaching order.
        learns: the tuning that the learner learns.
    """

    title: str
    reading: Reading
    reach: Reach
    kept: Path | None
    replaced: bool
    first: list[str]
    learns: Tuning


def errors_of(reading: Reading) -> list[Doubt]:
    """What could not be understood."""
    return [doubt for doubt in reading.doubts if doubt.severity is Severity.ERROR]


def refusal(reading: Reading, reach: Reach) -> tuple[str, str] | None:
    """Why a piece cannot be learned and how to mend it, or None."""
    if not reading.bars:
        return "no tab was found", "write three or more rows of dashes and frets under one another"
    if reading.tuning_from is TuningFrom.UNKNOWN:
        return "its tuning is unknown", "give --tuning NAME, `sixline tunings` lists them"
    if not reach.needs.items:
        return "nothing in it is sure enough to be asked about", "`sixline read` says what is doubtful in it"
    return None


def lines(learned: Learned) -> Iterator[str]:
    """For people, of a piece that was kept."""
    reading, reach = learned.reading, learned.reach
    tuning = reading.piece.tuning
    capo = f", capo at fret {tuning.capo}" if tuning.capo else ""
    yield f"{'Kept anew' if learned.replaced else 'Kept'}: {learned.title} ({tuning.title}{capo})"
    yield f"Its text is in {learned.kept}"
    count = len(reach.needs.notes)
    if reach.fluent is not None and reach.known is not None:
        fluent, known = (f"{round(part * count)} ({part:.0%})" for part in (reach.fluent, reach.known))
        yield f"Of {counted(count, 'note')} you read {fluent} fluently and know {known}."
    if reach.needs.left_out:
        yield f"{counted(reach.needs.left_out, 'note')} left out: not sure in the text, or beyond what is asked."
    if learned.first:
        come = f"{counted(len(learned.first), 'item')} that you have not met {_come(len(learned.first))}"
        yield f"From the next sitting on {come} first among the new ones: what it needs, and what comes before that."
    elif tuning.name == learned.learns.name:
        yield "You have met all that it needs: what you do not read fluently yet comes back in practice."
    if tuning.name != learned.learns.name:
        yield f"You learn {learned.learns.title}: its places and notes are asked once your tuning is {tuning.name}."


def _come(count: int) -> str:
    return "comes" if count == 1 else "come"


def document(profile: str, learned: Learned) -> dict[str, Any]:
    """For programs; ``kept`` is null where the piece was not kept, ``problems`` are its errors."""
    reach, tuning = learned.reach, learned.reading.piece.tuning
    known = learned.reading.tuning_from is not TuningFrom.UNKNOWN
    return {
        "profile": profile,
        "title": learned.title,
        "kept": None if learned.kept is None else str(learned.kept),
        "replaced": learned.replaced,
        "capo": tuning.capo,
        "tuning": {"name": tuning.name if known else None, "from": learned.reading.tuning_from.value},
        "reading": {
            "fluent": _rounded(reach.fluent),
            "known": _rounded(reach.known),
            "to_learn": list(reach.to_learn),
            "left_out": reach.needs.left_out,
        },
        "first": learned.first,
        "problems": [
            {**doubt._asdict(), "severity": doubt.severity.value} for doubt in errors_of(learned.reading)
        ],
    }


def _rounded(share: float | None) -> float | None:
    return None if share is None else round(share, 4)
