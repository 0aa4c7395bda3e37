"""What is said of a piece that was read: what it is, what is doubtful, how much of it the learner reads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from typing import Final

from drills.notation.reading.shapes import Doubt, Reading, Severity, TuningFrom
from trainer.reports import table
from trainer.reports.reach import Reach
from trainer.schedule.status import Status
from trainer.wording import counted, status_word

FROM: Final = {
    TuningFrom.GIVEN: "as you said",
    TuningFrom.TEXT: "as the text says",
    TuningFrom.LABELS: "by the letters before the lines",
    TuningFrom.ROWS: "by the number of lines alone",
}
"""Where a tuning is from."""

LONGEST_TITLE: Final = 100
RUNS: Final = 8
"""Runs of bars that are named at most."""
SHOWN: Final = 40
"""Doubts that are printed besides errors, of which every one is."""

GROUPS: Final = (
    ("places and notes", ("tab-to-place", "fret-to-note")),
    ("signs", ("mark-",)),
    ("chords", ("tab-to-diagram", "name-to-diagram", "chord-")),
    ("beats and values", ("bar-", "value-")),
)
"""Sorts of items, by how the names of their drills begin."""


def head(reading: Reading) -> Iterator[str]:
    """Title, tuning and where it is from, capo, and how long the piece is."""
    title = reading.piece.title
    yield title[:LONGEST_TITLE] + ("..." if len(title) > LONGEST_TITLE else "") if title else "A piece without a title"
    tuning = reading.piece.tuning
    if reading.tuning_from is not TuningFrom.UNKNOWN:
        pitches = " ".join(pitch.spn(tuning.flats) for pitch in tuning.strings)
        yield f"Tuning: {tuning.title} ({pitches} from string 1), {FROM[reading.tuning_from]}"
    elif reading.bars:
        yield "Tuning: unknown, so no note has a pitch yet: give --tuning NAME (`sixline tunings` lists them)"
    if tuning.capo:
        yield f"Capo at fret {tuning.capo}: frets are counted from it"
    notes = sum(len(onset.notes) for bar in reading.piece.bars for onset in bar.onsets)
    if reading.bars:
        yield f"{counted(reading.systems, 'system')}, {counted(len(reading.bars), 'bar')}, {counted(notes, 'note')}"


def problems(doubts: tuple[Doubt, ...]) -> Iterator[str]:
    """``LINE:COLUMN: SEVERITY: WHAT; HOW TO MEND IT``: every error, and the gravest of the others."""
    if not doubts:
        return
    errors = sum(doubt.severity is Severity.ERROR for doubt in doubts)
    warnings = sum(doubt.severity is Severity.WARNING for doubt in doubts)
    left = {Severity.ERROR: errors, Severity.WARNING: SHOWN, Severity.NOTE: max(0, SHOWN - warnings)}
    yield ""
    yield "What is doubtful, by line and column of the file:"
    hidden = 0
    for doubt in doubts:
        left[doubt.severity] -= 1
        if left[doubt.severity] < 0:
            hidden += 1
            continue
        yield f"  {doubt.line}:{doubt.column}: {doubt.severity.value}: {doubt.message}; {doubt.mend}"
    if hidden:
        yield f"  and {hidden} more, which --json lists too"


def coverage(reading: Reading, reach: Reach) -> Iterator[str]:
    """How much of it the learner reads, what it needs, what is to be learned first, what was left out."""
    if not reading.bars:
        return
    yield ""
    if reach.catalogue is None:
        yield "How much of it you read cannot be said: there are no questions on these strings."
        return
    count = len(reach.needs.notes)
    if reach.fluent is None or reach.known is None:
        yield "No note of it is sure enough to be counted."
    else:
        fluent, known = (f"{round(part * count)} ({part:.0%})" for part in (reach.fluent, reach.known))
        yield f"Of {counted(count, 'note')} you read {fluent} fluently and know {known}."
        yield "A note is read where its place and its name, the signs at it and the chord it stands in are."
    if reach.needs.left_out:
        left_out, where = counted(reach.needs.left_out, "note"), _bars(reading, reach)
        yield f"{left_out} left out: not sure in the text, or beyond what is asked ({where})."
    if reach.needs.signs_left_out:
        yield f"{counted(reach.needs.signs_left_out, 'sign')} left out: not sure in the text."
    if reach.needs.items:
        yield ""
        yield from _needed(reach)
    yield from _to_learn(reach)


def _bars(reading: Reading, reach: Reach) -> str:
    """The numbers of the bars of which notes are left out: ``bars 1, 3 to 5``."""
    kept = Counter(note.bar for note in reach.needs.notes)
    found = [
        at.number
        for index, (bar, at) in enumerate(zip(reading.piece.bars, reading.bars, strict=True))
        if kept[index] < sum(len(onset.notes) for onset in bar.onsets)
    ]
    runs: list[list[int]] = []
    for number in found:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    told = [str(first) if first == last else f"{first} to {last}" for first, last in runs[:RUNS]]
    more = ", ..." if len(runs) > RUNS else ""
    return f"{'bar' if len(found) == 1 else 'bars'} {', '.join(told)}{more}"


def _needed(reach: Reach) -> Iterator[str]:
    rows = [["It needs", "ITEMS", *(status_word(state).upper() for state in Status)]]
    for name, drills in GROUPS:
        states = [state for id, state in reach.states.items() if id.startswith(drills)]
        if states:
            rows.append([f"  {name}", str(len(states)), *(str(states.count(state)) for state in Status)])
    yield from table(rows)


def _to_learn(reach: Reach) -> Iterator[str]:
    """How much there is of each stage, in teaching order, with the first of it."""
    if not reach.to_learn or reach.catalogue is None:
        return
    yield ""
    yield f"To learn, with what has to come before: {counted(len(reach.to_learn), 'item')}, in this order:"
    items = [reach.catalogue.by_id[id] for id in reach.to_learn]
    rows = []
    for stage, of_stage in groupby(items, key=lambda item: item.stage):
        found = list(of_stage)
        first = f"{reach.catalogue.drills[found[0].drill].title}: {found[0].title}"
        rows.append([f"  {reach.catalogue.stages[stage]}", str(len(found)), f"first {first}"])
    yield from table(rows)
    yield "`sixline learn` with this file puts them first in practice."
