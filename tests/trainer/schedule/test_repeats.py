"""The order of what comes again is kept between questions: it has to be the order that sorting anew would give."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from trainer.schedule.repeats import Repeats

CHANGES = st.lists(st.tuples(st.sampled_from("abcdef"), st.none() | st.integers(0, 9)), max_size=30)


@given(CHANGES, st.integers(0, 9))
def test_the_order_that_is_kept_is_the_sorted_one(changes: list[tuple[str, int | None]], n: int) -> None:
    repeats = Repeats()
    due: dict[str, int] = {}
    for item, at in changes:
        if at is None:
            repeats.drop(item)
            due.pop(item, None)
        else:
            repeats.put(item, at)
            due[item] = at
        expected = sorted(due, key=lambda each: due[each])
        assert list(repeats.early()) == expected
        assert list(repeats.ready(n)) == [each for each in expected if due[each] <= n]
