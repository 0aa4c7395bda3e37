"""Which other signs are offered beside the one that is asked about."""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import Final, NamedTuple

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
    return _offer(sign, _done(sign.key), rng)


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


class Pool(NamedTuple):
    """What may be offered beside a sign: always the same, so that it is looked through once for each."""

    near: tuple[Sign, ...]
    """What is offered in any case, the likeliest first."""
    rest: tuple[Sign, ...]
    """What the others are drawn from."""


def _known(sign: Sign) -> list[Sign]:
    """Those that are taught no later, the first bends and slides in any case."""
    return [other for other in SIGNS if other.stage <= max(sign.stage, Stage.SLIDES)]


def _likely(sign: Sign) -> list[Sign]:
    """Those of them that anybody may take it for: a sign of one note is not taken for one of a whole part."""
    if sign.times > 1:
        return [other for other in _known(sign) if other.times > 1 or other.key in GOES_ON]
    return [other for other in _known(sign) if other.times == 1]


@cache
def _done(key: str) -> Pool:
    sign = BY_KEY[key]
    return _pool(sign, _likely(sign))


@cache
def _named(key: str, dialect: Dialect) -> Pool:
    sign = BY_KEY[key]
    return _pool(sign, [other for other in _likely(sign) if dialect in other.named_in and not other.says_its_name])


@cache
def _told_apart(key: str, dialect: Dialect) -> Pool:
    sign = BY_KEY[key]
    needs = sign.needs_legend(dialect)
    fit = [
        other
        for other in (SIGNS if needs else _known(sign))
        if dialect in other.found_in and other.needs_legend(dialect) == needs and other.times == 1
    ]
    if sign.times > 1:
        fit = [other for other in fit if other.key in SHORT]
    return _pool(sign, fit, drawn=True)


def _pool(sign: Sign, fit: Iterable[Sign], *, drawn: bool = False) -> Pool:
    others = [other for other in fit if other.key not in APART[sign.key]]
    near = [other for key in sign.near if (other := BY_KEY[key]) in others]
    near = [other for other in near if not drawn or _fits(other, [sign])][: OFFERED - 2]
    return Pool(tuple(near), tuple(other for other in others if other not in near))


def _offer(sign: Sign, pool: Pool, rng: random.Random, *, drawn: bool = False) -> list[Sign]:
    offered, rest = [sign, *pool.near], list(pool.rest)
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
