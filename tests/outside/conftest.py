"""Fixtures of what programs are told."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.typing_learner import Terminal


@pytest.fixture
def terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Terminal:
    """A place to type commands, with an empty home folder."""
    return Terminal(tmp_path / "home", monkeypatch, capsys)
