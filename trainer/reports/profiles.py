"""``sixline profile list / show / check / rebuild``."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from trainer.clock import Clock
from trainer.complaint import DONE, ERRORS, Complaint
from trainer.opening import Choices, checked_name, tuning_of
from trainer.profile.care import Overview, check_profile, list_profiles, rebuild_profile, show_profile
from trainer.profile.lock import HeldError
from trainer.profile.problem import Problem
from trainer.reports import print_json, print_lines, table, tell_problems
from trainer.schedule.days import as_date
from trainer.wording import counted


def report(choices: Choices, clock: Clock, what: str, *, as_json: bool) -> int:
    """Look after profiles; the exit code.

    Raises:
        Complaint: there is no such profile, or another process writes it.
    """
    try:
        if what == "list":
            return _list(choices, as_json)
        name = checked_name(choices)
        if what == "check":
            return _check(choices.home, name, as_json)
        if what == "rebuild":
            return _rebuild(choices.home, name, clock, as_json)
        return _show(show_profile(choices.home, name), as_json)
    except (ValueError, HeldError) as error:
        raise Complaint(str(error)) from None


def _list(choices: Choices, as_json: bool) -> int:
    profiles = list_profiles(choices.home)
    if as_json:
        print_json({"home": str(choices.home), "profiles": [document(each) for each in profiles]})
        return DONE
    out = [f"The files are in {choices.home}"]
    if not profiles:
        out.append("There is no profile yet: `sixline` begins one.")
    else:
        rows = [["NAME", "ANSWERS", "DAYS", "LAST PRACTICE", "FOLDER"]]
        rows += [
            [each.name, str(each.answers), str(each.days), _date(each.last_day) or "never", str(each.folder)]
            for each in profiles
        ]
        out += table(rows)
    print_lines(out)
    return DONE


def _show(overview: Overview, as_json: bool) -> int:
    tell_problems(overview.problems)
    if as_json:
        print_json(document(overview))
        return DONE
    settings = overview.settings
    holder = overview.holder
    last = _date(overview.last_day) or "none yet"
    minutes = counted(settings.minutes, "minute")
    out = [
        f"Profile {overview.name} in {overview.folder}",
        f"{counted(overview.answers, 'answer')} on {counted(overview.days, 'day')}, the last on {last}",
        f"Tuning {tuning_of(settings).name}, note names {settings.naming}, {minutes} a sitting",
        f"Written by device {', '.join(overview.devices) or 'none yet'}",
    ]
    if holder is not None:
        out.append(f"In use by process {holder.pid} on {holder.host} since {holder.since}, if that still runs")
    print_lines([*out, *(f"  {size:9d} bytes  {path}" for path, size in overview.files)])
    return DONE


def document(overview: Overview) -> dict[str, Any]:
    """One profile for programs."""
    holder = overview.holder
    return {
        "name": overview.name,
        "folder": str(overview.folder),
        "answers": overview.answers,
        "days": overview.days,
        "last_day": _date(overview.last_day),
        "tuning": tuning_of(overview.settings).name,
        "devices": list(overview.devices),
        "files": [{"file": str(path), "bytes": size} for path, size in overview.files],
        "holder": None if holder is None else {"pid": holder.pid, "host": holder.host, "since": holder.since},
        "problems": [_problem(problem) for problem in overview.problems],
    }


def _check(home: Path, name: str, as_json: bool) -> int:
    problems = check_profile(home, name)
    if as_json:
        print_json([_problem(problem) for problem in problems])
    else:
        print_lines([_line(problem) for problem in problems] or ["Everything is in order."])
    return ERRORS if any(problem.severity == "error" for problem in problems) else DONE


def _line(problem: Problem) -> str:
    """``FILE:LINE: SEVERITY: WHAT; HOW TO MEND IT``, as compilers and editors have it."""
    where = problem.file if problem.line is None else f"{problem.file}:{problem.line}"
    return f"{where}: {problem.severity}: {problem.message}; {problem.mend}"


def _problem(problem: Problem) -> dict[str, Any]:
    return {
        "file": problem.file,
        "line": problem.line,
        "severity": problem.severity,
        "message": problem.message,
        "mend": problem.mend,
    }


def _rebuild(home: Path, name: str, clock: Clock, as_json: bool) -> int:
    overview = rebuild_profile(home, name, clock.now(), begun=_tell_begun)
    answers = counted(overview.answers, "answer")
    print(f"sixline: {answers} counted, memory.toml and history.toml written", file=sys.stderr)
    if as_json:
        print_json(document(overview))
    return DONE


def _tell_begun() -> None:
    print("sixline: counting the record anew ...", file=sys.stderr)


def _date(day: int | None) -> str | None:
    return None if day is None else as_date(day).isoformat()
