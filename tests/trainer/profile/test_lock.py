"""One writer at a time, in real processes that are really killed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.trainer.profile.faults import START, answer, read_back
from trainer.profile.care import check_profile
from trainer.profile.files import Disk
from trainer.profile.lock import HeldError, ProfileLock, read_holder
from trainer.profile.store import Profile

HOLD = """
import sys, pathlib
from tests.trainer.profile.faults import START, answer
from trainer.profile.store import Profile
profile = Profile.open(pathlib.Path(sys.argv[1]), "me", write=True)
for number in range(3):
    profile.keep(answer(number), START)
    assert profile.unsaved is None, profile.unsaved
print("kept", flush=True)
sys.stdin.read()
"""


def _holder(home: Path) -> subprocess.Popen[str]:
    """Another process that has answered three times and is about to show a verdict."""
    process = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(home)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "kept\n"
    return process


def _kill(process: subprocess.Popen[str]) -> None:
    process.kill()
    process.communicate()


def test_a_second_process_is_refused_and_told_who_holds_it(tmp_path: Path) -> None:
    other = _holder(tmp_path)
    try:
        profile = Profile.open(tmp_path, "me", write=True)
        with pytest.raises(HeldError, match=rf"in use \(by process {other.pid} on .+ since 2026-11-25T08:00:00Z\)"):
            profile.acquire(START)
        profile.keep(answer(), START)
        assert profile.unsaved is not None
        assert str(other.pid) in profile.unsaved
        assert profile.unsaved_lines == 1
        assert len(read_back(tmp_path)) == 3
        assert Profile.open(tmp_path, "me").ledger.events == 3
    finally:
        _kill(other)
    assert profile.save(START) is None
    assert len(read_back(tmp_path)) == 4
    assert profile.ledger.events == 4
    profile.close(START)


def test_a_killed_process_loses_no_answer_and_no_lock(tmp_path: Path) -> None:
    _kill(_holder(tmp_path))
    assert len(read_back(tmp_path)) == 3
    assert read_holder(tmp_path / "profiles" / "me", Disk()) is not None
    profile = Profile.open(tmp_path, "me", write=True)
    profile.acquire(START)
    profile.keep(answer(), START)
    assert profile.ledger.events == 4
    profile.close(START)
    assert read_holder(tmp_path / "profiles" / "me", Disk()) is None


DIE = """
import os, pathlib, sys
from tests.trainer.profile.faults import START, answer
from trainer.profile.care import check_profile
from trainer.profile.files import Disk
from trainer.profile.store import Profile

class Dying(Disk):
    left = int(sys.argv[2])
    def reach(self, point, path):
        self.left -= 1
        if self.left < 0:
            os._exit(9)

profile = Profile.open(pathlib.Path(sys.argv[1]), "me", write=True, disk=Dying())
for number in range(6):
    profile.keep(answer(number), START)
    print(number, flush=True)
    profile.sync()
profile.close(START)
print("done", flush=True)
"""


@pytest.mark.parametrize("calls", [8, 20, 24, 28, 30, 35, 40, 44, 48, 52])
def test_a_process_that_dies_at_any_call_loses_no_answer_it_has_shown(tmp_path: Path, calls: int) -> None:
    done = subprocess.run([sys.executable, "-c", DIE, str(tmp_path), str(calls)], capture_output=True, text=True)
    assert done.returncode in (0, 9), done.stderr
    shown = sum(line.isdigit() for line in done.stdout.split())
    profile = Profile.open(tmp_path, "me", write=True)
    profile.keep(answer(), START)
    assert profile.ledger.events - 1 >= shown
    assert profile.close(START) is None
    assert len(read_back(tmp_path)) == profile.ledger.events
    assert [problem.severity for problem in check_profile(tmp_path, "me")] == []


def test_two_in_one_process_exclude_each_other(tmp_path: Path) -> None:
    first, second = ProfileLock(tmp_path, Disk()), ProfileLock(tmp_path, Disk())
    first.acquire("me", START)
    first.acquire("me", START)
    with pytest.raises(HeldError):
        second.acquire("me", START)
    assert (first.held, second.held) == (True, False)
    second.release()
    first.release()
    second.acquire("me", START)
    second.release()


@pytest.mark.parametrize("text", ["", "pid = 'x'", "[", "\0", 'pid = 1\nhost = "a\\u001b[2J"\nsince = "now"'])
def test_a_strange_holder_file_does_no_harm(tmp_path: Path, text: str) -> None:
    (tmp_path / "holder.toml").write_text(text)
    error = HeldError("me", read_holder(tmp_path, Disk()))
    assert str(error).isprintable()
