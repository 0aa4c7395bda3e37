"""One profile: nothing is lost while the process lives, and reading creates nothing."""

from __future__ import annotations

import tomllib
from datetime import timedelta
from pathlib import Path
from threading import Event as Signal
from threading import Thread

import pytest

from tests.trainer.profile.faults import (
    DAY,
    START,
    FaultyDisk,
    answer,
    everything,
    practise,
    read_back,
    record_files,
    replayed,
)
from trainer.clock import SystemZone
from trainer.profile.settings import Settings
from trainer.profile.store import Profile


def test_a_missing_profile_opens_empty_and_creates_nothing(tmp_path: Path) -> None:
    for write in (False, True):
        profile = Profile.open(tmp_path / "home", "me", write=write)
        assert profile.settings == Settings()
        assert (profile.ledger.events, profile.base, profile.base_day, profile.exists) == (0, 0.5, None, False)
        assert profile.problems == []
        assert profile.close(START) is None
    assert list(tmp_path.iterdir()) == []


def test_reading_changes_nothing(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    (tmp_path / "profiles" / "me" / "memory.toml").unlink()
    before = everything(tmp_path)
    profile = Profile.open(tmp_path, "ME")
    assert profile.name == "me"
    assert profile.ledger.events == 3
    profile.close(START)
    with pytest.raises(RuntimeError, match="reading"):
        profile.acquire(START)
    assert everything(tmp_path) == before


def test_an_answer_is_in_the_file_when_keep_returns(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me", write=True)
    for number in range(3):
        profile.keep(answer(number), START)
        assert len(read_back(tmp_path)) == number + 1
    assert profile.ledger.events == 3
    assert sorted(read_back(tmp_path)) == list(read_back(tmp_path))
    profile.close(START)


def test_the_first_answer_makes_every_file_that_was_agreed(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    device = tomllib.loads((tmp_path / "device.toml").read_text(encoding="utf-8"))["id"]
    assert set(everything(tmp_path)) - {"profiles/me/lock"} == {
        "device.toml",
        "profiles/me/profile.toml",
        "profiles/me/memory.toml",
        "profiles/me/history.toml",
        f"profiles/me/answers/2026-11.{device}.toml",
    }
    memory = tomllib.loads((tmp_path / "profiles" / "me" / "memory.toml").read_text(encoding="utf-8"))
    size = record_files(tmp_path)[0].stat().st_size
    assert memory["upto"]["files"][f"2026-11.{device}.toml"][0] == size
    assert memory["upto"]["key"] == max(read_back(tmp_path))


def test_every_append_is_one_write(tmp_path: Path) -> None:
    disk = FaultyDisk()
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    profile.keep(answer(), START)
    disk.counts.clear()
    profile.keep(answer(), START)
    assert dict(disk.counts) == {"write": 1}
    profile.close(START)


def test_the_month_turns_in_utc(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me", write=True)
    turn = START.replace(month=12, day=1, hour=0)
    for n, back in enumerate((2, 1, 0)):
        profile.keep(answer(n), turn - timedelta(milliseconds=back))
    profile.close(START)
    assert [path.name[:7] for path in record_files(tmp_path)] == ["2026-11", "2026-12"]
    assert len(read_back(tmp_path)) == 3
    assert Profile.open(tmp_path, "me").ledger.as_data() == replayed(tmp_path).as_data()


def test_memory_is_saved_every_fifty_answers_by_sync(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me", write=True)
    memory = tmp_path / "profiles" / "me" / "memory.toml"
    for number in range(49):
        profile.keep(answer(number), START)
        profile.sync()
    assert not memory.exists()
    profile.keep(answer(49), START)
    assert not memory.exists()
    profile.keep(answer(50), START)
    profile.sync()
    assert tomllib.loads(memory.read_text(encoding="utf-8"))["memory"]["events"] == 50
    reader = Profile.open(tmp_path, "me")
    assert reader.ledger.as_data() == profile.ledger.as_data()
    profile.close(START)


def test_saving_in_a_thread_and_answering_meanwhile_do_not_disturb_each_other(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me", write=True)
    profile.keep(answer(), START)
    stop = Signal()

    def save() -> None:
        while not stop.is_set():
            profile.save(START)

    thread = Thread(target=save)
    thread.start()
    for number in range(400):
        profile.keep(answer(number)._replace(item=f"a/{number}"), START)
    stop.set()
    thread.join(30)
    assert profile.close(START) is None
    assert profile.problems == []
    assert len(read_back(tmp_path)) == 401
    assert Profile.open(tmp_path, "me").ledger.as_data() == replayed(tmp_path).as_data()


def test_a_baseline_is_a_line_and_counts_at_the_next_opening(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me", write=True)
    profile.new_baseline(0.7, START, DAY)
    profile.keep(answer(), START)
    profile.new_baseline(0.61, START, DAY)
    profile.close(START)
    assert [fields["baseline"] for fields in read_back(tmp_path).values() if "baseline" in fields] == [0.7, 0.61]
    for ledger_again in (False, True):
        if ledger_again:
            replayed(tmp_path)
        again = Profile.open(tmp_path, "me")
        assert (again.base, again.base_day) == (0.61, DAY)
    with pytest.raises(ValueError, match="baseline"):
        profile.new_baseline(float("nan"), START, DAY)


def test_a_baseline_that_no_hand_has_is_refused_aloud(tmp_path: Path) -> None:
    profile = Profile.open(tmp_path, "me", write=True)
    assert profile.new_baseline(0.15, START, DAY) is None
    told = profile.new_baseline(0.14, START, DAY)
    assert told is not None
    assert "0.14 s a key is quicker than a hand" in told
    assert profile.base == 0.15
    profile.close(START)
    assert [fields["baseline"] for fields in read_back(tmp_path).values()] == [0.15]


def test_what_another_process_wrote_since_opening_is_taken_in(tmp_path: Path) -> None:
    late = Profile.open(tmp_path, "me", write=True)
    practise(tmp_path, 3)
    before = late.ledger
    late.keep(answer(), START + timedelta(minutes=1))
    late.close(START)
    assert late.ledger is before  # a sitting that has begun goes on with it
    assert late.ledger.events == 4
    assert late.ledger.as_data() == replayed(tmp_path).as_data()


def test_a_sitting_never_goes_below_the_last_day_for_a_small_step_back(tmp_path: Path) -> None:
    practise(tmp_path, 2)
    profile = Profile.open(tmp_path, "me", write=True)
    assert profile.sitting_day(START - timedelta(days=7), SystemZone()) == DAY
    profile.keep(answer(day=DAY), START - timedelta(days=7))
    profile.close(START)
    assert list(read_back(tmp_path)) == sorted(read_back(tmp_path))
    assert Profile.open(tmp_path, "me").ledger.as_data() == replayed(tmp_path).as_data()


def test_after_a_clock_that_had_been_ahead_the_days_are_put_right(tmp_path: Path) -> None:
    practise(tmp_path, 2, start=START - timedelta(days=1), day=DAY - 1)
    ahead = START.replace(year=2028)
    practise(tmp_path, 4, start=ahead, day=DAY + 731)
    assert Profile.open(tmp_path, "me").ledger.last_day == DAY + 731

    profile = Profile.open(tmp_path, "me", write=True)
    day = profile.sitting_day(START, SystemZone())
    assert day == DAY
    assert list(profile.ledger.days) == [DAY - 1, DAY]
    assert profile.ledger.events == 6
    profile.keep(answer(0, day=day), START)  # number 0 is wrong in the lines of 2028, so their order shows
    profile.close(START)
    again = Profile.open(tmp_path, "me")
    assert again.ledger.as_data() == replayed(tmp_path).as_data()
    assert again.ledger.last_day == DAY
    assert again.ledger.events == 7
    assert [path.name[:7] for path in record_files(tmp_path)] == ["2026-11", "2028-11"]
    practise(tmp_path, 2, start=START + timedelta(days=1), day=DAY + 1)
    assert Profile.open(tmp_path, "me").ledger.as_data() == replayed(tmp_path).as_data()


@pytest.mark.parametrize("back", [3, 30])
def test_a_line_out_of_order_never_makes_memory_differ_from_a_replay(tmp_path: Path, back: int) -> None:
    practise(tmp_path, 4)
    profile = Profile.open(tmp_path, "me", write=True)
    profile.keep(answer(0, day=DAY - back), START - timedelta(days=back))
    profile.close(START)
    assert Profile.open(tmp_path, "me").ledger.as_data() == replayed(tmp_path).as_data()


def test_days_that_are_put_right_for_a_sitting_without_answers_are_not_saved(tmp_path: Path) -> None:
    practise(tmp_path, 4, start=START.replace(year=2028), day=DAY + 731)
    expected = replayed(tmp_path).as_data()
    profile = Profile.open(tmp_path, "me", write=True)
    profile.acquire(START)
    assert profile.sitting_day(START, SystemZone()) == DAY
    profile.close(START)
    assert Profile.open(tmp_path, "me").ledger.as_data() == expected


def test_settings_are_read_without_pydantic_while_the_file_is_the_same(tmp_path: Path) -> None:
    practise(tmp_path, 1)
    profile = Profile.open(tmp_path, "me", write=True)
    profile.change_settings({"capo": 4})
    profile.acquire(START)
    profile.close(START)
    import subprocess
    import sys

    script = (
        "import sys, pathlib\nfrom trainer.profile.store import Profile\n"
        f"profile = Profile.open(pathlib.Path({str(tmp_path)!r}), 'me', write=True)\n"
        "print(profile.settings.capo, 'pydantic' in sys.modules, 'fsrs' in sys.modules, 'tomlkit' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["4", "False", "False", "False"]
