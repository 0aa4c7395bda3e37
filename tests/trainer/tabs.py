"""A tab in a file, and how one is read."""

from __future__ import annotations

from tests.trainer.typing_learner import Terminal

SONG = """\
My own song
Capo 2

      Am                C
e|----0-------0-----|---0---5h7p5---|
B|----1-------1-----|---1-----------|
G|----2-------2-----|---0-----------|
D|----2-------2-----|---2-----------|
A|----0-------------|---3-----------|
E|------------------|---------------|
"""


def read(terminal: Terminal, text: str | bytes, *argv: str) -> tuple[int, str]:
    """Write a text into a file and read that: exit code and what was printed."""
    data = text if isinstance(text, bytes) else text.encode()
    path = terminal.home.parent / "in.txt"
    path.write_bytes(data)
    return terminal.run("read", str(path), *argv)
