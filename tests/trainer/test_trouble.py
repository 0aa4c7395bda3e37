"""A sitting without the screen when the disk or the clock is not as it should be."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from tests.trainer.test_programs import of
from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import Terminal
from trainer.clock import Clock
from trainer.profile.files import Disk

SIX = {"answer": "6", "seconds": 1.2}


def fail(point: str, number: int, monkeypatch: pytest.MonkeyPatch, ending: str = "") -> None:
    """From now on, one system call fails for files of that ending."""

    def reach(disk: Disk, called: str, path: Path) -> None:
        if called == point and path.name.endswith(ending):
            raise OSError(number, os.strerror(number), str(path))

    monkeypatch.setattr(Disk, "reach", reach)


def test_a_full_disk_is_told_and_practice_goes_on(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    terminal.practise(replies=[SIX])
    fail("write", errno.ENOSPC, monkeypatch)
    lines = terminal.practise(replies=[SIX] * 3)
    assert len(of(lines, "verdict")) == 3
    assert "answers are not being saved, the disk is full" in terminal.errors.splitlines()[0]
    assert len(record_lines(terminal.record)) == 1
    code, _ = terminal.run("--plain", lines=["6"])
    assert code == 1
    assert "answers are not being saved, the disk is full" in terminal.errors.splitlines()[-1]
    code, _ = terminal.run("--plain", "--json", lines=['{"answer": "6"}'])
    assert code == 1


def test_a_disk_that_takes_nothing_is_told(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    fail("make_folder", errno.EROFS, monkeypatch)
    code, out = terminal.run("--plain", lines=["6", "q"])
    assert code == 1
    assert "Right: string 6." in out
    assert terminal.errors.startswith("sixline: answers are not being saved, the disk is read-only (")
    assert not terminal.home.exists()


def test_answers_come_through_once_the_disk_takes_them_again(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    terminal.practise(replies=[SIX])
    failing = iter([True, True, False, False, False, False, False, False])

    def reach(disk: Disk, called: str, path: Path) -> None:
        if called == "write" and path.parent.name == "answers" and next(failing, False):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    monkeypatch.setattr(Disk, "reach", reach)
    terminal.practise(replies=[SIX] * 3)
    assert len(record_lines(terminal.record)) == 4


def test_a_clock_far_ahead_is_confirmed_first(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    terminal.practise(replies=[SIX])
    monkeypatch.setattr(Clock, "is_set", property(lambda clock: False))
    terminal.now("2028-03-01T08:00:00Z")
    assert terminal.run("--plain", "--json") == (2, "")
    assert terminal.errors.startswith("sixline: it is 2028-03-01 by this machine, more than a year after the last ")
    assert terminal.errors.count("\n") == 1
    code, out = terminal.run("--plain", lines=["n"])
    assert code == 2
    assert out == (
        "It is 2028-03-01 by this machine, more than a year after the last practice. Is that right? Type y or n.\n"
    )
    assert len(record_lines(terminal.record)) == 1
    code, out = terminal.run("--plain", "--answers", "1", lines=["y", "6"])
    assert code == 0
    assert len(record_lines(terminal.record)) == 2
