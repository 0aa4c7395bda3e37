"""Work that makes many small things, none of them in a ring, without looking for garbage meanwhile."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """Without looking for garbage: half of the time of reading a long file, a quarter of that of listing all items."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
