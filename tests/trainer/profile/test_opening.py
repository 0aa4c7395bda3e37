"""memory.toml is trusted when it fits, and otherwise made again from the record; never an error."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from tests.trainer.profile.faults import DAY, START, answer, practise, record_files, replayed
from trainer.profile.store import Profile
from trainer.profile.tables import dump, load


class Opened:
    """A profile opened to read, and whether its record was replayed for that."""

    def __init__(self, home: Path) -> None:
        calls: list[int] = []
        self.profile = Profile.open(home, "me", progress=lambda done, of: calls.append(of))
        self.replayed = bool(calls)
        self.data = self.profile.ledger.as_data()


def test_what_fits_is_trusted_and_only_the_tail_is_replayed(tmp_path: Path) -> None:
    practise(tmp_path, 8)
    memory = tmp_path / "profiles" / "me" / "memory.toml"
    old = memory.read_bytes()
    old_history = memory.with_name("history.toml").read_bytes()
    practise(tmp_path, 5, start=START + timedelta(days=1), day=DAY + 1)
    whole = Opened(tmp_path)
    memory.write_bytes(old)
    memory.with_name("history.toml").write_bytes(old_history)
    tail = Opened(tmp_path)
    assert not whole.replayed
    assert not tail.replayed
    assert whole.data == tail.data
    memory.unlink()
    again = Opened(tmp_path)
    assert again.replayed
    assert again.data == whole.data


@pytest.mark.parametrize("name", ["memory.toml", "history.toml"])
def test_a_file_cut_anywhere_is_made_again(tmp_path: Path, name: str) -> None:
    practise(tmp_path, 12)
    path = tmp_path / "profiles" / "me" / name
    whole, expected = path.read_bytes(), Opened(tmp_path).data
    for end in [*range(0, len(whole), 37), len(whole) - 1]:
        path.write_bytes(whole[:end])
        opened = Opened(tmp_path)
        assert opened.replayed
        assert opened.data == expected
        assert opened.profile.problems == []


@pytest.mark.parametrize(
    "change",
    [
        {"format": 2},
        {"format": "x"},
        {"upto": {}},
        {"upto": 3},
        {"memory": {"seed": "x"}},
        {"memory": 3},
    ],
)
def test_a_state_of_another_version_or_shape_is_made_again(tmp_path: Path, change: dict[str, object]) -> None:
    practise(tmp_path, 12)
    path = tmp_path / "profiles" / "me" / "memory.toml"
    expected = Opened(tmp_path).data
    table = load(path.read_bytes())
    path.write_bytes(dump("changed", table | change))
    opened = Opened(tmp_path)
    assert opened.replayed
    assert opened.data == expected


@pytest.mark.parametrize("foreign", [b"", b"mine = 1\n", b"\xff\0", b"# x\nformat = 9\n"])
def test_what_is_not_ours_is_kept_aside_when_memory_is_saved(tmp_path: Path, foreign: bytes) -> None:
    practise(tmp_path, 3)
    folder = tmp_path / "profiles" / "me"
    (folder / "memory.toml").write_bytes(foreign)
    profile = Profile.open(tmp_path, "me", write=True)
    assert not (folder / "aside").exists()
    profile.keep(answer(), START)
    profile.close(START)
    assert [path.read_bytes() for path in (folder / "aside").iterdir()] == [foreign]
    assert not Opened(tmp_path).replayed


def test_what_is_ours_but_old_is_replaced_without_a_copy(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    practise(tmp_path, 3, start=START + timedelta(days=1), day=DAY + 1)
    assert not (tmp_path / "profiles" / "me" / "aside").exists()


def test_memory_and_history_of_different_moments_do_not_fit(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    history = tmp_path / "profiles" / "me" / "history.toml"
    old = history.read_bytes()
    practise(tmp_path, 3, start=START + timedelta(days=1), day=DAY + 1)
    history.write_bytes(old)
    assert Opened(tmp_path).replayed


def test_any_change_to_what_is_covered_is_seen(tmp_path: Path) -> None:
    practise(tmp_path, 5)
    (path,) = record_files(tmp_path)
    whole = path.read_bytes()
    changes = [
        whole.replace(b'said = "C"', b'said = "D"', 1),
        whole[: whole.rstrip(b"\n").rfind(b"\n") + 1],
        whole.replace(b"\n", b"\r\n"),
    ]
    for changed in changes:
        path.write_bytes(changed)
        assert Opened(tmp_path).replayed
    path.write_bytes(whole)
    assert not Opened(tmp_path).replayed
    path.unlink()
    gone = Opened(tmp_path)
    assert gone.replayed
    assert gone.profile.ledger.events == 0


def test_a_state_by_other_rules_is_made_again(tmp_path: Path) -> None:
    practise(tmp_path, 5)
    for name in ("memory.toml", "history.toml"):
        path = tmp_path / "profiles" / "me" / name
        table = load(path.read_bytes())
        table.pop("sum", None)
        path.write_bytes(dump("other rules", table | {"rules": table["rules"] + 1}))
    assert Opened(tmp_path).replayed


def test_a_jump_back_among_the_lines_after_the_state_needs_no_replay(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    folder = tmp_path / "profiles" / "me"
    states = [(folder / name, (folder / name).read_bytes()) for name in ("memory.toml", "history.toml")]
    practise(tmp_path, 3, start=START.replace(year=2028), day=DAY + 731)
    practise(tmp_path, 3, start=START + timedelta(days=1), day=DAY + 1)
    expected = replayed(tmp_path).as_data()
    for path, data in states:
        path.write_bytes(data)
    opened = Opened(tmp_path)
    assert not opened.replayed
    assert opened.data == expected


def test_older_lines_of_another_machine_are_put_in_their_place(tmp_path: Path) -> None:
    practise(tmp_path, 5)
    (path,) = record_files(tmp_path)
    line = path.read_text(encoding="utf-8").split("\n")[2].replace(path.name[8:14], "zzzzzz").replace("-25T", "-20T")
    line = line.replace(f"day = {DAY}", f"day = {DAY - 5}")
    (path.parent / "2026-11.zzzzzz.toml").write_text(f'format = 1\ndevice = "zzzzzz"\n{line}\n', encoding="utf-8")
    opened = Opened(tmp_path)
    assert opened.replayed
    assert list(opened.profile.ledger.days) == [DAY - 5, DAY]
    assert opened.profile.ledger.events == 6
