"""One answer of the record <-> one line of TOML; a measured key baseline and a fit of the memory have lines too.

A line is read by one expression that knows exactly what ``answer_line`` writes, which takes 30,000 lines in
well under a second; anything else goes to tomllib, which is slower and knows all of TOML.
"""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from typing import Any, Final, NamedTuple

from trainer.profile import toml
from trainer.profile.toml import quote
from trainer.schedule.event import Event
from trainer.schedule.parameters import Fit, checked_fit, fields_of

MAX_TEXT: Final = 200
"""Longest text that a line holds, in characters."""

MAX_SECONDS: Final = 1e9
"""No time in a line is as long as this."""

_EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)
_MILLISECOND: Final = timedelta(milliseconds=1)
_EPOCH_DAY: Final = date(1970, 1, 1).toordinal()
_KEY: Final = (
    r"(\d{4}-\d\d-\d\d)T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z [a-z0-9]{6} \d{6,12}"  # what make_key writes
)
_TEXT: Final = r'"[^"\\\x00-\x1f\x7f]*"'
_NUMBER: Final = r"(?:0|[1-9]\d{0,8})\.\d+"
_TEXTS: Final = rf"{_TEXT}(?:, {_TEXT})*"
_KEY_ONLY: Final = re.compile(_KEY, re.ASCII)
_OWN: Final = re.compile(
    rf'"(?P<key>{_KEY})" = \{{ day = (0|[1-9]\d{{0,5}}), item = ({_TEXT}), right = (true|false), said = ({_TEXT})'
    rf"(?:, seconds = ({_NUMBER}))?, base = ({_NUMBER}), limit = ({_NUMBER})(, timed = false)?"
    rf"(?:, misreadings = \[({_TEXTS})\])?(?:, help = \[({_TEXTS})\])? \}}",
    re.ASCII,
)


class Entry(NamedTuple):
    """One line of the record: an answer, a measured baseline or a fit of the memory. Sorts by (day, key).

    Attributes:
        day: practice day that it counts for.
        key: UTC time, device and running number.
        event: the answer, or None for anything else.
        baseline: seconds of a measured key baseline, or None for anything else.
        raw: the line as it stands in the file, without its newline.
        fit: the fit, or None for anything else.
    """

    day: int
    key: str
    event: Event | None
    baseline: float | None
    raw: str
    fit: Fit | None = None

    @property
    def device(self) -> str:
        """Id of the machine that wrote it."""
        return self.key[25:31]

    @property
    def number(self) -> int:
        """Running number of that machine's lines, in the order of writing."""
        return int(self.key[32:])


def to_milliseconds(at: datetime) -> int:
    """Whole milliseconds from 1970-01-01 UTC to an aware time."""
    return (at - _EPOCH) // _MILLISECOND


def make_key(milliseconds: int, device: str, number: int) -> str:
    """The key of a line: UTC time in milliseconds, device, running number of six digits or more."""
    stamp = (_EPOCH + milliseconds * _MILLISECOND).replace(tzinfo=None).isoformat(timespec="milliseconds")
    return f"{stamp}Z {device} {number:06d}"


def key_time(key: str) -> int:
    """The time of a key, in milliseconds since 1970-01-01 UTC."""
    return to_milliseconds(datetime.fromisoformat(key[:24]))


def clean(event: Event) -> Event:
    """The answer as the record can hold it.

    Texts are cut to 200 characters and lone surrogates, which no file can hold, become U+FFFD. Seconds
    that are no time (negative, not a number, over thirty years) are dropped, and the answer is then untimed.

    Raises:
        ValueError: base or limit is no number of seconds, or the day is negative.
    """
    if not 0 <= event.day < 10**6 or not (0 <= event.base < MAX_SECONDS and 0 <= event.limit < MAX_SECONDS):
        raise ValueError("an answer needs a day, a base and a limit that are numbers from 0 up")
    real = event.seconds is None or 0 <= event.seconds < MAX_SECONDS
    return event._replace(
        item=_holdable(event.item),
        said=_holdable(event.said),
        seconds=event.seconds if real else None,
        timed=event.timed and real,
        misreadings=tuple(_holdable(text) for text in event.misreadings),
        help=tuple(_holdable(text) for text in event.help),
    )


def _holdable(text: str) -> str:
    return str(text)[:MAX_TEXT].encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def number(value: float) -> str:
    """A TOML float that reads back as the same value, with at least two decimals as people write seconds."""
    text = repr(float(value))
    return text + "0" if text[-2:-1] == "." else text


