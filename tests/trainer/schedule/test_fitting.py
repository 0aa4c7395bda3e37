"""The memory fitted to a learner's own record; the learners' parameters are known here, and not to the fit."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.trainer.fakes import make_event
from tests.trainer.rememberers import FAST, FORGETFUL, answers
from trainer.schedule import fitting, formulas, likeliest, memory, state
from trainer.schedule.event import Event
from trainer.schedule.fitting import TooFew, cold_answers, fit
from trainer.schedule.formulas import Foretold, History
from trainer.schedule.ledger import Ledger
from trainer.schedule.marks import passed_mark
from trainer.schedule.parameters import (
    HIGHEST,
    LEAST_RETENTION,
    LEAST_SHARE,
    LOWEST,
    MOST_RETENTION,
    PUBLISHED,
    SHARES,
    USUAL,
    Fit,
    Model,
    Parameters,
    Shares,
)

any_model = st.builds(
    Model,
    st.tuples(*(st.floats(low, high) for low, high in zip(LOWEST, HIGHEST, strict=True))),
    st.floats(LEAST_RETENTION, MOST_RETENTION),
    st.tuples(*[st.floats(LEAST_SHARE, 1)] * len(SHARES)),
)



def loss(record: list[Event], model: Model) -> float:
    """Mean log loss on timed cold answers, as the ledger has it."""
    ledger = Ledger(fit=Fit(0, *model))
    for event in record:
        ledger.apply(event)
    assert ledger.predictions.log_loss is not None
    return ledger.predictions.log_loss


@pytest.mark.parametrize("seed", range(3))
def test_somebody_who_forgets_sooner_is_foretold_better(seed: int) -> None:
    found = fit(cold_answers(answers(FORGETFUL, cold=3000, seed=seed)))
    assert found.model is not None
    assert found.after < found.before - fitting.LEAST_GAIN
    # Another record of the same learner, which the fit has not seen: most of what can be gained is gained.
    other = answers(FORGETFUL, cold=1500, seed=100 + seed)
    usual, best = loss(other, USUAL), loss(other, Model(FORGETFUL, 0.9))
    assert loss(other, found.model) < usual - 0.8 * (usual - best)


def test_somebody_who_is_as_published_keeps_what_is_published_or_nearly() -> None:
    for seed in range(6):
        found = fit(cold_answers(answers(PUBLISHED, cold=1500, seed=seed)))
        assert (found.model is not None) == (found.before - found.after >= fitting.LEAST_GAIN)
        assert abs(found.before - found.after) < 0.02
    assert not all(fit(cold_answers(answers(PUBLISHED, cold=1500, seed=seed))).model for seed in range(6))


def test_it_takes_four_hundred_cold_answers() -> None:
    with pytest.raises(TooFew) as few:
        fit(cold_answers(answers(FORGETFUL, cold=399)))
    assert few.value.missing == 1
    assert fit(cold_answers(answers(FORGETFUL, cold=400))).cold == 400


def test_cold_answers_are_those_that_the_schedule_counts() -> None:
    record = [
        make_event(day=1), make_event(day=1), make_event(day=3, right=False, seconds=5.0), make_event(day=3),
        make_event(day=2), make_event(day=4, right=False), make_event(day=6, seconds=None),
        make_event(day=7, helps=("letters",)), make_event(day=9, seconds=0.6), make_event("line/2/0", day=9),
    ]  # fmt: skip
    ledger = Ledger()
    for event in record:
        ledger.apply(event)
    found = cold_answers(record)
    assert {item: len(each) for item, each in found.items()} == {"line/1/0": ledger.cold}
    assert [(each.rest, each.grade, each.hit) for each in found["line/1/0"]] == [
        (2, 1, False), (1, 1, False), (2, 2, None), (1, 2, None), (2, 4, True),
    ]  # fmt: skip


def test_the_losses_are_those_of_the_ledger_on_the_last_fifth() -> None:
    record = answers(FORGETFUL, cold=800, seed=5)
    found = fit(cold_answers(record))
    ledger, chances = Ledger(), []
    for event in record:
        before = ledger.states.get(event.item)
        if before is not None and before.memory is not None and event.day > before.last:
            chances.append((before.chance(event.day), event.right))
        ledger.apply(event)
    last = chances[-found.tried_on :]
    assert found.tried_on == len(chances) // 5
    assert found.before == pytest.approx(
        -sum(log(min(max(p if hit else 1 - p, 0.01), 0.99)) for p, hit in last) / len(last), rel=1e-9
    )


def test_the_same_record_gives_the_same_fit() -> None:
    record = answers(FORGETFUL, cold=900)
    found = fit(cold_answers(record))
    other_order = dict(reversed(cold_answers(record).items()))
    assert found == fit(cold_answers(record)) == fit(other_order)


def test_what_is_in_use_stays_where_it_is_as_good() -> None:
    record = cold_answers(answers(FORGETFUL, cold=1500))
    first = fit(record)
    assert first.model is not None
    again = fit(record, first.model)
    assert again.model is None
    assert again.before == again.after == first.after


def test_no_record_is_so_long_that_it_takes_longer(monkeypatch: pytest.MonkeyPatch) -> None:
    looked_at: list[int] = []
    plain = formulas.foretell

    def counting(w: Parameters, shares: Shares, histories: Iterable[History]) -> Foretold:
        histories = list(histories)
        looked_at.append(sum(map(len, histories)))
        return plain(w, shares, histories)

    monkeypatch.setattr(likeliest, "foretell", counting)
    monkeypatch.setattr(fitting, "foretell", counting)
    few = cold_answers(answers(FORGETFUL, cold=1200))
    many = {f"{item}/{copy}": each for item, each in few.items() for copy in range(10)}
    found = fit(many)
    assert found.cold == 12_000
    assert max(looked_at) == fitting.MOST_ANSWERS
    assert found.evaluations <= likeliest.MOST_EVALUATIONS
    assert len(looked_at) <= likeliest.MOST_EVALUATIONS + 4


def test_it_can_be_given_up() -> None:
    asked: list[None] = []

    def stop() -> bool:
        asked.append(None)
        return len(asked) > 3

    found = fit(cold_answers(answers(FORGETFUL, cold=900)), stop=stop)
    assert found.model is None
    assert found.evaluations < 3 * len(likeliest.KNOBS) < likeliest.MOST_EVALUATIONS


@pytest.mark.parametrize("seconds", [FAST, 5.0, None])
def test_records_that_say_one_thing_alone_break_nothing(seconds: float | None) -> None:
    record = [make_event(f"line/{item}/0", day, seconds=seconds) for day in range(30) for item in range(20)]
    found = fit(cold_answers(record))
    assert found.cold == 580
    assert (found.tried_on == 0) == (seconds is None)
    if found.model is not None:
        assert all(low <= w <= high for low, w, high in zip(LOWEST, found.model.parameters, HIGHEST, strict=True))
        assert LEAST_RETENTION <= found.model.retention <= MOST_RETENTION


def test_items_are_gone_over_as_often_as_before_the_fit() -> None:
    record = answers(FORGETFUL, cold=2000)
    found = fit(cold_answers(record))
    assert found.model is not None
    usual, fitted = Ledger(), Ledger(fit=Fit(0, *found.model))
    for event in record:
        usual.apply(event)
        fitted.apply(event)
    before, after = (
        sum(1 / memory.interval(each.memory, ledger.model) for each in ledger.states.values() if each.memory)
        for ledger in (usual, fitted)
    )
    assert after == pytest.approx(before, rel=0.15)


def test_a_memory_that_lasts_a_third_as_long_is_held_to_less() -> None:
    """Its items come back after as many days as they would have by the usual one."""
    w = (*PUBLISHED[:3], PUBLISHED[3] / 3, *PUBLISHED[4:])
    quick = [[formulas.Cold(1, 4, True, n)] for n in range(50)]
    model = Model(w, fitting.even_retention(w, quick))
    assert model.retention < USUAL.retention
    assert memory.reach_of(model) == pytest.approx(3 * memory.reach_of(USUAL), rel=0.01)
    assert fitting.even_retention(PUBLISHED, quick) == pytest.approx(USUAL.retention, abs=0.001)


@settings(max_examples=150, deadline=None)
@given(any_model, st.lists(st.tuples(st.sampled_from([1, 2, 5, 30, 300]), st.sampled_from([0.6, 1.5, 5.0, None]))))
def test_the_schedule_keeps_its_rules_whatever_the_parameters(
    model: Model, times: list[tuple[int, float | None]]
) -> None:
    day = 20_000
    before = state.after(None, make_event(day=day))
    for rest, seconds in times:
        day += rest
        after = state.after(before, make_event(day=day, seconds=seconds), model=model)
        assert after.memory is not None
        assert isfinite(after.memory[0])
        assert after.memory[0] > 0
        assert 1 <= after.memory[1] <= 10
        assert 1 <= after.due - after.last <= memory.MAX_INTERVAL
        assert 0 <= after.chance(day + 400, model) <= after.recall(day + 400, model) <= 1
        if seconds in (5.0, None):
            assert after.due - after.last <= max(1, before.due - before.last)
            assert before.memory is None or after.memory[0] <= before.memory[0]
        before = after


@given(any_model, st.floats(0.001, 1e8), st.integers(1, 36_500))
def test_slower_never_lasts_longer(model: Model, stability: float, rest: int) -> None:
    """Within one model: wrong or slow, right, right and quick."""
    found = [memory.after((stability, 5.0), rest, grade, model)[0] for grade in (1, 3, 4)]
    assert found == sorted(found)
    waits = [memory.interval((each, 5.0), model) for each in found]
    assert waits == sorted(waits)


def test_a_ledger_without_a_fit_goes_by_what_is_published() -> None:
    assert Ledger().model is USUAL
    assert Ledger(fit=Fit(3)).model is USUAL
    assert Ledger(fit=Fit(3, PUBLISHED)).model == USUAL


@pytest.mark.parametrize(
    ("before", "cold", "passed"),
    [(0, 399, False), (0, 400, True), (399, 400, True), (400, 401, False), (400, 599, False), (430, 600, True),
     (0, 5000, True), (600, 899, False), (899, 900, True), (1350, 2024, False), (1350, 2025, True)],
)  # fmt: skip
def test_marks_lie_half_as_many_again_apart(before: int, cold: int, passed: bool) -> None:
    assert passed_mark(cold, before) is passed
