"""The names that ``theme`` can have, known without the framework, which takes its time to import."""

from __future__ import annotations

from typing import Final

THEMES: Final = (
    "lamp", "ink",
    "ansi-dark", "ansi-light", "atom-one-dark", "atom-one-light",
    "catppuccin-frappe", "catppuccin-latte", "catppuccin-macchiato", "catppuccin-mocha",
    "dracula", "flexoki", "gruvbox", "monokai", "nord",
    "rose-pine", "rose-pine-dawn", "rose-pine-moon", "solarized-dark", "solarized-light",
    "textual-dark", "textual-light", "tokyo-night",
)  # fmt: skip
"""Our own two first, then the framework's; a test holds them against the app's."""
