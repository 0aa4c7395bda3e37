"""Which stage a learner is at."""

from __future__ import annotations

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from tests.trainer.fakes import TODAY, make_event
from trainer.schedule.ledger import Ledger
from trainer.schedule.stages import StageNow, current_stage

STANDARD = catalogue(shipped()["standard"])
STAGES = list(STANDARD.stages)


def of(number: int) -> list[str]:
    return [item.id for item in STANDARD.items if item.stage == number]


def read(items: list[str]) -> Ledger:
    """Everything on these items right and fast, on four days."""
    ledger = Ledger()
    for day in (0, 1, 2, 6):
        for item in items:
            ledger.apply(make_event(item, TODAY + day))
    return ledger


def stage(ledger: Ledger) -> StageNow:
    return current_stage(STANDARD, ledger.states)


def test_somebody_new_is_at_the_first() -> None:
    found = stage(Ledger())
    assert (found.number, found.met, found.fluent) == (STAGES[0], 0, 0)
    assert found.items == len(of(STAGES[0]))
    assert 0.9 * found.items <= found.target < found.items


def test_with_nine_tenths_of_it_fluent_it_goes_on_to_the_next() -> None:
    first = of(STAGES[0])
    target = stage(Ledger()).target
    assert stage(read(first[: target - 1])).number == STAGES[0]
    found = stage(read(first[:target]))
    assert (found.number, found.fluent) == (STAGES[1], 0)


def test_one_miss_in_an_early_stage_brings_nobody_back_to_it() -> None:
    ledger = read(of(STAGES[0]) + of(STAGES[1]) + of(STAGES[2])[:5])
    assert (stage(ledger).number, stage(ledger).fluent) == (STAGES[2], 5)
    ledger.apply(make_event(of(STAGES[0])[3], TODAY + 9, right=False))
    assert (stage(ledger).number, stage(ledger).fluent) == (STAGES[2], 5)


def test_where_nine_tenths_are_everywhere_the_first_that_has_a_gap_is_to_be_whole() -> None:
    gap = of(STAGES[1])[0]
    found = stage(read([item.id for item in STANDARD.items if item.id != gap]))
    assert (found.number, found.items - found.fluent, found.target) == (STAGES[1], 1, found.items)


def test_at_the_end_it_is_the_last_one() -> None:
    found = stage(read([item.id for item in STANDARD.items]))
    assert (found.number, found.fluent, found.target) == (STAGES[-1], found.items, found.items)
