"""Which items on time a bar needs: its metre, the beats of its numbers, their values."""

from __future__ import annotations

from collections.abc import Container, Iterator
from fractions import Fraction
from typing import Final

from drills.notation.score import Bar
from drills.notation.values import value_of

_PARTS: Final = {Fraction(0): "", Fraction(1, 4): "-e", Fraction(1, 2): "-and", Fraction(3, 4): "-a"}
_AMONG: Final = {1: "", 2: "halves/", 4: "sixteenths/"}
"""Finest part of a beat in a bar -> how the beats of such a bar are asked for."""


def time_items(bar: Bar, tuning: str, known: Container[str]) -> tuple[str, ...]:
    """The items that the time of a bar needs; none where the tab tells nothing of it.

    Args:
        bar: with its metre, and beats and lengths of its onsets as far as the tab tells them.
        tuning: by its name.
        known: the items that there are.
    """
    wanted = dict.fromkeys(id for id in _wanted(bar, tuning, known) if id in known)
    return tuple(wanted)


def _wanted(bar: Bar, tuning: str, known: Container[str]) -> Iterator[str]:
    beats = [onset.beat for onset in bar.onsets if onset.beat is not None]
    if bar.metre is None or not beats:
        return
    metre = f"{bar.metre.beats}-{bar.metre.unit}"
    finest = max(beat.denominator for beat in beats)
    valued = any(onset.length is not None for onset in bar.onsets)
    yield f"bar-count/{tuning}/{metre}/{'values' if valued else 'beats'}"
    among = "values/" if valued else _AMONG.get(finest, "")
    for beat in dict.fromkeys(beats):
        word = f"{int(beat)}{_PARTS.get(beat % 1, '')}"
        names = [f"bar-beat/{tuning}/{metre}/{way}{word}" for way in (among, "")]
        yield from [name for name in names if name in known][:1]
    for onset in bar.onsets:
        if onset.length is not None:
            try:
                yield f"value-name/{value_of(onset, bar).words.replace(' ', '-')}"
            except ValueError:  # no single value lasts so long
                continue
