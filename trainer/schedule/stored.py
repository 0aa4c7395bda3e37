"""The ledger as plain tables, and back.

One line of text an item: tomllib reads 600 such lines in 6 ms, where arrays of numbers take 26 ms (measured).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from math import isfinite
from typing import TYPE_CHECKING, Any, Final, TypeVar

from trainer.schedule import days
from trainer.schedule.fading import GONE
from trainer.schedule.lasting import LEAST, Lasting
from trainer.schedule.memory import MAX_INTERVAL
from trainer.schedule.pairs import Confusion
from trainer.schedule.parameters import Fit, checked_fit, fields_of
from trainer.schedule.predicted import BINS, Bin
from trainer.schedule.readings import GROUPS, Readings
from trainer.schedule.rid import Habit
from trainer.schedule.state import ItemState
from trainer.schedule.tally import DayTally

if TYPE_CHECKING:
    from trainer.schedule.ledger import Ledger

T = TypeVar("T")

ITEM_COLUMNS: Final = (
    "met last due stability difficulty cold right_run fast_run slow_run fluent kept slips asked right fast missed "
    "answers rights step pace"
)
_NONE: Final = "-"
_FURTHEST_DAY: Final = 1_000_000
_MOST: Final = 1_000_000_000


def memory_table(ledger: Ledger) -> dict[str, Any]:
    """``columns`` says what the words of an item's line are."""
    return {
        "seed": ledger.seed,
        "events": ledger.events,
        "fit": {} if ledger.fit is None else {"day": ledger.fit.day, **fields_of(ledger.fit)},
        "recent": _signs(ledger.recent),
        "lasting": {"days": ledger.lasting.days, "told": _signs(ledger.lasting.told)},
        "readings": [_signs(told) for told in ledger.readings.groups],
        "columns": ITEM_COLUMNS,
        "items": {item: _item_line(state) for item, state in ledger.states.items()},
        "confusions": {
            item: {said: f"{one.times} {one.day} {one.kind}" for said, one in answers.items()}
            for item, answers in ledger.confusions.items()
        },
    }


def history_table(ledger: Ledger) -> dict[str, Any]:
    """A day's line: answers, right, milliseconds, median, then the single times of the day still going on."""
    return {
        "days": {days.as_date(day).isoformat(): _day_line(tally) for day, tally in ledger.days.items()},
        "misreadings": {kind: dict(items) for kind, items in ledger.misreadings.items()},
        "misread_on": {kind: days.as_date(day).isoformat() for kind, day in ledger.misread_on.items()},
        "habits": {kind: _habit_line(habit) for kind, habit in ledger.habits.items()},
        "unproved": {kind: dict(habit.proofs) for kind, habit in ledger.habits.items()},
        "predicted": {
            "loss": ledger.predictions.loss,
            "bins": [f"{b.n} {b.predicted!r} {b.observed}" for b in ledger.predictions.bins],
        },
    }


def read_fit(table: Mapping[str, Any]) -> Fit | None:
    """The fit that ``memory_table`` wrote down.

    Raises:
        ValueError: says which value is wrong.
    """
    fit = _table(table, "fit")
    return checked_fit(_integer(fit.get("day"), "day"), fit) if fit else None


def read_memory(ledger: Ledger, table: Mapping[str, Any]) -> None:
    """Fill a fresh ledger from ``memory_table``.

    Raises:
        ValueError: says which value is wrong.
    """
    ledger.seed = _integer(table.get("seed"), "seed", -_MOST)
    ledger.events = _integer(table.get("events"), "events")
    ledger.recent.extend(_from_signs(table.get("recent"), "recent"))
    lasting = _table(table, "lasting")
    longest = _integer(lasting.get("days"), "lasting days", LEAST)
    if longest > MAX_INTERVAL:
        raise ValueError(f"lasting days is {longest}: expected at most {MAX_INTERVAL}")
    ledger.lasting = Lasting(longest, _from_signs(lasting.get("told"), "told"))
    readings = table.get("readings")
    if not isinstance(readings, list) or len(readings) != GROUPS:
        raise ValueError(f"readings are not {GROUPS} rows of signs")
    ledger.readings = Readings([_from_signs(told, "readings") for told in readings])
    if table.get("columns") != ITEM_COLUMNS:
        raise ValueError("columns are not those of this version")
    for item, line in _table(table, "items").items():
        ledger.states[item] = _line(item, line, _item_state)
    for item in _table(table, "confusions"):
        lines = _table(table["confusions"], item)
        ledger.confusions[item] = {said: _line(f"{item} {said}", line, _confusion) for said, line in lines.items()}


def read_history(ledger: Ledger, table: Mapping[str, Any]) -> None:
    """Fill a fresh ledger from ``history_table``.

    Raises:
        ValueError: says which value is wrong.
    """
    for when, line in _table(table, "days").items():
        ledger.days[_day(when)] = _line(when, line, _day_tally)
    for kind in _table(table, "misreadings"):
        ledger.misreadings[kind] = _counts(table["misreadings"], kind)
    ledger.misread_on = {kind: _day(when) for kind, when in _table(table, "misread_on").items()}
    unproved = _table(table, "unproved")
    for kind, line in _table(table, "habits").items():
        ledger.habits[kind] = habit = _line(kind, line, _habit)
        habit.proofs.update(_counts(unproved, kind, 0))
    predicted = _table(table, "predicted")
    ledger.predictions.loss = _real(predicted.get("loss"), "loss")
    bins = predicted.get("bins")
    if not isinstance(bins, list) or len(bins) != BINS:
        raise ValueError(f"predicted has no {BINS} bins")
    ledger.predictions.bins = [_line("bins", line, _bin) for line in bins]


