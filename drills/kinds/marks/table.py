"""Every technique sign, in the order in which beginners meet them, and which ones may not stand side by side."""

from __future__ import annotations

from typing import Final

from drills.kinds.marks.first_signs import FIRST_SIGNS
from drills.kinds.marks.rare_signs import RARE_SIGNS
from drills.kinds.marks.sign import Sign
from drills.kinds.marks.touch_signs import TOUCH_SIGNS

SIGNS: Final = (*FIRST_SIGNS, *TOUCH_SIGNS, *RARE_SIGNS)
BY_KEY: Final = {sign.key: sign for sign in SIGNS}

_PAIRS: Final = (
    ("hammer-on", "pull-off"), ("slide-up", "slide-down"), ("slide-up-picked", "slide-down-picked"),
    ("slide-in-up", "slide-in-down"), ("slide-out-up", "slide-out-down"),
)  # fmt: skip
OPPOSITES: Final = {one: other for pair in _PAIRS for one, other in (pair, pair[::-1])}
"""Signs that differ in the way they go, and in nothing else."""

_ALIKE: Final = (
    # What is true of the one is at least in part true of the other, or both words are used for one sign.
    {"full-bend", "bend-release"}, {"full-bend", "pre-bend"}, {"full-bend", "pre-bend-release"},
    {"pre-bend", "pre-bend-release"}, {"ghost", "mute"}, {"harmonic", "mute"}, {"let-ring", "tie"},
    {"trill", "hammer-on"}, {"trill", "pull-off"}, {"tap", "hammer-on"}, {"grace", "hammer-on"},
    {"slide-up", "slide-in-up"}, {"slide-up", "slide-out-up"},
    {"slide-up-picked", "slide-in-up"}, {"slide-up-picked", "slide-out-up"}, {"slide-down", "slide-in-down"},
    {"slide-down", "slide-out-down"}, {"slide-down-picked", "slide-in-down"}, {"slide-down-picked", "slide-out-down"},
)  # fmt: skip
SLURRED_TWIN: Final = {"slide-up-picked": "slide-up", "slide-down-picked": "slide-down"}
"""A sign that is picked again -> the same without the second pick."""


def _apart() -> dict[str, frozenset[str]]:
    apart: dict[str, set[str]] = {sign.key: {sign.key} for sign in SIGNS}
    for one, other in map(sorted, _ALIKE):
        apart[one].add(other)
        apart[other].add(one)
    # a count stands at a repeat sign, which is drawn with it
    apart["repeat-count"].add("repeat")
    for again, slurred in SLURRED_TWIN.items():
        # "Slide up" fits a slide that is picked again too; beside that one its twin gets a name of its own.
        apart[slurred].add(again)
    return {key: frozenset(others) for key, others in apart.items()}


APART: Final = _apart()
"""What is never a wrong answer where a sign is asked about, since it might be a second right one."""


def name_beside(sign: Sign, asked: Sign) -> str:
    """The sign's name among others, where ``asked`` is asked about."""
    return f"{sign.name}, not picked again" if SLURRED_TWIN.get(asked.key) == sign.key else sign.name


def act_beside(sign: Sign, asked: Sign) -> str:
    """What the hands do at a sign, among others, where ``asked`` is asked about."""
    if SLURRED_TWIN.get(asked.key) != sign.key:
        return sign.act
    return f"{sign.act.partition(',')[0]}, and do not pick again"
