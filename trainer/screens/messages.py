"""What screens tell the app, and the clock that stamps all messages."""

from __future__ import annotations

from dataclasses import dataclass

from textual.message import Message

from trainer.practice import Practice


@dataclass
class Go(Message):
    """Show another screen of the house, by its name in the table of commands."""

    place: str


@dataclass
class Ended(Message):
    """The sitting is over, or the learner left off."""

    practice: Practice


def stamp() -> float:
    """Now, in seconds of the clock that the framework stamps keys with (not the same one on every system)."""
    return Message().time
