"""What screens tell the app."""

from __future__ import annotations

from dataclasses import dataclass

from textual.message import Message


@dataclass
class Go(Message):
    """Show another screen of the house, by its name in the table of commands."""

    place: str
