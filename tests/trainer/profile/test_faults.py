"""A disk that fails loses nothing while the process lives, and the learner is told."""

from __future__ import annotations

import errno
from datetime import timedelta
from pathlib import Path
from threading import Event as Signal
from threading import Thread

import pytest

from tests.trainer.profile.faults import (
    DAY,
    ERRORS,
    POINTS,
    START,
    FaultyDisk,
    answer,
    practise,
    read_back,
    record_files,
    replayed,
)
from trainer.profile.care import check_profile
from trainer.profile.store import Profile


@pytest.mark.parametrize("number", ERRORS)
@pytest.mark.parametrize("point", POINTS)
def test_nothing_is_lost_when_the_disk_fails(tmp_path: Path, point: str, number: int) -> None:
    disk = FaultyDisk()
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    profile.keep(answer(0), START)
    disk.fails[point] = number
    for n in range(1, 4):
        profile.keep(answer(n), START + timedelta(seconds=n))
        profile.sync()
    profile.save(START)
    assert profile.ledger.events == 4
    disk.fails.clear()
    profile.keep(answer(4), START + timedelta(seconds=4))
    assert profile.sync() is None
    assert profile.close(START) is None
    assert len(read_back(tmp_path)) == 5
    assert check_profile(tmp_path, "me") == []
    assert Profile.open(tmp_path, "me").ledger.as_data() == replayed(tmp_path).as_data()


@pytest.mark.parametrize("number", ERRORS)
@pytest.mark.parametrize("point", POINTS)
def test_nothing_is_lost_when_the_disk_fails_from_the_start(tmp_path: Path, point: str, number: int) -> None:
    disk = FaultyDisk()
    disk.fails[point] = number
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    profile.new_baseline(0.61, START, DAY)
    for n in range(3):
        profile.keep(answer(n), START + timedelta(seconds=n))
        told = profile.sync()
        assert told is not None
        assert "answers are not being saved" in told
        assert told.isprintable()
    assert (profile.ledger.events, profile.unsaved is None) == (3, False)
    disk.fails.clear()
    profile.keep(answer(3), START + timedelta(seconds=3))
    assert profile.sync() is None
    assert profile.close(START) is None
    assert len(read_back(tmp_path)) == 5
    again = Profile.open(tmp_path, "me")
    assert again.ledger.as_data() == profile.ledger.as_data() == replayed(tmp_path).as_data()
    assert again.base == 0.61


def test_a_write_that_is_cut_short_leaves_no_broken_line(tmp_path: Path) -> None:
    disk = FaultyDisk()
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    profile.keep(answer(0), START)
    disk.short = True
    for n in range(1, 3):
        profile.keep(answer(n), START)
        assert profile.unsaved is not None
        assert "free some space" in profile.unsaved
    assert profile.unsaved_lines == 2
    disk.short = False
    profile.keep(answer(3), START)
    assert (profile.unsaved, profile.unsaved_lines) == (None, 0)
    assert len(read_back(tmp_path)) == 4
    assert check_profile(tmp_path, "me") == []
    profile.close(START)


def test_a_failed_fsync_is_made_good_by_writing_again(tmp_path: Path) -> None:
    disk = FaultyDisk()
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    profile.keep(answer(0), START)
    assert profile.sync() is None
    disk.fails["fsync"] = errno.EIO
    profile.keep(answer(1), START)
    assert profile.sync() is not None
    profile.keep(answer(2), START)
    assert profile.unsaved is not None
    disk.fails.clear()
    before = record_files(tmp_path)[0].read_bytes()
    assert profile.sync() is None
    assert disk.counts["overwrite"] == 1
    assert record_files(tmp_path)[0].read_bytes() == before
    profile.close(START)


def test_a_slow_fsync_holds_up_no_answer(tmp_path: Path) -> None:
    entered, leave = Signal(), Signal()

    class Slow(FaultyDisk):
        def reach(self, point: str, path: Path) -> None:
            super().reach(point, path)
            if point == "fsync" and path.parent.name == "answers":
                entered.set()
                assert leave.wait(30)

    profile = Profile.open(tmp_path, "me", write=True, disk=Slow())
    profile.keep(answer(0), START)
    thread = Thread(target=profile.sync)
    thread.start()
    assert entered.wait(30)
    profile.keep(answer(1), START)
    assert len(read_back(tmp_path)) == 2
    leave.set()
    thread.join(30)
    profile.close(START)


def test_memory_that_cannot_be_saved_is_told_and_costs_no_answer(tmp_path: Path) -> None:
    disk = FaultyDisk()
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    profile.keep(answer(0), START)
    disk.fails["rename"] = errno.EACCES
    assert profile.close(START) is None
    assert ["memory is not saved" in problem.message for problem in profile.problems] == [True]
    assert Profile.open(tmp_path, "me").ledger.as_data() == profile.ledger.as_data()


def test_a_home_that_cannot_be_read_is_a_problem_and_no_crash(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    disk = FaultyDisk()
    disk.fails = {"names": errno.EACCES, "read": errno.EACCES}
    profile = Profile.open(tmp_path, "me", disk=disk)
    assert profile.ledger.events == 0
    assert all("cannot be read" in problem.message for problem in profile.problems)
    assert profile.problems
