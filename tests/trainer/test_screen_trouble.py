"""The screen when something is wrong: a held profile, a full disk, broken files, text that looks like markup."""

from __future__ import annotations

import errno
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from drills.misreadings import SPOKEN
from tests.trainer.profile.faults import FaultyDisk, everything, practise, read_back
from tests.trainer.screen import GUITAR, NEW, NOW, right, settings, squeezed, standing, wrong
from tests.trainer.typing_learner import environment
from trainer import launch
from trainer.app import SixlineApp
from trainer.clock import Clock
from trainer.opening import Choices
from trainer.profile.store import Profile
from trainer.schedule.event import Event
from trainer.screens.stage import Stage

HOLD = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from trainer.profile.store import Profile
profile = Profile.open(Path(sys.argv[1]), "me", write=True)
profile.acquire(datetime.now(UTC))
print("held", flush=True)
sys.stdin.read()
profile.close(datetime.now(UTC))
"""
MARKUP = "[red]x[/red]"
EVIL = [MARKUP, "[/]", "[@click=app.quit]x[/]"]


@contextmanager
def held(home: Path) -> Iterator[subprocess.Popen[str]]:
    """Another process writes the profile meanwhile."""
    process = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(home)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=environment(home),
    )  # fmt: skip
    with process:
        assert process.stdout is not None
        assert process.stdout.readline() == "held\n"
        yield process
        process.communicate("")


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_a_second_window_says_at_once_that_it_is_one(tmp_path: Path, size: tuple[int, int]) -> None:
    practise(tmp_path, 3)
    with held(tmp_path):
        before = everything(tmp_path)
        async with standing(tmp_path, size=size) as stand:
            for keys in ((), ("enter",), ("enter", "1", "enter")):
                await stand.press(*keys)
                await stand.until(lambda: "Another window is practising" in stand.seen())
                told = squeezed(stand.seen())
                assert "Profile me is in use (by process" in told
                assert "or choose another --profile" in told
                assert stand.at(Stage.TODAY)
            assert stand.learner.profile.unsaved_lines == 0
        assert everything(tmp_path) == before
    assert len(read_back(tmp_path)) == 3


async def test_once_the_profile_is_free_practice_begins(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    with held(tmp_path) as process:
        async with standing(tmp_path) as stand:
            await stand.until(lambda: "Another window is practising" in stand.seen())
            process.communicate("")
            await stand.press("enter")
            await stand.press(*right((await stand.ask()).question))
            assert stand.at(Stage.RIGHT)
            await stand.press("escape")
            assert "Another window" not in stand.seen()
    assert len(read_back(tmp_path)) == 4


async def test_a_window_that_became_the_second_one_turns_back_before_an_answer_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Begun before it was known: nothing is answered that cannot be kept."""
    from trainer.safekeeping import Safekeeping

    monkeypatch.setattr(Safekeeping, "prepare", lambda self: None)  # the answer to who else is there comes late
    practise(tmp_path, 3)
    with held(tmp_path):
        async with standing(tmp_path) as stand:
            await stand.press("enter")
            question = (await stand.ask()).question
            monkeypatch.undo()
            await stand.press(*right(question))
            await stand.until(lambda: stand.at(Stage.TODAY))
            assert "Another window is practising" in stand.seen()
    assert len(read_back(tmp_path)) == 3


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EROFS])
async def test_a_disk_that_takes_nothing_is_told_until_it_does(tmp_path: Path, number: int) -> None:
    disk = FaultyDisk()
    settings(tmp_path, "")
    async with standing(tmp_path, disk=disk) as stand:
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question), "enter")
        assert "answers are not being saved" not in stand.seen()
        disk.fails["write"] = number
        for _ in range(2):
            await stand.press(*right((await stand.ask()).question), "enter")
            assert "answers are not being saved, " in stand.lines("#time")[0]
        await stand.ask()
        assert len(stand.record) == 1
        disk.fails.clear()
        await stand.press(*right((await stand.ask()).question), "enter")
        assert "answers are not being saved" not in stand.seen()
        assert len(stand.record) == 4


@pytest.mark.parametrize(("number", "code"), [(errno.ENOSPC, 1), (0, 0)])
def test_an_answer_that_is_lost_is_told_once_the_screen_is_gone(
    tmp_path: Path, number: int, code: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    disk = FaultyDisk()
    profile = Profile.open(tmp_path, "me", write=True, disk=disk)
    monkeypatch.setattr(launch, "open_profile", lambda choices, clock, write: profile)

    def sit(app: SixlineApp) -> None:
        if number:
            disk.fails["write"] = number
        profile.keep(Event(20782, "line-to-string/standard/1", True, "1", 1.0, 0.5, 1.7), NOW)

    monkeypatch.setattr(SixlineApp, "run", sit)
    assert launch.run(Choices(tmp_path, "me", 0), Clock(NOW)) == code
    told = capsys.readouterr().err.splitlines()
    assert len(told) == code
    assert all(line.startswith("sixline: answers are not being saved, the disk is full (") for line in told)


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EROFS, errno.EACCES])
@pytest.mark.parametrize("size", [(80, 24), (50, 15), (40, 12)])
async def test_the_warning_is_whole_and_the_notice_tells_how_to_mend_it(
    tmp_path: Path, number: int, size: tuple[int, int]
) -> None:
    disk = FaultyDisk()
    settings(tmp_path, "")
    async with standing(tmp_path, disk=disk, size=size) as stand:
        await stand.press("enter")
        await stand.ask()
        disk.fails["write"] = number
        await stand.press(*right(stand.asked.question), "enter")
        await stand.until(lambda: bool(stand.app._notifications))
        unsaved = stand.learner.profile.unsaved
        assert unsaved is not None
        said = stand.lines("#time")[0].strip()
        assert unsaved.startswith(said)
        assert said.startswith("answers are not being saved")
        assert unsaved[len(said) :][:1] in {",", " ", ""}
        (notice,) = [note.message for note in stand.app._notifications]
        assert notice.casefold() == f"{unsaved}.".casefold()
        assert errno.errorcode[number] not in notice
        assert "Errno" not in notice
        disk.fails.clear()


