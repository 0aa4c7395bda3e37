"""The learner's settings: ``profile.toml``, for people to read and to edit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from typing import Any, Final
from zlib import crc32

from drills.notation.pitch import Naming
from trainer.profile import toml
from trainer.profile.problem import Problem

FILE: Final = "profile.toml"
FORMAT: Final = 1

OWN_TABLE: Final = "own-tuning"
"""The table that holds the pitches of the learner's own tuning."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What a learner has chosen.

    Attributes:
        tuning: the tuning that is learned: the name of a shipped one, ``"own"`` for ``own_tuning``, or the pitches
            of the open strings as text.
        own_tuning: the open strings of the learner's own tuning as text, or empty.
        capo: fret of the capo, 0 to 12.
        naming: how note names are said.
        dialect: how the staff is drawn, ``"engraved"`` or ``"text"``.
        hand: ``"right"`` or ``"left"``; left mirrors the neck, never the staff.
        sentence: the learner's own memory sentence for the strings, or empty.
        minutes: length of a sitting.
        theme: name of the colours, or empty for the usual ones.
        help: when help (letters, numbers, the neck) is shown: ``"fading"`` while an item is new or was just missed,
            a step less with every right answer, ``"always"``, or ``"never"``.
        reader: whether the learner already reads tab, and so starts with the placement.
        motion: ``"auto"``, or ``"off"`` for a screen on which nothing moves.
        short_words: whether what is told is said in few and easy words, for children.
        talk_of_speed: whether slow, fast and seconds are spoken of; the record keeps them in either case.
        key_seconds: the key baseline in seconds as the learner sets it, or 0 for the measured one.
        keys: keys of the learner's own, by id of the command; ``commands.checked`` tells which can be used.
    """

    tuning: str = "standard"
    own_tuning: str = ""
    capo: int = 0
    naming: Naming = Naming.LETTERS
    dialect: str = "engraved"
    hand: str = "right"
    sentence: str = ""
    minutes: int = 10
    theme: str = ""
    help: str = "fading"
    reader: bool = False
    motion: str = "auto"
    short_words: bool = False
    talk_of_speed: bool = True
    key_seconds: float = 0.0
    keys: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SettingsRead:
    """What ``profile.toml`` says.

    Attributes:
        settings: its sound part over the defaults.
        problems: what was not understood.
        digest: hash of the file's bytes, empty where there is no file.
        usable: whether Setup may change the file: it parses and is not newer than this program.
    """

    settings: Settings
    problems: tuple[Problem, ...]
    digest: str
    usable: bool


def digest(data: bytes | None) -> str:
    """What a snapshot of the settings is kept under; empty where there is no file.

    It tells that the file was edited, no more; what guards against attacks takes 4 ms to import.
    """
    return "" if data is None else f"{crc32(data):08x}-{len(data)}"


def to_snapshot(settings: Settings) -> dict[str, Any]:
    """The settings as plain values, for ``memory.toml``."""
    return asdict(settings) | {"naming": str(settings.naming)}


def from_snapshot(snapshot: Mapping[str, Any]) -> Settings:
    """The settings of a snapshot that this program wrote.

    Raises:
        ValueError: it does not have exactly the settings of this version.
    """
    if set(snapshot) != {each.name for each in fields(Settings)}:
        raise ValueError("the snapshot has other settings")
    return Settings(**{**snapshot, "naming": Naming(snapshot["naming"])})


def read_settings(data: bytes | None, shown: str, fallback: Settings | None = None) -> SettingsRead:
    """Read ``profile.toml``; the sound part of it counts whatever else is in it.

    Args:
        data: the file's bytes, or None where there is none.
        shown: how problems name the file.
        fallback: the settings where the file cannot be parsed or is newer (defaults if None).
    """
    if data is None:
        return SettingsRead(Settings(), (), "", True)
    table, problem = parse(data, shown)
    if problem is not None:
        return SettingsRead(fallback or Settings(), (problem,), digest(data), False)
    from trainer.profile.guard import guarded  # late: pydantic, only for a file that has changed

    settings, problems = guarded(table, data.decode("utf-8-sig"), shown)
    return SettingsRead(settings, tuple(problems), digest(data), True)


def parse(data: bytes, shown: str) -> tuple[dict[str, Any], Problem | None]:
    """The table of a settings file, or what keeps it from being used at all."""
    try:
        table = toml.parse(data)
    except UnicodeDecodeError:
        return {}, Problem("error", shown, None, "it is not UTF-8", "save it as UTF-8")
    except ValueError as error:
        return {}, Problem(
            "error", shown, None, f"it is not TOML: {error}", "mend that place; it is left as it is until then"
        )
    form = table.get("format", FORMAT)
    if type(form) is not int or form < 1:
        return {}, Problem("error", shown, None, f"format is {form!a}", f"put `format = {FORMAT}`")
    if form > FORMAT:
        return {}, Problem("error", shown, None, f"a newer Sixline wrote it (format {form})", "update Sixline")
    return table, None
