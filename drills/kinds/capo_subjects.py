"""What the items on the capo ask, read from their subjects."""

from __future__ import annotations

from typing import NamedTuple

from drills.notation.pitch import Pitch, class_of
from drills.question import Item


class Asked(NamedTuple):
    """One thing to know of the capo.

    Attributes:
        capo: its fret.
        string, fret: a place, its fret counted from the capo; string is None where a chord is asked about.
        shape, sounding: roots of a chord as it is played and as it is heard (in no particular octave).
        minor: ``m`` for a minor chord, else empty.
    """

    capo: int
    string: int | None = None
    fret: int = 0
    shape: Pitch = Pitch(0)
    sounding: Pitch = Pitch(0)
    minor: str = ""


def asked(item: Item) -> Asked:
    """What an item asks: ``2/5/3``, ``shape-am-2``, ``played-d-2`` or ``to-c-d#``."""
    if "/" in item.subject:
        capo, string, fret = map(int, item.subject.split("/"))
        return Asked(capo, string, fret)
    what, one, other = item.subject.split("-")
    minor = "m" if one.endswith("m") else ""
    root = Pitch(class_of(one.removesuffix("m")))
    if what == "to":
        sounding = Pitch(class_of(other))
        return Asked((sounding.midi - root.midi) % 12, shape=root, sounding=sounding)
    capo = int(other)
    if what == "shape":
        return Asked(capo, shape=root, sounding=Pitch((root.midi + capo) % 12), minor=minor)
    return Asked(capo, shape=Pitch((root.midi - capo) % 12), sounding=root)


def named(chord: str) -> str:
    """A chord of a subject in words, without an article: ``c`` is ``C``, ``am`` is ``Am``, ``a#`` is ``A# or Bb``."""
    root = chord.removesuffix("m")
    return " or ".join(Pitch(class_of(root)).names) + chord[len(root) :]
