"""The key baseline: until it is measured, and what is refused as one."""

from __future__ import annotations

from typing import Final

from trainer.profile.lines import MAX_SECONDS
from trainer.schedule.grading import TOO_QUICK

UNMEASURED: Final = 0.5
"""Key baseline until it is measured, in seconds."""


def refusal(seconds: float, base: float, name: str) -> str | None:
    """Why a measured baseline is not kept, in one line, or None.

    Args:
        seconds: the median of the trials.
        base: the baseline that counts instead.
        name: of the profile.

    Raises:
        ValueError: that is no number of seconds.
    """
    if not 0 <= seconds < MAX_SECONDS:
        raise ValueError(f"{seconds} is no key baseline: give seconds")
    if seconds < TOO_QUICK:
        return (
            f"{seconds:.2f} s a key is quicker than a hand and is not kept ({name}): "
            f"{base:.2f} s counts; measure again in Setup"
        )
    return None
