"""What follows of a catalogue alone: the same for the same items, and never another catalogue's."""

from __future__ import annotations

from drills.catalogue import catalogue
from drills.notation.tuning import shipped
from trainer.schedule.meeting import meeting_order
from trainer.schedule.standing import standing


def test_every_item_has_its_place_its_turn_and_those_that_need_it() -> None:
    items = catalogue(shipped()["standard"]).items
    found = standing(items)
    assert [found.at[item.id] for item in items] == list(range(len(items)))
    assert list(found.turn) == meeting_order(items)
    assert {(need, items[at].id) for need, needed in found.dependents.items() for at in needed} == {
        (need, item.id) for item in items for need in item.needs
    }
    assert list(found.needs) == [len(item.needs) for item in items]
    assert sum(found.sizes.values()) == len(items)


def test_it_is_worked_out_once_and_for_just_these_items() -> None:
    items = catalogue(shipped()["standard"]).items
    fewer = items[:20]
    assert standing(items) is standing(items)
    assert len(standing(fewer).turn) == 20
    assert standing(tuple(reversed(fewer))).at[fewer[0].id] == 19
