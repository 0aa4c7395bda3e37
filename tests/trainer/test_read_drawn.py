"""What ``sixline read`` draws: the piece in the engraved dialect, in systems that fit, in colour where it is wanted."""

from __future__ import annotations

import io
import re
import sys
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from tests.trainer.tabs import SONG, read
from tests.trainer.typing_learner import Terminal


@pytest.fixture
def song(tmp_path: Path) -> Path:
    path = tmp_path / "song.txt"
    path.write_text(SONG, encoding="utf-8")
    return path


def test_the_piece_is_drawn_in_the_engraved_dialect(terminal: Terminal, song: Path) -> None:
    out = terminal.run("read", str(song))[1]
    rows = out[out.index("Bars 1 to 2") : out.index("What is doubtful")].splitlines()
    staff = [row for row in rows if re.match(r"[eBGDAE] │", row)]
    assert [re.findall(r"\d+", row) for row in staff] == [
        ["0", "0", "0", "5", "7", "5"], ["1", "1", "1"], ["2", "2", "0"], ["2", "2", "2"], ["0", "3"], [],
    ]  # fmt: skip
    assert any("─H─" in row and "─P─" in row for row in rows)


@pytest.mark.parametrize("columns", [40, 60, 100])
def test_systems_fit_the_width(terminal: Terminal, monkeypatch: pytest.MonkeyPatch, columns: int) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    frets = [str(n % 25) for n in range(60)]
    row = "--".join(frets)
    text = "\n".join(f"{label}|{row if label == 'B' else '-' * len(row)}|" for label in "eBGDAE")
    out = read(terminal, text)[1]
    lines = [line for line in out.splitlines() if "│" in line]
    assert max(map(len, lines)) <= columns
    assert [fret for line in lines if line[0] == "B" for fret in re.findall(r"\d+", line)] == frets


def test_signs_that_widen_bars_beside_each_other_do_not_widen_the_system(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    text = "\n".join(
        f"{label}|{first}|{second}|"
        for label, first, second in (
            ("G", "-----------", "--<12>--<7>--<5>--"),
            ("D", "--------2--", "------------------"),
            ("A", "-----3-----", "------------------"),
            ("E", "--3--------", "------------------"),
        )
    )
    out = read(terminal, text)[1]
    assert max(len(line) for line in out.splitlines() if "│" in line) <= 40


def test_a_bar_that_goes_on_says_so(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    row = "--3" * 20
    out = read(terminal, "\n".join(f"{label}|{row if label == 'D' else '-' * 60}|--0--|" for label in "eBGDAE"))[1]
    headings = [line for line in out.splitlines() if line.startswith("Bar")]
    assert headings[0] == "Bar 1"
    assert len(headings) > 2
    assert all("1 (continued)" in heading for heading in headings[1:-1])
    assert headings[-1] in ("Bars 1 (continued) to 2", "Bar 2")


def test_bars_are_numbered_over_their_systems(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "50")
    bar = "--0--2--3--|"
    text = "\n".join(f"{label}|{(bar if label == 'A' else '-' * 11 + '|') * 6}" for label in "eBGDAE")
    out = read(terminal, text)[1]
    headings = [tuple(map(int, found)) for found in re.findall(r"^Bars (\d+) to (\d+)$", out, re.M)]
    assert headings[0][0] == 1
    assert headings[-1][1] == 6
    assert all(after[0] == before[1] + 1 for before, after in pairwise(headings))


class Screen(io.StringIO):
    """A terminal that knows every sign."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


def on_a_screen(terminal: Terminal, monkeypatch: pytest.MonkeyPatch, song: Path, **env: str) -> str:
    for name in ("NO_COLOR", "FORCE_COLOR", "COLORTERM"):
        monkeypatch.delenv(name, raising=False)
    for name, value in {"TERM": "xterm-256color", "COLUMNS": "80", **env}.items():
        monkeypatch.setenv(name, value)
    screen = Screen()
    monkeypatch.setattr(sys, "stdout", screen)
    terminal.run("read", str(song))
    return screen.getvalue()


def test_a_terminal_gets_colours(terminal: Terminal, monkeypatch: pytest.MonkeyPatch, song: Path) -> None:
    coloured = on_a_screen(terminal, monkeypatch, song)
    assert "\x1b[1m" in coloured
    bare = re.sub(r"\x1b\[[0-9;]*m", "", coloured)
    assert "\x1b" not in bare
    plain = on_a_screen(terminal, monkeypatch, song, NO_COLOR="1")
    assert [line.rstrip() for line in bare.splitlines()] == plain.splitlines()


@pytest.mark.parametrize("env", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_where_no_colours_are_wanted_there_are_none(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, song: Path, env: dict[str, str]
) -> None:
    assert "\x1b" not in on_a_screen(terminal, monkeypatch, song, **env)


def test_a_plain_terminal_gets_ascii(terminal: Terminal, monkeypatch: pytest.MonkeyPatch, song: Path) -> None:
    class Old(Screen):
        encoding = "ascii"

        def isatty(self) -> bool:
            return False

    screen: Any = Old()
    monkeypatch.setattr(sys, "stdout", screen)
    terminal.run("read", str(song))
    assert screen.getvalue().isascii()
    assert "e |" in screen.getvalue()
