"""The catalogue as a whole: ids, order, what comes first, and every item of every tuning asked and drawn."""

from __future__ import annotations

import json
import random
import re
from collections import Counter
from itertools import product

import pytest

from drills.catalogue import catalogue
from drills.notation.diagram import draw_diagram
from drills.notation.neck import draw_neck
from drills.notation.staff import Dialect, draw_staff
from drills.notation.tuning import parse_tuning, shipped
from drills.question import Item, Kind, Manner, Picture
from drills.registry import DRILLS, WHERE, Drill
from drills.stages import TITLES
from tests.drills.samples import CORE, EVERY, MANNERS, answered, of, one_of_each, sort_of, typed, wrong_answers

# The drills that programs may meet, whatever else comes later.
NAMED = {
    "line-to-string", "string-to-line", "neck-to-line", "place-to-tab", "tab-to-place", "fret-to-note", "note-to-fret",
    "same-pitch", "order", "chord-tones", "chord-name", "diagram-to-tab",
    "tab-to-diagram", "name-to-diagram", "chord-x", "chord-interval", "chord-sounds", "chord-upper", "chord-symbol",
    "mark-name",
    "name-to-mark", "mark-picked",
    "mark-hand", "mark-sounds", "mark-wrong", "bar-count", "bar-beat", "bar-missing", "value-name", "value-tap", "capo",
    "phrase", "value-find", "value-length", "value-fill", "bar-repeat", "bar-pick-up", "octave", "finger",
}  # fmt: skip
SHORT_STRINGS = {
    "line-to-string", "string-to-line", "neck-to-line", "place-to-tab", "tab-to-place", "fret-to-note", "note-to-fret",
    "order", "same-pitch", "octave", "finger", "capo", "diagram-to-tab",
}  # fmt: skip
"""Drills that place notes on any string."""
WIDTHS = (80, 50, 40)
ROOMS = tuple(product(WIDTHS, (False, True)))


def height_of(text: list[str]) -> int:
    return len([row for row in text if row.strip()])


def draw(picture: Picture, width: int, double: bool, wide: bool) -> None:
    """Draw all of it; nothing is wider than the room, unless it may be."""
    assert any(part is not None for part in picture)
    if picture.staff is not None:
        staff = draw_staff(picture.staff, width=width, double=double)
        assert staff.width <= width or wide
        assert height_of(staff.text()) >= picture.staff.piece.tuning.lines
        assert all(row.isascii() for row in staff.ascii().text())
    if picture.neck is not None:
        neck = draw_neck(picture.neck, width=width)
        assert neck.width <= width
        assert height_of(neck.text()) == picture.neck.strings + 1
    if picture.diagram is not None:
        diagram = draw_diagram(picture.diagram, width=width, tall=double)
        assert diagram.width <= width
        assert all(row.isascii() for row in diagram.ascii().text())


@pytest.mark.parametrize("tuning", EVERY)
def test_ids_are_unique_and_plain(tuning: str) -> None:
    ids = [item.id for item in of(tuning).items]
    assert [(found, n) for found, n in Counter(ids).items() if n > 1] == []
    assert [found for found in ids if not re.fullmatch(r"[a-z0-9\-/#.]{1,80}", found)] == []
    for item in of(tuning).items:
        assert item.id in {f"{item.drill}/{tuning}/{item.subject}", f"{item.drill}/{item.subject}"}
        assert of(tuning).by_id[item.id] is item


@pytest.mark.parametrize("tuning", EVERY)
def test_what_an_item_needs_is_taught_before_it(tuning: str) -> None:
    # Every need before its item in one list: so there is no cycle, and no need of a later stage.
    place = {item.id: n for n, item in enumerate(of(tuning).items)}
    for item in of(tuning).items:
        for need in item.needs:
            assert need in place, (item.id, need)
            assert place[need] < place[item.id], (item.id, need)
            assert of(tuning).by_id[need].stage <= item.stage


