"""The same seed and record give the same questions, byte for byte, whatever the process is like. Our rule."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

from tests.outside.told import items
from tests.trainer.typing_learner import send, start
from trainer.profile.store import Profile

ONE = {"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo", "LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0"}
OTHER = {"PYTHONHASHSEED": "4242", "TZ": "America/New_York", "LC_ALL": "tr_TR.UTF-8", "LANG": "de_DE.UTF-8",
         "PYTHONUTF8": "1", "COLUMNS": "40", "PYTHONOPTIMIZE": "1"}  # fmt: skip

ANSWERS = 45


def sit(home: Path, day: int, env: dict[str, str], *, seed: int = 5) -> str:
    """All that a sitting prints to a program that is right three times of four, at an hour of one day in both zones."""
    answers = {item["id"]: next(iter(item["answers"]), "") for item in items()}
    program = start(
        home, "--plain", "--json", "--seed", str(seed), "--answers", str(ANSWERS),
        **env, SIXLINE_NOW=f"2026-12-{day:02}T13:00:00Z",
    )  # fmt: skip
    assert program.stdout is not None
    printed = []
    for line in program.stdout:
        printed.append(line)
        if (ask := json.loads(line).get("ask")) is not None:
            right = ask["n"] % 4 or day == 1
            send(program, {"answer": answers[ask["id"]] if right else "7", "seconds": 1.2 + ask["n"] % 3})
    _, errors = program.communicate(timeout=60)
    assert (program.returncode, errors) == (0, "")
    assert json.loads(printed[-1])["done"]["answers"] == ANSWERS
    return "".join(printed)


def known(home: Path) -> tuple[dict[str, Any], dict[str, Any]]:
    """What was worked out of the record."""
    return Profile.open(home, "me").ledger.as_data()


def test_two_homes_get_the_same_questions_in_unlike_processes(tmp_path: Path) -> None:
    for day in (1, 2, 5):
        assert sit(tmp_path / "one", day, ONE) == sit(tmp_path / "other", day, OTHER)
    assert known(tmp_path / "one") == known(tmp_path / "other")
    # ... also once memory and history are worked out anew from the record, on another machine
    shutil.copytree(tmp_path / "one" / "profiles", tmp_path / "third" / "profiles")
    for name in ("memory.toml", "history.toml"):
        (tmp_path / "third" / "profiles" / "me" / name).unlink()
    after = sit(tmp_path / "one", 9, ONE)
    assert sit(tmp_path / "third", 9, OTHER) == after
    assert sit(tmp_path / "other", 9, OTHER, seed=6) != after
