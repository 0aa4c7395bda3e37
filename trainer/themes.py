"""Two themes of our own: a warm lamp on dark paper, and ink on light paper."""

from __future__ import annotations

from typing import Final

from rich.style import Style
from textual.color import Color
from textual.theme import Theme

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
    foreground="#24231f",
    background="#faf7f0",
    surface="#f1ece1",
    panel="#e6dfd0",
    dark=False,
)
OWN: Final = (DARK, LIGHT)
DEFAULT: Final = DARK.name


def bold(colour: str) -> Style:
    """Bold in one of a theme's colours, the terminal's own ones (``ansi_green``) too, which Rich has no names for."""
    return Style(color=Color.parse(colour).rich_color, bold=True)
