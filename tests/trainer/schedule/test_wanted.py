"""What a piece needs comes first among the new items, behind what it needs itself; all else stays. Our rule."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.catalogue import catalogue
from tests.trainer.fakes import STANDARD, TODAY, Learner, make_catalogue, make_event, mixed, well
from trainer.schedule.intake import Intake, is_ready
from trainer.schedule.ledger import Ledger
from trainer.schedule.standing import standing
from trainer.schedule.wanted import wanted_first, with_needs
from trainer.schedule.why import Why

FAKE = make_catalogue()
IDS = [item.id for item in FAKE.items]
WANTED = ("note/6/3", "place/6/7")
REAL = catalogue(STANDARD)
SONG = ("fret-to-note/standard/5/3", "mark-picked/h", "tab-to-place/standard/4/7", "mark-name/full-bend-text")


def new(learner: Learner) -> list[str]:
    """What was met in the last sitting, in order."""
    return [asked.item.id for asked in learner.asked if asked.why is Why.NEW]


def test_what_is_wanted_and_what_that_needs_comes_before_all_else() -> None:
    learner, other = Learner(FAKE), Learner(FAKE)
    learner.practise(well, first=WANTED)
    other.practise(well)
    assert set(new(learner)[:2]) == {"line/6/0", "place/6/7"}
    assert "note/6/3" in new(learner)  # once its line is known, though every line and place comes before it else
    assert not set(WANTED) & set(new(other))
    line = next(n for n, asked in enumerate(learner.asked) if asked.item.id == "note/6/3")
    assert learner.ids[:line].count("line/6/0") >= 3


def test_what_is_wanted_of_a_late_stage_is_met_in_the_first_days() -> None:
    learner = Learner(REAL)
    wanted = {REAL.items[at].id for at in with_needs(REAL.items, standing(REAL.items), SONG)}
    assert wanted > set(SONG)
    ready: set[str] = set()
    for day in range(TODAY, TODAY + 4):
        learner.practise(well, day, first=SONG)
        for at, asked in enumerate(learner.asked):
            if asked.why is Why.NEW:  # behind what it needs: that was right before, today or on another day
                assert set(asked.item.needs) <= ready | set(learner.ids[:at])
        ready |= {name for name, state in learner.ledger.states.items() if is_ready(state, day)}
    assert wanted <= set(learner.ledger.states)


@pytest.mark.parametrize("first", [(), ("gone/1", "mark-name/unknown"), tuple(IDS)], ids=["none", "unknown", "all"])
def test_where_nothing_is_to_come_before_anything_the_queue_is_the_same(first: tuple[str, ...]) -> None:
    learner, other = Learner(FAKE), Learner(FAKE)
    for day in range(TODAY, TODAY + 5):
        learner.practise(mixed(day), day, first=first)
        other.practise(mixed(day), day)
        assert learner.ids == other.ids
    assert learner.record == other.record


def test_no_more_comes_new_than_else() -> None:
    learner, other = Learner(FAKE), Learner(FAKE)
    for day in range(TODAY, TODAY + 5):
        learner.practise(mixed(day, 0.75), day, first=tuple(IDS[-40:]))
        other.practise(mixed(day, 0.75), day)
        most = max(len(new(other)), 24)  # the cap of the first days
        assert len(new(learner)) <= most


def test_what_was_met_already_is_not_new_again() -> None:
    ledger = Ledger()
    for day in (TODAY - 2, TODAY - 1):
        ledger.apply(make_event("place/6/7", day))
    intake = Intake(FAKE, ledger, day=TODAY, minutes=10, first=WANTED)
    assert not intake.waits("place/6/7")
    assert next(intake.upcoming()) == "line/6/0"


@given(st.sets(st.sampled_from([item.id for item in REAL.items]), max_size=12))
def test_the_order_stays_as_it_is_within_both_parts(wanted: set[str]) -> None:
    known = standing(REAL.items)
    found = with_needs(REAL.items, known, wanted)
    for at in found:
        assert {known.at[need] for need in REAL.items[at].needs if need in known.at} <= found
    places = wanted_first(REAL.items, known, wanted)
    ordered = sorted(range(len(places)), key=places.__getitem__)
    turns = sorted(range(len(places)), key=known.turn.__getitem__)
    assert ordered == [at for at in turns if at in found] + [at for at in turns if at not in found]
