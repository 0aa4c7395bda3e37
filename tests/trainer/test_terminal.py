"""The installed program in a real pseudo-terminal: kept answers, signals, a crash, locales."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

if sys.platform == "win32":
    pytest.skip("Windows has no pseudo-terminals of this kind", allow_module_level=True)

from tests.bench.terminal import Terminal, python
from tests.trainer.profile.faults import read_back
from tests.trainer.typing_learner import environment

SCRIPT = Path(sys.executable).with_name("sixline")
PROGRAM = [str(SCRIPT)] if SCRIPT.exists() else python("-m", "trainer.cli")
LEAVES_SCREEN, SHOWS_CURSOR = b"\x1b[?1049l", b"\x1b[?25h"
BREAKS = """
import sys
from trainer.screens.practice import PracticeScreen
async def broken(self):
    raise RuntimeError("out of strings")
PracticeScreen.action_begin = broken
from trainer.cli import main
sys.exit(main())
"""
DEAF = """
import errno, sys
from trainer.screens.practice import PracticeScreen
write, gone = sys.__stderr__.write, []
def fail_once(text):
    if gone:
        gone.pop()
        raise OSError(errno.EIO, "the window is closed")
    return write(text)
async def close(self):
    gone.append(True)
    self.query_one("#prompt").update("nobody sees this")
sys.__stderr__.write = fail_once
PracticeScreen.action_begin = close
from trainer.cli import main
sys.exit(main())
"""
"""On Begin, the next write to the terminal fails as it does after a hang-up."""


def opened(home: Path, *command: str, **env: str) -> Terminal:
    """The program, or another command, on a terminal."""
    return Terminal(command or PROGRAM, {"SIXLINE_HOME": str(home), "SIXLINE_DEBUG": "", **env})


def to_the_first_question(terminal: Terminal) -> None:
    """From nothing to a question: two keys, and Enter at the lesson."""
    terminal.wait_for("What do you play")
    terminal.type("1")
    terminal.wait_for("Can you read it")
    terminal.type("1")
    terminal.wait_for("Go on")
    terminal.type("\r")
    terminal.wait_for("Explain")


def answer(terminal: Terminal) -> None:
    """Answer the first question, rightly or not, and wait for the verdict."""
    terminal.type("1")
    terminal.wait_for("Right", "Wrong")


def restored(terminal: Terminal) -> bool:
    """Whether the terminal is as it was before: its own screen, its cursor, its modes."""
    left, shown = terminal.all.rfind(LEAVES_SCREEN), terminal.all.rfind(SHOWS_CURSOR)
    hidden, entered = terminal.all.rfind(b"\x1b[?25l"), terminal.all.rfind(b"\x1b[?1049h")
    return left > entered >= 0 and shown > hidden and terminal.modes == terminal.before


def after(terminal: Terminal) -> str:
    """What stands on the terminal's own screen after the program, without control sequences."""
    rest = terminal.all.rpartition(LEAVES_SCREEN)[2].decode()
    return re.sub(r"\x1b\[[0-9;?<>=]*[A-Za-z]", "", rest).replace("\r", "").strip()


