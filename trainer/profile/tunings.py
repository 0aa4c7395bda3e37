"""The tuning that somebody names: a shipped one, their own, or one that they spell out."""

from __future__ import annotations

import re
from typing import Final

from drills.notation.own_tuning import OWN as OWN_NAME
from drills.notation.own_tuning import own_tuning, tuning_named
from drills.notation.tuning import Tuning, shipped
from trainer.complaint import nearest

OWN: Final = "own"
"""What stands for the learner's own tuning, whose pitches are in ``[own-tuning]``."""

_FIRST_PITCH: Final = re.compile(r"[A-Ga-g][#b♯♭]?\d")


def tuning_from(text: str, own: str = "") -> Tuning:
    """The tuning that a text names.

    Args:
        text: a shipped name, ``own``, the name of an own tuning as it stands in item ids, or the pitches of the open
            strings.
        own: the pitches of the learner's own tuning, or empty.

    Raises:
        ValueError: there is none; one line that says how to mend it.
    """
    known = shipped()
    if text in known:
        return known[text]
    if text == OWN:
        if not own:
            raise ValueError('there is no tuning of your own yet: put strings = "D2 A2 D3 G3 B3 D4" in [own-tuning]')
        return own_tuning(own)
    if text.startswith(OWN_NAME):
        return tuning_named(text)
    if len(text.replace(",", " ").split()) > 1 or _FIRST_PITCH.match(text):
        return own_tuning(text)
    near = nearest(text, [*known, OWN])
    mend = f"did you mean {near}?" if near else "`sixline tunings` lists them; your own is written as its pitches"
    raise ValueError(f"there is no tuning {text[:60]!a}: {mend}")
