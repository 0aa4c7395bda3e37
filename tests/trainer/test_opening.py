"""From the command line's choices to a sitting."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from drills.notation.pitch import Naming
from drills.notation.staff_view import Dialect
from drills.question import Answer
from trainer.clock import Clock
from trainer.complaint import Complaint, nearest, shown
from trainer.opening import Choices, begin, find_tuning, manner, open_profile
from trainer.profile.settings import Settings

MORNING = datetime(2026, 11, 25, 8, tzinfo=UTC)


def test_an_answer_counts_once_and_a_replay_gives_the_same(tmp_path: Path) -> None:
    choices, clock = Choices(tmp_path, "me", 3), Clock(MORNING)
    profile = open_profile(choices, clock, write=True)
    profile.acquire(clock.now())
    practice = begin(profile, clock, seed=3, limit=20)
    answers = 0
    while (asked := practice.next(clock.now())) is not None:
        clock.advance(1.2)
        practice.answer(Answer(asked.question.model, 1.2), clock.now())
        answers += 1
    assert (answers, practice.reason) == (20, "limit")
    assert profile.ledger.events == 20
    kept = profile.ledger.as_data()
    assert profile.close(clock.now()) is None
    (profile.folder / "memory.toml").unlink()
    assert open_profile(choices, clock, write=False).ledger.as_data() == kept


def test_a_second_sitting_of_a_day_is_another_one(tmp_path: Path) -> None:
    choices, clock = Choices(tmp_path, "me"), Clock(MORNING)
    profile = open_profile(choices, clock, write=True)
    first = begin(profile, clock, seed=1, limit=2)
    while (asked := first.next(clock.now())) is not None:
        clock.advance(1.0)
        first.answer(Answer(asked.question.model, 1.0), clock.now())
    second = begin(profile, clock, seed=1, base=1.5)
    asked = second.next(clock.now())
    assert asked is not None
    assert asked.limit == 2.7
    profile.close(clock.now())


def test_the_settings_make_the_manner() -> None:
    settings = Settings(naming=Naming.GERMAN, hand="left", sentence="Every Amber Dusk Glows Behind Elms")
    made = manner(settings)
    assert (made.naming, made.dialect, made.left_handed) == (Naming.GERMAN, Dialect.ENGRAVED, True)
    assert made.sentence == "Every Amber Dusk Glows Behind Elms"
    assert manner(settings, Dialect.TEXT).dialect is Dialect.TEXT


def test_a_profile_name_that_cannot_be_is_told(tmp_path: Path) -> None:
    with pytest.raises(Complaint, match=r"'a/b' is no profile name \(--profile\): use 1 to 40 letters"):
        open_profile(Choices(tmp_path, "a/b"), Clock(MORNING), write=False)


def test_tunings_are_found_by_name() -> None:
    assert find_tuning("bass").lines == 4
    with pytest.raises(Complaint, match=r"there is no tuning 'ukelele' \(--tuning\): did you mean ukulele\?"):
        find_tuning("ukelele")


def test_outside_text_is_shown_escaped() -> None:
    assert shown("tab [b]♭[/b] é") == "tab [b]♭[/b] é"
    assert shown("a\x1b[0m\r\n\u202e\ud800") == "a\\x1b[0m\\r\\n\\u202e\\ud800"


def test_the_nearest_name_or_none() -> None:
    assert nearest("TODYA", ["today", "items"]) == "today"
    assert nearest("zzz", ["today", "items"]) is None
