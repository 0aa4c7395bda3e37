"""Reading the record around whatever is broken."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trainer.profile.faults import DAY, START, answer, everything, practise, read_back, record_files
from trainer.profile.care import check_profile
from trainer.profile.files import Disk
from trainer.profile.record import read_file
from trainer.profile.store import Profile


def _one_file(home: Path, answers: int = 5) -> tuple[Path, bytes]:
    practise(home, answers)
    (path,) = record_files(home)
    return path, path.read_bytes()


def _events(home: Path) -> int:
    return Profile.open(home, "me").ledger.events


def test_a_tail_torn_at_any_byte_costs_that_answer_alone(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    last = whole.rstrip(b"\n").rfind(b"\n") + 1
    for end in range(last + 1, len(whole)):
        path.write_bytes(whole[:end])
        found = read_file(Disk(), path, "file")
        assert [len(found.entries), found.broken, found.whole, found.size] == [4, 0, last, end]
        assert [problem.severity for problem in found.problems] == ["note"]


@pytest.mark.parametrize("tail", [b"\0", b"\0" * 4096, b'"2026-11-25T08\0\0\0\0', b"\0\0\n", b'"2026-11\0\0" = {}\n\0'])
def test_a_torn_tail_is_cut_and_kept_aside_by_the_next_practice(tmp_path: Path, tail: bytes) -> None:
    path, whole = _one_file(tmp_path)
    path.write_bytes(whole + tail)
    before = everything(tmp_path)
    assert [problem.severity for problem in check_profile(tmp_path, "me")] == ["note"]
    assert _events(tmp_path) == 5
    assert everything(tmp_path) == before

    profile = Profile.open(tmp_path, "me", write=True)
    profile.keep(answer(9), START)
    profile.close(START)
    assert path.read_bytes().startswith(whole)
    assert len(read_back(tmp_path)) == 6
    aside = tmp_path / "profiles" / "me" / "aside"
    assert [file.read_bytes() for file in aside.iterdir()] == [tail]
    assert check_profile(tmp_path, "me") == []


def test_a_file_torn_inside_its_header_is_begun_again(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    for end in (0, 3, 11, 20):
        path.write_bytes(whole[:end])
        profile = Profile.open(tmp_path, "me", write=True)
        profile.keep(answer(), START)
        assert profile.unsaved is None
        profile.close(START)
        assert _events(tmp_path) == 1
        assert path.read_bytes().startswith(b"format = 1\n")


@pytest.mark.parametrize(
    "line",
    [
        b"nonsense",
        b'"2026-11-25T08:00:00.123Z k3f9w2 000412" = { day = 1',
        b"\xff\xfe",
        b"\x1b[2J",
        b'"a" = [1, 2',
        b'"a" = ' + b"[" * 5000,
        b'"""',
        b"[table]",
    ],
)
def test_a_broken_line_in_the_middle_is_read_around_and_told(tmp_path: Path, line: bytes) -> None:
    path, whole = _one_file(tmp_path)
    lines = whole.split(b"\n")
    lines.insert(4, line)
    path.write_bytes(b"\n".join(lines))
    before = path.read_bytes()
    assert _events(tmp_path) == 5
    (problem,) = check_profile(tmp_path, "me")
    assert (problem.severity, problem.file, problem.line) == ("error", str(path), 5)
    assert str(problem).isprintable()
    assert path.read_bytes() == before


def test_a_broken_line_is_told_at_every_opening_but_costs_no_rebuild(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    path.write_bytes(whole.replace(b"right = true", b"right = maybe", 1))
    profile = Profile.open(tmp_path, "me", write=True)
    assert len(profile.problems) == 1
    profile.keep(answer(7), START)
    profile.close(START)
    calls: list[int] = []
    again = Profile.open(tmp_path, "me", progress=lambda done, of: calls.append(done))
    assert calls == []
    assert again.ledger.events == 5
    assert ["1 line" in problem.message for problem in again.problems] == [True]


def test_lines_after_nuls_and_lines_ended_as_on_windows_count(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    lines = whole.split(b"\n")
    lines[3] = b"\0" * 50 + lines[3]
    path.write_bytes(b"\r\n".join(lines))
    assert _events(tmp_path) == 5
    assert check_profile(tmp_path, "me") == []


def test_comments_and_empty_lines_are_no_errors(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    path.write_bytes(b"# mine\n\n" + whole + b"\n# more\n")
    assert check_profile(tmp_path, "me") == []
    assert _events(tmp_path) == 5


def test_a_newer_file_is_refused_untouched(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    path.write_bytes(whole.replace(b"format = 1", b"format = 2", 1))
    before = path.read_bytes()
    profile = Profile.open(tmp_path, "me", write=True)
    assert profile.ledger.events == 0
    (problem,) = profile.problems
    assert "newer" in problem.message
    assert problem.mend == "update Sixline"
    profile.keep(answer(), START)
    assert profile.unsaved is not None
    assert "newer" in profile.unsaved
    profile.close(START)
    assert path.read_bytes() == before


def test_a_file_without_its_format_is_read_and_told(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path)
    path.write_bytes(whole.split(b"\n", 2)[2])
    assert _events(tmp_path) == 5
    assert [problem.severity for problem in check_profile(tmp_path, "me")] == ["warning"]


def test_lines_of_several_files_count_in_the_order_of_day_and_key(tmp_path: Path) -> None:
    answers = tmp_path / "profiles" / "me" / "answers"
    answers.mkdir(parents=True)
    for device, said in (("bbbbbb", "wrong"), ("aaaaaa", "right")):
        right = "true" if said == "right" else "false"
        lines = [
            f'"2026-11-{25 + n}T08:00:00.000Z {device} 00000{n}" = {{ day = {DAY + n}, item = "a", right = {right}, '
            f'said = "{said}", seconds = 1.00, base = 0.50, limit = 1.70 }}\n'
            for n in (1, 2)
        ]
        (answers / f"2026-11.{device}.toml").write_text(f'format = 1\ndevice = "{device}"\n' + "".join(lines))
    ledger = Profile.open(tmp_path, "me").ledger
    # Device aaaaaa answers first on both days, so the cold answer of the second day is its right one.
    assert list(ledger.recent) == [True]


def test_two_lines_with_one_key_count_once_and_the_smaller_wins(tmp_path: Path) -> None:
    path, whole = _one_file(tmp_path, 1)
    line = whole.split(b"\n")[2]
    other = line.replace(b'said = "C"', b'said = "B"')
    for pair in ([line, other], [other, line]):
        path.write_bytes(b"\n".join([*whole.split(b"\n")[:2], *pair, line, b""]))
        problems = check_profile(tmp_path, "me")
        assert ["two different lines" in problem.message for problem in problems] == [True]
        assert _events(tmp_path) == 1


def test_strange_files_are_noted_and_left(tmp_path: Path) -> None:
    path, _ = _one_file(tmp_path)
    (path.parent / "notes.txt").write_text("mine")
    assert [problem.severity for problem in check_profile(tmp_path, "me")] == ["note"]
    assert _events(tmp_path) == 5
