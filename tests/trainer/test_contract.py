"""The program in a process of its own: what is on the disk when, signals, one writer at a time."""

from __future__ import annotations

import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import next_line, send, start

NOW = "2026-11-25T08:00:00Z"
UNIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows knows no such signals")


def ended(process: subprocess.Popen[str]) -> tuple[int, str, str]:
    """Wait for the end: exit code, what was left on standard output, and the errors."""
    out, errors = process.communicate(timeout=60)
    return process.returncode, out, errors


@pytest.fixture
def sitting(tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """A sitting with a program that waits for its first answer."""
    process = start(tmp_path, "--plain", "--json", SIXLINE_NOW=NOW)
    try:
        next_line(process, "ask")
        yield process
    finally:
        process.kill()
        process.communicate()


def record(home: Path) -> list[Path]:
    """The files of the record."""
    return sorted(home.glob("profiles/me/answers/*.toml"))


def test_an_answer_is_on_the_disk_before_its_verdict(tmp_path: Path, sitting: subprocess.Popen[str]) -> None:
    for n, said in enumerate(["6", "1", "zz"], start=1):
        send(sitting, {"answer": said, "seconds": 1.2})
        assert next_line(sitting, "verdict")["said"] == said
        assert [line["said"] for line in record_lines(record(tmp_path))][-1:] == [said]
        assert len(record_lines(record(tmp_path))) == n
    sitting.kill()
    sitting.wait()
    assert [line["said"] for line in record_lines(record(tmp_path))] == ["6", "1", "zz"]
    again = start(tmp_path, "progress", "--json", SIXLINE_NOW=NOW)
    code, out, errors = ended(again)
    assert (code, errors) == (0, "")
    assert '"answers": 3' in out


@UNIX
@pytest.mark.parametrize("name", ["SIGTERM", "SIGINT", "SIGHUP"])
def test_a_signal_ends_the_sitting_and_saves(tmp_path: Path, sitting: subprocess.Popen[str], name: str) -> None:
    send(sitting, {"answer": "6", "seconds": 1.2})
    next_line(sitting, "ask")
    number = getattr(signal, name)
    sitting.send_signal(number)
    code, out, errors = ended(sitting)
    assert (code, errors) == (128 + number, "")
    assert out == '{"done": {"answers": 1, "right": 1, "slow": 0, "reason": "stop", "rid_of": []}}\n'
    folder = tmp_path / "profiles" / "me"
    assert (folder / "memory.toml").exists()
    assert (folder / "history.toml").exists()
    assert not (folder / "holder.toml").exists()


def test_one_writer_at_a_time(tmp_path: Path, sitting: subprocess.Popen[str]) -> None:
    code, out, errors = ended(start(tmp_path, "--plain", SIXLINE_NOW=NOW))
    assert (code, out) == (2, "")
    assert errors.startswith(f"sixline: profile me is in use (by process {sitting.pid} ")
    assert errors.count("\n") == 1
    code, out, errors = ended(start(tmp_path, "progress", "--json", SIXLINE_NOW=NOW))
    assert (code, errors) == (0, "")
    send(sitting, {"answer": "6", "seconds": 1.2})
    assert next_line(sitting, "verdict")["right"] is True
    sitting.kill()
    sitting.wait()
    code, out, errors = ended(start(tmp_path, "--plain", "--answers", "1", SIXLINE_NOW=NOW))
    assert (code, errors) == (0, "")
