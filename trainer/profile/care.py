"""Looking after profiles: which there are, what is in one, what is wrong with it, and counting it anew."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from trainer.profile.counted import clash, replay
from trainer.profile.files import Disk
from trainer.profile.loaded import Loaded
from trainer.profile.lock import HOLDER, LOCK, Holder, ProfileLock, read_holder
from trainer.profile.order import settle
from trainer.profile.paths import PIECES_FILE, profile_folder, profile_names
from trainer.profile.pieces import PIECES, parse_pieces
from trainer.profile.problem import Problem
from trainer.profile.record import ANSWERS, ASIDE, FILE_NAME, read_record
from trainer.profile.settings import FILE, Settings, read_settings
from trainer.profile.state import HISTORY, MEMORY, read_state


@dataclass(frozen=True, slots=True)
class Overview:
    """One profile at a glance.

    Attributes:
        name: the learner.
        folder: where its files are.
        answers: answers that count.
        days: days on which something was answered.
        last_day: the last practice day, or None.
        settings: the learner's settings.
        files: the files that there are, as (path, bytes).
        devices: ids of the machines that wrote the record.
        holder: who says that they are writing it, or None.
        problems: what was found wrong when it was opened.
    """

    name: str
    folder: Path
    answers: int
    days: int
    last_day: int | None
    settings: Settings
    files: tuple[tuple[Path, int], ...]
    devices: tuple[str, ...]
    holder: Holder | None
    problems: tuple[Problem, ...]


def list_profiles(home: Path, disk: Disk | None = None) -> list[Overview]:
    """Every profile, sorted by name; none where the home folder does not exist.

    Raises:
        OSError: the home folder cannot be read.
    """
    disk = disk or Disk()
    return [show_profile(home, name, disk) for name in profile_names(home, disk)]


def show_profile(home: Path, name: str, disk: Disk | None = None) -> Overview:
    """One profile at a glance; reads only.

    Raises:
        ValueError: there is no such profile, or no profile may have this name.
        OSError: the home folder cannot be read.
    """
    disk = disk or Disk()
    folder = existing_folder(home, name, disk)
    loaded = Loaded(folder, disk)
    loaded.load(None)
    paths = [folder / FILE, folder / MEMORY, folder / HISTORY, folder / PIECES_FILE]
    paths += [folder / PIECES / piece.file for piece in loaded.pieces]
    paths += [folder / ANSWERS / file for file in loaded.counted.sizes]
    sizes = [(path, disk.size(path)) for path in paths]
    ledger = loaded.counted.ledger
    return Overview(
        name=folder.name,
        folder=folder,
        answers=ledger.events,
        days=len(ledger.days),
        last_day=ledger.last_day,
        settings=loaded.read.settings,
        files=tuple((path, size) for path, size in sizes if size is not None),
        devices=tuple(sorted(loaded.counted.numbers)),
        holder=read_holder(folder, disk),
        problems=tuple(loaded.problems),
    )


def check_profile(home: Path, name: str, disk: Disk | None = None) -> list[Problem]:
    """Everything that is wrong with a profile's files, line by line. Changes nothing.

    What a power cut left behind is a note; a line that was not understood is an error.

    Raises:
        ValueError: there is no such profile, or no profile may have this name.
        OSError: a folder cannot be read.
    """
    disk = disk or Disk()
    folder = existing_folder(home, name, disk)
    problems = in_the_way(folder, disk)
    taken = {problem.file for problem in problems}
    if str(folder / FILE) not in taken:
        problems += read_settings(disk.read(folder / FILE), str(folder / FILE)).problems
    if str(folder / PIECES_FILE) not in taken:
        problems += _check_pieces(folder, disk)
    if str(folder / ANSWERS) in taken:
        return problems
    files = read_record(disk, folder / ANSWERS, str(folder / ANSWERS))
    problems += [problem for file in files for problem in file.problems if problem.file not in taken]
    _, losers = settle(entry for file in files for entry in file.entries)
    problems += [clash(folder, loser) for loser in losers]
    for other in disk.names(folder / ANSWERS):
        if not FILE_NAME.fullmatch(other):
            what = "it is no file of the record and is not read"
            problems.append(Problem("note", str(folder / ANSWERS / other), None, what, "nothing to do"))
    state, foreign = read_state(folder, disk)
    if state is None and foreign and not {str(folder / MEMORY), str(folder / HISTORY)} & taken:
        what = f"{MEMORY} or {HISTORY} is broken or newer; memory is made again from the record"
        problems.append(Problem("warning", str(folder), None, what, "nothing to do, the next practice keeps it aside"))
    return problems


def _check_pieces(folder: Path, disk: Disk) -> list[Problem]:
    path = folder / PIECES_FILE
    pieces, problem = parse_pieces(disk.read(path), str(path))
    texts = [folder / PIECES / piece.file for piece in pieces]
    what, mend = "the text of a piece is missing", "learn the same file again; its items come first all the same"
    missing = [Problem("warning", str(text), None, what, mend) for text in texts if disk.size(text) is None]
    return missing if problem is None else [problem]


def in_the_way(folder: Path, disk: Disk) -> list[Problem]:
    """Folders and the like that stand where the profile has its files, and files where it has its folders."""
    answers = folder / ANSWERS
    found = [(path, disk.stands_in(path, folder=True)) for path in (answers, folder / ASIDE, folder / PIECES)]
    files = [folder / name for name in (FILE, MEMORY, HISTORY, PIECES_FILE, LOCK, HOLDER)]
    if found[0][1] is None:
        files += [answers / name for name in disk.names(answers) if FILE_NAME.fullmatch(name)]
    found += [(path, disk.stands_in(path)) for path in files]
    return [
        Problem("error", str(path), None, f"{what} stands in its place", "move that away; nothing of it is read")
        for path, what in found
        if what is not None
    ]


def rebuild_profile(
    home: Path,
    name: str,
    at: datetime,
    disk: Disk | None = None,
    *,
    begun: Callable[[], None] = lambda: None,
) -> Overview:
    """Count the whole record anew and replace memory.toml and history.toml; nothing else is touched.

    ``begun`` is called once nothing stands in the way any more.

    Raises:
        ValueError: there is no such profile, or no profile may have this name.
        HeldError: another process writes this profile.
        OSError: a file cannot be written.
    """
    disk = disk or Disk()
    folder = existing_folder(home, name, disk)
    lock = ProfileLock(folder, disk)
    lock.acquire(folder.name, at)
    try:
        begun()
        loaded = Loaded(folder, disk)
        loaded.load(None)
        loaded.counted = replay(disk, folder)
        loaded.write(loaded.state())
    finally:
        lock.release()
    return show_profile(home, name, disk)


def existing_folder(home: Path, name: str, disk: Disk) -> Path:
    """The folder of a profile that there is.

    Raises:
        ValueError: there is no such profile, or no profile may have this name.
        OSError: the home folder cannot be read.
    """
    folder = profile_folder(home, name, disk)
    if not disk.is_folder(folder):
        raise ValueError(f"there is no profile {name} ({folder.parent}): `sixline profile list` shows which there are")
    return folder