@pytest.mark.parametrize("tuning", EVERY)
def test_a_lesson_is_one_lesson_whichever_drill_tells_it(tuning: str) -> None:
    # It is told once, before the first item that names it: were it two, the second would never be told.
    titles: dict[str, set[str]] = {}
    for item in of(tuning).items:
        titles.setdefault(item.lesson, set()).add(of(tuning).explain(item, Manner()).title)
    assert {lesson: told for lesson, told in titles.items() if len(told) > 1} == {}


@pytest.mark.parametrize("tuning", EVERY)
def test_items_stand_in_the_order_of_their_stages(tuning: str) -> None:
    stages = [item.stage for item in of(tuning).items]
    assert stages == sorted(stages)
    assert set(stages) == set(of(tuning).stages) <= set(TITLES)
    assert all(item.title and item.lesson for item in of(tuning).items)
    # Tapping takes as long as the pulse, and is never slow.
    assert all(1 <= item.think <= 8 or item.kind is Kind.TAP for item in of(tuning).items)


def test_there_is_enough_to_learn_and_the_highest_frets_come_last() -> None:
    items = of().items
    high = [item for item in items if item.drill == "fret-to-note" and int(item.subject.split("/")[1]) > 12]
    assert len(high) == 6 * 12
    assert len(items) - len(high) >= 250
    assert list(items[-len(high) :]) == high
    assert len({item.drill for item in items}) >= 10


def test_drills_bear_the_names_that_programs_know() -> None:
    names = [drill.name for drill in DRILLS.values()]
    assert names == list(WHERE)
    assert all(isinstance(drill, Drill) for drill in DRILLS.values())
    assert len(set(names)) == len(names)
    assert set(names) <= NAMED
    for drill in DRILLS.values():
        assert drill.title
        assert {item.drill for item in drill.items(shipped()["standard"])} == {drill.name}


def test_thickness_is_asked_only_where_the_lines_run_by_thickness() -> None:
    def gauges(tuning: str) -> int:
        return len([item for item in of(tuning).items if item.subject.endswith("-gauge")])

    # The bottom line of a ukulele or a banjo is not its thickest string (re-entrant: common practice, no source).
    assert {tuning: gauges(tuning) for tuning in EVERY} == {
        tuning: 0 if tuning in ("ukulele", "banjo") else shipped()[tuning].lines for tuning in EVERY
    }
    for found in map(of, ("ukulele", "banjo")):
        for item in found.items:
            question = found.ask(item, random.Random(0), Manner())
            texts = [question.prompt, item.title, *found.explain(item, Manner()).lines]
            assert not [text for text in texts if re.search(r"\bthick|\bthin(n|\b)", text)], item.id


def test_a_short_string_is_asked_and_drawn_open_alone() -> None:
    # The fifth string of a banjo begins at its fifth fret: typed tab counts its frets in two ways.
    found = of("banjo")
    for n, item in enumerate(found.items):
        facts = found.facts(item)
        assert facts.get("string") != 5 or not facts.get("fret"), item.id
        if item.drill not in SHORT_STRINGS:
            continue
        question = found.ask(item, random.Random(n), Manner())
        for picture in (question.picture, found.explain(item, Manner()).picture):
            fretted = [note.fret for *_, onset in picture.staff.piece.onsets() for note in onset.notes
                       if note.string == 5 and note.fret] if picture.staff else []  # fmt: skip
            assert fretted == [], item.id
            if picture.neck is not None:
                assert not [at for at in (*picture.neck.dots, *picture.neck.keys) if at[0] == 5 and at[1]], item.id