def _item_line(s: ItemState) -> str:
    stability, difficulty = (_NONE, _NONE) if s.memory is None else (repr(s.memory[0]), repr(s.memory[1]))
    pace = _NONE if s.pace is None else repr(s.pace)
    return (
        f"{s.met} {s.last} {s.due} {stability} {difficulty} {s.cold} {s.right_run} {s.fast_run} {s.slow_run} "
        f"{s.fluent:d} {s.kept:d} {s.slips} {s.asked} {s.right} {s.fast} {s.missed:d} {s.answers} {s.rights} {s.step} "
        f"{pace}"
    )


def _item_state(words: list[str]) -> ItemState:
    met, last, due, stability, difficulty, *counts, pace = words
    numbers = [int(word) for word in counts]
    cold, right_run, fast_run, slow_run, fluent, kept, slips, asked, right, fast, missed, *of_all, step = numbers
    answers, rights = of_all
    if min(numbers) < 0 or max(numbers) > _MOST or max(fluent, kept, missed) > 1 or kept > fluent or step > GONE:
        raise ValueError("counts out of range")
    if not 0 <= int(met) <= int(last) < int(due) <= _FURTHEST_DAY or not 0 <= fast <= right <= asked <= answers:
        raise ValueError("days or counts contradict one another")
    memory = None if stability == difficulty == _NONE else (float(stability), float(difficulty))
    if (memory is None) != (cold == 0) or (memory and not (0 < memory[0] < _MOST and 1 <= memory[1] <= 10)):
        raise ValueError("memory out of range")
    seconds = None if pace == _NONE else _real(float(pace), "pace")
    return ItemState(
        int(met), int(last), int(due), memory, cold, right_run, fast_run, slow_run, bool(fluent), bool(kept), slips,
        asked, right, fast, bool(missed), answers, rights, step, seconds,
    )  # fmt: skip


def _confusion(words: list[str]) -> Confusion:
    times, day, *kind = words
    if not 1 <= int(times) <= _MOST or not 0 <= int(day) <= _FURTHEST_DAY:
        raise ValueError("counts out of range")
    return Confusion(" ".join(kind), int(times), int(day))


def _habit_line(habit: Habit) -> str:
    gone = _NONE if habit.gone is None else habit.gone
    return f"{habit.events} {habit.items} {habit.first} {habit.last} {habit.since} {habit.looked} {gone}"


def _habit(words: list[str]) -> Habit:
    *numbers, gone = words
    events, items, first, last, since, looked = map(int, numbers)
    habit = Habit(events, items, first, last, since, looked, None if gone == _NONE else int(gone))
    if not (0 <= items <= events <= _MOST and 0 <= since <= _MOST):
        raise ValueError("counts out of range")
    if first > last or not all(0 <= day <= _FURTHEST_DAY for day in (first, last, looked, habit.gone or 0)):
        raise ValueError("days out of range")
    return habit


def _day_line(tally: DayTally) -> str:
    closed = _NONE if tally.closed is None else repr(tally.closed)
    return " ".join([f"{tally.answers} {tally.right} {tally.spent} {closed}", *map(repr, tally.seconds)])


def _day_tally(words: list[str]) -> DayTally:
    answers, right, spent, closed, *seconds = words
    tally = DayTally(
        int(answers),
        int(right),
        int(spent),
        None if closed == _NONE else _real(float(closed), "median"),
        [_real(float(word), "seconds") for word in seconds],
    )
    if not 0 <= tally.right <= tally.answers <= _MOST or tally.answers < 1 or tally.spent < 1:
        raise ValueError("counts out of range")
    return tally


def _bin(words: list[str]) -> Bin:
    n, predicted, observed = words
    if not 0 <= int(observed) <= int(n) <= _MOST:
        raise ValueError("counts out of range")
    return Bin(int(n), _real(float(predicted), "predicted"), int(observed))


def _line(name: str, line: object, read: Callable[[list[str]], T]) -> T:
    if not isinstance(line, str):
        raise ValueError(f"{name} is {line!r}: expected a line of text")
    try:
        return read(line.split(" "))
    except ValueError as wrong:
        raise ValueError(f"{name} is {line!r}: {wrong}") from wrong


def _table(table: Mapping[str, Any], name: str) -> Mapping[str, Any]:
    found = table.get(name)
    if not isinstance(found, dict):
        raise ValueError(f"{name} is missing")
    return found


def _signs(rights: Iterable[bool]) -> str:
    return "".join("+" if right else "-" for right in rights)


def _from_signs(value: object, name: str) -> list[bool]:
    if not isinstance(value, str) or set(value) - {"+", "-"}:
        raise ValueError(f"{name} is {value!r}: expected + and -")
    return [sign == "+" for sign in value]


def _counts(table: Mapping[str, Any], name: str, least: int = 1) -> dict[str, int]:
    counts: Iterable[tuple[str, object]] = _table(table, name).items()
    return {key: _integer(count, f"{name} {key}", least) for key, count in counts}


def _integer(value: object, name: str, least: int = 0) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or not least <= value <= _MOST:
        raise ValueError(f"{name} is {value!r}: expected a whole number from {least}")
    return value


def _real(value: object, name: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value) or not 0 <= value < _MOST:
        raise ValueError(f"{name} is {value!r}: expected a number from 0")
    return float(value)


def _day(when: str) -> int:
    try:
        return days.from_date(date.fromisoformat(when))
    except ValueError as wrong:
        raise ValueError(f"{when!r} is no date") from wrong
