"""Which notes are picked and what sounds: read again from the typed tab that is drawn, by rules written down anew."""

from __future__ import annotations

import random
import re

import pytest

from drills.notation.staff import Dialect, draw_staff
from drills.question import Item, Manner, Misreading, Question
from tests.drills.kinds.theory import midi_of
from tests.drills.kinds.typed_tab import Read, read
from tests.drills.samples import CORE, answered, ask, of

TYPED = Manner(dialect=Dialect.TEXT)
# Semitones -> interval, from a theory primer (common practice, no source).
INTERVALS = {
    12: "an octave", 19: "an octave and a fifth", 24: "two octaves", 28: "two octaves and a third",
    4: "a third", 5: "a fourth", 7: "a fifth", 9: "a sixth",
}  # fmt: skip
TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times"}


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


def rows_of(question: Question) -> list[str]:
    view = question.picture.staff
    assert view is not None
    return draw_staff(view).text()


def read_again(item: Item, tuning: str) -> Read:
    return read(rows_of(of(tuning).ask(item, random.Random(0), TYPED)))


@pytest.mark.parametrize("tuning", CORE)
def test_which_notes_are_picked(tuning: str) -> None:
    for item in items("mark-picked", tuning):
        said = read_again(item, tuning).picked
        assert len(said) > 1
        assert of(tuning).facts(item)["picked"] == [struck == "y" for struck in said], item.id
        for dialect in Dialect:
            question = of(tuning).ask(item, random.Random(1), Manner(dialect=dialect))
            assert question.answers == (said,), item.id


@pytest.mark.parametrize("tuning", CORE)
def test_what_sounds(tuning: str) -> None:
    for item in items("mark-sounds", tuning):
        facts = of(tuning).facts(item)
        frets = read_again(item, tuning).frets
        assert facts["sounds"] == [midi_of(tuning, facts["string"], fret) for fret in frets], item.id
        (answer,) = of(tuning).ask(item, random.Random(1), TYPED).answers
        if "harmonic" in facts["marks"]:
            assert answer == INTERVALS[frets[0]]
        elif "trill" in facts["marks"]:
            assert answer == f"{frets[0]} and {frets[1]} in turn, over and over"
        else:
            once = frets[: len(frets) // facts["times"]]
            text = ", then ".join("open" if fret == 0 else str(fret) for fret in once)
            assert answer == (text if facts["times"] == 1 else f"{text}, {TIMES[facts['times']]}"), item.id


def test_the_reader_knows_a_tab_when_it_sees_one() -> None:
    assert read(["|--5h7p5--|"]) == Read("ynn", [5, 7, 5])
    assert read(["|--7b9r7--5--|"]) == Read("yy", [7, 9, 7, 5])
    assert read(["|--5/8--|", "", "/: legato slide"]) == Read("yn", [5, 8])
    assert read(["|--5/8--/7--7\\--|", "", "/: shift slide"]) == Read("yyyy", [5, 8, 7, 7])
    assert read(["|--5-(5)--|", "", "(n): tied over"]) == Read("yn", [5])
    assert read(["        x3", "|:--x--<7>--:|"]) == Read("yy", [19, 19, 19])


def test_a_bend_and_its_release_on_the_third_string() -> None:
    # D4, up a whole step to E4, and back; bent before it is picked, E4 and back to D4 (MusicXML 4.0, bend-alter 2).
    assert of().facts(of().by_id["mark-sounds/standard/release"])["sounds"] == [62, 64, 62]
    assert of().facts(of().by_id["mark-sounds/standard/pre-bend-release"])["sounds"] == [64, 62]
    assert ask("mark-sounds/standard/release").answers == ("7, then 9, then 7",)
    assert ask("mark-sounds/standard/half-release").answers == ("8, then 9, then 8",)


def test_whether_a_slide_is_picked_is_asked_only_where_the_tab_tells() -> None:
    # In typed tab only a legend tells (common practice, no source); in print the arc does.
    for item in items("mark-picked"):
        slides = "slide-up" in of().facts(item)["marks"] or "slide-down" in of().facts(item)["marks"]
        typed = "\n".join(rows_of(ask(item.id, manner=TYPED)))
        assert bool(re.search(r"legato slide|shift slide", typed)) == slides, item.id
        printed = ask(item.id).picture.staff
        assert printed is not None
        assert not any("slide" in row for row in printed.legend)


def test_every_offered_sound_can_be_told_from_the_right_one() -> None:
    by_fret = re.compile(r"(open|\d+)(, then (open|\d+))*(, (once|twice|three times|four times))?")
    for item in items("mark-sounds"):
        marks = of().facts(item)["marks"]
        for seed in range(30):
            texts = [option.text for option in ask(item.id, seed).options]
            assert len(set(texts)) == 4
            if "harmonic" in marks:
                assert set(texts) <= set(INTERVALS.values())
            elif "trill" not in marks:
                assert all(by_fret.fullmatch(text) for text in texts)


def test_what_a_harmonic_would_sound_pressed_down_is_offered_where_it_differs() -> None:
    for fret, pressed in ((7, "a fifth"), (5, "a fourth"), (9, "a sixth")):
        question = ask(f"mark-sounds/standard/harmonic-{fret}")
        assert pressed in {option.text for option in question.options}
        assert answered(question, pressed).misreadings == (Misreading.MARK_CONFUSED,)


def test_every_phrase_tells_its_source_and_how_sure_it_is() -> None:
    for item in [*items("mark-picked"), *items("mark-sounds")]:
        facts = of().facts(item)
        assert re.search(r"H\. Wright 1995|MusicXML 4\.0|common practice, no source", facts["source"])
        assert facts["certainty"] in ("sure", "likely", "needs a legend")
    assert of().facts(of().by_id["mark-picked/tie"])["certainty"] == "needs a legend"
    assert of().facts(of().by_id["mark-picked/h"])["certainty"] == "sure"


@pytest.mark.parametrize(
    ("item", "said", "why"),
    [
        ("mark-picked/plain", "yn", "No sign joins these notes, so the hand picks every one: y y."),
        ("mark-picked/h-then", "yyy", "The number after a hammer-on is sounded by the fretting hand: y n y."),
        ("mark-picked/full", "yn", "A bend joins no two numbers, so each number is picked, and picked once: y y."),
        ("mark-picked/tie", "yy", "The number after a tie is held, not struck again: y n."),
        ("mark-sounds/standard/h", "7, then 5", "A hammer-on steps up to the next number: what is heard is 5, then 7."),
        ("mark-sounds/standard/release", "7",
         "A full bend ends two frets higher than its number, and its release comes back to the number: what is heard "
         "is 7, then 9, then 7."),
        ("mark-sounds/standard/pre-bend-release", "7, then 9",
         "A pre-bend sounds bent from the start, and its release comes back to the number: what is heard is 9, then "
         "7."),
    ],
)  # fmt: skip
def test_why_it_is_wrong(item: str, said: str, why: str) -> None:
    assert answered(ask(item), said).why == why
