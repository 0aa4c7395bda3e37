"""A tuning with a mistake and settings that are not known, through the installed command."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.trainer.typing_learner import environment

COMMAND = Path(sys.executable).with_name("sixline.exe" if sys.platform == "win32" else "sixline")


def sixline(home: Path, *argv: str) -> tuple[int, str, list[str]]:
    """Run it in a process of its own: exit code, standard output, lines on standard error."""
    assert COMMAND.exists(), f"install the checkout for this Python: {COMMAND} is not there"
    done = subprocess.run(
        [str(COMMAND), *argv], capture_output=True, text=True, timeout=60, check=False, env=environment(home)
    )
    return done.returncode, done.stdout, done.stderr.splitlines()


@pytest.mark.parametrize(
    ("text", "what", "mend"),
    [
        ("E2 A2 D3 G3 H3 E4", "'H3' is no pitch", "did you mean B3?"),
        ("E2 A2 DD3 G3 B3 E4", "'DD3' is no pitch", "did you mean D3?"),
        ("E2 A2 D3 G3 B3 E", "'E' has no octave", "write E2, E3 or E4"),
        ("E4 B3 G3 D3 A2 E2", "these pitches fall", "give the lowest first, E2 A2 D3 G3 B3 E4"),
        ("A2 E2 D3 G3 B3 E4", "E2 is lower than A2 before it", "give the lowest first, E2 A2 D3 G3 B3 E4"),
        ("E2 A2 D3", "a tuning of 3 strings", "give 4 to 8 pitches"),
        ("C1 F1 B1 E2 A2 D3 G3 B3 E4", "a tuning of 9 strings", "give 4 to 8 pitches"),
        ("C0 A2 D3 G3", "C0 is 16.4 Hz, too low to hear", "or higher"),
        ("E2 A2 D3 C9", "C9 is too high", "or lower"),
        ("E2 A2 A2 D3", "two strings sound A2", "give each a pitch of its own"),
        ("drop-e", "there is no tuning 'drop-e'", "did you mean drop-d?"),
        ("standrad", "there is no tuning 'standrad'", "did you mean standard?"),
    ],
)
def test_a_mistake_in_a_tuning_is_one_line_with_the_mend(tmp_path: Path, text: str, what: str, mend: str) -> None:
    code, out, errors = sixline(tmp_path, "items", "--json", "--tuning", text)
    assert (code, out) == (2, "")
    (line,) = errors
    assert line.startswith(f"sixline: {what}")
    assert " (--tuning): " in line
    assert mend in line
    assert line.isprintable()
    assert list(tmp_path.iterdir()) == []


SETTINGS = """\
theme = "draculla"
naming = "germna"
tuning = "ukelele"
minutes = 15
mintues = 20

[keys]
"go.setp" = "f9"
"app.quit" = "entre"

[own-tuning]
strings = "E2 A2 D3 G3 B3 X4"
"""


def test_what_is_not_known_is_named_with_the_nearest_and_the_rest_is_used(tmp_path: Path) -> None:
    folder = tmp_path / "profiles" / "me"
    folder.mkdir(parents=True)
    path = folder / "profile.toml"
    path.write_text(SETTINGS, encoding="utf-8")
    code, out, errors = sixline(tmp_path, "profile", "check")
    assert (code, errors) == (0, [])  # warnings: nothing is lost, and all that is known is used
    told = out.splitlines()
    for number, meant in [
        (1, "did you mean dracula?"), (2, "did you mean german?"), (3, "did you mean ukulele?"),
        (5, "did you mean minutes?"), (8, "did you mean go.setup?"), (9, "did you mean enter?"),
    ]:  # fmt: skip
        (line,) = [line for line in told if line.startswith(f"{path}:{number}: ")]
        assert meant in line
    assert len([line for line in told if "'X4' is no pitch" in line]) == 1
    assert len([line for line in told if line.startswith(str(path))]) == 7
    # A reading command says the same on standard error, goes on, and reads the rest.
    code, out, errors = sixline(tmp_path, "items", "--json")
    assert code == 0
    assert {item["tuning"] for item in json.loads(out)} == {"standard"}
    assert len(errors) == 7
    assert all(line.startswith("sixline: ") and line.isprintable() for line in errors)
    code, out, _ = sixline(tmp_path, "today", "--json")
    assert code == 0
    assert path.read_text(encoding="utf-8") == SETTINGS


def test_a_home_of_mistakes_opens_no_screen_without_a_terminal(tmp_path: Path) -> None:
    code, out, errors = sixline(tmp_path)
    assert (code, out, len(errors)) == (2, "", 1)
    assert "--plain" in errors[0]
