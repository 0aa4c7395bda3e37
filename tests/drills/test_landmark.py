"""What an item is told from: near, read already, and never the answer itself."""

from __future__ import annotations

import random
import re

import pytest

from drills.landmark import landmark
from drills.notation.pitch import Naming
from drills.question import Item, Kind, Manner
from tests.drills.samples import CORE, MANNERS, of

SENTENCE = "Even Ants Do Get Big Ears"


def told(item: str, *read: str, manner: Manner | None = None) -> str | None:
    """The sentence for an item of the standard tuning, by the items that are read."""
    whole = of("standard")
    found = landmark(whole.by_id[item], whole, manner or Manner(), frozenset(read).__contains__)
    return None if found is None else found.text


def note(string: int, fret: int) -> str:
    """The item that asks for a note."""
    return f"fret-to-note/standard/{string}/{fret}"


def test_a_note_is_told_from_the_nearest_one_on_its_string() -> None:
    assert told(note(5, 5), note(5, 3), note(5, 1), note(4, 3)) == (
        "String 5, fret 3 is C, which you read already: this is two frets on."
    )
    assert told(note(5, 2), note(5, 3)) == "String 5, fret 3 is C, which you read already: this is one fret back."
    assert told(note(5, 3), note(5, 0)) == "String 5, open, is A, which you read already: this is three frets on."
    flat = told(note(5, 5), note(5, 4))
    assert flat == "String 5, fret 4 is C# or Db, which you read already: this is one fret on."


def test_or_from_the_same_fret_beside_it_and_from_nothing_far_or_of_the_same_name() -> None:
    assert told(note(5, 3), note(4, 3)) == (
        "String 4, fret 3 is F, which you read already: this is one line below, at the same fret."
    )
    assert told(note(5, 3), note(6, 3)) == (
        "String 6, fret 3 is G, which you read already: this is one line above, at the same fret."
    )
    assert told(note(5, 3), note(5, 9), note(3, 3), note(5, 15)) is None


def test_lines_strings_and_places_are_told_from_the_line_beside_them() -> None:
    line, named = "line-to-string/standard/{}", "line-to-string/standard/{}-name"
    assert told(line.format(4), line.format(3)) == "The line above this one is string 3, which you read already."
    assert told(line.format(4), line.format(6)) == (
        "The second line below this one is string 6, which you read already."
    )
    assert told(line.format(4), named.format(3)) is None
    assert told(named.format(4), named.format(3)) == (
        "The line above this one is the G string, which you read already."
    )
    assert told("string-to-line/standard/5-gauge", "string-to-line/standard/6-gauge") == (
        "The thickest string is line 6, which you read already: this string is one line above."
    )
    assert told("neck-to-line/standard/2", "neck-to-line/standard/1") == (
        "The bottom string of the neck is line 1, which you read already: this string is one line below."
    )
    assert told("tab-to-place/standard/3/2", "tab-to-place/standard/4/0", "tab-to-place/standard/3/0") == (
        "The line below this one is string 4, which you read already."
    )
    assert told("place-to-tab/standard/3/2", "place-to-tab/standard/2/3") == (
        "String 2 is line 2, which you read already: this place is one line below."
    )


def test_a_fret_is_counted_from_another_note_of_its_string() -> None:
    fret = "note-to-fret/standard/5/{}"
    assert told(fret.format("d-12"), fret.format("c")) == (
        "On string 5, C is fret 3, which you read already: count on from there."
    )
    assert told(fret.format("b"), fret.format("c")) == (
        "On string 5, C is fret 3, which you read already: count back from there."
    )


@pytest.mark.parametrize("item", ["line-to-string/standard/5-name", "string-to-line/standard/5-name", note(5, 0)])
def test_names_of_strings_are_told_from_the_sentence(item: str) -> None:
    assert told(item, manner=Manner(sentence=SENTENCE)) == f"Your sentence, from the bottom line up: {SENTENCE}"
    backwards = " ".join(reversed(SENTENCE.split()))
    assert told(item, manner=Manner(sentence=backwards)) == f"Your sentence, from the top line down: {backwards}"
    ours = told(item, manner=Manner(sentence="It does not fit"))
    assert ours is not None
    assert "".join(word[0] for word in ours.partition(": ")[2].split()) == "EADGBE"


def test_what_no_neighbour_and_no_sentence_tells_has_none() -> None:
    whole = of("standard")
    for item in ("mark-name/hammer-on-text", "order/standard/4-1", "chord-name/standard/xx0233", note(5, 3)):
        if item in whole.by_id:
            assert told(item) is None
    assert told("line-to-string/standard/5") is None


def said(item: Item, manner: Manner, tuning: str) -> list[str]:
    """Every way in which the answer might stand in a sentence."""
    question = of(tuning).ask(item, random.Random(0), manner)
    shown = [question.show(answer) for answer in question.answers]
    if item.kind is Kind.NOTE:
        return [name for each in shown for name in each.split(" or ")]
    if item.kind is Kind.FRET:
        return [f"is fret {answer}," for answer in question.answers if answer != "0"]
    string = re.match(r"\d+", question.model)
    assert string is not None
    return [f"is line {string[0]},", f"is string {string[0]},", *(shown if item.drill.endswith("-name") else [])]


@pytest.mark.parametrize("tuning", CORE)
def test_no_sentence_holds_the_answer_and_every_brief_one_fits_into_a_small_window(tuning: str) -> None:
    rng, found = random.Random(5), 0
    for turn, item in enumerate(of(tuning).items):
        manner = MANNERS[turn % len(MANNERS)]
        read = {other.id for other in of(tuning).items if other.id != item.id and rng.random() < 0.3}
        one = landmark(item, of(tuning), manner, read.__contains__)
        if one is None or "which you read already" not in one.text:
            continue
        found += 1
        assert one.text.endswith(".")
        for answer in said(item, manner, tuning):
            assert not re.search(rf"(?<![\w#]){re.escape(answer)}(?![\w#])", one.text), (item.id, one.text)
        if manner.naming is not Naming.SOLFEGE:
            assert len(one.brief) <= 38, one.brief
    assert found > 60
