"""When there is enough in a record to fit the memory to it, and when to try again. Cheap to import."""

from __future__ import annotations

from typing import Final

ENOUGH: Final = 400
"""Cold answers from which on a record is worth fitting to."""


def passed_mark(cold: int, before: int) -> bool:
    """Whether the cold answers have reached a mark at which to fit, since there were ``before`` of them.

    The marks lie half as many again apart: 400, 600, 900, 1350 ... so that a fit that was not kept is tried again
    when there is much more to go by, and not after each sitting.
    """
    mark = ENOUGH
    while mark <= before:
        mark += mark // 2
    return cold >= mark