def answer_line(key: str, event: Event) -> str:
    """The line of a clean answer, without its newline."""
    parts = [
        f"day = {event.day}, item = {quote(event.item)}, right = {'true' if event.right else 'false'}",
        f"said = {quote(event.said)}",
        *([] if event.seconds is None else [f"seconds = {number(event.seconds)}"]),
        f"base = {number(event.base)}, limit = {number(event.limit)}",
        *([] if event.timed else ["timed = false"]),
    ]
    for name, texts in (("misreadings", event.misreadings), ("help", event.help)):
        if texts:
            parts.append(f"{name} = [{', '.join(map(quote, texts))}]")
    return f'"{key}" = {{ {", ".join(parts)} }}'


def baseline_line(key: str, day: int, seconds: float) -> str:
    """The line of a measured key baseline, without its newline."""
    return f'"{key}" = {{ day = {day}, baseline = {number(seconds)} }}'


def fit_line(key: str, fit: Fit) -> str:
    """The line of a fit, without its newline; of one that undoes the others the list is empty."""
    fields = [
        f"{name} = [{', '.join(map(number, value))}]" if isinstance(value, list) else f"{name} = {number(value)}"
        for name, value in fields_of(fit).items()
    ]
    return f'"{key}" = {{ day = {fit.day}, {", ".join(fields)} }}'


def new_entry(key: str, day: int, what: Event | float | Fit) -> Entry:
    """A line to be written: a clean answer, the seconds of a measured key baseline, or a fit."""
    if isinstance(what, Fit):
        return Entry(day, key, None, None, fit_line(key, what), what)
    if isinstance(what, Event):
        return Entry(day, key, what, None, answer_line(key, what))
    return Entry(day, key, None, what, baseline_line(key, day, what))


def parse_line(raw: str) -> Entry:
    """The answer, baseline or fit of one line.

    Raises:
        ValueError: says in a few words what is wrong with it.
    """
    own = _OWN.fullmatch(raw)
    if own is None:
        return _parse_any(raw)
    key, stamp, day, item, right, said, seconds, base, limit, untimed, misreadings, helps = own.groups()
    date.fromisoformat(stamp)
    event = Event(
        int(day),
        item[1:-1],
        right == "true",
        said[1:-1],
        float(seconds) if seconds else None,
        float(base),
        float(limit),
        untimed is None,
        tuple(misreadings[1:-1].split('", "')) if misreadings else (),
        tuple(helps[1:-1].split('", "')) if helps else (),
    )
    return Entry(event.day, key, event, None, raw)


def _parse_any(raw: str) -> Entry:
    table = toml.parse(raw)
    if len(table) != 1:
        raise ValueError("it does not hold one answer")
    key, fields = next(iter(table.items()))
    stamp = _KEY_ONLY.fullmatch(key)
    if stamp is None or not isinstance(fields, dict):
        raise ValueError("its key is not a time, a device and a number")
    written = date.fromisoformat(stamp[1])
    if "fitted" in fields:
        fit = checked_fit(_day(fields), fields)
        return Entry(fit.day, key, None, None, raw, fit)
    if "baseline" in fields:
        day = _day(fields) if "day" in fields else written.toordinal() - _EPOCH_DAY
        return Entry(day, key, None, _seconds(fields, "baseline"), raw)
    event = Event(
        day=_day(fields),
        item=_text(fields, "item"),
        right=_flag(fields, "right"),
        said=_text(fields, "said"),
        seconds=_seconds(fields, "seconds") if "seconds" in fields else None,
        base=_seconds(fields, "base"),
        limit=_seconds(fields, "limit"),
        timed=_flag(fields, "timed") if "timed" in fields else True,
        misreadings=_texts(fields, "misreadings"),
        help=_texts(fields, "help"),
    )
    return Entry(event.day, key, event, None, raw)


def _day(fields: dict[str, Any]) -> int:
    value = fields.get("day")
    if type(value) is not int or not 0 <= value < 10**6:
        raise ValueError("day is not a whole number of days")
    return value


def _seconds(fields: dict[str, Any], name: str) -> float:
    value = fields.get(name)
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < MAX_SECONDS:
        raise ValueError(f"{name} is not a number of seconds")
    return float(value)


def _text(fields: dict[str, Any], name: str) -> str:
    value = fields.get(name)
    if not isinstance(value, str):
        raise ValueError(f"{name} is not a text")
    return value


def _flag(fields: dict[str, Any], name: str) -> bool:
    value = fields.get(name)
    if not isinstance(value, bool):
        raise ValueError(f"{name} is neither true nor false")
    return value


def _texts(fields: dict[str, Any], name: str) -> tuple[str, ...]:
    value = fields.get(name, [])
    if not isinstance(value, list) or not all(isinstance(text, str) for text in value):
        raise ValueError(f"{name} is not a list of texts")
    return tuple(value)
