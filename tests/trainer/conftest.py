"""Fixtures of the commands and of the screen."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.typing_learner import Terminal
from trainer.screens import foresight


@pytest.fixture(autouse=True)
def nothing_comes_by_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    """Today stays as it is first drawn, however long a test takes."""
    monkeypatch.setattr(foresight, "REST", 3600.0)


@pytest.fixture
def terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Terminal:
    """A place to type commands, with an empty home folder."""
    return Terminal(tmp_path / "home", monkeypatch, capsys)
