"""One learner's profile: opened to read or to write, kept answer by answer, saved now and then."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, tzinfo
from pathlib import Path
from threading import Lock, RLock
from typing import TYPE_CHECKING, Any, Final

from trainer.profile import change, device
from trainer.profile.append import Appender
from trainer.profile.baseline import UNMEASURED, refusal
from trainer.profile.counted import Counted, Gathered, Progress, extend, gather, replay
from trainer.profile.files import Disk
from trainer.profile.keys import next_key
from trainer.profile.lines import clean, new_entry
from trainer.profile.loaded import Loaded
from trainer.profile.lock import HeldError, ProfileLock
from trainer.profile.problem import Problem, not_saved
from trainer.profile.record import ANSWERS, file_name
from trainer.profile.settings import FILE, Settings
from trainer.profile.state import State
from trainer.schedule.days import practice_day, settled_day
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.parameters import Fit

if TYPE_CHECKING:
    from trainer.profile.pieces import KeptPiece

SAVE_EVERY: Final = 50
"""Answers after which memory and history are saved."""


class Profile:
    """A learner's settings, record and memory.

    Opening creates nothing, whether to read or to write. The first ``acquire`` or ``keep`` makes the folders
    and takes the lock. ``sync`` and ``save`` may run in another thread; ``keep`` never waits for their fsync.

    Attributes:
        name: as the folder has it.
        folder: ``HOME/profiles/NAME``, whether it exists or not.
        unsaved: why answers are only in memory, in one line, or None while they are safe.
    """

    def __init__(self, home: Path, loaded: Loaded, disk: Disk, *, write: bool) -> None:
        """Use ``Profile.open``."""
        self.name = loaded.folder.name
        self.folder = loaded.folder
        self.unsaved: str | None = None
        self._home = home
        self._disk = disk
        self._write = write
        self._loaded = loaded
        self._lock = ProfileLock(loaded.folder, disk)
        self._appender: Appender | None = None
        self._waiting: list[tuple[Event | float, int, datetime]] = []
        self._device = ""
        self._disordered = False
        self._since_save = 0
        self._due: State | None = None
        self._guard = RLock()
        self._saving = Lock()

    @classmethod
    def open(
        cls, home: Path, name: str, *, disk: Disk | None = None, write: bool = False, progress: Progress | None = None
    ) -> Profile:
        """Open a profile; one that does not exist has default settings and an empty ledger.

        Nothing that is wrong with its files is raised: it is in ``problems``, and the sound rest is used.

        Args:
            home: the folder of all profiles.
            name: the learner.
            disk: the file system.
            write: whether answers are to be kept.
            progress: told while the record is replayed, which takes seconds where it is long.

        Raises:
            ValueError: no profile may have this name.
        """
        disk = disk or Disk()
        return cls(home, Loaded.find(home, name, disk, progress), disk, write=write)

    @property
    def ledger(self) -> Ledger:
        """All that follows from the record, kept up to date by ``keep``.

        Ask again after ``acquire`` and ``sitting_day``, which may have to put another one in its place.
        """
        return self._loaded.counted.ledger

    @property
    def settings(self) -> Settings:
        """The learner's settings."""
        return self._loaded.read.settings

    @property
    def pieces(self) -> tuple[KeptPiece, ...]:
        """The pieces that are kept, in their order."""
        return self._loaded.pieces

    @property
    def problems(self) -> list[Problem]:
        """What was found wrong with the files, each told once."""
        return self._loaded.problems

    @property
    def exists(self) -> bool:
        """Whether the profile has a folder."""
        return self._disk.is_folder(self.folder)

    @property
    def base(self) -> float:
        """The learner's key baseline in seconds: the last one measured, or 0.5."""
        return UNMEASURED if (measured := self._loaded.counted.baseline) is None else measured

    @property
    def base_day(self) -> int | None:
        """The practice day on which the baseline was measured, or None."""
        return self._loaded.counted.baseline_day

    @property
    def unsaved_lines(self) -> int:
        """How many answers and baselines are only in memory."""
        return len(self._waiting) + (self._appender.pending if self._appender else 0)

    def sitting_day(self, at: datetime, zone: tzinfo) -> int:
        """The practice day of a sitting that starts now; taken once, and stored with each of its answers.

        Where a clock that had been ahead was put right, the ledger is replayed with its days put right too.
        """
        with self._guard:
            last = self.ledger.last_day
            today = settled_day(practice_day(at, zone), last)
            if last is not None and today < last and not self.unsaved_lines:
                own = self._device or device.known_device(self._home, self._disk, device.host_name()) or ""
                self._loaded.counted = replay(self._disk, self.folder, next_day=(own, today))
                self._disordered = True  # true of the record only once a line of today is in it
        return today

    def acquire(self, at: datetime) -> None:
        """Take the lock for writing, make the folders, and take in what others wrote since opening.

        Raises:
            HeldError: another process writes this profile; says who.
            OSError: a folder or file cannot be made.
        """
        if not self._write:
            raise RuntimeError("this profile was opened for reading")
        with self._guard:
            if self._appender is None:
                self._acquire(at)

    def keep(self, event: Event, at: datetime) -> Event:
        """Append one answer to the record, then count it. Call it before the verdict is shown.

        Never raises for a disk that takes nothing: the answer is kept in memory, ``unsaved`` says why, and
        the next call tries again.

        Returns:
            The answer as the record holds it.

        Raises:
            ValueError: the event is none (see ``lines.clean``).
        """
        event = clean(event)
        with self._guard:
            self._take(event, event.day, at)
            self._since_save += 1
            if self._since_save >= SAVE_EVERY and self._saveable():
                self._due, self._since_save = self._loaded.state(), 0
        return event

    def new_baseline(self, seconds: float, at: datetime, day: int) -> str | None:
        """Keep a measured key baseline in the record; from now on it is ``base``.

        Returns why it is not kept, in one line, or None; see ``refusal``, also for what it raises.
        """
        if (refused := refusal(seconds, self.base, self.name)) is not None:
            return refused
        with self._guard:
            self._take(float(seconds), day, at)
        return None

    def gathered(self) -> Gathered:
        """Every line that the files of the record hold by now; slow."""
        return gather(self._disk, self.folder)

    def take_fit(self, fit: Fit, counted: Counted, at: datetime) -> bool:
        """Keep a fit in the record, and from now on use ``counted``: what ``gathered`` gave, by the fitted memory.

        Returns False, with nothing changed, where the record cannot be written now or is not what it was.
        """
        with self._guard:
            if self._appender is None or self.unsaved_lines or not extend(counted, self._disk, self.folder):
                return False
            self._loaded.counted = counted
            self._take(fit, fit.day, at)
        return True

    def sync(self) -> str | None:
        """Make what was kept survive a power cut. Slow (an fsync): call it off the drawing path.

        Every 50 answers it saves memory and history too. Returns ``unsaved``: why answers may be lost, or None.
        """
        appender = self._appender
        if appender is None:
            return self.unsaved
        try:
            appender.sync()
        except OSError as error:
            self.unsaved = not_saved(error, self.folder)
            return self.unsaved
        if not self.unsaved_lines:
            self.unsaved = None
        with self._saving:
            due, self._due = self._due, None
            if due is not None:
                self._loaded.save(due)
        return self.unsaved

    def save(self, at: datetime) -> str | None:
        """Try again what is not saved, then save memory and history; at the end of a sitting and on pause.

        Returns ``unsaved``: why answers may be lost, or None.
        """
        with self._guard:
            if self._waiting:
                self._try_to_acquire(at)
            self._flush()
            if self._loaded.changed and self._saveable():
                self._due, self._since_save = self._loaded.state(), 0
        return self.sync()

    def close(self, at: datetime) -> str | None:
        """Save, and give the lock back. Returns ``unsaved``, which now means lost."""
        told = self.save(at)
        if self._appender is not None:
            self._appender.close()
            self._appender = None
        self._lock.release()
        return told

    def change_settings(self, changes: Mapping[str, Any]) -> None:
        """Change settings in profile.toml, for Setup.

        Raises:
            ValueError: a value is not possible, or the file is broken or newer and stays as it is.
            OSError: it cannot be written.
        """
        change.save_settings(self.folder, changes, self._disk)
        self._loaded.read_settings()

    def keep_piece(self, piece: KeptPiece, text: str) -> bool:
        """Keep a piece, after ``acquire``; see ``pieces.keep_piece``."""
        return self._loaded.keep_piece(piece, text)

    def _take(self, what: Event | float | Fit, day: int, at: datetime) -> None:
        self._loaded.changed = True
        if not isinstance(what, Fit) and self._appender is None and not self._try_to_acquire(at):
            self._waiting.append((what, day, at))
            self._loaded.counted.believe(what, day)
            return
        self._append(what, day, at)
        self._flush()

    def _acquire(self, at: datetime) -> None:
        answers = self.folder / ANSWERS
        self._disk.make_folder(answers)
        self._lock.acquire(self.name, at)
        self._device = device.own_device(self._home, self._disk, device.host_name())
        if self._disk.size(self.folder / FILE) is None:
            change.save_settings(self.folder, {}, self._disk)
            self._loaded.read_settings()
        reloaded = self._loaded.catch_up(in_place=not self._waiting)
        self._loaded.cut_torn()
        counted = self._loaded.counted
        self._appender = Appender(self._disk, answers, self._device, counted.files, counted.newer)
        waiting, self._waiting = self._waiting, []
        for what, day, when in waiting:
            self._append(what, day, when, counted=not reloaded)

    def _try_to_acquire(self, at: datetime) -> bool:
        try:
            self.acquire(at)
        except OSError as error:
            self.unsaved = not_saved(error, self.folder)
        except HeldError as error:
            self.unsaved = f"answers are not being saved, {error}"
        return self._appender is not None

    def _append(self, what: Event | float | Fit, day: int, at: datetime, *, counted: bool = False) -> None:
        """Give a line its key and hand it to the appender; count it unless the ledger has taken it in."""
        assert self._appender is not None
        known = self._loaded.counted
        key = next_key(at, self._device, known.numbers.get(self._device, 0) + 1, known.key)
        entry = new_entry(key, day, what)
        self._disordered = self._disordered or not known.is_after(entry)
        self._appender.add(file_name(key), entry.raw)
        (known.note if counted else known.take)(entry)

    def _flush(self) -> None:
        if self._appender is None:
            return
        try:
            self._appender.write()
        except OSError as error:
            self.unsaved = not_saved(error, self.folder)
        else:
            if not self._appender.suspect:
                self.unsaved = None
        self._loaded.counted.files = dict(self._appender.files)

    def _saveable(self) -> bool:
        return self._appender is not None and not (self.unsaved_lines or self._disordered)
