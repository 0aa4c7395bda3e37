"""The rules of the house that no tool checks."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.bench.record import fill
from tests.trainer.screen import settings
from tests.trainer.typing_learner import ROOT, environment
from trainer import __version__

CEILING = 320
"""Lines of a file; one purpose fits in fewer."""

ASKS = """
import sys
from pathlib import Path
from trainer.clock import Clock
from trainer.opening import Choices, begin, open_profile
clock, choices = Clock(), Choices(Path(sys.argv[1]), "me")
profile = open_profile(choices, clock, write=True)
asked = begin(profile, clock, seed=0).next(clock.now())
assert asked is not None and asked.question.prompt
print(*sys.modules)
"""

DRAWS = """
import asyncio, sys
from pathlib import Path
from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.learner import Learner
from trainer.opening import Choices, open_profile
from trainer.safekeeping import Safekeeping
Safekeeping.prepare = lambda self: None
clock, choices = Clock(), Choices(Path(sys.argv[1]), "me")
app = SixlineApp(Learner(choices, clock, open_profile(choices, clock, write=True)))

async def main():
    async with app.run_test() as pilot:
        before = set(sys.modules)
        await pilot.press("enter")
        assert app.screen.asked is not None or app.screen.has_class("-lesson")
        print(*sys.modules)

asyncio.run(main())
"""


def tracked(*patterns: str) -> list[Path]:
    """The files that git knows."""
    found = subprocess.run(["git", "ls-files", *patterns], cwd=ROOT, capture_output=True, text=True, check=True)
    return [ROOT / name for name in found.stdout.splitlines() if (ROOT / name).is_file()]


def project() -> dict[str, object]:
    """The table that describes the distribution."""
    table: dict[str, dict[str, object]] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return table["project"]


def loaded(script: str, home: Path) -> set[str]:
    """The modules that a script has imported in the end."""
    done = subprocess.run(
        [sys.executable, "-c", script, str(home)], env=environment(home, TERM="xterm-256color"), cwd=ROOT,
        capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split())


def test_the_first_question_needs_no_slow_package(tmp_path: Path) -> None:
    fill(tmp_path, 300)
    found = loaded(ASKS, tmp_path)
    assert "drills.catalogue" in found
    assert found.isdisjoint({"textual", "rich", "pydantic", "fsrs", "filelock", "tomlkit", "platformdirs"})


def test_the_first_question_of_somebody_new_neither(tmp_path: Path) -> None:
    found = loaded(ASKS, tmp_path)
    assert found.isdisjoint({"textual", "rich", "pydantic", "fsrs", "filelock", "tomlkit", "platformdirs"})


def test_the_first_question_on_the_screen_needs_none_but_the_screen(tmp_path: Path) -> None:
    """The lock and the memory model come in a thread after the first frame; here they are held back."""
    fill(tmp_path, 300)
    found = loaded(DRAWS, tmp_path)
    assert "textual.app" in found
    assert found.isdisjoint({"pydantic", "fsrs", "filelock", "tomlkit"})


def test_a_changed_profile_is_guarded_by_pydantic(tmp_path: Path) -> None:
    """So that the two tests above can fail."""
    settings(tmp_path, "minutes = 20")
    assert "pydantic" in loaded(ASKS, tmp_path)


def test_no_file_is_too_long() -> None:
    sizes = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in tracked("*.py")}
    assert len(sizes) > 100
    long = {str(path.relative_to(ROOT)): lines for path, lines in sizes.items() if lines > CEILING}
    assert long == {}


def test_files_are_short_as_a_rule() -> None:
    sizes = sorted(len(path.read_text(encoding="utf-8").splitlines()) for path in tracked("drills", "trainer"))
    assert sizes[len(sizes) // 2] <= 120


@pytest.mark.parametrize("silencer", ["type:" + r"\s*ignore", "no" + "qa", "pragma:" + r"\s*no"])
def test_nothing_is_silenced(silencer: str) -> None:
    pattern = re.compile(rf"#\s*{silencer}")
    found = [str(path) for path in tracked("*.py") if pattern.search(path.read_text(encoding="utf-8"))]
    assert found == []


def test_the_version_is_the_constant() -> None:
    assert re.fullmatch(r"\d+\.\d+\.\d+", __version__)
    table = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert table["project"]["dynamic"] == ["version"]
    assert table["tool"]["hatch"]["version"]["path"] == "trainer/__init__.py"


def test_every_dependency_is_bounded() -> None:
    dependencies = project()["dependencies"]
    assert isinstance(dependencies, list)
    assert {re.split(r"[<>=]", each)[0] for each in dependencies} == {
        "textual", "rich", "pydantic", "tomli-w", "platformdirs", "fsrs", "filelock", "tomlkit"
    }  # fmt: skip
    assert all(re.fullmatch(r"[a-z-]+>=[\d.]+,<\d+", each) for each in dependencies)


def test_the_top_of_the_house_is_as_it_is_drawn() -> None:
    found = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    tops = {name.split("/")[0] for name in found.splitlines()}
    assert {top for top in tops if not top.startswith(".")} <= {
        "drills", "trainer", "data", "tests", "pyproject.toml", "README.md", "DEVELOPERS.md", "LICENSE"
    }  # fmt: skip


def test_the_licence_is_mit() -> None:
    assert project()["license"] == "MIT"
    assert (ROOT / "LICENSE").read_text(encoding="utf-8").startswith("MIT License")
