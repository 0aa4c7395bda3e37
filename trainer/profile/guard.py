"""Guards what people write into ``profile.toml``. The only place that imports pydantic for it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Annotated, Any, Final, Literal, get_args

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError

from drills.notation.own_tuning import own_tuning
from drills.notation.pitch import Naming
from trainer.commands import COMMANDS, sorted_out
from trainer.complaint import nearest
from trainer.profile.problem import Problem
from trainer.profile.settings import FORMAT, OWN_TABLE, Settings
from trainer.profile.theme_names import THEMES
from trainer.profile.tunings import OWN, tuning_from
from trainer.schedule.grading import TOO_QUICK

SLOWEST_KEY: Final = 5.0
"""Seconds for one key beyond which a key baseline is a slip of the pen: our choice."""


def _known_tuning(name: str) -> str:
    if name != OWN:  # whose pitches another setting holds
        tuning_from(name)
    return name


def _pitches(text: str) -> str:
    if text:
        own_tuning(text)
    return text


def _key_seconds(seconds: float) -> float:
    if seconds and not TOO_QUICK <= seconds <= SLOWEST_KEY:
        raise ValueError("no hand is like that")
    return float(seconds)


def _printable(text: str) -> str:
    if not text.isprintable():
        raise ValueError("it holds a character that cannot be shown")
    return text


_Line = Annotated[str, Field(max_length=200), AfterValidator(_printable)]
_Key = Annotated[str, Field(min_length=1, max_length=40), AfterValidator(_printable)]


class OwnTuning(BaseModel):
    """``[own-tuning]``."""

    model_config = ConfigDict(strict=True, extra="forbid")

    strings: Annotated[_Line, AfterValidator(_pitches)] = ""


class ProfileFile(BaseModel):
    """``profile.toml`` as people may write it."""

    model_config = ConfigDict(strict=True, extra="forbid")

    format: Literal[1] = FORMAT
    tuning: Annotated[_Line, AfterValidator(_known_tuning)] = "standard"
    capo: Annotated[int, Field(ge=0, le=12)] = 0
    naming: Literal["letters", "german", "solfege"] = "letters"
    dialect: Literal["engraved", "text"] = "engraved"
    hand: Literal["right", "left"] = "right"
    sentence: _Line = ""
    minutes: Annotated[int, Field(ge=1, le=180)] = 10
    theme: _Line = ""
    help: Literal["fading", "always", "never"] = "fading"
    reader: bool = False
    motion: Literal["auto", "off"] = "auto"
    short_words: bool = False
    talk_of_speed: bool = True
    key_seconds: Annotated[float, AfterValidator(_key_seconds)] = 0.0
    own: OwnTuning = Field(default=OwnTuning(), alias=OWN_TABLE)
    keys: dict[_Key, _Key] = {}


NAMES: Final = tuple(each.alias or name for name, each in ProfileFile.model_fields.items())
"""Every setting as the file calls it."""

_MENDS: Final = {
    "tuning": "give a name that `sixline tunings` lists, or the pitches between quotes",
    "capo": "give a fret from 0 to 12",
    "minutes": "give whole minutes from 1 to 180",
    "key_seconds": f"give {TOO_QUICK} to {SLOWEST_KEY:g} seconds, or 0 for what was measured",
    "reader": "write true or false",
    "short_words": "write true or false",
    "talk_of_speed": "write true or false",
    "theme": "give a name between quotes",
    "sentence": "give a text of at most 200 characters between quotes",
    OWN_TABLE: 'write a table [own-tuning] with one line strings = "D2 A2 D3 G3 B3 D4"',
    "keys": f'write a table [keys] with lines such as "{COMMANDS[0].id}" = "f2"',
}


def guarded(table: Mapping[str, Any], text: str, shown: str) -> tuple[Settings, list[Problem]]:
    """The sound part of a parsed settings file over the defaults, and what is wrong with the rest.

    A theme or a key that is not known is told and stays: the screen does without it, and Setup shows what is there.

    Args:
        table: the parsed file.
        text: the file, to find lines in.
        shown: how problems name the file.
    """
    table = dict(table)
    if isinstance(table.get("keys"), Mapping):
        table["keys"] = _flat(table["keys"])
    problems: list[Problem] = []
    try:
        model = ProfileFile.model_validate(table)
    except ValidationError as error:
        for wrong in sorted({_place(detail["loc"]) for detail in error.errors()}):
            problems.append(_problem(wrong, table, text, shown))
            _leave_out(wrong, table)
        model = ProfileFile.model_validate(table)
    if model.tuning == OWN and not model.own.strings:
        mend = f'give them in [{OWN_TABLE}], such as strings = "D2 A2 D3 G3 B3 D4"'
        what = f"tuning = '{OWN}' has no pitches and is left out"
        problems.append(Problem("warning", shown, _line_of("tuning", text), what, mend))
        model.tuning = Settings().tuning
    if model.theme and model.theme not in THEMES:
        near = nearest(model.theme, list(THEMES))
        mend = f"did you mean {near}?" if near else f"it can be {', '.join(THEMES)}"
        what = f"theme = {model.theme[:60]!a} is not known, the usual colours are used"
        problems.append(Problem("warning", shown, _line_of("theme", text), what, mend))
    for each in sorted_out(model.keys)[1]:
        problems.append(Problem("warning", shown, _line_of(each.id, text), f"[keys]: {each.what}", each.mend))
    values = model.model_dump(exclude={"format", "own"})
    settings = Settings(**values | {"own_tuning": model.own.strings, "naming": Naming(model.naming)})
    return settings, sorted(problems, key=lambda problem: problem.line or 0)


def _flat(keys: Mapping[str, Any]) -> dict[str, Any]:
    """``[keys]`` with ids that were written without quotes, which TOML takes for tables in tables."""
    flat: dict[str, Any] = {}
    for name, value in keys.items():
        inner = value if isinstance(value, Mapping) else None
        flat |= {f"{name}.{end}": key for end, key in inner.items()} if inner is not None else {name: value}
    return flat


def check_changes(changes: Mapping[str, Any]) -> None:
    """Refuse settings that the file could not be read back with.

    Raises:
        ValueError: says which setting, its value and what it may be.
    """
    table = dict(changes)
    if "own_tuning" in table:
        table[OWN_TABLE] = {"strings": table.pop("own_tuning")}
    _, problems = guarded(table, "", "profile.toml")
    if problems:
        raise ValueError(str(problems[0]))


def _place(loc: tuple[int | str, ...]) -> tuple[str, ...]:
    """The setting, or the line of ``[keys]``, that an error is about."""
    return tuple(str(part) for part in loc if part != "[key]")[:2]


def _leave_out(place: tuple[str, ...], table: dict[str, Any]) -> None:
    inner = table.get(place[0])
    if len(place) == 2 and isinstance(inner, dict):
        table[place[0]] = {name: value for name, value in inner.items() if name != place[1]}
    else:
        table.pop(place[0], None)


def _problem(place: tuple[str, ...], table: Mapping[str, Any], text: str, shown: str) -> Problem:
    name = place[0]
    line = _line_of(place[-1], text)
    if name not in NAMES:
        near = nearest(name, list(NAMES))
        mend = f"did you mean {near}?" if near else f"the settings are {', '.join(NAMES)}"
        return Problem("warning", shown, line, f"{name!a} is no setting and is left out", mend)
    value = table.get(name)
    if len(place) == 2 and isinstance(value, dict):
        value = value.get(place[1])
    what = f"{'.'.join(map(_plain, place))} = {ascii(value)[:80]} is not possible and is left out"
    return Problem("warning", shown, line, what, _mend(name, value))


def _mend(name: str, value: object) -> str:
    if isinstance(value, str) and name in ("tuning", OWN_TABLE):
        try:
            tuning_from(value) if name == "tuning" else own_tuning(value)
        except ValueError as error:
            what, _, mend = str(error).partition(": ")
            return mend if what.startswith("there is no tuning") else str(error)
    if name in _MENDS:
        return _MENDS[name]
    options = get_args(ProfileFile.model_fields[name].annotation)
    near = nearest(str(value), list(map(str, options)))
    return f"did you mean {near}?" if near else f"it can be {', '.join(map(str, options))}"


def _plain(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", name) else ascii(name[:60])


def _line_of(name: str, text: str) -> int | None:
    pattern = re.compile(rf"""\s*["']?{re.escape(name)}["']?\s*=|\s*\[\s*["']?{re.escape(name)}["']?\s*\]""")
    return next((n for n, line in enumerate(text.split("\n"), 1) if pattern.match(line)), None)
