"""Figures as they are printed."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median


def show(name: str, ours: Sequence[float], floor: Sequence[float], aim: str) -> None:
    """One line: our median, the floor's, and the median of the ratios pair by pair."""
    ratios = sorted(a / b for a, b in zip(ours, floor, strict=False))
    print(
        f"{name}: {median(ours) * 1000:.1f} ms against {median(floor) * 1000:.1f} ms, ratio {median(ratios):.2f} "
        f"({ratios[0]:.2f} to {ratios[-1]:.2f}, {len(ratios)} pairs; {aim})",
        flush=True,
    )
