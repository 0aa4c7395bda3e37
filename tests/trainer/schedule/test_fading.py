"""How much help comes with an item, and what an answer with help counts."""

from __future__ import annotations

import pytest

from drills.question import Answer
from tests.trainer.fakes import TODAY, Learner, badly, make_catalogue, make_event, well
from trainer.practice import Asked
from trainer.schedule import fading, state
from trainer.schedule.fading import GONE, WHOLE
from trainer.schedule.intake import is_ready
from trainer.schedule.ledger import Ledger
from trainer.schedule.state import ItemState
from trainer.schedule.status import Status, status
from trainer.schedule.why import Why

CATALOGUE = make_catalogue()
HELP = ("letters",)


def history(*answers: tuple[int, str]) -> ItemState:
    """Day and signs of answers: ``+`` right with help, ``*`` right without, ``-`` wrong."""
    found: ItemState | None = None
    for day, signs in answers:
        for sign in signs:
            helps = HELP if sign == "+" else ()
            found = state.after(found, make_event(day=TODAY + day, right=sign != "-", helps=helps))
    assert found is not None
    return found


def step(found: ItemState | None, day: int, why: Why = Why.DUE, *, warm_up: bool = False) -> int:
    return fading.step(found, TODAY + day, why, warm_up=warm_up)


@pytest.mark.parametrize(
    ("signs", "left"),
    [
        ("-", 0), ("+", 1), ("++", 2), ("+++", GONE), ("++++", GONE), ("+-", 0), ("++-", 0), ("+++-", 0), ("-+", 1),
        ("+-+", 1), ("++-+", 1), ("++-++", 2), ("*", GONE), ("+*", GONE), ("*-", 0), ("*-+", 1), ("*-*", GONE),
    ],
)  # fmt: skip
def test_one_step_less_with_every_right_answer_and_all_again_after_a_miss(signs: str, left: int) -> None:
    assert step(history((0, signs)), 0, Why.REPEAT) == left


def test_what_is_new_has_all_of_its_help() -> None:
    assert step(None, 0, Why.NEW) == WHOLE
    # Never right, and met anew on a later day: what it needs had to come first.
    assert step(history((0, "-")), 3, Why.NEW) == WHOLE


@pytest.mark.parametrize("signs", ["+", "++", "+++", "*", "-", "+-", "-+"])
def test_the_first_cold_answer_is_without_help(signs: str) -> None:
    assert step(history((0, signs)), 1) == GONE


def test_a_cold_answer_is_without_help_unless_the_last_cold_one_and_the_last_one_were_wrong() -> None:
    assert step(history((0, "+++"), (1, "*")), 4) == GONE
    assert step(history((0, "+++"), (1, "*-")), 2) == GONE
    assert step(history((0, "+++"), (1, "-+")), 2) == GONE
    assert step(history((0, "+++"), (1, "-")), 2) == WHOLE
    assert step(history((0, "+++"), (1, "-+-")), 2) == WHOLE
    # Right with help: the next cold one is without again.
    assert step(history((0, "+++"), (1, "-"), (2, "+")), 3) == GONE


def test_after_a_long_rest_it_is_all_there() -> None:
    assert step(history((0, "+++"), (1, "*"), (2, "*")), 60, warm_up=True) == WHOLE


def test_an_answer_that_only_help_made_right_clears_the_miss_and_proves_no_more() -> None:
    before = history((0, "+++"), (1, "*"), (2, "*"), (3, "-"))
    lifted = state.after(before, make_event(day=TODAY + 4, helps=HELP))
    assert not lifted.missed
    assert (lifted.right_run, lifted.fast_run, lifted.slips) == (0, 0, before.slips)
    assert lifted.due - lifted.last <= max(1, before.due - before.last)
    assert before.memory is not None
    assert lifted.memory is not None
    assert lifted.memory[0] <= before.memory[0]
    assert status(lifted) is Status.SHAKY


