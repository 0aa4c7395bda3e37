"""What the first screen is doing, what can be done meanwhile, and the signs of its verdicts."""

from __future__ import annotations

from enum import Enum, auto
from typing import Final

SIGNS: Final = {False: {True: "✓", False: "✗"}, True: {True: "+", False: "x"}}
"""By whether the terminal knows ASCII alone, and by whether an answer is right."""


class Stage(Enum):
    """What the screen is doing."""

    TODAY = auto()
    DONE = auto()
    """Today, with nothing left to begin."""
    LESSON = auto()
    ASKING = auto()
    EXPLAINING = auto()
    RIGHT = auto()
    WRONG = auto()
    WAITING = auto()


QUIET: Final = (Stage.TODAY, Stage.DONE)
TOLD: Final = (Stage.LESSON, Stage.EXPLAINING)
"""Something is told, a page at a time."""

_WHEN: Final = {
    "begin": (Stage.TODAY,),
    "go": QUIET,
    "keys": QUIET,
    "go_on": (*TOLD, Stage.RIGHT, Stage.WRONG),
    "explain": (Stage.ASKING,),
    "look_up": (*TOLD, Stage.ASKING, Stage.WRONG),
    "leave": tuple(stage for stage in Stage if stage not in QUIET),
}


def allows(stage: Stage, action: str) -> bool:
    """Whether a command of Today or of the practice works now, by the name of its action."""
    return stage in _WHEN.get(action, tuple(Stage))
