"""What a learner is told, and what is not told where they do not want to hear of it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from drills.question import Misreading
from tests.trainer.fakes import TODAY, Learner, badly, make_catalogue, mixed, slowly, well
from tests.trainer.test_reports import record_lines
from tests.trainer.typing_learner import Terminal
from trainer.schedule.status import Status
from trainer.schedule.summary import Summary
from trainer.wording import (
    USUAL,
    Voice,
    counted,
    habit,
    headline,
    reasons,
    rid_lines,
    status_word,
    summary_lines,
)

SPEED = re.compile(r"slow|fast|quick|seconds|\d s\b", re.IGNORECASE)
QUIET = Voice(speed=False)
SHORT = Voice(short=True)


def told(voice: Voice) -> tuple[list[str], list[str]]:
    """Every verdict of a mixed sitting, and its end."""
    learner = Learner(make_catalogue())
    practice = learner.practise(mixed(3), TODAY)
    lines = []
    for asked, outcome in zip(learner.asked, learner.outcomes, strict=True):
        lines += [headline(asked, outcome, voice), *reasons(outcome, voice)]
    return lines, summary_lines(practice.summary(), voice, nothing_left=True)


def test_speed_is_spoken_of_only_where_it_may_be() -> None:
    usual, quiet = told(USUAL), told(QUIET)
    assert any(SPEED.search(line) for line in usual[0])
    assert any(SPEED.search(line) for line in usual[1])
    assert not [line for line in [*quiet[0], *quiet[1]] if SPEED.search(line)]
    assert len(quiet[0]) == len(usual[0])


def test_short_words_are_fewer_and_say_the_same() -> None:
    usual, short = told(USUAL), told(SHORT)
    for before, after in zip(usual, short, strict=True):
        assert len(" ".join(after).split()) < 0.8 * len(" ".join(before).split())
    learner = Learner(make_catalogue())
    for reply, says in ((well, "Yes: "), (slowly, "Yes, slow: "), (badly, "Not yet: ")):
        learner.practise(reply, limit=1)
        asked, outcome = learner.asked[0], learner.outcomes[0]
        line = headline(asked, outcome, SHORT)
        assert line.startswith(says)
        assert asked.question.show(outcome.verdict.answer) in line
    assert "slow" not in headline(asked, outcome, Voice(short=True, speed=False))


def test_people_read_kind_words() -> None:
    assert [status_word(state) for state in Status] == ["new", "met", "known", "fluent", "kept"]
    assert [counted(number, "day") for number in (0, 1, 2)] == ["0 days", "1 day", "2 days"]


@pytest.mark.parametrize("text", ["talk_of_speed = false", "talk_of_speed = false\nshort_words = true"])
def test_plain_keeps_silent_of_speed_and_the_record_keeps_it(terminal: Terminal, text: str) -> None:
    settings(terminal.home, text)
    _, out = terminal.run("--plain", "--answers", "4", lines=["6", "1", "2", "3"], typed=True)
    assert "Question 4." in out
    assert not [line for line in out.splitlines() if SPEED.search(line)]
    assert all(line["seconds"] >= 0 for line in record_lines(terminal.record))


def test_help_is_shown_when_the_learner_wants_it(terminal: Terminal) -> None:
    helped: dict[str, list[bool]] = {}
    for when in ("fading", "always", "never"):
        settings(terminal.home, f'help = "{when}"')
        lines = terminal.learn(lambda ask: {"answer": "6", "seconds": 1.0}, "--profile", when, "--answers", "30")
        helped[when] = [bool(line["ask"]["help"]) for line in lines if "ask" in line]
    assert not any(helped["never"])
    assert 0 < sum(helped["fading"]) < len(helped["fading"])
    assert sum(helped["always"]) > sum(helped["fading"])


def test_the_seconds_of_a_key_can_be_set(terminal: Terminal) -> None:
    settings(terminal.home, "key_seconds = 2.5")
    terminal.practise(replies=[{"answer": "6", "seconds": 1.0}])
    assert [line["base"] for line in record_lines(terminal.record)] == [2.5]


def settings(home: Path, text: str) -> None:
    """Settings of every profile that these tests use."""
    for name in ("me", "fading", "always", "never"):
        folder = home / "profiles" / name
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "profile.toml").write_text(text)


@pytest.mark.parametrize("kind", list(Misreading))
def test_every_habit_that_is_gone_is_told_as_something_that_one_does(kind: Misreading) -> None:
    (told,) = rid_lines([kind])
    assert told == f"You are rid of a habit: {habit(kind)}."
    assert habit(kind).split()[0].endswith("ing")
    assert rid_lines([kind], Voice(short=True)) == [f"Gone: {habit(kind)}."]


@pytest.mark.parametrize(("answers", "slow", "says"), [
    (9, 4, "9 answers, 8 right, 4 of them slow."), (9, 8, "9 answers, 8 right, all of them slow."),
    (1, 1, "1 answer, 1 right, but slow."), (9, 0, "9 answers, 8 right."),
])  # fmt: skip
def test_slow_ones_are_some_or_all_of_the_right_ones(answers: int, slow: int, says: str) -> None:
    summary = Summary(answers, min(answers, 8), slow, None, 1.0, (), (), None)
    assert summary_lines(summary)[0] == says
    assert "slow" not in summary_lines(summary, QUIET)[0]
