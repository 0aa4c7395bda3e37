"""The next key of the record: unique, and after the last one whatever the clock does."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from trainer.profile.lines import key_time, make_key, to_milliseconds
from trainer.schedule.days import LOST, SET_BACK

_SMALL: Final = (SET_BACK + 1) * 86_400_000
"""In milliseconds; seven practice days reach over almost eight times 24 hours."""
_LOST: Final = LOST * 86_400_000


def next_key(at: datetime, device: str, number: int, last: str) -> str:
    """The key of a line that is written now.

    While the clock stands still, or was set back by at most a week, the time of the last key stands still too
    and the running number tells the lines apart; after a larger jump back the clock is believed, but for one that
    lost its battery.

    Args:
        at: the time now, aware.
        device: this machine.
        number: running number, above all that this device has used.
        last: the last key in the record's order, of any device, or empty.
    """
    now = to_milliseconds(at)
    key = make_key(now, device, number)
    if not last or key > last:
        return key
    before = key_time(last)
    if before - now > _SMALL and not now < _LOST <= before:
        return key
    key = make_key(before, device, number)
    return key if key > last else make_key(before + 1, device, number)
