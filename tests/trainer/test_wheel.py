"""The wheel, built by way of the sdist, installed elsewhere and run from another folder."""

from __future__ import annotations

import json
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest

from tests.trainer.typing_learner import ROOT, environment
from trainer import __version__


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Built as a release is: first the sdist, then the wheel from it."""
    out = tmp_path_factory.mktemp("dist")
    done = subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out), str(ROOT)],
        capture_output=True, text=True, cwd=out,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    (found,) = out.glob("*.whl")
    return found


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the wheel is installed, without what it depends on."""
    target = tmp_path_factory.mktemp("installed")
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-index", "--no-deps",
         "--no-compile", "--target", str(target), str(wheel)],
        check=True, capture_output=True,
    )  # fmt: skip
    return target


def run(installed: Path, elsewhere: Path, *words: str, lines: str = "") -> subprocess.CompletedProcess[str]:
    """The installed command, from another folder, with nothing of the checkout in reach."""
    env = environment(elsewhere / "home") | {"PYTHONPATH": str(installed)}
    command = "import sys; from trainer.cli import main; sys.exit(main())"
    return subprocess.run(
        [sys.executable, "-c", command, *words], env=env, cwd=elsewhere, input=lines, capture_output=True, text=True
    )


def names(wheel: Path) -> set[str]:
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())


def test_it_holds_the_program_its_data_and_its_licence(wheel: Path) -> None:
    assert wheel.name == f"sixline-{__version__}-py3-none-any.whl"
    inside = names(wheel)
    data = [path for path in (ROOT / "data").rglob("*") if path.is_file() and "pictures" not in path.parts]
    assert data
    assert {f"drills/{path.relative_to(ROOT).as_posix()}" for path in data} <= inside
    assert f"sixline-{__version__}.dist-info/licenses/LICENSE" in inside
    tracked = subprocess.run(
        ["git", "ls-files", "drills", "trainer"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split()
    assert {"trainer/app.tcss", "trainer/py.typed", "trainer/screens/practice.py"} <= set(tracked) <= inside


def test_it_holds_nothing_else(wheel: Path) -> None:
    assert {name.split("/")[0] for name in names(wheel)} == {"drills", "trainer", f"sixline-{__version__}.dist-info"}
    assert not [name for name in names(wheel) if "pictures/" in name or "test" in name or name.endswith(".pyc")]


def test_it_needs_what_the_project_needs(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        metadata = archive.read(f"sixline-{__version__}.dist-info/METADATA").decode()
    assert "Requires-Python: >=3.11" in metadata
    assert "License-Expression: MIT" in metadata
    assert "Requires-Dist: textual<9,>=8.2" in metadata


def test_it_runs_from_another_folder(installed: Path, tmp_path: Path) -> None:
    where = "import drills, trainer; print(drills.__file__); print(trainer.__file__)"
    done = subprocess.run(
        [sys.executable, "-c", where], env=environment(tmp_path) | {"PYTHONPATH": str(installed)}, cwd=tmp_path,
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert all(line.startswith(str(installed)) for line in done.stdout.splitlines())


def test_its_tunings_come_from_its_own_data(installed: Path, tmp_path: Path) -> None:
    done = run(installed, tmp_path, "tunings", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    here = subprocess.run(
        [sys.executable, "-m", "trainer.cli", "tunings", "--json"], env=environment(tmp_path), cwd=ROOT,
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert json.loads(done.stdout) == json.loads(here.stdout)


def test_its_catalogue_is_whole(installed: Path, tmp_path: Path) -> None:
    from drills.catalogue import catalogue
    from drills.notation.tuning import shipped

    done = run(installed, tmp_path, "items", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    items: list[dict[str, Any]] = json.loads(done.stdout)
    assert [item["id"] for item in items] == [item.id for item in catalogue(shipped()["standard"]).items]
    assert len(items) >= 250


def test_it_practises(installed: Path, tmp_path: Path) -> None:
    reply = json.dumps({"answer": "6", "seconds": 1.2})
    done = run(installed, tmp_path, "--plain", "--json", "--answers", "2", lines=f"{reply}\n{reply}\n")
    assert (done.returncode, done.stderr) == (0, "")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert sum("verdict" in line for line in lines) == 2
    assert lines[-1]["done"]["answers"] == 2
    assert list((tmp_path / "home" / "profiles" / "me" / "answers").iterdir())


def test_its_screen_finds_its_style_sheet(installed: Path, tmp_path: Path) -> None:
    opens = (
        "import asyncio; from pathlib import Path; from trainer.app import SixlineApp\n"
        "from trainer.clock import Clock\n"
        "from trainer.learner import Learner; from trainer.opening import Choices, open_profile\n"
        "clock, choices = Clock(), Choices(Path('home'), 'me')\n"
        "app = SixlineApp(Learner(choices, clock, open_profile(choices, clock, write=True)))\n"
        "async def main():\n"
        "    async with app.run_test() as pilot:\n"
        "        await pilot.pause()\n"
        "        print(type(app.screen).__name__, any('app.tcss' in where[0] for where in app.stylesheet.source))\n"
        "asyncio.run(main())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", opens], env=environment(tmp_path) | {"PYTHONPATH": str(installed)}, cwd=tmp_path,
        capture_output=True, text=True,
    )  # fmt: skip
    assert (done.returncode, done.stdout, done.stderr) == (0, "FirstRun True\n", "")
