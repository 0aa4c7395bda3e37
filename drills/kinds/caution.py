"""The caution wherever a hand has to work hard."""

from __future__ import annotations

from typing import Final

CAUTION: Final = "Stop when a finger, the hand or the wrist hurts, and ask your teacher, or a doctor if it stays."
"""It defers to people who can see the hand."""
