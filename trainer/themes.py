"""Two themes of our own: a warm lamp on dark paper, and ink on light paper."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from rich.style import Style
from textual.color import Color
from textual.theme import Theme
from textual.types import AnimationLevel

LEVELS: Final[tuple[AnimationLevel, ...]] = ("none", "basic", "full")
"""What the framework's own variable can say."""

DARK: Final = Theme(
    name="lamp",
    primary="#e2b06a",
    secondary="#a9b7c6",
    accent="#93c5d6",
    warning="#e0c184",
    error="#ee8d77",
    success="#9ccb94",
    foreground="#e4dfd3",
    background="#16181b",
    surface="#1e2125",
    panel="#272b30",
    dark=True,
)
LIGHT: Final = Theme(
    name="ink",
    primary="#8a4b00",
    secondary="#45535f",
    accent="#12597a",
    warning="#6d5200",
    error="#9e2a14",
    success="#225f2d",
    foreground="#100f0c",
    background="#faf7f0",
    surface="#f1ece1",
    panel="#ebe5d8",
    dark=False,
)
OWN: Final = (DARK, LIGHT)
DEFAULT: Final = DARK.name


def bold(colour: str) -> Style:
    """Bold in one of a theme's colours, the terminal's own ones (``ansi_green``) too, which Rich has no names for."""
    return Style(color=Color.parse(colour).rich_color, bold=True)


def motion(environ: Mapping[str, str], wanted: str = "auto") -> AnimationLevel:
    """How much may move on the screen.

    Nothing over SSH, where every frame is sent through the wire, nor where the learner wants it so; else what
    ``TEXTUAL_ANIMATIONS`` says. To be set on the app before it runs.

    Args:
        environ: the environment.
        wanted: the setting, ``"auto"`` or ``"off"``.
    """
    if wanted == "off":
        return "none"
    said = environ.get("TEXTUAL_ANIMATIONS", "").lower()
    for level in LEVELS:
        if said == level:
            return level
    return "none" if environ.get("SSH_CONNECTION") or environ.get("SSH_TTY") else "full"