def test_what_only_help_made_right_opens_nothing_new() -> None:
    ledger = Ledger()
    for day, right, helps in ((0, True, HELP), (1, False, ()), (2, True, HELP)):
        ledger.apply(make_event(day=TODAY + day, right=right, helps=helps))
    assert list(ledger.recent) == [False]
    # With help always shown, answers count as right from the second one after a miss.
    ledger.apply(make_event(day=TODAY + 3, helps=HELP))
    assert list(ledger.recent) == [False, True]
    assert ledger.states["line/1/0"].right_run == 1


def test_six_slips_stay_until_it_is_right_without_help() -> None:
    stuck = history((0, "-------"), (1, "-"))
    assert stuck.stuck
    lifted = state.after(stuck, make_event(day=TODAY + 2, helps=HELP))
    assert lifted.stuck
    assert not state.after(lifted, make_event(day=TODAY + 3)).stuck


def test_cold_answers_with_help_never_make_anything_fluent() -> None:
    for rest in (1, 3, 8):
        found = history((0, "+++"))
        for day in range(rest, 40 * rest, rest):
            found = state.after(found, make_event(day=TODAY + day, seconds=0.6, helps=HELP))
            assert not found.fluent
            assert found.fast_run == 0
        assert found.right_run > 2


def test_three_right_and_fast_with_help_are_no_reading_yet() -> None:
    assert is_ready(history((0, "++*")), TODAY)
    assert is_ready(history((0, "***")), TODAY)
    assert not is_ready(history((0, "++")), TODAY)
    assert not is_ready(history((0, "+-++")), TODAY)
    assert is_ready(history((0, "+-++*")), TODAY)
    assert not is_ready(history((0, "***-")), TODAY)
    # Where help is always shown it is as far as it would have gone.
    assert is_ready(history((0, "+++")), TODAY)


def shown(learner: Learner, item: str) -> list[tuple[tuple[str, ...], bool]]:
    return [(asked.help, asked.bare) for asked in learner.asked if asked.item.id == item]


def test_a_sitting_takes_the_help_away_one_step_at_a_time() -> None:
    learner = Learner(CATALOGUE)
    learner.practise(well)
    met = [asked.item.id for asked in learner.asked if asked.why is Why.NEW]
    assert len(met) > 10
    for item in met:
        asked = shown(learner, item)
        expected = [(("letters",), False), (("letter",), False), ((), True)] + [((), False)] * 9
        assert asked == expected[: len(asked)]
    learner.practise(well, TODAY + 1)
    assert not any(asked.help or asked.bare for asked in learner.asked if asked.why is Why.DUE)


def test_a_miss_brings_it_back_and_it_goes_again() -> None:
    learner = Learner(CATALOGUE)
    missed: list[int] = []

    def reply(asked: Asked) -> Answer:
        if asked.item.id == "line/3/0" and not asked.help and not missed:
            missed.append(asked.n)
            return badly(asked)
        return well(asked)

    learner.practise(reply)
    helps = [names for names, _ in shown(learner, "line/3/0")]
    assert helps[:4] == [("letters",), ("letter",), (), ("letters",)]
    assert missed


def test_always_and_never_stay_as_they_are() -> None:
    always, never = Learner(CATALOGUE), Learner(CATALOGUE)
    for day in range(3):
        always.practise(well, TODAY + day, helped="always")
        never.practise(well, TODAY + day, helped="never")
        assert {asked.help for asked in always.asked} == {("letters",)}
        assert {asked.help for asked in never.asked} == {()}
        assert not any(asked.bare for asked in [*always.asked, *never.asked])
    assert min(len(always.ledger.states), len(never.ledger.states)) > 40


def test_who_is_always_wrong_starts_with_help_and_never_has_a_fluent_item() -> None:
    learner = Learner(CATALOGUE)
    days: list[set[tuple[str, ...]]] = []
    for day in range(12):
        learner.practise(lambda asked: well(asked) if asked.help else badly(asked), TODAY + day)
        cold = [asked for asked in learner.asked if asked.why is Why.DUE]
        days.append({asked.help for asked in cold})
    assert {"letters"} <= {name for helps in days for each in helps for name in each}
    assert not any(each.fluent or each.right_run for each in learner.ledger.states.values())
