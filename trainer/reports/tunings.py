"""``sixline tunings``."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from drills.notation.own_tuning import own_tuning
from drills.notation.tuning import Tuning, shipped
from trainer.clock import Clock
from trainer.complaint import DONE
from trainer.opening import Choices, open_profile, tuning_of
from trainer.profile.settings import Settings
from trainer.reports import print_json, print_lines, table, tell_problems


def report(choices: Choices, clock: Clock, *, as_json: bool) -> int:
    """Print every tuning with its pitches, the learner's own ones last; the exit code."""
    profile = open_profile(choices, clock, write=False)
    tell_problems(profile.problems)
    tunings = {tuning.name: tuning for tuning in [*shipped().values(), *own_tunings(profile.settings)]}
    if as_json:
        print_json([document(tuning) for tuning in tunings.values()])
    else:
        print_lines(lines(tunings.values()))
    return DONE


def own_tunings(settings: Settings) -> list[Tuning]:
    """The tunings that a learner has made: the one in [own-tuning], and the one that is spelled out as learned."""
    own = [own_tuning(settings.own_tuning)] if settings.own_tuning else []
    return [*own, tuning_of(settings)]


def document(tuning: Tuning) -> dict[str, Any]:
    """A tuning for programs: string 1 first, ``hz`` rounded to 3 decimals, the remark empty where there is none."""
    strings = range(1, tuning.lines + 1)
    pitches = [(string, tuning.open(string)) for string in strings]
    return {
        "name": tuning.name,
        "title": tuning.title,
        "remark": tuning.remark,
        "strings": [
            {"string": string, "midi": pitch.midi, "name": pitch.spn(tuning.flats), "hz": round(pitch.hz, 3)}
            for string, pitch in pitches
        ],
    }


def lines(tunings: Iterable[Tuning]) -> list[str]:
    """The same for people, with what they should know before they tune so."""
    known = list(tunings)
    rows = [["NAME", "STRINGS, FROM 1", "TITLE"]]
    for tuning in known:
        names = [tuning.open(string).spn(tuning.flats) for string in range(1, tuning.lines + 1)]
        rows.append([tuning.name, " ".join(names), tuning.title])
    return [*table(rows), *(f"{tuning.name}: {tuning.remark}" for tuning in known if tuning.remark)]
