"""The shape of every item that programs are told of: keys, types, ids, order, answers in normal form."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from tests.outside.strings import EVERY, NAMES, open_strings
from tests.outside.told import Told, items

KEYS: dict[str, type | tuple[type, ...]] = {
    "id": str, "drill": str, "tuning": str, "kind": str, "stage": int, "title": str, "prompt": str, "staff": list,
    "answers": list, "needs": list, "think": (int, float), "facts": dict,
}  # fmt: skip
DRILLS = {
    "line-to-string", "string-to-line", "neck-to-line", "place-to-tab", "tab-to-place", "fret-to-note", "note-to-fret",
    "same-pitch", "order", "chord-tones", "chord-name", "diagram-to-tab", "mark-name", "name-to-mark", "mark-picked",
    "mark-hand", "mark-sounds", "mark-wrong", "bar-count", "bar-beat", "bar-missing", "value-name", "value-tap", "capo",
}  # fmt: skip
# Facts by what a drill is about. A chord that a capo moves has no pitches: its shape is but a letter.
FACTS = {
    "string": {"string", "midi", "names"}, "place": {"string", "fret"}, "chord": {"pitches", "chords"},
    "mark": {"mark", "picked", "sounds"}, "bar": {"bars", "beats", "metre"},
}  # fmt: skip
ABOUT = {
    "line-to-string": "string", "string-to-line": "string", "neck-to-line": "string", "tab-to-place": "place",
    "place-to-tab": "place",
}  # fmt: skip
NOTE = {"string": int, "fret": int, "midi": int, "names": list, "hz": float}
NOTES = {"fret-to-note", "note-to-fret", "same-pitch", "octave", "tab-to-place", "place-to-tab"}

every_tuning = pytest.mark.parametrize("tuning", EVERY)


def normal_form(kind: str, strings: int) -> str:
    """A pattern of one answer in the normal form of its kind."""
    return {
        "note": "[A-G][#b]?", "string": f"[1-{strings}]", "line": f"[1-{strings}]", "count": r"\d+", "fret": r"\d+",
        "place": rf"[1-{strings}]/(1?\d|2[0-4])", "choice": r"\S.*", "picked": "[yn]+", "beat": r"\d[&ea]?",
        "order": r"\S+( \S+)+", "set": r"\S+( \S+)+", "chord": r"[A-G][#b]?[a-z0-9#()]*(/9)?(/[A-G][#b]?)?",
    }[kind]  # fmt: skip


@every_tuning
def test_every_key_of_every_item_has_its_type(tuning: str) -> None:
    told = items(tuning)
    keys = set(told[0])
    assert set(KEYS) <= keys
    for item in told:
        assert set(item) == keys, item["id"]
        for key, kind in KEYS.items():
            assert isinstance(item[key], kind), (item["id"], key)
            assert not isinstance(item[key], bool)
        for key in ("staff", "answers", "needs"):
            assert all(isinstance(line, str) for line in item[key]), (item["id"], key)
        assert all(line.isprintable() for line in item["staff"])
        assert item["staff"]
        assert item["think"] > 0
        assert item["title"].isprintable()
        assert item["prompt"][-1] in "?.", item["id"]


@every_tuning
def test_ids_say_their_drill_and_need_what_came_before(tuning: str) -> None:
    met: set[str] = set()
    stage = 1
    for item in items(tuning):
        assert re.fullmatch(r"[a-z0-9\-/#.]{1,80}", item["id"])
        parts = item["id"].split("/")
        assert parts[0] == item["drill"]
        assert item["id"] not in met
        assert set(item["needs"]) <= met, item["id"]
        met.add(item["id"])
        assert item["stage"] >= stage
        stage = item["stage"]


def test_an_id_without_a_tuning_asks_the_same_in_every_tuning() -> None:
    asked: dict[str, tuple[str, str, list[str]]] = {}
    for tuning in EVERY:
        for item in items(tuning):
            if item["tuning"] not in item["id"].split("/"):
                same = item["kind"], item["prompt"], item["answers"]
                assert asked.setdefault(item["id"], same) == same, item["id"]
    assert len(asked) >= 200


@every_tuning
def test_answers_are_in_the_normal_form_of_their_kind(tuning: str) -> None:
    for item in items(tuning):
        if item["kind"] == "tap":
            assert item["answers"] == []
            continue
        assert item["answers"], item["id"]
        assert len(set(item["answers"])) == len(item["answers"])
        pattern = normal_form(item["kind"], len(open_strings(tuning)))
        assert all(re.fullmatch(pattern, answer) for answer in item["answers"]), item["id"]
        if item["kind"] == "note":
            assert item["answers"] in NAMES, item["id"]
        elif item["kind"] not in ("place", "fret", "chord"):
            assert len(item["answers"]) == 1, item["id"]
        if item["kind"] == "picked":
            assert len(item["answers"][0]) == len(item["facts"]["picked"])


@every_tuning
def test_facts_are_those_of_the_drill(tuning: str) -> None:
    for item in items(tuning):
        facts = item["facts"]
        for key, kind in NOTE.items():
            assert isinstance(facts.get(key, kind()), kind), (item["id"], key)
            assert key in facts or item["drill"] not in NOTES, (item["id"], key)
        about = ABOUT.get(item["drill"], item["drill"].split("-")[0])
        if item["drill"].endswith("diagram") or item["drill"].startswith("diagram"):
            about = "chord"
        assert FACTS.get("mark" if item["drill"] == "name-to-mark" else about, set()) <= set(facts), item["id"]
        if "sounds" in facts and item["drill"] != "capo":
            assert facts["sounds"] is None or all(isinstance(pitch, int) for pitch in facts["sounds"])
            assert facts["picked"] is None or all(isinstance(picked, bool) for picked in facts["picked"])


def counted(told: tuple[Told, ...], *starts: str) -> int:
    return len([item for item in told if any(part in item["drill"] for part in starts)])


def test_there_is_enough_of_everything() -> None:
    told = items("standard")
    assert len(told) >= 600
    assert counted(told, "chord", "diagram") >= 40
    assert counted(told, "mark") >= 40
    assert counted(told, "bar-", "value-") >= 40
    assert len({item["drill"] for item in told}) >= 20
    assert len({item["kind"] for item in told}) == 13
    for tuning in EVERY:
        # x on a staff against x in a shape is not asked where no shape leaves a string out.
        assert {item["drill"] for item in items(tuning)} >= DRILLS


@every_tuning
def test_the_high_frets_come_last(tuning: str) -> None:
    # 13 to 24 repeat what is known: on every string their notes come after all of 0 to 12.
    stages: dict[bool, set[int]] = {False: set(), True: set()}
    for item in items(tuning):
        if item["drill"] == "fret-to-note":
            stages[item["facts"]["fret"] > 12].add(item["stage"])
    assert max(stages[False]) < min(stages[True])
    last = max(item["stage"] for item in items(tuning) if item["drill"] != "fret-to-note")
    assert min(stages[True]) >= last - 1, (stages[True], last)
    frets = Counter(item["facts"]["fret"] for item in items(tuning) if item["drill"] == "fret-to-note")
    assert set(frets) == set(range(25))


def test_the_first_lessons_are_of_many_kinds() -> None:
    # A spiral: strings, places, order, signs and bars are all met before the last of any of them.
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    for n, item in enumerate(items("standard")):
        family = item["drill"].split("-")[0]
        first.setdefault(family, n)
        last[family] = n
    assert max(first[family] for family in ("line", "tab", "order", "mark", "bar")) < 300
    assert all(last[family] > 600 for family in ("mark", "bar", "chord", "fret"))