def test_an_answer_survives_a_kill(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_question(terminal)
        assert read_back(tmp_path) == {}
        answer(terminal)
        terminal.process.kill()
        assert terminal.end() == -signal.SIGKILL
    (line,) = read_back(tmp_path).values()
    assert line["item"]
    assert 0 <= line["seconds"] < 60  # a program answers the moment that it sees the question
    with opened(tmp_path) as terminal:
        terminal.wait_for("Begin")
        terminal.type("\r")
        terminal.wait_for("Leave off")
        terminal.type("q")
        assert terminal.end() == 0
    assert list(read_back(tmp_path).values()) == [line]


def test_q_leaves_everything_as_it_was(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_question(terminal)
        answer(terminal)
        terminal.type("\r")
        terminal.type("q")
        assert terminal.end() == 0
        assert restored(terminal)
        assert after(terminal) == ""
    assert len(read_back(tmp_path)) == 1
    assert (tmp_path / "profiles" / "me" / "memory.toml").is_file()


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_a_signal_restores_the_terminal_and_keeps_the_record(tmp_path: Path, number: signal.Signals) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_question(terminal)
        answer(terminal)
        terminal.process.send_signal(number)
        assert terminal.end() == 128 + number
        assert restored(terminal)
        assert after(terminal) == ""
    assert len(read_back(tmp_path)) == 1
    assert (tmp_path / "profiles" / "me" / "memory.toml").is_file()


def test_a_closed_window_ends_it_and_keeps_the_record(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_question(terminal)
        answer(terminal)
        terminal.close()
        assert terminal.end() == 129
    assert len(read_back(tmp_path)) == 1
    assert (tmp_path / "profiles" / "me" / "memory.toml").is_file()
    assert not (tmp_path / "profiles" / "me" / "holder.toml").exists()


def test_a_closed_window_that_sends_no_signal_ends_it_too(tmp_path: Path) -> None:
    soon = "import sys, trainer.hangup; trainer.hangup.LOOK_EVERY = 0.2; from trainer.cli import main; sys.exit(main())"
    with Terminal(python("-c", soon), {"SIXLINE_HOME": str(tmp_path)}, controlling=False) as terminal:
        to_the_first_question(terminal)
        terminal.drain(0.5)  # from now on nothing is written, which would tell it too
        terminal.close()
        assert terminal.end() == 129
    assert not (tmp_path / "profiles" / "me" / "holder.toml").exists()


def test_a_terminal_that_takes_nothing_more_ends_it(tmp_path: Path) -> None:
    """Else the program would wait for ever to hand over its last lines, and hold the profile."""
    with opened(tmp_path) as terminal:
        to_the_first_question(terminal)
        answer(terminal)
        terminal.type("q")
        terminal.end()
    with opened(tmp_path, *python("-c", DEAF)) as terminal:
        terminal.wait_for("Begin")
        terminal.type("\r")
        assert terminal.end() == 129
    assert len(read_back(tmp_path)) == 1
    assert not (tmp_path / "profiles" / "me" / "holder.toml").exists()


def test_a_crash_is_one_line_on_a_restored_terminal(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_question(terminal)
        answer(terminal)
        terminal.type("q")
        terminal.end()
    before = read_back(tmp_path)
    with opened(tmp_path, *python("-c", BREAKS)) as terminal:
        terminal.wait_for("Begin")
        terminal.type("\r")
        assert terminal.end() == 2
        assert restored(terminal)
        told = after(terminal)
        assert told.startswith("sixline: something went wrong inside (the screen): your answers are kept; ")
        assert "\n" not in told
        assert b"Traceback" not in terminal.all
        assert b"out of strings" not in terminal.all
    assert read_back(tmp_path) == before
    with opened(tmp_path, *python("-c", BREAKS), SIXLINE_DEBUG="1") as terminal:
        terminal.wait_for("Begin")
        terminal.type("\r")
        assert terminal.end() == 2
        assert "out of strings" in after(terminal)


def test_a_dumb_terminal_is_told_the_plain_way(tmp_path: Path) -> None:
    with opened(tmp_path, TERM="dumb") as terminal:
        assert terminal.end() == 2
        assert terminal.all.decode().strip() == "sixline: this terminal cannot draw (TERM=dumb): run `sixline --plain`"
    assert not list(tmp_path.iterdir())


def test_without_a_terminal_the_plain_way_is_named(tmp_path: Path) -> None:
    done = subprocess.run(PROGRAM, env=environment(tmp_path), input=b"", capture_output=True)
    assert done.returncode == 2
    assert done.stdout == b""
    assert done.stderr.decode().count("\n") == 1
    assert "run `sixline --plain`" in done.stderr.decode()
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("env", "ascii_only"),
    [
        ({"LC_ALL": "C"}, False),
        ({"LC_ALL": "POSIX", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, True),
        ({"LC_ALL": "xx_XX.UTF-8"}, False),
    ],
    ids=["C", "POSIX, no UTF-8", "none"],
)
def test_no_locale_ends_it(tmp_path: Path, env: dict[str, str], ascii_only: bool) -> None:
    with opened(tmp_path, **env) as terminal:
        to_the_first_question(terminal)
        answer(terminal)
        terminal.type("\x1b")
        terminal.wait_for("Begin")
        terminal.type("s")
        terminal.wait_for("Setup")
        terminal.type("\x1b")
        terminal.wait_for("Begin")
        terminal.type("q")
        assert terminal.end() == 0
        assert restored(terminal)
        assert terminal.all.isascii() or not ascii_only
    assert len(read_back(tmp_path)) == 1
