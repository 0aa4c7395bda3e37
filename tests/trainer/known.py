"""Learners who have met something already."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from tests.trainer.screen import NOW, settings
from trainer.profile.store import Profile
from trainer.schedule.event import Event

DAY = 20782
"""The practice day of ``NOW``."""


def know(home: Path, answers: int = 12, *, days_ago: int = 9) -> None:
    """A profile that met the first items some days ago, each answered rightly but for one."""
    settings(home, "# mine\nminutes = 10  # ten will do")
    items = catalogue(shipped()["standard"]).items
    profile = Profile.open(home, "me", write=True)
    for n in range(answers):
        at = NOW - timedelta(days=days_ago) + timedelta(seconds=5 * n)
        missed = n == 0
        profile.keep(
            Event(DAY - days_ago, items[n].id, not missed, "1", 1.0, 0.5, 1.7,
                  misreadings=("mirrored-line",) if missed else ()), at,
        )  # fmt: skip
    profile.close(NOW - timedelta(days=days_ago))
