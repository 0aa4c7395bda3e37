"""Pairs count whichever member was misread, the strongest first."""

from __future__ import annotations

from collections.abc import Mapping

from hypothesis import given
from hypothesis import strategies as st

from trainer.schedule.pairs import MOST_LOOKED_UP, Confusion, Pair, strongest

ITEMS = "abcdef"

confusions = st.dictionaries(
    st.sampled_from(ITEMS),
    st.dictionaries(
        st.sampled_from(ITEMS), st.builds(Confusion, st.just("octave"), st.integers(1, 9), st.integers(0, 9))
    ),
)


def by_answer(item: str, said: str, kind: str) -> str | None:
    """Every answer is right for the item of its name."""
    return None if said == "f" else said


@given(confusions)
def test_one_taken_for_the_other_counts_as_the_other_for_the_one(found: Mapping[str, Mapping[str, Confusion]]) -> None:
    turned: dict[str, dict[str, Confusion]] = {}
    for item, answers in found.items():
        for said, one in answers.items():
            if "f" not in (item, said):
                turned.setdefault(said, {})[item] = one
    kept = {item: answers for item, answers in found.items() if item != "f"}
    assert strongest(kept, by_answer) == strongest(turned, by_answer)


@given(confusions)
def test_strengths_add_up_and_come_strongest_first_then_latest(found: Mapping[str, Mapping[str, Confusion]]) -> None:
    pairs = strongest(found, by_answer)
    assert len({pair.items for pair in pairs}) == len(pairs)
    assert all(one < other for (one, other), *_ in pairs)
    counted = [
        (one.times, one.day)
        for item, answers in found.items() for said, one in answers.items() if said not in (item, "f")
    ]  # fmt: skip
    assert sum(pair.strength for pair in pairs) == sum(times for times, _ in counted)
    order = [(-pair.strength, -pair.day) for pair in pairs]
    assert order == sorted(order)
    assert {pair.day for pair in pairs} <= {day for _, day in counted}


def test_ties_go_to_the_pair_that_was_mixed_up_last() -> None:
    found = {
        "a": {"b": Confusion("octave", 1, 3)},
        "b": {"a": Confusion("octave", 1, 4)},
        "c": {"d": Confusion("octave", 2, 5)},
    }
    assert strongest(found, by_answer) == [Pair(("c", "d"), 2, 5), Pair(("a", "b"), 2, 4)]


def test_only_the_strongest_are_looked_up() -> None:
    asked: list[str] = []

    def other(item: str, said: str, kind: str) -> str | None:
        asked.append(item)
        return None

    found = {f"{n:03}": {"x": Confusion("octave", 1 + n, 1)} for n in range(200)}
    assert strongest(found, other) == []
    assert asked == [f"{n:03}" for n in range(199, 199 - MOST_LOOKED_UP, -1)]
