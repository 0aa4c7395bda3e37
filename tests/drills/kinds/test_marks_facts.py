"""The facts of every sign against a table written down again, with the source of each row beside it."""

from __future__ import annotations

import random
import re
from typing import NamedTuple

import pytest

from drills.kinds.marks.table import SIGNS
from drills.notation.staff import Dialect, draw_staff
from drills.question import Item, Manner
from tests.drills.kinds.theory import midi_of
from tests.drills.kinds.typed_tab import read
from tests.drills.samples import CORE, of

SINGLE = ("mark-name", "mark-hand", "name-to-mark")


class Row(NamedTuple):
    """One sign: its kind, what is picked, semitones from its first number, certainty as typed, words of its source."""

    mark: str
    picked: str
    steps: tuple[int, ...] | None
    certainty: str
    source: str


SURE, LIKELY, LEGEND = "sure", "likely", "needs a legend"
TABLE = {
    # H. Wright, "The Guide to TAB Notation", 1995: h up, p down, the second note not picked; x; b and r; ~.
    "hammer-on": Row("hammer-on", "yn", (0, 2), SURE, "H. Wright 1995"),
    "pull-off": Row("pull-off", "yn", (0, -2), SURE, "H. Wright 1995"),
    "mute": Row("mute", "y", (), SURE, "H. Wright 1995"),
    "vibrato": Row("vibrato", "y", (0,), SURE, "H. Wright 1995"),
    # H. Wright 1995 for the pitch; whether the second note is picked: common practice, no source.
    "slide-up": Row("slide-up", "yn", (0, 3), SURE, "H. Wright 1995"),
    "slide-down": Row("slide-down", "yn", (0, -3), SURE, "H. Wright 1995"),
    "slide-up-picked": Row("slide-up", "yy", (0, 3), LEGEND, "common practice, no source"),
    "slide-down-picked": Row("slide-down", "yy", (0, -3), LEGEND, "common practice, no source"),
    # MusicXML 4.0, bend-alter, in semitones: a half bend 1, a full one 2, one and a half 3, two 4; release back to 0.
    "half-bend": Row("bend", "y", (0, 1), SURE, "MusicXML 4.0, bend-alter"),
    "full-bend": Row("bend", "y", (0, 2), SURE, "MusicXML 4.0, bend-alter"),
    "bend-one-and-half": Row("bend", "y", (0, 3), SURE, "MusicXML 4.0, bend-alter"),
    "bend-two": Row("bend", "y", (0, 4), SURE, "MusicXML 4.0, bend-alter"),
    "bend-release": Row("bend", "y", (0, 2, 0), SURE, "MusicXML 4.0, bend with release"),
    "pre-bend": Row("pre-bend", "y", (2,), LEGEND, "MusicXML 4.0, pre-bend"),
    "pre-bend-release": Row("pre-bend", "y", (2, 0), LEGEND, "MusicXML 4.0, pre-bend"),
    # MusicXML 4.0: mute palm, tied let-ring, tied, notehead parentheses, grace; the typed letters have no source.
    "palm-mute": Row("palm-mute", "yy", (0, 0), SURE, "MusicXML 4.0, mute palm"),
    "let-ring": Row("let-ring", "yy", None, LIKELY, "MusicXML 4.0, tied let-ring"),
    "tie": Row("tie", "yn", (0,), LEGEND, "MusicXML 4.0, tied"),
    "ghost": Row("ghost", "y", (0,), LEGEND, "common practice, no source"),
    "grace": Row("grace", "yy", (0, 2), LEGEND, "MusicXML 4.0, grace"),
    "accent": Row("accent", "y", (0,), LEGEND, "from memory"),
    "staccato": Row("staccato", "y", (0,), LEGEND, "from memory"),
    # MusicXML 4.0 trill-mark, tap and harmonic; at fret 12 the overtone is an octave over the open string (arithmetic).
    "trill": Row("trill", "y", (0, 2), LIKELY, "MusicXML 4.0, trill-mark"),
    "tap": Row("tap", "n", (0,), LIKELY, "H. Wright 1995"),
    "harmonic": Row("harmonic", "y", (0,), LIKELY, "overtone arithmetic"),
    "pinch-harmonic": Row("pinch-harmonic", "y", None, LEGEND, "common practice, no source"),
    # H. Wright 1995: /7 and 7\ to and from no written fret.
    "slide-in-up": Row("slide-in-up", "y", (0,), LIKELY, "H. Wright 1995"),
    "slide-in-down": Row("slide-in-down", "y", (0,), LIKELY, "H. Wright 1995"),
    "slide-out-up": Row("slide-out-up", "y", (0,), LIKELY, "H. Wright 1995"),
    "slide-out-down": Row("slide-out-down", "y", (0,), LIKELY, "H. Wright 1995"),
    # MusicXML 4.0, repeat and its times: how often in all.
    "repeat": Row("repeat", "yy", (0, 2) * 2, SURE, "MusicXML 4.0, repeat"),
    "repeat-count": Row("repeat", "yy", (0, 2) * 3, LIKELY, "MusicXML 4.0, repeat"),
}


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


