"""What a profile's folder says when it is opened: settings, and what the record adds up to."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.profile.counted import RULES, Counted, Progress, count, extend
from trainer.profile.files import Disk
from trainer.profile.paths import PIECES_FILE, profile_folder
from trainer.profile.problem import Problem, mend, reason
from trainer.profile.record import ANSWERS, ASIDE, file_names
from trainer.profile.settings import (
    FILE,
    Settings,
    SettingsRead,
    digest,
    from_snapshot,
    read_settings,
    to_snapshot,
)
from trainer.profile.state import MEMORY, State, keep_aside, read_state, to_documents, write_state
from trainer.schedule.ledger import Ledger

if TYPE_CHECKING:
    from trainer.profile.pieces import KeptPiece


class Loaded:
    """The files of one profile as they were read. Reading creates and changes nothing.

    Attributes:
        folder: the profile's folder, whether it exists or not.
        counted: the ledger and what it covers.
        read: the settings and what was wrong with their file.
        pieces: the pieces that are kept, in their order.
        problems: what was found wrong, each told once.
        keep_old: whether memory.toml or history.toml is not ours to replace.
        changed: whether saving would tell more than the saved state does.
    """

    def __init__(self, folder: Path, disk: Disk) -> None:
        """An empty profile in that folder; call ``load``."""
        self.folder = folder
        self.counted = Counted(Ledger())
        self.read = SettingsRead(Settings(), (), "", True)
        self.pieces: tuple[KeptPiece, ...] = ()
        self.problems: list[Problem] = []
        self.keep_old = False
        self.changed = False
        self._disk = disk

    @classmethod
    def find(cls, home: Path, name: str, disk: Disk, progress: Progress | None) -> Loaded:
        """Load the profile of that name, whatever is wrong with it.

        Raises:
            ValueError: no profile may have this name.
        """
        try:
            loaded = cls(profile_folder(home, name, disk), disk)
        except OSError as error:
            loaded = cls(home / "profiles" / name, disk)
            loaded.fail(home / "profiles", "it cannot be read", error)
        loaded.load(progress)
        return loaded

    def load(self, progress: Progress | None) -> None:
        """Read everything, whatever is wrong with it."""
        state, self.keep_old = read_state(self.folder, self._disk)
        self.counted = count(self._disk, self.folder, state, progress)
        self.changed = state is None or self.counted.replayed or state.key != self.counted.key
        self.tell(self.counted.problems)
        self.read_settings(state)
        self.read_pieces()

    def read_settings(self, state: State | None = None) -> None:
        """Read profile.toml, or take the snapshot of it in the saved state where the file is still the same."""
        path = self.folder / FILE
        try:
            data = self._disk.read(path)
        except OSError as error:
            self.fail(path, "it cannot be read, the usual settings are used", error)
            return
        snapshot = _snapshot(state)
        if data is not None and snapshot is not None and state is not None and digest(data) == state.digest:
            self.read = SettingsRead(snapshot, (), state.digest, True)
            return
        self.changed = self.changed or data is not None
        self.read = read_settings(data, str(path), snapshot)
        self.tell(self.read.problems)

    def read_pieces(self) -> None:
        """Read pieces.toml, where there is one."""
        path, self.pieces = self.folder / PIECES_FILE, ()
        try:
            data = self._disk.read(path)
        except OSError as error:
            self.fail(path, "it cannot be read, no piece comes first", error)
            return
        if data is not None:
            from trainer.profile.pieces import parse_pieces  # late: most have none

            self.pieces, problem = parse_pieces(data, str(path))
            self.tell([problem] if problem is not None else [])

    def keep_piece(self, piece: KeptPiece, text: str) -> bool:
        """Keep a piece; see ``pieces.keep_piece``."""
        from trainer.profile.pieces import keep_piece

        replaced = keep_piece(self.folder, piece, text, self._disk)
        self.read_pieces()
        return replaced

    def catch_up(self, *, in_place: bool) -> bool:
        """Take in what another process wrote since.

        Args:
            in_place: whether the ledger may take in what follows; it may not while it holds answers that no
                file holds, which come after.

        Returns:
            Whether everything was read again, into another ledger.

        Raises:
            OSError: the folder cannot be read.
        """
        answers = self.folder / ANSWERS
        sizes = {name: self._disk.size(answers / name) for name in file_names(answers, self._disk)}
        if sizes == self.counted.sizes:
            return False
        if in_place and extend(self.counted, self._disk, self.folder):
            self.changed = True
            self.tell(self.counted.problems)
            return False
        self.load(None)
        return True

    def cut_torn(self) -> None:
        """Cut what a power cut left of a line, after keeping it aside. The caller holds the lock.

        Raises:
            OSError: it cannot be kept or cut; then it is still there.
        """
        for name, whole in list(self.counted.torn.items()):
            path = self.folder / ANSWERS / name
            tail = self._disk.read(path, whole)
            if tail:
                keep_aside(self._disk, self.folder / ASIDE, name, tail)
                self._disk.truncate(path, whole)
            del self.counted.torn[name]

    def state(self) -> State:
        """All that is to be saved, in tables of its own that later answers do not change; not ``changed`` then."""
        memory, history = self.counted.ledger.as_data()
        self.changed = False
        return State(
            rules=RULES,
            day=self.counted.day,
            key=self.counted.key,
            numbers=dict(self.counted.numbers),
            files=dict(self.counted.files),
            baseline=self.counted.baseline,
            baseline_day=self.counted.baseline_day,
            settings=to_snapshot(self.read.settings),
            digest="" if self.read.problems else self.read.digest,
            memory=memory,
            history=history,
        )

    def save(self, state: State) -> None:
        """Write memory.toml and history.toml; a failure is told and loses nothing, they follow from the record."""
        try:
            self.write(state)
        except OSError as error:
            self.changed = True
            self.fail(self.folder / MEMORY, "memory is not saved, it will be made again", error)

    def write(self, state: State) -> None:
        """Replace memory.toml and history.toml, keeping aside what is not ours.

        Raises:
            OSError: they cannot be written; what was there is still there.
        """
        write_state(self.folder, to_documents(state), self._disk, self.keep_old, self.folder / ASIDE)
        self.keep_old = False

    def tell(self, problems: Iterable[Problem]) -> None:
        """Add problems that were not told before."""
        self.problems += [problem for problem in problems if problem not in self.problems]

    def fail(self, path: Path, what: str, error: OSError) -> None:
        """Tell that the system could not do something with a file."""
        self.tell([Problem("error", str(path), None, f"{what}: {reason(error)}", mend(error))])


def _snapshot(state: State | None) -> Settings | None:
    try:
        return from_snapshot(state.settings) if state is not None and state.settings else None
    except ValueError:
        return None
