"""Intervals spread a little, so that what was met together does not always come back together."""

from __future__ import annotations

from zlib import crc32

from trainer.schedule.memory import MAX_INTERVAL


def spread(interval: int, seed: int, item: str, n: int) -> int:
    """An interval of 3 days or more moved by at most max(1 day, 5 %), the same on every machine.

    Args:
        interval: in days.
        seed: of the record.
        item: its id.
        n: how many updates it has had.
    """
    if interval < 3:
        return interval
    width = max(1, interval // 20)
    least, most = interval - width, min(interval + width, MAX_INTERVAL)
    return least + crc32(f"{seed}:{item}:{n}".encode()) % (most - least + 1)
