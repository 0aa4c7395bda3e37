"""The item that a misread one was taken for, among all of the catalogue."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator

import pytest

from drills.catalogue import catalogue
from drills.question import Manner, Misreading
from tests.trainer.fakes import STANDARD
from trainer.schedule.lookalikes import MOST_TRACED, Lookalikes
from trainer.schedule.traits import Traits

CATALOGUE = catalogue(STANDARD)
BY_DRILL = {drill: [item.id for item in CATALOGUE.items if item.drill == drill] for drill in CATALOGUE.drills}


def taken_for(item: str, said: str, kind: str, *without: str) -> str | None:
    """What is found when all but these were met, however long it takes."""
    found = Lookalikes(CATALOGUE, Traits(CATALOGUE, Manner()))
    met = [other for other in BY_DRILL[item.split("/")[0]] if other not in without]
    other = found.of(item, said, kind, met)
    while other is None and found.unfinished:
        found.refresh()
        other = found.of(item, said, kind, met)
    return other


@pytest.mark.parametrize(
    ("item", "said", "kind", "other"),
    [
        ("tab-to-place/standard/6/3", "1/3", "mirrored-line", "tab-to-place/standard/1/3"),
        ("line-to-string/standard/5", "2", "mirrored-line", "line-to-string/standard/2"),
        ("fret-to-note/standard/5/3", "D", "mirrored-line", "fret-to-note/standard/2/3"),
        ("fret-to-note/standard/5/3", "F", "neighbour-line", "fret-to-note/standard/4/3"),
        ("fret-to-note/standard/5/3", "B", "off-by-one-fret", "fret-to-note/standard/5/2"),
        ("place-to-tab/standard/3/2", "2/3", "swapped-string-and-fret", "place-to-tab/standard/2/3"),
        ("mark-name/hammer-on-text", "pull-off", "wrong-direction", "mark-name/pull-off-text"),
        ("mark-name/slide-down-engraved", "slide up", "wrong-direction", "mark-name/slide-up-engraved"),
        ("mark-hand/slide-out-up", "pick, then glide down and let go", "wrong-direction", "mark-hand/slide-out-down"),
        ("mark-sounds/standard/h-open", "2, then open", "wrong-direction", "mark-sounds/standard/p-open"),
        ("octave/standard/4/3-down", "4/15", "wrong-direction", "octave/standard/4/3"),
        ("mark-picked/h", "yy", "picked-for-slurred", "mark-picked/plain"),
        ("mark-picked/then-p", "yyy", "picked-for-slurred", "mark-picked/down-again-then"),
        ("mark-picked/up-again", "yn", "slurred-for-picked", "mark-picked/up"),
        (
            "mark-name/slide-up-picked-engraved", "slide up, not picked again", "slurred-for-picked",
            "mark-name/slide-up-engraved",
        ),
        ("mark-name/vibrato-text", "trill", "mark-confused", "mark-name/trill-text"),
        ("value-tap/4-4/q-q-h", "0.00", "too-few", None),
        ("tab-to-place/standard/6/3", "1/3", "of-another-version", None),
    ],
)  # fmt: skip
def test_it_is_the_one_that_looks_like_it(item: str, said: str, kind: str, other: str | None) -> None:
    assert taken_for(item, said, kind) == other


def test_what_is_found_does_not_depend_on_earlier_sittings() -> None:
    sign, drill = ("mark-name/repeat-count-text", "accent", "mark-confused"), BY_DRILL["mark-name"]
    traits = Traits(CATALOGUE, Manner())
    found = []
    for _ in range(2):
        fresh = Lookalikes(CATALOGUE, traits)
        steps = [fresh.of(*sign, drill)]
        while steps[-1] is None and fresh.unfinished:
            fresh.refresh()
            steps.append(fresh.of(*sign, drill))
        found.append(steps)
    assert found[0] == found[1]
    assert len(found[0]) > 1
    assert found[0][-1] == "mark-name/accent-text"


def test_one_that_was_not_met_is_none() -> None:
    place = "tab-to-place/standard/6/3", "1/3", "mirrored-line"
    assert taken_for(*place, "tab-to-place/standard/1/3") is None
    sign = "mark-name/hammer-on-text", "pull-off", "wrong-direction"
    assert taken_for(*sign, "mark-name/pull-off-text") == "mark-name/pull-off-engraved"
    both = ("mark-name/pull-off-text", "mark-name/pull-off-engraved")
    assert taken_for(*sign, *both) is None


def test_it_has_never_the_same_answer_and_is_found_for_all_that_is_asked_about() -> None:
    rng, missing = random.Random(4), Counter[str]()
    traits = Traits(CATALOGUE, Manner())
    for item in rng.sample(CATALOGUE.items, 120):
        question = CATALOGUE.ask(item, random.Random(0), Manner())
        plain = Counter(said for wrong in question.traps.values() for said in wrong)
        for kind, wrong in question.traps.items():
            said = min((each for each in wrong if plain[each] == 1), default=None)
            if said is None:
                continue
            other = taken_for(item.id, said, str(kind))
            if other is None:
                missing.update([item.drill] * (kind in (Misreading.MIRRORED_LINE, Misreading.NEIGHBOUR_LINE)))
                continue
            assert other in BY_DRILL[item.drill]
            assert other != item.id
            assert not set(traits.answers(other)) & set(question.answers)
    # chord shapes and struck strings, read upside down, are seldom shapes and strings of another item
    assert not {drill for drill in missing if "chord" not in drill and "diagram" not in drill} - {"order", "octave"}


class Counted(list[str]):
    """Items that count how often they are gone through."""

    times = 0

    def __iter__(self) -> Iterator[str]:
        self.times += 1
        return super().__iter__()


def test_where_nothing_was_found_it_looks_again_only_after_another_was_met() -> None:
    found = Lookalikes(CATALOGUE, Traits(CATALOGUE, Manner()))
    place, other = ("tab-to-place/standard/6/3", "1/3", "mirrored-line"), "tab-to-place/standard/1/3"
    met = Counted(item for item in BY_DRILL["tab-to-place"] if item != other)
    assert found.of(*place, met) is None
    times = met.times
    for _ in range(9):
        found.refresh()
        assert found.of(*place, met) is None
        assert not found.unfinished
    assert met.times == times
    met.append(other)
    assert found.of(*place, met) == other
    times = met.times
    assert found.of(*place, met) == other
    assert met.times == times


def test_a_few_misreadings_are_traced_at_one_time_and_the_rest_another_time() -> None:
    found, met = Lookalikes(CATALOGUE, Traits(CATALOGUE, Manner())), BY_DRILL["tab-to-place"]
    ends = ("6/0", "6/1", "6/3", "5/0", "5/2", "5/3", "4/0", "4/2")
    mirrored = [f"{7 - int(place[0])}{place[1:]}" for place in ends]
    places = [(f"tab-to-place/standard/{end}", said, "mirrored-line") for end, said in zip(ends, mirrored, strict=True)]
    others = [f"tab-to-place/standard/{said}" for said in mirrored]
    assert [found.of(*place, met) for place in places] == [*others[:MOST_TRACED], *[None] * (8 - MOST_TRACED)]
    assert found.unfinished
    found.refresh()
    assert [found.of(*place, met) for place in places] == others
    assert not found.unfinished
