"""What a question is asked for."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from drills.question import Item


class Why(StrEnum):
    """In the order in which they come first."""

    REPEAT = "repeat"
    DUE = "due"
    NEW = "new"
    CONTRAST = "contrast"
    SECOND = "second"


class Choice(NamedTuple):
    """What to ask now.

    Attributes:
        item: what.
        why: what for.
        placement: one of the questions that find out what a reader knows already: no lesson, no help.
        warm_up: one of the first after a long rest: help is shown.
    """

    item: Item
    why: Why
    placement: bool = False
    warm_up: bool = False