@pytest.mark.parametrize("tuning", EVERY)
def test_every_item_can_be_asked_explained_and_drawn(tuning: str) -> None:
    found = of(tuning)
    for n, item in enumerate(found.items):
        manner = MANNERS[n % len(MANNERS)]
        width, double = ROOMS[n % len(ROOMS)]
        question = found.ask(item, random.Random(n), manner)
        facts = found.facts(item)
        assert facts
        assert json.loads(json.dumps(facts)) == facts
        # A count line has a word for every half beat: three or four bars need their room.
        wide = item.drill in ("bar-count", "bar-missing") and width < 80
        pictures = [question.picture]
        if tuning in CORE:
            pictures += [*(step.draw() for step in question.helps), found.explain(item, manner).picture]
            pictures += [answered(question, said).picture for said in wrong_answers(question, random.Random(n))][:2]
        for picture in pictures:
            draw(picture, width, double, wide)


@pytest.mark.parametrize("turn", [0, 3, 5, 10])
def test_every_sort_of_item_is_drawn_in_every_room(turn: int) -> None:
    manner = MANNERS[turn]
    for item in one_of_each():
        question = of().ask(item, random.Random(5), manner)
        for width, double in ROOMS:
            wide = item.drill in ("bar-count", "bar-missing") and width < 80
            draw(question.picture, width, double, wide)
            draw(of().explain(item, manner).picture, width, double, wide)


def test_a_tuning_of_ones_own_works_like_any_other() -> None:
    own = parse_tuning("own-35-40-45-50-55-59-64", {"strings": "E4 B3 G3 D3 A2 E2 B1"})
    found = catalogue(own)
    for n, item in enumerate(found.items):
        manner = MANNERS[n % len(MANNERS)]
        question = found.ask(item, random.Random(n), manner)
        draw(question.picture, 80, False, False)
        assert answered(question, typed(question, question.model, manner)).right
        assert len(item.id) <= 80


@pytest.mark.parametrize("tuning", EVERY)
def test_every_lesson_is_explained(tuning: str) -> None:
    found = of(tuning)
    seen: dict[tuple[str, str], tuple[int, Item]] = {}
    for n, item in enumerate(found.items):
        seen.setdefault((item.drill, item.lesson), (n, item))
    for n, item in seen.values():
        for manner in (MANNERS[n % len(MANNERS)], Manner()):
            explained = found.explain(item, manner)
            draw(explained.picture, 80, False, False)
            assert 0 < len(explained.title) <= 60
            assert explained.lines
            for line in explained.lines:
                assert line == line.strip()
                assert re.search(r"[.!?]$", line) or line.endswith(manner.sentence or "!"), line
                assert len(line) < 300, line
                assert "  " not in line
                assert "{" not in line


def test_a_lesson_names_only_keys_that_answer() -> None:
    for item in one_of_each():
        options = of().ask(item, random.Random(1), Manner()).options
        keys = {option.key for option in options}
        for line in of().explain(item, Manner()).lines:
            for low, high in re.findall(r"[Pp]ress[^.]*?(\d) to (\d)", line):
                assert {str(n) for n in range(int(low), int(high) + 1)} == keys, item.id
            for key in re.findall(r"(\w) when it is", line):
                assert key in keys, item.id
            if "Press the letter" in line and item.drill != "order":
                assert keys, item.id
                assert all(key.isalpha() for key in keys), item.id


def test_items_of_one_lesson_share_their_words_and_are_drawn_on_staff_and_neck() -> None:
    # What a lesson says is said once, before its first item: it must hold for every other item of it.
    for tuning in EVERY:
        words: dict[tuple[str, str, bool], tuple[str, ...]] = {}
        for item in of(tuning).items:
            key = (item.drill, item.lesson, "name" in item.subject)
            explained = of(tuning).explain(item, Manner())
            assert words.setdefault(key, explained.lines) == explained.lines, item.id
            # Each drill explains itself with a drawn staff and neck.
            assert explained.picture.neck is not None, item.id
            assert explained.picture.staff is not None, item.id


def test_sorts_cover_every_drill_and_kind() -> None:
    sorts = {sort_of(item) for item in of().items}
    assert {drill for drill, *_ in sorts} == set(DRILLS)
    assert len(one_of_each()) == len(sorts)
    assert {manner.dialect for manner in MANNERS} == set(Dialect)
