"""In which order new items are met: stage by stage, but no family ahead of all others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Final

from drills.question import Item, Kind
from trainer.schedule.families import family

A_STAGE: Final = 6
"""So many items of one family are met in the time of one stage; those beyond it come beside the stages that follow."""

AT_A_TIME: Final = 6
"""So many items at most of one lesson are met one after another, before another lesson has its turn."""

TAPS_AT_A_TIME: Final = 2
"""A bar is tapped in ten seconds, where other questions take two."""


def meeting_order(items: Sequence[Item]) -> list[int]:
    """Where each item stands in the order of meeting, from 0; ``items`` are in teaching order.

    Within a family and a stage, lessons take turns. Families go along side by side, so that a family of fifty items in
    an early stage (places on the neck) does not put off the first bar, sign or chord until all fifty are met.
    """
    groups: dict[tuple[int, str], dict[tuple[str, str], list[int]]] = defaultdict(lambda: defaultdict(list))
    for at, item in enumerate(items):
        groups[item.stage, family(item.drill)][item.drill, item.lesson].append(at)
    turns: list[tuple[float, int, list[int]]] = []
    for (stage, _), lessons in groups.items():
        before = 0
        # What needs nothing is a beginning; what rests on other items comes after it.
        beginnings_first = sorted(lessons.values(), key=lambda lesson: bool(items[lesson[0]].needs))
        for turn in _in_turns(items, beginnings_first):
            turns.append((stage + before / A_STAGE, turn[0], turn))
            before += len(turn)
    turns.sort()
    order = [0] * len(items)
    for place, at in enumerate(at for *_, turn in turns for at in turn):
        order[at] = place
    return order


def _in_turns(items: Sequence[Item], lessons: list[list[int]]) -> list[list[int]]:
    turns = []
    start = dict.fromkeys(range(len(lessons)), 0)
    while start:
        for number in list(start):
            lesson = lessons[number]
            begin = start[number]
            many = TAPS_AT_A_TIME if items[lesson[begin]].kind is Kind.TAP else AT_A_TIME
            turns.append(lesson[begin : begin + many])
            start[number] += many
            if start[number] >= len(lesson):
                del start[number]
    return turns
