"""Which other signs are offered beside the one that is asked about."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Final

from drills import misreadings
from drills.kinds.marks.sign import Sign
from drills.kinds.marks.table import APART, BY_KEY, OPPOSITES, SIGNS, SLURRED_TWIN
from drills.notation.staff_view import Dialect
from drills.question import Misreading
from drills.stages import Stage

OFFERED: Final = 4

WIDE: Final = frozenset(
    {"let-ring", "palm-mute", "bend-release", "pre-bend-release", "trill", "pre-bend", "tie", "grace", "slide-up",
     "slide-down"}
)
MOST_WIDE: Final = 2
"""So many of them have room side by side in forty columns."""
SHORT: Final = frozenset(
    {"mute", "staccato", "vibrato", "tap", "full-bend", "half-bend", "slide-out-up", "slide-in-up"}
)
"""One number each: they stand in bars of their own beside a repeated part."""


GOES_ON: Final = frozenset({"trill", "tie", "staccato", "grace", "mute", "accent", "vibrato"})
"""What a repeat sign or its count may be taken for: something that goes on, dots, a small number, an x."""


def beside(sign: Sign, dialect: Dialect, rng: random.Random) -> list[Sign]:
    """The sign and three that it may be taken for, in random order; none that is written out as its own name."""
    return _offer(sign, _named(sign.key, dialect), rng)


def beside_act(sign: Sign, rng: random.Random) -> list[Sign]:
    """The sign and three whose doing it may be taken for, in random order."""
    return _offer(sign, _likely(sign.key), rng)


def drawn_beside(sign: Sign, dialect: Dialect, rng: random.Random) -> list[Sign]:
    """The sign and three others that can be told from it by what is drawn, in random order.

    Where the sign needs a legend, all of them do, so that the legend does not point at the one that is asked.
    """
    return _offer(sign, _told_apart(sign.key, dialect), rng, drawn=True)


def _fits(sign: Sign, offered: Sequence[Sign]) -> bool:
    """Whether there is room for a sign beside those that are drawn, and a legend could tell it from them."""
    if sign.key in WIDE and len([other for other in offered if other.key in WIDE]) == MOST_WIDE:
        return False
    clashes = [other.legend for other in offered if other.legend is not None and other.legend != sign.legend]
    return sign.legend is None or all(sign.legend.symbol != legend.symbol for legend in clashes)


# What may be offered beside a sign is always the same: it is looked through once for each.


def _known(sign: Sign) -> list[Sign]:
    """Those that are taught no later, the first bends and slides in any case; none that may be right too."""
    found = (other for other in SIGNS if other.stage <= max(sign.stage, Stage.SLIDES))
    return [other for other in found if other.key not in APART[sign.key]]


@cache
def _likely(key: str) -> tuple[Sign, ...]:
    """Those of them that anybody may take it for: a sign of one note is not taken for one of a whole part."""
    sign = BY_KEY[key]
    if sign.times > 1:
        return tuple(other for other in _known(sign) if other.times > 1 or other.key in GOES_ON)
    return tuple(other for other in _known(sign) if other.times == 1)


@cache
def _named(key: str, dialect: Dialect) -> tuple[Sign, ...]:
    return tuple(other for other in _likely(key) if dialect in other.named_in and not other.says_its_name)


@cache
def _told_apart(key: str, dialect: Dialect) -> tuple[Sign, ...]:
    sign = BY_KEY[key]
    needs = sign.needs_legend(dialect)
    return tuple(
        other
        for other in (SIGNS if needs else _known(sign))
        if dialect in other.found_in and other.needs_legend(dialect) == needs and other.times == 1
        and other.key not in APART[key] and (sign.times == 1 or other.key in SHORT)
    )


def _offer(sign: Sign, others: Sequence[Sign], rng: random.Random, *, drawn: bool = False) -> list[Sign]:
    near = [other for key in sign.near if (other := BY_KEY[key]) in others]
    near = [other for other in near if not drawn or _fits(other, [sign])][: OFFERED - 2]
    rest = [other for other in others if other not in near]
    offered = [sign, *near]
    while len(offered) < OFFERED:
        if drawn:
            rest = [other for other in rest if _fits(other, offered)]
        offered.append(rest.pop(rng.randrange(len(rest))))
    rng.shuffle(offered)
    return offered


def sign_traps(sign: Sign, answer_of: Mapping[str, str]) -> misreadings.Traps:
    """The misreadings behind each wrong answer, from the signs that are offered to their answers."""
    kinds: dict[Misreading, Sequence[str]] = {
        Misreading.WRONG_DIRECTION: [OPPOSITES.get(sign.key, "")],
        Misreading.SLURRED_FOR_PICKED: [SLURRED_TWIN.get(sign.key, "")],
    }
    return misreadings.of_sign(sign.key, answer_of, kinds)