def key_of(item: Item) -> str:
    return re.sub(r"-(engraved|text)$", "", item.subject)


def test_every_sign_of_the_table_is_asked_and_no_other() -> None:
    assert len(TABLE) >= 25
    assert {key_of(item) for item in items("mark-hand")} == set(TABLE)
    # "let ring" is written out: its name is on the page
    for drill in ("mark-name", "name-to-mark"):
        assert {key_of(item) for item in items(drill)} == set(TABLE) - {"let-ring"}, drill


@pytest.mark.parametrize("tuning", CORE)
def test_the_facts_of_every_sign(tuning: str) -> None:
    for item in [item for drill in SINGLE for item in items(drill, tuning)]:
        facts, row = of(tuning).facts(item), TABLE[key_of(item)]
        assert facts["mark"] == row.mark, item.id
        assert facts["picked"] == [struck == "y" for struck in row.picked], item.id
        assert facts["certainty"] == row.certainty, item.id
        assert row.source in facts["source"], item.id
        if item.drill == "name-to-mark":
            assert facts["sounds"] is None  # it stands somewhere else each time
        elif row.steps:
            # a pre-bend is heard only bent: its written fret is two frets under the first sound
            first = facts["sounds"][0] - row.steps[0]
            assert facts["sounds"] == [first + step for step in row.steps], item.id
        elif row.steps == ():
            assert facts["sounds"] == []


def test_where_no_fret_tells_the_pitch_there_is_none() -> None:
    for drill in ("mark-hand", "mark-name"):
        told = [of().facts(item)["sounds"] for item in items(drill) if key_of(item) == "pinch-harmonic"]
        assert told
        assert not any(told)


@pytest.mark.parametrize("tuning", CORE)
def test_the_example_that_is_drawn_says_what_the_facts_say(tuning: str) -> None:
    manner = Manner(dialect=Dialect.TEXT)
    for item in items("mark-hand", tuning):
        facts = of(tuning).facts(item)
        lesson = of(tuning).explain(item, manner).picture.staff  # its legend tells of slides what is picked
        assert lesson is not None
        assert facts["picked"] == [struck == "y" for struck in read(draw_staff(lesson).text()).picked], item.id
        if item.subject in ("let-ring", "pinch-harmonic"):
            continue
        for seed in range(3):
            view = of(tuning).ask(item, random.Random(seed), manner).picture.staff
            assert view is not None
            found = read(draw_staff(view).text())
            string = view.piece.bars[0].onsets[0].notes[0].string
            assert facts["sounds"] == [midi_of(tuning, string, fret) for fret in found.frets], item.id


def test_amounts_of_bends_are_whole_steps() -> None:
    amounts = {key_of(item): of().facts(item)["amount"] for item in items("mark-hand")}
    assert {key: amount for key, amount in amounts.items() if amount is not None} == {
        "half-bend": 0.5, "full-bend": 1.0, "bend-one-and-half": 1.5, "bend-two": 2.0, "bend-release": 1.0,
        "pre-bend": 1.0, "pre-bend-release": 1.0,
    }  # fmt: skip


def test_a_sign_that_strains_the_hand_comes_with_a_word_of_care() -> None:
    strained = {sign.key for sign in SIGNS if "bend" in sign.key} | {"tap", "trill"}
    for item in items("mark-hand"):
        lines = of().explain(item, Manner()).lines
        assert any("hurts" in line and "teacher" in line for line in lines) == (item.subject in strained), item.id


def test_a_lesson_says_how_a_sign_is_written_in_both_dialects_and_whether_it_needs_a_legend() -> None:
    for item in items("mark-name"):
        lines = of().explain(item, Manner()).lines
        assert re.match(r"In print(: .+ As typed| and as typed): .+\.", lines[0]), item.id
        assert any("legend" in line for line in lines[2:]) == (TABLE[key_of(item)].certainty != SURE), item.id


def test_every_sign_is_asked_about_in_an_order_that_beginners_meet() -> None:
    stages = {key_of(item): item.stage for item in items("mark-hand")}
    assert [key for key, stage in stages.items() if stage == min(stages.values())] == ["hammer-on", "pull-off"]
    assert stages["full-bend"] < stages["bend-release"] < stages["bend-two"]
    assert stages["slide-up"] < stages["tie"] < stages["slide-in-up"]


def test_what_is_drawn_stays_on_the_neck() -> None:
    for item in [*items("mark-name"), *items("mark-hand"), *items("name-to-mark")]:
        for seed in range(12):
            view = of().ask(item, random.Random(seed), Manner()).picture.staff
            assert view is not None
            for _, _, onset in view.piece.onsets():
                assert all(note.fret is None or 1 <= note.fret <= 17 for note in onset.notes), item.id
