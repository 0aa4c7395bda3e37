"""What *Progress* tells in rows of text: stages, misreadings, days. Counts and seconds, never marks."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Final, NamedTuple

from trainer.schedule.ledger import Ledger
from trainer.schedule.status import Status
from trainer.schedule.tally import DayTally
from trainer.screens.today import DAY_NAMES, EPOCH, MONTH_NAMES
from trainer.widgets.heading import wrapped
from trainer.wording import counted, habit

SHOWN_DAYS: Final = 14
LABEL: Final = 30
"""Cells of a stage's title, in a row with its bar."""


class Misreadings(NamedTuple):
    """The misreadings that alone explained wrong answers: kind, how often, a day; the most frequent first.

    Attributes:
        there: not made up for since it last happened, on that day.
        gone: was a habit, and is none any more from that day on; a slip may have come after it.
    """

    there: list[tuple[str, int, int]]
    gone: list[tuple[str, int, int]]


def misreadings(ledger: Ledger) -> Misreadings:
    """Those still there and those that one is rid of; a slip that was made up for is neither."""
    found = Misreadings([], [])
    for kind, one in ledger.habits.items():
        total = sum(ledger.misreadings.get(kind, {}).values())
        if one.gone is not None:
            found.gone.append((kind, total, one.gone))
        elif one.events:
            found.there.append((kind, total, ledger.misread_on.get(kind, one.last)))
    for each in found:
        each.sort(key=lambda entry: (-entry[1], entry[0]))
    return found


def misread_rows(ledger: Ledger, sign: str, width: int) -> list[str]:
    """What one is rid of and what is still there; nothing where nothing was ever misread.

    Args:
        ledger: what the record says.
        sign: before what one is rid of.
        width: cells that there are.
    """
    found = misreadings(ledger)
    rows = []
    if found.gone:
        rows.append("Misreadings you are rid of")
        for kind, total, day in found.gone:
            rows += _hanging(f"{sign} {habit(kind)}, {counted(total, 'time')}, gone since {short_day(day)}", width, 4)
    if found.gone and found.there:
        rows.append(" ")
    if found.there:
        rows.append("Misreadings that still happen")
        for kind, total, _ in found.there:
            rows += _hanging(f"{total} x {habit(kind)}", width, 4 + len(str(total)))
    return rows


def _hanging(text: str, width: int, indent: int) -> list[str]:
    """A text over as many rows as it takes, all but the first set in."""
    first, *more = wrapped(text, max(8, width - indent))
    return [f"  {first}", *(" " * indent + line for line in more)]


class StageRow(NamedTuple):
    """A stage: its title, a bar of signs in the shares of the states, in counts what is fluent (as Today has it: what
    is kept is fluent too) and what of that is kept."""

    title: str
    bar: list[tuple[Status, int]]
    told: str


def stage_row(title: str, counts: Mapping[Status, int], width: int) -> StageRow:
    """A stage in so many cells; in a narrow window its bar has a row for itself."""
    total = sum(counts.values())
    fluent = counts[Status.FLUENT] + counts[Status.KEPT]
    told = f" {fluent:>3} of {total:>3} fluent, {counts[Status.KEPT]:>3} kept"
    if width >= 70:
        room = max(8, min(40, width - LABEL - len(told) - 1))
        return StageRow(f"{title[: LABEL - 1]:<{LABEL}}", bar(counts, room), told)
    if width >= 44:
        told = f"{fluent} of {total} fluent"
        return StageRow(f"{title:<{width - len(told)}}{told}\n", bar(counts, width), "")
    return StageRow(f"{title[:width]}\n", bar(counts, max(8, width - len(told) - 1)), told)


def bar(counts: Mapping[Status, int], room: int) -> list[tuple[Status, int]]:
    """The states in so many cells, the best first; what there is at all has a cell."""
    total = sum(counts.values()) or 1
    cells, start, passed = [], 0, 0
    for state in reversed(Status):
        passed += counts[state]
        end = room if state is Status.NEW else max(round(room * passed / total), start + bool(counts[state]))
        end = min(end, room)
        cells.append((state, end - start))
        start = end
    return cells


def day_rows(days: Mapping[int, DayTally], width: int, *, speed: bool, sign: str = "━") -> list[str]:
    """The last days of practice, newest first: a bar of the answers, and the day in counts.

    Args:
        days: tallies by day.
        width: cells that there are.
        speed: whether seconds are spoken of.
        sign: what the bars are made of.
    """
    shown = sorted(days.items(), reverse=True)[:SHOWN_DAYS]
    if not shown:
        return []
    most = max(tally.answers for _, tally in shown)
    broad = width >= 64
    rows = ["Days of practice"]
    for day, tally in shown:
        told = f"{tally.right:>4} of {tally.answers} right"
        if broad:
            told = f"{tally.answers:>4} answers, {tally.right:>4} right"
        if speed and broad and tally.median_seconds is not None:
            told += f", half under {tally.median_seconds:.1f} s"
        room = max(4, min(40, width - 14 - (46 if broad else 18)))
        cells = max(1, round(room * tally.answers / most))
        rows.append(f"  {short_day(day):<10}  {sign * cells:<{room}} {told}")
    return rows


def short_day(day: int) -> str:
    """``Tue 24 Nov``, in English whatever the locale."""
    when = EPOCH + timedelta(days=day)
    return f"{DAY_NAMES[when.weekday()][:3]} {when.day:>2} {MONTH_NAMES[when.month - 1][:3]}"
