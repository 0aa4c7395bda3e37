"""Beats and note values in words, for ears instead of eyes."""

from __future__ import annotations

from typing import Final

from drills.notation.score import Bar, Onset
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.stems import text_value
from drills.notation.values import Value, value_of

_STEMS: Final = {
    "whole": "no stem",
    "half": "a short stem",
    "quarter": "a long stem",
    "eighth": "a long stem with one flag",
    "sixteenth": "a long stem with two flags",
}
_RESTS: Final = {
    "whole": "a block that hangs from the middle line",
    "half": "a block that sits on the middle line",
    "quarter": "a curly brace on the middle line",
    "eighth": "a y on the middle line",
    "sixteenth": "a y with two hooks on the middle line",
}


def count_word(word: str, *, ticks: bool) -> str:
    """A count word as it is spoken: ``2``, ``and``, ``e``, ``a``; with ticks alone, no number."""
    if ticks and word.isdigit():
        return "beat"
    return {"&": "and"}.get(word, word)


def say_value(view: StaffView, onset: Onset, bar: Bar, *, spell: bool) -> str:
    """The value of an onset: ``a dotted quarter``; spelled, as it is written: ``a long stem, with a dot``."""
    value = value_of(onset, bar)
    if spell and view.dialect == Dialect.TEXT:
        return f"written {text_value(onset, bar).rstrip('.')}{_dot(value)}"
    if spell:
        return (_STEMS if onset.notes else _RESTS)[value.name] + _dot(value)
    article = "an" if value.words[0] == "e" else "a"
    return f"{article} {value.words}" + ("" if onset.notes else " rest")


def _dot(value: Value) -> str:
    return ", with a dot" if value.dots else ""
