"""A fit in the record: one line that holds for all of it, whoever counts; undone by another."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.trainer.profile.faults import read_back, record_files
from tests.trainer.profile.laid_down import key, lay_down
from tests.trainer.rememberers import FORGETFUL, answers
from trainer.profile.automatic import Automatic
from trainer.profile.care import check_profile, rebuild_profile
from trainer.profile.counted import Counted, Gathered, Progress, recount
from trainer.profile.fitted import fit_by_itself, fit_profile, undo_fit
from trainer.profile.lines import fit_line, parse_line
from trainer.profile.store import Profile
from trainer.schedule.event import Event
from trainer.schedule.fitting import TooFew
from trainer.schedule.ledger import Ledger
from trainer.schedule.parameters import PUBLISHED, USUAL, Fit

EPOCH = datetime(1970, 1, 1, 9, tzinfo=UTC)


@cache
def record(cold: int = 700) -> tuple[Event, ...]:
    """What somebody who forgets sooner than published leaves."""
    return tuple(answers(FORGETFUL, cold=cold))


def at(day: int) -> datetime:
    """Nine o'clock."""
    return EPOCH + timedelta(days=day)


def writing(home: Path) -> Profile:
    """The profile, opened and locked."""
    profile = Profile.open(home, "me", write=True)
    profile.acquire(at(LAST + 1))
    return profile


LAST = record()[-1].day


@pytest.fixture
def profile(tmp_path: Path) -> Iterator[Profile]:
    """A profile that is worth fitting to."""
    lay_down(tmp_path, record())
    found = writing(tmp_path)
    yield found
    found.close(at(LAST + 1))


def by(fit: Fit | None, events: tuple[Event, ...] = record()) -> Ledger:
    """The ledger of those answers, counted one by one."""
    ledger = Ledger(fit=fit)
    for event in events:
        ledger.apply(event)
    return ledger


def rebuilt(home: Path) -> list[dict[str, Any]]:
    """What memory.toml and history.toml say after a replay of the record."""
    rebuild_profile(home, "me", at(LAST + 1))
    return saved(home)


def saved(home: Path) -> list[dict[str, Any]]:
    """What memory.toml and history.toml say, as tomllib reads it; the sum is of bytes, which stand in any order."""
    folder = home / "profiles" / "me"
    tables = [tomllib.loads((folder / name).read_text(encoding="utf-8")) for name in ("memory.toml", "history.toml")]
    return [{name: value for name, value in table.items() if name != "sum"} for table in tables]


def test_a_kept_fit_is_one_line_and_holds_for_the_whole_record(tmp_path: Path, profile: Profile) -> None:
    outcome = fit_profile(profile, at(LAST + 1), LAST + 1)
    assert outcome.model is not None
    lines = [line for line in read_back(tmp_path).values() if "item" not in line]
    assert lines == [
        {
            "day": LAST + 1,
            "fitted": list(outcome.model.parameters),
            "retention": outcome.model.retention,
            "shares": list(outcome.model.shares),
            "before": round(outcome.before, 4),
            "after": round(outcome.after, 4),
        }
    ]
    fit = profile.ledger.fit
    assert fit is not None
    assert profile.ledger.model == outcome.model
    assert profile.ledger.as_data() == by(fit).as_data()
    assert profile.ledger.as_data() != by(None).as_data()
    profile.close(at(LAST + 1))
    before = saved(tmp_path)
    assert before == rebuilt(tmp_path)
    assert Profile.open(tmp_path, "me").ledger.as_data() == by(fit).as_data()
    assert check_profile(tmp_path, "me") == []


def test_what_is_answered_after_a_fit_goes_by_it(tmp_path: Path, profile: Profile) -> None:
    fit_profile(profile, at(LAST + 1), LAST + 1)
    for number, event in enumerate(record()[:30]):
        profile.keep(event._replace(day=LAST + 2), at(LAST + 2) + timedelta(seconds=number))
    profile.close(at(LAST + 2))
    live = saved(tmp_path)
    assert live == rebuilt(tmp_path)
    assert Profile.open(tmp_path, "me").ledger.model == profile.ledger.model != USUAL


