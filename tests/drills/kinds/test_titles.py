"""Titles can be shown in lists without giving answers away, and tell items apart."""

from __future__ import annotations

import random
import re
from collections import Counter

import pytest

from drills.question import Item, Kind, Manner
from tests.drills.samples import CORE, of

OURS = {
    "line-to-string", "string-to-line", "neck-to-line", "order", "tab-to-place", "place-to-tab", "fret-to-note",
    "note-to-fret", "same-pitch", "octave", "finger", "capo", "mark-name", "name-to-mark", "mark-hand", "mark-picked",
    "mark-sounds", "mark-wrong", "bar-count", "bar-beat", "bar-missing", "bar-repeat", "bar-pick-up", "value-name",
    "value-find", "value-length", "value-fill", "value-tap",
}  # fmt: skip


def tells(item: Item, answer: str) -> bool:
    """Whether a title holds an answer as people would say it."""
    if item.kind is Kind.PLACE:
        string, _, fret = answer.partition("/")
        said = {f"String {string}, fret {fret}", f"string {string}, fret {fret}", answer}
        return any(text in item.title for text in said)
    if item.kind in (Kind.ORDER, Kind.SET):
        return answer in item.title or answer.replace(" ", ", ") in item.title
    if item.kind is Kind.LINE:
        return f"ine {answer}" in item.title or f"tring {answer}" in item.title
    if item.kind is Kind.COUNT and item.drill == "order":
        return bool(re.search(rf"\b{answer}\b", item.title.partition(", no. ")[0]))
    if item.kind is Kind.NOTE:
        return bool(re.search(rf"(?<![A-Za-z]){re.escape(answer)}(?![a-z#])", item.title.replace("A capo", "")))
    if item.kind is Kind.FRET:
        return bool(re.search(rf"(?<!frets )\b(at|fret) {answer}\b", item.title.partition(", frets")[0]))
    if item.drill.startswith("bar-"):
        bare = re.sub(r"\d/\d|, no\. \d+$|\(\d of \d\)$", "", item.title)
        return bool(re.search(rf"(?<!\d){re.escape(answer)}(?!\d)", bare))
    told = f"finger {answer}" if item.kind is Kind.COUNT else answer
    return bool(re.search(rf"\b{re.escape(told)}\b", item.title, re.IGNORECASE))


@pytest.mark.parametrize("tuning", CORE)
def test_no_title_tells_its_answer(tuning: str) -> None:
    for item in of(tuning).items:
        if item.drill in OURS:
            for answer in of(tuning).ask(item, random.Random(0), Manner()).answers:
                assert not tells(item, answer), (item.id, item.title)


@pytest.mark.parametrize("tuning", CORE)
def test_titles_of_a_drill_differ(tuning: str) -> None:
    titles = Counter((item.drill, item.title) for item in of(tuning).items if item.drill in OURS)
    assert [title for title, count in titles.items() if count > 1] == []


def test_no_number_of_a_title_is_that_of_its_beat() -> None:
    # numbered in the order of the beats, titles would tell them
    for item in of().items:
        if item.drill == "bar-beat":
            (answer,) = of().ask(item, random.Random(0), Manner()).answers
            assert item.title.rpartition(" ")[2] != answer.rstrip("&"), item.title


def test_titles_as_they_read() -> None:
    found = of().by_id
    assert found["order/standard/seq-1-3-2"].title == "3 strings in order, no. 1"
    assert found["tab-to-place/standard/5/3"].title == "A 3 on the second line from the bottom"
    assert found["place-to-tab/standard/5/3"].title == "Fret 3 of the second string from the top of the neck"
    assert found["neck-to-line/standard/6"].title == "The top string of the neck"
    assert found["note-to-fret/standard/5/c-15"].title == "C on string 5, frets 0 to 15"
