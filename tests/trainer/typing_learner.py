"""Runs commands as a person or a program would, in this process or in one of its own."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest

from trainer.cli import main

ROOT = Path(__file__).resolve().parents[2]


class Keyboard(io.TextIOWrapper):
    """Lines that somebody types."""

    def isatty(self) -> bool:
        return True


class Terminal:
    """A place to type commands, with a home folder of its own."""

    def __init__(
        self, home: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
    ) -> None:
        self.home = home
        self._monkeypatch = monkeypatch
        self._capsys = capsys
        self.errors = ""
        self.now("2026-11-25T08:00:00Z")
        for name in ("SIXLINE_HOME", "SIXLINE_DEBUG", "XDG_DATA_HOME"):
            monkeypatch.delenv(name, raising=False)
        monkeypatch.setenv("TERM", "xterm")

    def now(self, time: str) -> None:
        """Set where the clock starts."""
        self._monkeypatch.setenv("SIXLINE_NOW", time)

    def run(self, *argv: str, lines: Iterable[str] = (), typed: bool = False) -> tuple[int, str]:
        """Type a command, and lines of input; exit code and what stood on standard output."""
        data = "".join(f"{line}\n" for line in lines).encode()
        with (Keyboard if typed else io.TextIOWrapper)(io.BytesIO(data), encoding="utf-8") as stdin:
            self._monkeypatch.setattr(sys, "stdin", stdin)
            code = main([*argv, "--home", str(self.home)])
        out, self.errors = self._capsys.readouterr()
        return code, out

    def json(self, *argv: str) -> Any:
        """The document that a command prints."""
        code, out = self.run(*argv, "--json")
        assert (code, self.errors) == (0, "")
        return json.loads(out)

    def practise(self, *argv: str, replies: Iterable[object]) -> list[dict[str, Any]]:
        """Every line that a sitting with a program prints; replies that are no text are sent as JSON."""
        sent = [reply if isinstance(reply, str) else json.dumps(reply) for reply in replies]
        _, out = self.run("--plain", "--json", *argv, lines=sent)
        return [json.loads(line) for line in out.splitlines()]

    def learn(self, reply: Callable[[dict[str, Any]], object], *argv: str) -> list[dict[str, Any]]:
        """A whole sitting with a program that answers each question, and all the lines that were printed."""
        printed: list[dict[str, Any]] = []

        class Answering:
            """Standard input whose every line follows from what was asked last."""

            encoding = "utf-8"

            def isatty(self) -> bool:
                return False

            @property
            def buffer(self) -> Answering:
                return self

            def readline(self, limit: int) -> bytes:
                printed.extend(map(json.loads, terminal._capsys.readouterr().out.splitlines()))
                return json.dumps(reply(printed[-1]["ask"])).encode() + b"\n"

        terminal = self
        self._monkeypatch.setattr(sys, "stdin", Answering())
        assert main(["--plain", "--json", *argv, "--home", str(self.home)]) == 0
        out, self.errors = self._capsys.readouterr()
        return [*printed, *map(json.loads, out.splitlines())]

    @property
    def record(self) -> list[Path]:
        """The files of the record."""
        return sorted(self.home.glob("profiles/*/answers/*.toml"))


def start(home: Path, *argv: str, **env: str) -> subprocess.Popen[str]:
    """The program in a process of its own, its three streams piped."""
    return subprocess.Popen(
        [sys.executable, "-m", "trainer.cli", *argv],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        bufsize=1,
        env=environment(home, **env),
    )


def environment(home: Path, **more: str) -> dict[str, str]:
    """This process's environment, with the checkout's own packages and a home folder."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("SIXLINE_")}
    return {**kept, "PYTHONPATH": str(ROOT), "SIXLINE_HOME": str(home), **more}


def next_line(process: subprocess.Popen[str], kind: str) -> dict[str, Any]:
    """The next line of a kind that the program prints."""
    assert process.stdout is not None
    for line in process.stdout:
        found: dict[str, Any] = json.loads(line)
        if kind in found:
            inner: dict[str, Any] = found[kind]
            return inner
    raise AssertionError(f"the program ended without a line of {kind}")


def send(process: subprocess.Popen[str], reply: object) -> None:
    """Reply to the program."""
    assert process.stdin is not None
    process.stdin.write(json.dumps(reply) + "\n")
    process.stdin.flush()
