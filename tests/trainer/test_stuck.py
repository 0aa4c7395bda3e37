"""What repeating has not helped with: its landmark on the screen, in lines, in words and for programs, what the answer
counts for, and its parts before it; on the real catalogue."""

from __future__ import annotations

import random
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drills.catalogue import catalogue
from drills.question import Manner
from tests.trainer.fakes import STANDARD, TODAY, Learner, Reply, badly, make_event, slowly, well
from tests.trainer.screen import GUITAR, NEW, right, standing
from tests.trainer.typing_learner import environment
from trainer.clock import Clock
from trainer.plain import Plain, Way
from trainer.practice import Asked, Practice
from trainer.programs import ask_document
from trainer.schedule.ledger import Ledger
from trainer.schedule.state import STUCK
from trainer.schedule.why import Why
from trainer.screens.stage import Stage
from trainer.wording import remarks

CATALOGUE = catalogue(STANDARD)
NOTE, NEIGHBOUR, NAME = "fret-to-note/standard/5/2", "fret-to-note/standard/5/3", "line-to-string/standard/5-name"
SIGN = "mark-name/hammer-on-text"
TEXT = "String 5, fret 3 is C, which you read already: this is one fret back."


def read(ledger: Ledger, item: str, day: int) -> None:
    """Have an item be fluent, by answers up to a day."""
    for before in (9, 6, 3, 0):
        ledger.apply(make_event(item, day - before))
    assert ledger.states[item].fluent


def stick(ledger: Ledger, item: str, day: int) -> None:
    """Have repeating an item not help, up to a day."""
    ledger.apply(make_event(item, day - 1))
    for _ in range(STUCK):
        ledger.apply(make_event(item, day, right=False))
    assert ledger.states[item].stuck


def learner(*read_items: str, stuck: str = NOTE) -> Learner:
    """Reads some items, and is stuck on one since yesterday."""
    found = Learner(CATALOGUE)
    for item in read_items:
        read(found.ledger, item, TODAY - 1)
    stick(found.ledger, stuck, TODAY - 1)
    return found


def of(found: Learner, item: str = NOTE) -> Asked:
    """The only time that an item was asked in the last sitting."""
    (asked,) = (asked for asked in found.asked if asked.item.id == item)
    return asked


def test_it_is_asked_with_what_it_is_told_from_and_all_help_and_proves_no_reading() -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY)
    asked = of(found)
    assert asked.landmark is not None
    assert asked.landmark.text == TEXT
    assert asked.help == (*asked.question.helps[0].names, "landmark")
    assert asked.picture == asked.question.helps[0].draw()
    state = found.ledger.states[NOTE]
    assert (state.stuck, state.missed, state.fast_run, state.right_run) == (True, False, 0, 0)
    (event,) = (event for event in found.record if event.item == NOTE)
    assert event.help == asked.help


def test_right_once_more_without_help_it_is_not_stuck_any_more() -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY)
    day = found.ledger.states[NOTE].due
    found.practise(well, day)
    asked = next(asked for asked in found.asked if asked.item.id == NOTE)
    assert (asked.stuck, asked.help, asked.landmark, asked.picture) == (True, (), None, asked.question.picture)
    assert not found.ledger.states[NOTE].stuck


@pytest.mark.parametrize(("again", "comes"), [(badly, True), (slowly, False)])
def test_another_miss_brings_the_landmark_back_and_what_is_only_slow_does_not(again: Reply, comes: bool) -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY)
    found.practise(lambda asked: again(asked) if asked.item.id == NOTE else well(asked), found.ledger.states[NOTE].due)
    assert found.ledger.states[NOTE].stuck
    found.practise(well, found.ledger.states[NOTE].due)
    asked = next(asked for asked in found.asked if asked.item.id == NOTE)
    assert (asked.landmark is not None) == bool(asked.help) == comes
    assert found.ledger.states[NOTE].stuck == comes


def test_it_is_not_repeated_on_that_day() -> None:
    found = learner(NEIGHBOUR)
    found.practise(lambda asked: badly(asked) if asked.item.id == NOTE else well(asked), TODAY)
    (outcome,) = (found.outcomes[at] for at, item in enumerate(found.ids) if item == NOTE)
    assert not outcome.repeat
    found.practise(well, TODAY, sitting=2)
    assert NOTE not in found.ids


def test_where_nothing_near_is_read_the_sentence_or_the_help_or_the_lesson_stands_for_it() -> None:
    name = learner(stuck=NAME)
    name.practise(well, TODAY)
    told = of(name, NAME).landmark
    assert told is not None
    assert told.brief in {line.partition(": ")[2].partition(".")[0] for line in _lesson(NAME)}
    note = learner()
    note.practise(well, TODAY)
    assert (of(note).landmark, of(note).help[-1], len(of(note).help)) == (None, "landmark", 3)
    sign = learner(stuck=SIGN)
    sign.practise(well, TODAY)
    asked = of(sign, SIGN)
    assert (asked.landmark, asked.help) == (None, ("landmark",))
    assert asked.lesson is not None
    assert asked.lesson.lines == _lesson(SIGN)


