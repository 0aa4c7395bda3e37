"""Figures as they are printed."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median


def show(name: str, ours: Sequence[float], floor: Sequence[float], aim: str) -> None:
    """One line: our median, the floor's, and the median of the ratios pair by pair."""
    ratio = median(a / b for a, b in zip(ours, floor, strict=True))
    print(
        f"{name}: {median(ours) * 1000:.1f} ms against {median(floor) * 1000:.1f} ms, ratio {ratio:.2f} "
        f"({min(a / b for a, b in zip(ours, floor, strict=True)):.2f} to "
        f"{max(a / b for a, b in zip(ours, floor, strict=True)):.2f}, {len(ours)} pairs; {aim})",
        flush=True,
    )
