"""The command line: help, errors in one line, exit codes, what is imported for what."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.trainer.typing_learner import Terminal, environment
from trainer import __version__
from trainer.cli import COMMANDS, PROFILE_COMMANDS, main
from trainer.clock import Clock
from trainer.opening import Choices

EVERY = [(), *((name,) for name in COMMANDS), *(("profile", what) for what in PROFILE_COMMANDS)]


@pytest.mark.parametrize("command", EVERY, ids=" ".join)
def test_every_command_has_help(command: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*command, "--help"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith(" ".join(["usage: sixline", *command]))
    assert "--json" in out
    assert err == ""


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    out = capsys.readouterr().out
    for name in [*COMMANDS, "--plain", "--spoken", "--answers", "--home", "--profile", "--seed", "--version"]:
        assert name in out


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"sixline {__version__}\n"


@pytest.mark.parametrize(
    ("argv", "what", "mend"),
    [
        (["tody"], "there is no command 'tody'", "did you mean today?"),
        (["xyzzy"], "there is no command 'xyzzy'", "choose today, items"),
        (["profile", "lost"], "there is no command 'lost'", "did you mean list?"),
        (["profile"], "WHAT", "sixline profile --help"),
        (["--frets"], "--frets", "sixline --help"),
        (["today", "--frets"], "--frets", "--help"),
        (["--plain", "--answers", "0"], "'0' is no number from 1 up", "--help"),
        (["--plain", "--answers", "two"], "'two' is no number from 1 up", "--help"),
        (["--seed", "1.5", "today"], "'1.5' is no whole number", "--help"),
        (["items", "--tuning", "standrd"], "there is no tuning 'standrd' (--tuning)", "did you mean standard?"),
        (["items", "--tuning", "zzz"], "there is no tuning 'zzz'", "sixline tunings"),
        (["items", "--tuning", "D2 A2 D3"], "3 strings (--tuning)", "give 4 to 8"),
        (["items", "--tuning", "D2 A2 D3 G3 B3 X4"], "'X4' is no pitch (--tuning)", "such as E2"),
        (["items", "--tuning", "D4 B3 G3 D3 A2 D2"], "these pitches fall (--tuning)", "D2 A2 D3 G3 B3 D4"),
        (["items", "--tuning", "own"], "there is no tuning of your own yet (--tuning)", "[own-tuning]"),
        (["items", "--tuning", "own-10"], "a tuning of 1 string (--tuning)", "give 4 to 8"),
        (["--answers", "3"], "--answers belongs to --plain", "`sixline --plain --answers 3`"),
        (["--json", "--answers", "3"], "--answers belongs to --plain", "`sixline --plain --answers 3 --json`"),
        (["--spoken"], "--spoken belongs to --plain", "sixline --plain --spoken"),
        (["--json"], "--json belongs to --plain", "sixline --plain --json"),
        (["--plain", "--json", "--spoken"], "--spoken is for ears", "leave one"),
        (["--plain", "today"], "`sixline today` asks nothing", "leave --plain"),
        (["today", "--profile", "nul"], "'nul' is no profile name (--profile)", "choose another"),
        (["today", "--profile", "../up"], "'../up' is no profile name", "letters"),
        (["today", "--profile", ""], "'' is no profile name", "letters"),
        (["profile", "show"], "there is no profile me", "sixline profile list"),
        (["profile", "rebuild"], "there is no profile me", "sixline profile list"),
        (["profile", "check", "--profile", "COM1"], "'COM1' is no profile name (--profile)", "choose another"),
    ],
)
def test_wrong_usage_is_told_in_one_line(terminal: Terminal, argv: list[str], what: str, mend: str) -> None:
    code, out = terminal.run(*argv)
    assert (code, out) == (2, "")
    assert terminal.errors.startswith("sixline: ")
    assert terminal.errors.count("\n") == 1
    assert what in terminal.errors
    assert mend in terminal.errors
    assert " (" in terminal.errors
    assert "): " in terminal.errors
    assert not terminal.home.exists()


def test_what_is_typed_cannot_steer_the_terminal(terminal: Terminal) -> None:
    assert terminal.run("--\x1b[31m\n\u202e")[0] == 2
    assert "\x1b" not in terminal.errors
    assert "\u202e" not in terminal.errors
    assert terminal.errors.count("\n") == 1


def test_a_wrong_clock_is_told(terminal: Terminal) -> None:
    terminal.now("yesterday")
    assert terminal.run("today") == (2, "")
    assert terminal.errors.startswith("sixline: 'yesterday' is no time (SIXLINE_NOW): give one in UTC such as ")
    assert terminal.errors.count("\n") == 1


def test_without_a_terminal_the_plain_way_is_named(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "isatty", lambda number: False)
    assert terminal.run() == (2, "")
    assert "sixline --plain" in terminal.errors
    assert not terminal.home.exists()


def test_a_dumb_terminal_is_told_the_plain_way(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "isatty", lambda number: True)
    monkeypatch.setenv("TERM", "dumb")
    assert terminal.run() == (2, "")
    assert "TERM=dumb" in terminal.errors
    assert "sixline --plain" in terminal.errors


@pytest.mark.parametrize("before", [True, False])
def test_what_every_command_takes_stands_before_or_after_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], before: bool
) -> None:
    common = ["--home", str(tmp_path / "there"), "--profile", "ann", "--seed", "3", "--json"]
    assert main([*common, "profile", "list"] if before else ["profile", "list", *common]) == 0
    assert f'"home": "{tmp_path / "there"}"' in capsys.readouterr().out


def test_an_unexpected_error_is_one_line_and_no_traceback(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(choices: Choices, clock: Clock, *, as_json: bool) -> int:
        raise RuntimeError("out of\nstrings")

    monkeypatch.setattr("trainer.reports.tunings.report", fail)
    assert terminal.run("tunings") == (2, "")
    assert "RuntimeError out of\\nstrings" in terminal.errors
    assert terminal.errors.count("\n") == 1
    monkeypatch.setenv("SIXLINE_DEBUG", "1")
    assert terminal.run("tunings") == (2, "")
    assert "Traceback" in terminal.errors


def test_a_system_error_names_the_file(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(choices: Choices, clock: Clock, *, as_json: bool) -> int:
        raise PermissionError(13, "Permission denied", "/somewhere")

    monkeypatch.setattr("trainer.reports.tunings.report", fail)
    assert terminal.run("tunings") == (2, "")
    assert terminal.errors == "sixline: Permission denied (/somewhere): look at the disk and its rights\n"


LOADED = "import sys; from trainer.cli import main; code = main(sys.argv[1:]); print(*sys.modules, file=sys.stderr)"


@pytest.mark.parametrize(
    ("argv", "absent"),
    [
        (
            ["--help"],
            "textual rich pydantic fsrs filelock tomlkit platformdirs tomllib json dataclasses drills trainer.opening",
        ),
        (["items"], "textual rich pydantic filelock tomlkit fsrs"),
        (["today"], "textual rich pydantic filelock tomlkit fsrs"),
        (["progress"], "textual rich pydantic filelock tomlkit fsrs"),
        (["tunings"], "textual rich pydantic filelock tomlkit fsrs"),
    ],
    ids=lambda value: value[0] if isinstance(value, list) else "",
)
def test_nothing_is_imported_that_a_command_can_do_without(tmp_path: Path, argv: list[str], absent: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", LOADED, *argv], env=environment(tmp_path), capture_output=True, text=True, check=True
    )
    loaded = set(done.stderr.split())
    assert "trainer.cli" in loaded
    assert loaded.isdisjoint(absent.split())


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such pipes")
def test_a_reader_that_leaves_early_is_no_error(tmp_path: Path) -> None:
    process = subprocess.Popen(
        [sys.executable, "-m", "trainer.cli", "items"],
        env=environment(tmp_path), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.readline()
    process.stdout.close()
    assert process.stderr.read() == b""
    process.stderr.close()
    assert process.wait() == 0


def test_a_locale_without_utf8_gets_ascii(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "trainer.cli", "--plain", "--answers", "1"],
        env=environment(tmp_path, LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0", PYTHONIOENCODING="ascii"),
        input=b"6\n", capture_output=True, check=True,
    )  # fmt: skip
    assert done.stderr == b""
    assert done.stdout.isascii()
    assert b"\\u" not in done.stdout
    assert b"|-----------|" in done.stdout


@pytest.mark.parametrize("what", PROFILE_COMMANDS)
def test_a_home_that_is_no_folder_is_told(terminal: Terminal, what: str) -> None:
    terminal.home.write_text("not a folder")
    assert terminal.run("profile", what) == (2, "")
    assert terminal.errors.startswith("sixline: Not a directory (") or os.name == "nt"
    assert terminal.errors.count("\n") == 1
