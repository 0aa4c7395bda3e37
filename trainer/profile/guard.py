"""Guards what people write into ``profile.toml``. The only place that imports pydantic for it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from typing import Annotated, Any, Final, Literal, get_args

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError

from drills.notation.pitch import Naming
from drills.notation.tuning import shipped
from trainer.profile.problem import Problem
from trainer.profile.settings import FORMAT, Settings


def _known_tuning(name: str) -> str:
    if name not in shipped():
        raise ValueError("no such tuning")
    return name


def _printable(text: str) -> str:
    if not text.isprintable():
        raise ValueError("it holds a character that cannot be shown")
    return text


_Line = Annotated[str, Field(max_length=200), AfterValidator(_printable)]
_Key = Annotated[str, Field(min_length=1, max_length=40), AfterValidator(_printable)]


class ProfileFile(BaseModel):
    """``profile.toml`` as people may write it."""

    model_config = ConfigDict(strict=True, extra="forbid")

    format: Literal[1] = FORMAT
    tuning: Annotated[str, AfterValidator(_known_tuning)] = "standard"
    capo: Annotated[int, Field(ge=0, le=12)] = 0
    naming: Literal["letters", "german", "solfege"] = "letters"
    dialect: Literal["engraved", "text"] = "engraved"
    hand: Literal["right", "left"] = "right"
    sentence: _Line = ""
    minutes: Annotated[int, Field(ge=1, le=180)] = 10
    theme: _Line = ""
    help: bool = True
    reader: bool = False
    keys: dict[_Key, _Key] = {}


_MENDS: Final = {
    "capo": "give a fret from 0 to 12",
    "minutes": "give whole minutes from 1 to 180",
    "help": "write true or false",
    "reader": "write true or false",
    "sentence": "give a text of at most 200 characters between quotes",
    "theme": "give a name between quotes",
    "keys": 'write a table [keys] with lines such as "quit" = "q"',
}


def guarded(table: Mapping[str, Any], text: str, shown: str) -> tuple[Settings, list[Problem]]:
    """The sound part of a parsed settings file over the defaults, and what is wrong with the rest.

    Args:
        table: the parsed file.
        text: the file, to find lines in.
        shown: how problems name the file.
    """
    table = dict(table)
    problems: list[Problem] = []
    try:
        model = ProfileFile.model_validate(table)
    except ValidationError as error:
        for wrong in sorted({_place(detail["loc"]) for detail in error.errors()}):
            problems.append(_problem(wrong, table, text, shown))
            _leave_out(wrong, table)
        model = ProfileFile.model_validate(table)
    values = model.model_dump(exclude={"format"}) | {"naming": Naming(model.naming)}
    return Settings(**values), problems


def check_changes(changes: Mapping[str, Any]) -> None:
    """Refuse settings that the file could not be read back with.

    Raises:
        ValueError: says which setting, its value and what it may be.
    """
    _, problems = guarded(changes, "", "profile.toml")
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
    if name not in ProfileFile.model_fields:
        near = _nearest(name, ProfileFile.model_fields)
        mend = f"did you mean {near}?" if near else f"the settings are {', '.join(ProfileFile.model_fields)}"
        return Problem("warning", shown, line, f"{name!a} is no setting and is left out", mend)
    value = table.get(name)
    if len(place) == 2 and isinstance(value, dict):
        value = value.get(place[1])
    what = f"{'.'.join(map(_plain, place))} = {ascii(value)[:80]} is not possible and is left out"
    return Problem("warning", shown, line, what, _mend(name, value))


def _mend(name: str, value: object) -> str:
    options = list(shipped()) if name == "tuning" else get_args(ProfileFile.model_fields[name].annotation)
    if name in _MENDS or not options:
        return _MENDS.get(name, "look at the comment above it")
    near = _nearest(str(value), map(str, options))
    return f"did you mean {near}?" if near else f"it can be {', '.join(map(str, options))}"


def _nearest(name: str, known: Iterable[str]) -> str | None:
    return next(iter(difflib.get_close_matches(name.lower(), list(known), n=1, cutoff=0.5)), None)


def _plain(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", name) else ascii(name[:60])


def _line_of(name: str, text: str) -> int | None:
    pattern = re.compile(rf"""\s*["']?{re.escape(name)}["']?\s*=|\s*\[\s*["']?{re.escape(name)}["']?\s*\]""")
    return next((n for n, line in enumerate(text.split("\n"), 1) if pattern.match(line)), None)
