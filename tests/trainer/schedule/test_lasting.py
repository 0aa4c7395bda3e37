"""How long reading lasts with a learner: what lengthens and shortens the longest rest. Our rule."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, make_event
from trainer.schedule.lasting import EDGE, FADES, FIRST, LASTS, LEAST, TOLD_BY, Lasting
from trainer.schedule.ledger import Ledger
from trainer.schedule.memory import MAX_INTERVAL


def told(lasting: Lasting, *, read: int, faded: int, rest: int | None = None) -> Lasting:
    """After so many answers, each after the longest rest unless another one is said."""
    for n in range(read + faded):
        lasting.observe(lasting.days if rest is None else rest, n < read)
    return lasting


def test_what_is_read_after_long_rests_lengthens_them_by_half() -> None:
    lasting = told(Lasting(), read=TOLD_BY - 1, faded=0)
    assert lasting.days == FIRST
    lasting.observe(FIRST, True)
    assert lasting.days == FIRST * 3 // 2
    assert not lasting.told  # what was told of shorter rests tells nothing of longer ones
    for _ in range(12):
        told(lasting, read=TOLD_BY, faded=0)
    assert lasting.days == MAX_INTERVAL


def test_what_fades_after_long_rests_shortens_them_by_a_third() -> None:
    lasting = told(Lasting(27), read=0, faded=TOLD_BY)
    assert lasting.days == 18
    assert told(told(lasting, read=0, faded=TOLD_BY), read=0, faded=TOLD_BY).days == 8
    for _ in range(4):
        told(lasting, read=0, faded=TOLD_BY)
    assert lasting.days == LEAST


@pytest.mark.parametrize(
    ("read", "days"),
    [(TOLD_BY, 15), (21, 15), (20, 10), (16, 10), (15, 6), (0, 6)],
)
def test_the_shares_from_which_on_rests_change(read: int, days: int) -> None:
    assert (read / TOLD_BY >= LASTS) == (days > 10)
    assert (read / TOLD_BY < FADES) == (days < 10)
    assert told(Lasting(10), read=read, faded=TOLD_BY - read).days == days


def test_short_rests_tell_nothing() -> None:
    lasting = told(Lasting(20), read=99, faded=99, rest=int(20 * EDGE) - 1)
    assert (lasting.days, len(lasting.told)) == (20, 0)
    assert len(told(lasting, read=3, faded=0, rest=int(20 * EDGE)).told) == 3


@given(
    st.integers(LEAST, MAX_INTERVAL),
    st.lists(st.tuples(st.integers(0, 400), st.booleans()), max_size=200),
)
def test_the_longest_rest_stays_within_its_bounds(first: int, answers: list[tuple[int, bool]]) -> None:
    lasting = Lasting(first)
    for rest, read in answers:
        before = lasting.days
        lasting.observe(rest, read)
        assert LEAST <= lasting.days <= MAX_INTERVAL
        assert before * 2 // 3 <= lasting.days <= before * 3 // 2
        assert len(lasting.told) < TOLD_BY or lasting.days == before


def ledger_of(*, fast: bool, times: int = TOLD_BY) -> Ledger:
    """So many items met, gone over the next day, and once more after the longest rest."""
    ledger = Ledger()
    for day in (0, 1, 1 + FIRST):
        for n in range(times):
            right_now = day < FIRST or fast
            ledger.apply(make_event(f"line/{n}", TODAY + day, seconds=1.0 if right_now else 5.0))
    return ledger


def test_the_record_lengthens_and_shortens_rests() -> None:
    assert ledger_of(fast=True).lasting.days == FIRST * 3 // 2
    assert ledger_of(fast=False).lasting.days == LEAST
    assert ledger_of(fast=True, times=TOLD_BY - 1).lasting.days == FIRST


def test_what_had_help_or_no_seconds_tells_nothing_of_how_long_reading_lasts() -> None:
    ledger = ledger_of(fast=True, times=TOLD_BY - 1)
    for n in range(TOLD_BY):
        ledger.apply(make_event(f"line/{n % (TOLD_BY - 1)}", TODAY + 40 + n, seconds=None))
        ledger.apply(make_event(f"line/{n % (TOLD_BY - 1)}", TODAY + 140 + n, helps=("letters",)))
    assert (ledger.lasting.days, len(ledger.lasting.told)) == (FIRST, TOLD_BY - 1)


def tables(ledger: Ledger) -> tuple[dict[str, Any], dict[str, Any]]:
    """As they stand in the files."""
    memory, history = ledger.as_data()
    return tomllib.loads(tomli_w.dumps(memory)), tomllib.loads(tomli_w.dumps(history))


@pytest.mark.parametrize("times", [0, 5, TOLD_BY - 1, TOLD_BY])
def test_it_survives_the_files(times: int) -> None:
    before = ledger_of(fast=True, times=times)
    after = Ledger.from_data(*tables(before))
    assert (after.lasting.days, list(after.lasting.told)) == (before.lasting.days, list(before.lasting.told))
    for ledger in (before, after):
        ledger.apply(make_event("line/0", TODAY + 30))
    assert (after.lasting.days, list(after.lasting.told)) == (before.lasting.days, list(before.lasting.told))


@pytest.mark.parametrize(
    "lasting",
    [
        None, 8, "8 +", {}, {"days": 8}, {"told": "+"},
        {"days": LEAST - 1, "told": ""}, {"days": MAX_INTERVAL + 1, "told": ""}, {"days": 0, "told": ""},
        {"days": -8, "told": ""}, {"days": 10**18, "told": ""}, {"days": 8.0, "told": ""}, {"days": True, "told": ""},
        {"days": "8", "told": ""}, {"days": 8, "told": "+?"}, {"days": 8, "told": ["+"]}, {"days": 8, "told": 3},
    ],
)  # fmt: skip
def test_damaged_values_are_refused(lasting: object) -> None:
    memory, history = tables(ledger_of(fast=True, times=2))
    memory["lasting"] = lasting
    with pytest.raises(ValueError, match=r"lasting|told"):
        Ledger.from_data(memory, history)


def test_more_signs_than_are_looked_at_are_harmless() -> None:
    memory, history = tables(ledger_of(fast=True, times=2))
    memory["lasting"] = {"days": 8, "told": "-" * 100_000 + "+" * TOLD_BY}
    ledger = Ledger.from_data(memory, history)
    assert list(ledger.lasting.told) == [True] * TOLD_BY
    ledger.lasting.observe(8, True)
    assert ledger.lasting.days == 12