def test_answers_that_are_kept_while_it_fits_are_not_lost(
    tmp_path: Path, profile: Profile, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = profile.ledger

    def meanwhile(gathered: Gathered, folder: Path, fit: Fit | None, progress: Progress | None = None) -> Counted:
        found = recount(gathered, folder, fit, progress)
        profile.keep(record()[0]._replace(day=LAST + 1), at(LAST + 1))
        return found

    monkeypatch.setattr("trainer.profile.fitted.recount", meanwhile)
    fit_profile(profile, at(LAST + 1), LAST + 1)
    assert profile.ledger is not old
    assert profile.ledger.events == old.events == len(record()) + 1
    profile.close(at(LAST + 1))
    assert saved(tmp_path) == rebuilt(tmp_path)


def test_a_fit_can_be_undone_and_made_again(tmp_path: Path, profile: Profile) -> None:
    fit_profile(profile, at(LAST + 1), LAST + 1)
    assert undo_fit(profile, at(LAST + 2), LAST + 2)
    assert profile.ledger.model is USUAL
    assert profile.ledger.as_data() == by(Fit(LAST + 2)).as_data()
    assert [line["fitted"] for line in read_back(tmp_path).values() if "fitted" in line][1] == []
    profile.close(at(LAST + 2))
    assert saved(tmp_path) == rebuilt(tmp_path)
    again = writing(tmp_path)
    assert fit_profile(again, at(LAST + 3), LAST + 3).model is not None
    again.close(at(LAST + 3))
    assert Profile.open(tmp_path, "me").ledger.model != USUAL


def test_the_last_line_counts_even_if_nothing_was_saved_after_it(tmp_path: Path) -> None:
    lay_down(tmp_path, record())
    writing(tmp_path).close(at(LAST + 1))
    old = saved(tmp_path)
    parameters = (*PUBLISHED[:20], 0.3)
    file = record_files(tmp_path)[0]
    first = Fit(LAST + 1, PUBLISHED, 0.9, (0.5, 0.6, 0.7, 0.8), 0.5, 0.4)
    for number, fit in enumerate((first, first._replace(parameters=parameters, retention=0.8))):
        with file.open("a", encoding="utf-8") as stream:
            stream.write(fit_line(key(5000 + number, LAST + 1), fit) + "\n")
        assert saved(tmp_path) == old
        ledger = Profile.open(tmp_path, "me").ledger
        assert ledger.fit == fit
        assert ledger.as_data() == by(fit).as_data()


def test_a_record_of_an_older_version_has_no_fit(tmp_path: Path) -> None:
    lay_down(tmp_path, record())
    found = Profile.open(tmp_path, "me")
    assert found.problems == []
    assert found.ledger.fit is None
    assert found.ledger.as_data() == by(None).as_data()


def test_nothing_is_kept_where_there_is_too_little(tmp_path: Path) -> None:
    lay_down(tmp_path, record(399))
    found = writing(tmp_path)
    with pytest.raises(TooFew):
        fit_profile(found, at(LAST + 1), LAST + 1)
    assert not fit_by_itself(found, at(LAST + 1), LAST + 1, lambda: False)
    found.close(at(LAST + 1))
    assert all("item" in line for line in read_back(tmp_path).values())


def test_who_does_not_wait_leaves_nothing_behind(tmp_path: Path, profile: Profile) -> None:
    assert not fit_by_itself(profile, at(LAST + 1), LAST + 1, lambda: True)
    assert profile.ledger.fit is None
    assert all("item" in line for line in read_back(tmp_path).values())


def test_it_comes_by_itself_at_marks_and_never_after_an_undoing(tmp_path: Path) -> None:
    lay_down(tmp_path, record(595))
    found = writing(tmp_path)
    automatic = Automatic(found)
    assert not automatic.due()
    coming = record(700)[len(record(595)) :]
    for event in coming[:3]:
        found.keep(event, at(event.day))
    assert not automatic.due()
    for event in coming[3:40]:
        found.keep(event, at(event.day))
    assert automatic.due()
    assert not automatic.due()
    undo_fit(found, at(LAST + 1), LAST + 1)
    other = Automatic(found)
    for day in range(LAST + 2, LAST + 400):
        found.keep(coming[0]._replace(day=day), at(day))
    assert found.ledger.cold > 900
    assert not other.due()
    found.close(at(LAST + 400))


KEY = f'"{key(9000, LAST + 1)}"'
GOOD = {
    "fitted": [*map(str, PUBLISHED)],
    "retention": "0.9",
    "shares": ["0.5", "0.6", "0.7", "1.0"],
    "before": "0.5",
    "after": "0.4",
}


def fields(**other: str | list[str] | None) -> str:
    """The fields of a good line but for some of them."""
    parts = {name: value for name, value in {**GOOD, **other}.items() if value is not None}
    return ", ".join(
        f"{name} = [{', '.join(value)}]" if isinstance(value, list) else f"{name} = {value}"
        for name, value in parts.items()
    )


def first(number: str) -> str:
    """The fields with another first parameter."""
    return fields(fitted=[number, *GOOD["fitted"][1:]])


def test_a_good_line_counts(tmp_path: Path) -> None:
    lay_down(tmp_path, record(), f"{KEY} = {{ day = {LAST + 1}, {fields()} }}")
    found = Profile.open(tmp_path, "me")
    assert found.problems == []
    assert found.ledger.fit == Fit(LAST + 1, PUBLISHED, 0.9, (0.5, 0.6, 0.7, 1.0), 0.5, 0.4)


@pytest.mark.parametrize(
    "hostile",
    [
        *map(first, ["nan", "inf", "-inf", "1e308", "1" + "0" * 400, "-0.1", '"0.2"', "true", "[]", "2026-11-25"]),
        fields(fitted=[*GOOD["fitted"][1:]]),
        fields(fitted=[*GOOD["fitted"], "0.1"]),
        fields(fitted='"all"'),
        fields(fitted="0.5"),
        fields(fitted="{}"),
        fields(retention="0.1"),
        fields(retention="nan"),
        fields(retention=None),
        fields(shares=None),
        fields(shares=["0.5"] * 3),
        fields(shares=["0.5"] * 3 + ["1.1"]),
        fields(shares=["nan"] * 4),
        fields(before="nan"),
        fields(before="-1.0"),
        fields(after='"less"'),
        fields(after=None),
    ],
)
def test_a_hostile_line_is_a_problem_and_changes_nothing(tmp_path: Path, hostile: str) -> None:
    lay_down(tmp_path, record(), f"{KEY} = {{ day = {LAST + 1}, {hostile} }}")
    found = Profile.open(tmp_path, "me")
    assert found.ledger.as_data() == by(None).as_data()
    assert [problem.severity for problem in found.problems] == ["error"]
    assert [problem.line for problem in check_profile(tmp_path, "me")] == [len(record()) + 3]


def test_a_fit_needs_a_day(tmp_path: Path) -> None:
    for day in ("", "day = -1, ", "day = 1.5, ", "day = 9999999, "):
        with pytest.raises(ValueError, match="day"):
            parse_line(f"{KEY} = {{ {day}fitted = [] }}")


ODD = Fit(20_999, (*PUBLISHED[:8], 0.0, *PUBLISHED[9:]), 0.8123, (0.05, 0.5, 0.75, 1.0), 0.5, 0.25)


@pytest.mark.parametrize("fit", [Fit(7), ODD])
def test_a_line_reads_back_as_it_was(fit: Fit) -> None:
    entry = parse_line(fit_line(key(3, fit.day), fit))
    assert entry.fit == fit
    assert entry.day == fit.day
    assert entry.event is None
    assert entry.baseline is None