async def test_a_disk_that_is_full_from_the_start_lets_practice_begin(tmp_path: Path) -> None:
    disk = FaultyDisk()
    disk.fails["make_folder"] = errno.ENOSPC
    async with standing(tmp_path, disk=disk) as stand:
        await stand.press(GUITAR, NEW)
        assert "the disk is full" in squeezed(stand.seen())
        await stand.press(*right((await stand.ask()).question), "enter")
        assert "answers are not being saved, the disk is full" in stand.lines("#time")[0]
        await stand.press("escape")
        assert "answers are not being saved" in stand.seen()
    assert not list(tmp_path.iterdir())


async def test_an_unsaved_answer_is_seen_on_today_and_gone_once_it_is_safe(tmp_path: Path) -> None:
    disk = FaultyDisk()
    settings(tmp_path, "")
    async with standing(tmp_path, disk=disk) as stand:
        await stand.press("enter")
        await stand.ask()
        disk.fails["write"] = errno.ENOSPC
        await stand.press(*right(stand.asked.question), "escape")
        assert "answers are not being saved" in stand.lines("#time")[0]
        disk.fails.clear()
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question), "escape")
        assert "answers are not being saved" not in stand.seen()


@pytest.mark.parametrize("evil", EVIL)
async def test_what_a_profile_says_is_no_markup(tmp_path: Path, evil: str) -> None:
    quoted = evil.replace("\\", "\\\\")
    settings(tmp_path, f'"{quoted}" = 1\nsentence = "{quoted}"\n[keys]\n"{quoted}" = "f1"')
    async with standing(tmp_path) as stand:
        assert "is no setting and is left out" in squeezed(stand.seen())
        assert shown_in(evil, squeezed(stand.seen()))
        await stand.press("s")
        assert evil in "\n".join(stand.lines("#sentence"))
        await stand.press("escape", "e", "p", "question_mark", "escape", "escape", "enter")
        await stand.press(*wrong((await stand.ask()).question))
        assert stand.at(Stage.WRONG)
        assert stand.app.is_running
        assert not stand.left


def shown_in(text: str, seen: str) -> bool:
    """As it is, or as Python writes it."""
    return text in seen or text.replace("\\", "\\\\") in seen


@pytest.mark.parametrize("evil", EVIL)
async def test_titles_and_sentences_are_no_markup(tmp_path: Path, evil: str, monkeypatch: pytest.MonkeyPatch) -> None:
    from drills.catalogue import Catalogue
    from drills.question import Explanation, Item, Manner

    real = Catalogue.explain

    def explain(catalogue: Catalogue, item: Item, manner: Manner) -> Explanation:
        page = real(catalogue, item, manner)
        return page._replace(title=f"{evil} {page.title}", lines=(evil, *page.lines))

    monkeypatch.setattr(Catalogue, "explain", explain)
    async with standing(tmp_path) as stand:
        await stand.press(GUITAR, NEW)
        assert f"{evil} " in stand.lines("#prompt")[0]
        assert evil in stand.seen()
        await stand.press("escape", "e")
        assert evil in "\n".join(stand.lines("#pages"))
        assert evil in "\n".join(stand.lines("#body"))


async def test_broken_files_are_told_and_left(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    path = settings(tmp_path, "minutes = = [/]")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        assert "profile.toml): mend that place" in squeezed(stand.seen())
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question), "q")
    assert path.read_bytes() == before
    assert len(read_back(tmp_path)) == 4


async def test_a_newer_record_is_told_and_answers_are_not_mixed_into_it(tmp_path: Path) -> None:
    practise(tmp_path, 3)
    path = next((tmp_path / "profiles" / "me" / "answers").iterdir())
    path.write_text(path.read_text(encoding="utf-8").replace("format = 1", "format = 9"), encoding="utf-8")
    before = path.read_bytes()
    async with standing(tmp_path) as stand:
        assert "newer" in squeezed(stand.seen())
        await stand.press("enter")
        await stand.press(*right((await stand.ask()).question), "enter")
        assert "answers are not being saved" in stand.lines("#time")[0]
    assert path.read_bytes() == before


def test_every_misreading_can_be_spoken() -> None:
    """So that no wrong answer of any kind can end the screen."""
    from drills.question import Misreading

    assert set(SPOKEN) == set(Misreading)
