"""Lines and strings: the top line is string 1; names, thickness, the neck upside down, memory sentences."""

from __future__ import annotations

import random

import pytest

from drills.kinds.wording import SENTENCES, initials_upward
from drills.notation.drawing import Role
from drills.notation.neck import draw_neck
from drills.notation.pitch import Naming
from drills.notation.tuning import sentence_fits, shipped
from drills.question import Manner
from tests.drills.kinds.theory import NAMES, OPEN
from tests.drills.samples import EVERY, answered, ask, of

# The strings of a guitar from string 1, as players call them (common practice, no source).
CALLED = ("high E", "B", "G", "D", "A", "low E")


@pytest.mark.parametrize("string", range(1, 7))
def test_the_line_that_is_lit_is_counted_from_the_top(string: int) -> None:
    # Top line = string 1, the highest (H. Wright, "The Guide to TAB Notation", 1995; MusicXML 4.0, ``string``).
    picture = ask(f"line-to-string/standard/{string}").picture
    assert picture.staff is not None
    assert picture.staff.lines == {string: Role.LIT}
    assert ask(f"line-to-string/standard/{string}").answers == (str(string),)
    assert of().facts(of().by_id[f"line-to-string/standard/{string}"]) == {
        "string": string, "line": string, "midi": OPEN["standard"][string - 1], "name": CALLED[string - 1],
        "names": NAMES[OPEN["standard"][string - 1] % 12],
    }  # fmt: skip


@pytest.mark.parametrize("string", range(1, 7))
def test_a_string_by_its_name(string: int) -> None:
    assert CALLED[string - 1] in ask(f"string-to-line/standard/{string}-name").prompt
    question = ask(f"line-to-string/standard/{string}-name")
    assert answered(question, CALLED[string - 1]).right
    assert [option.text for option in question.options if option.answer == str(string)] == [CALLED[string - 1]]
    assert question.show(str(string)) == f"{CALLED[string - 1]} (string {string})"
    assert not answered(question, "E").right


@pytest.mark.parametrize(
    ("tuning", "prompts"),
    [
        # On a guitar the bottom line is the thickest string (common practice, no source).
        ("standard", ["thinnest", "second thinnest", "third thinnest",
                      "third thickest", "second thickest", "thickest"]),
        ("bass", ["thinnest", "second thinnest", "second thickest", "thickest"]),
    ],
)  # fmt: skip
def test_a_string_by_its_thickness(tuning: str, prompts: list[str]) -> None:
    for string, words in enumerate(prompts, start=1):
        question = ask(f"string-to-line/{tuning}/{string}-gauge", tuning=tuning)
        assert question.prompt == f"Which line is the {words} string?"
        assert question.answers == (str(string),)


@pytest.mark.parametrize("left", [False, True])
@pytest.mark.parametrize("string", range(1, 7))
def test_the_neck_is_drawn_thickest_string_at_the_top_for_either_hand(string: int, left: bool) -> None:
    # The order of the lines is the reverse of what the player sees looking down (common practice, no source).
    question = ask(f"neck-to-line/standard/{string}", manner=Manner(left_handed=left))
    assert question.picture.neck is not None
    rows = draw_neck(question.picture.neck).text()
    (lit,) = [n for n, row in enumerate(rows) if "═" in row]
    assert lit == 6 - string
    assert question.answers == (str(string),)


def test_a_wrong_line_is_told_apart_from_the_right_one() -> None:
    assert answered(ask("line-to-string/standard/6"), "1").why == (
        "String 6 is the bottom line; string 1 is the top line."
    )
    assert answered(ask("line-to-string/standard/5-name"), "D").why == (
        "String 5 (A) is the second line from the bottom; string 4 (D) is the third line from the bottom."
    )
    assert answered(ask("string-to-line/standard/6-gauge"), "1").why == (
        "The thickest string is string 6, the bottom line; string 1 is the top line."
    )


def test_names_are_not_spoken_of_before_they_are_taught() -> None:
    # Names come at stage 3.
    for item in of().items:
        if item.stage <= 2:
            question = of().ask(item, random.Random(0), Manner())
            texts = [question.prompt, *of().explain(item, Manner()).lines]
            texts += [answered(question, option.answer).why or "" for option in question.options]
            assert not [text for text in texts if "(A)" in text or "low E" in text], item.id


@pytest.mark.parametrize("initials", sorted(SENTENCES))
def test_our_sentences_fit_the_tunings_that_they_are_shown_for(initials: str) -> None:
    fitting = [
        (shipped()[name], naming) for name in EVERY for naming in Naming
        if initials_upward(shipped()[name], naming) == initials
    ]  # fmt: skip
    assert fitting, "no shipped tuning has these strings"
    for sentence in SENTENCES[initials]:
        assert "".join(word[0] for word in sentence.split()) == initials
        for tuning, naming in fitting:
            assert sentence_fits(sentence, tuning, naming) == "up"


@pytest.mark.parametrize("naming", Naming)
@pytest.mark.parametrize("tuning", EVERY)
def test_a_sentence_that_is_shown_always_fits(tuning: str, naming: Naming) -> None:
    lines = of(tuning).explain(of(tuning).by_id[f"line-to-string/{tuning}/1-name"], Manner(naming)).lines
    for line in lines:
        if line.startswith("To keep them"):
            sentence = line.partition(": ")[2].partition(".")[0]
            assert sentence_fits(sentence, shipped()[tuning], naming) == "up"
    shown = any(line.startswith("To keep them") for line in lines)
    assert shown or naming is not Naming.LETTERS


@pytest.mark.parametrize(
    ("sentence", "line"),
    [
        ("Even Ants Do Get Big Ears", "Your sentence, from the bottom line up: Even Ants Do Get Big Ears"),
        ("Every Bear Gets Dinner At Eight", "Your sentence, from the top line down: Every Bear Gets Dinner At Eight"),
    ],
)
def test_the_learners_own_sentence_is_shown_when_it_fits(sentence: str, line: str) -> None:
    item = of().by_id["line-to-string/standard/1-name"]
    assert line in of().explain(item, Manner(sentence=sentence)).lines
    for other in ("Every Ant Does Get Big", "Every Ant Does Big Get Ears", "", "no such words fit here ever"):
        lines = of().explain(item, Manner(sentence=other)).lines
        assert not any(text.startswith("Your sentence") for text in lines)
        assert any(text.startswith("To keep them") for text in lines)


def test_the_reversal_is_explained_with_one_string_lit_on_both() -> None:
    picture = of().explain(of().by_id["neck-to-line/standard/6"], Manner()).picture
    assert picture.staff is not None
    assert picture.neck is not None
    assert picture.staff.lines == picture.neck.lit_strings == {6: Role.LIT}


def test_help_on_the_neck_needs_no_names() -> None:
    # Letters are taught later: one number shows which way the strings are counted.
    labels = [step.draw().neck for step in ask("neck-to-line/standard/3").helps]
    assert [neck.labels for neck in labels if neck is not None] == [
        ("1", "", "", "", "", "6"), ("1", "", "", "", "", ""),
    ]  # fmt: skip


def test_from_the_neck_a_slip_is_explained_by_both_places() -> None:
    assert answered(ask("neck-to-line/standard/6"), "1").why == (
        "The top string of the neck is string 6, the bottom line; the top line is the bottom string of the neck."
    )
