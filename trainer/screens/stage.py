"""What the first screen is doing, and the signs of its verdicts."""

from __future__ import annotations

from enum import Enum, auto
from typing import Final

SIGNS: Final = {False: {True: "✓", False: "✗"}, True: {True: "+", False: "x"}}
"""By whether the terminal knows ASCII alone, and by whether an answer is right."""


class Stage(Enum):
    """What the screen is doing."""

    TODAY = auto()
    LESSON = auto()
    ASKING = auto()
    EXPLAINING = auto()
    RIGHT = auto()
    WRONG = auto()
    WAITING = auto()
