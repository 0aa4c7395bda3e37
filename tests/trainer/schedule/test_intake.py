"""Which items wait to be met, from what was met: the same as looking at every item of the catalogue anew."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, make_catalogue, make_event
from trainer.schedule.intake import Intake, is_ready
from trainer.schedule.ledger import Ledger

SMALL = make_catalogue(roots=1, frets=2)
IDS = [item.id for item in SMALL.items]
ANSWERS = st.lists(st.tuples(st.sampled_from([*IDS, "gone/1"]), st.integers(0, 6), st.booleans()), max_size=60)


@settings(max_examples=60)
@given(ANSWERS)
def test_what_was_never_met_waits_and_what_was_met_too_early(answers: list[tuple[str, int, bool]]) -> None:
    ledger = Ledger()
    for name, day, right in sorted(answers, key=lambda each: each[1]):
        ledger.apply(make_event(name, TODAY - 6 + day, right=right))
    intake = Intake(SMALL, ledger, day=TODAY, minutes=10)
    ready = {name for name in IDS if is_ready(ledger.states.get(name), TODAY)}
    waiting = set()
    for item in SMALL.items:
        state, lacking = ledger.states.get(item.id), set(item.needs) - ready
        if state is None or (state.rights == 0 and lacking and state.last < TODAY):
            waiting.add(item.id)
    assert {name for name in IDS if intake.waits(name)} == waiting
    open_now = {item.id for item in SMALL.items if item.id in waiting and not set(item.needs) - ready}
    assert set(intake.upcoming()) <= open_now
    assert bool(set(intake.upcoming())) == bool(open_now)