def _lesson(item: str) -> tuple[str, ...]:
    return CATALOGUE.explain(CATALOGUE.by_id[item], Manner()).lines


def test_nothing_of_it_is_imported_before_it_is_needed() -> None:
    code = "import sys, trainer.practice; sys.exit('drills.landmark' in sys.modules or 'drills.kinds' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], env=environment(Path()), check=False).returncode == 0


def test_who_wants_no_help_gets_no_landmark() -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY, helped="never")
    asked = next(asked for asked in found.asked if asked.item.id == NOTE)
    assert (asked.stuck, asked.help, asked.landmark) == (True, (), None)


def test_its_parts_come_before_it_whatever_else_is_due() -> None:
    assert sum(map(taken_apart, range(12))) > 12


def taken_apart(seed: int) -> int:
    """How many stuck items come in a sitting, each once and after all of its parts."""
    rng, found = random.Random(seed), Learner(CATALOGUE)
    early = [item for item in CATALOGUE.items if item.stage <= 4][:120]
    for item in early:
        for before in (9, 8, 6, 3):
            found.ledger.apply(make_event(item.id, TODAY - before, right=rng.random() < 0.8))
    stuck = rng.sample([item for item in early if item.needs], 8)
    for item in stuck:
        for _ in range(STUCK):
            found.ledger.apply(make_event(item.id, TODAY - 3, right=False))
    found.practise(lambda asked: badly(asked) if rng.random() < 0.3 else well(asked), TODAY, minutes=15, seed=seed)
    came = [item for item in stuck if item.id in found.ids]
    for item in came:
        at = found.ids.index(item.id)
        assert found.asked[at].why is Why.DUE
        assert {need for need in item.needs if need in found.ledger.states} <= set(found.ids[:at])
        assert found.ids.count(item.id) == 1 or not found.ledger.states[item.id].stuck
    return len(came)


def test_programs_are_told_its_name_and_its_words() -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY)
    document = ask_document(of(found))
    assert document["help"][-1] == "landmark"
    assert document["landmark"] == TEXT
    assert {ask_document(asked)["landmark"] for asked in found.asked if not asked.stuck} == {None}


@pytest.mark.parametrize("spoken", [False, True])
def test_in_lines_and_in_words_it_is_said_before_the_question(spoken: bool) -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY)
    said: list[str] = []
    now = datetime(2026, 11, 25, 8, tzinfo=UTC)
    practice = Practice(
        CATALOGUE, Ledger(), keep=lambda event, at: None, day=TODAY, seed=1, sitting=1, minutes=1, manner=Manner(),
        started=now,
    )  # fmt: skip
    lines = Plain(practice, Clock(now), Way(spoken=spoken), read=lambda: None, say=said.append, kept=lambda: None)
    lines.ask(of(found))
    text = " ".join(" ".join(said).split())
    assert text.startswith(f"Question {of(found).n}. To go over. With the neck and letters. {TEXT}")


def test_a_pair_is_said_to_stand_side_by_side_on_the_screen_too() -> None:
    found = learner(NEIGHBOUR)
    found.practise(well, TODAY)
    bare = next(asked for asked in found.asked if not asked.help and not asked.bare)
    assert remarks(bare._replace(why=Why.CONTRAST)) == ["side by side"]
    assert remarks(bare._replace(why=Why.CONTRAST, bare=True)) == ["side by side, without help now", "without help now"]
    assert remarks(bare._replace(why=Why.DUE)) == [""]


@pytest.mark.parametrize(
    ("size", "word"),
    [
        ((100, 30), TEXT),
        ((80, 24), TEXT),
        ((60, 20), "Fret 3 is C: go one fret back"),
        ((40, 12), "Fret 3 is C: go one fret back"),
    ],
)
async def test_on_the_screen_it_stands_where_help_is_named(tmp_path: Path, size: tuple[int, int], word: str) -> None:
    async with standing(tmp_path, size=size) as stand:
        await stand.press(GUITAR, NEW)
        ledger = stand.learner.profile.ledger
        read(ledger, NEIGHBOUR, TODAY - 1)
        stick(ledger, NOTE, TODAY - 1)
        asked = await stand.only(NOTE, NEIGHBOUR)
        assert (asked.item.id, asked.help[-1]) == (NOTE, "landmark")
        (line,) = stand.lines("#time")
        assert line.rstrip("─━ ").removesuffix("10 min left").rstrip("─━ ").strip() == word
        assert asked.question.prompt in stand.seen()
        assert len([row for row in stand.lines("#picture") if row.strip()]) >= 6
        await stand.pilot.pause()
        drawn = stand.lines("#picture")
        await stand.think(*right(asked.question))
        assert stand.at(Stage.RIGHT)
        assert (stand.lines("#picture"), stand.lines("#time")) == (drawn, [line])
        assert stand.record[-1]["help"] == ["neck", "letters", "landmark"]
