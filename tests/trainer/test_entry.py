"""Keys into an answer: which keys answer, and when the clock stops."""

from __future__ import annotations

import string
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.question import Feedback, Item, Kind, Option, Picture, Question
from tests.trainer.fakes import STANDARD
from trainer.entry import APART, LONGEST, Entry

ITEM = Item("any/standard/1", "any", STANDARD, "1", Kind.COUNT, 1, "Any", "any")
DIGITS = tuple(Option(key, "", key) for key in "123456")
PICKED = (Option("y", "picked", "y"), Option("n", "not picked", "n"))
BOTH_E = (Option("e", "high E", "1"), Option("E", "low E", "6"), Option("a", "A", "5"))


def asking(
    options: tuple[Option, ...] = (),
    *,
    length: int = 1,
    joiner: str = "",
    ends: Callable[[str], bool] = lambda typed: False,
    shown_at: float = 100.0,
) -> Entry:
    """An answer to a question that was on the screen at 100 s."""
    question = Question(
        ITEM, "Which?", Picture(), ("1",), lambda text: text, lambda said: Feedback("No.", Picture()),
        options=options, length=length, joiner=joiner, ends=ends,
    )  # fmt: skip
    return Entry(question, shown_at)


def test_one_key_answers_and_stops_the_clock() -> None:
    entry = asking(DIGITS)
    assert entry.press("3", 101.25) == "3"
    assert entry.seconds == 1.25


def test_nothing_was_entered_before_a_key() -> None:
    entry = asking(DIGITS)
    assert (entry.text, entry.seconds) == ("", 0.0)
    assert entry.submit(105.0) is None
    assert (entry.text, entry.seconds) == ("", 0.0)


def test_a_key_stands_for_the_answer_of_its_option() -> None:
    assert asking((Option("a", "C or so", "C"),)).press("a", 101.0) == "C"


def test_several_keys_are_joined() -> None:
    entry = asking(DIGITS, length=3, joiner=" ")
    assert [entry.press(key, 101.0) for key in "534"] == [None, None, "5 3 4"]


def test_several_keys_without_a_joiner() -> None:
    entry = asking(PICKED, length=3)
    assert [entry.press(key, 101.0) for key in "ynn"] == [None, None, "ynn"]


def test_a_click_is_a_key() -> None:
    entry = asking(PICKED, length=2)
    assert entry.choose("y", 101.5) is None
    assert entry.press("n", 102.0) == "yn"
    assert entry.seconds == 1.5


def test_what_is_typed_ends_with_enter() -> None:
    entry = asking()
    assert [entry.press(sign, 101.0) for sign in "5/3"] == [None, None, None]
    assert entry.submit(103.0) == "5/3"
    assert entry.seconds == 1.0


def test_what_is_complete_needs_no_enter() -> None:
    entry = asking(ends=lambda typed: len(typed) == 2)
    assert entry.press("b", 101.0) is None
    assert entry.press("b", 101.2) == "bb"


def test_enter_on_keys_that_answer_by_themselves_gives_nothing() -> None:
    entry = asking(PICKED, length=2)
    entry.press("y", 101.0)
    assert entry.submit(102.0) is None
    assert entry.text == "y"


def test_the_clock_stops_at_the_first_key_of_a_quick_hand() -> None:
    entry = asking(DIGITS, length=3)
    for key, at in (("1", 101.0), ("2", 101.5), ("3", 102.0)):
        entry.press(key, at)
    assert entry.seconds == 1.0


def test_a_pause_between_keys_was_thinking() -> None:
    entry = asking(DIGITS, length=3)
    for key, at in (("1", 101.0), ("2", 101.0 + APART + 0.05), ("3", 101.0 + APART + 0.4)):
        entry.press(key, at)
    assert entry.seconds == pytest.approx(1.0 + APART + 0.05)


def test_a_correction_was_thinking() -> None:
    entry = asking(DIGITS, length=2)
    entry.press("1", 101.0)
    entry.erase()
    assert entry.text == ""
    assert entry.press("2", 101.3) is None
    assert entry.press("4", 101.6) == "24"
    assert entry.seconds == pytest.approx(1.6)


def test_erasing_nothing_is_no_correction() -> None:
    entry = asking(DIGITS, length=2)
    entry.erase()
    entry.press("1", 101.0)
    entry.press("2", 101.5)
    assert entry.seconds == 1.0


def test_enter_does_not_move_the_clock() -> None:
    entry = asking()
    entry.press("7", 101.0)
    assert entry.submit(110.0) == "7"
    assert entry.seconds == 1.0


def test_two_options_may_differ_by_case() -> None:
    assert asking(BOTH_E).press("e", 101.0) == "1"
    assert asking(BOTH_E).press("E", 101.0) == "6"


def test_caps_lock_is_forgiven_where_only_one_could_be_meant() -> None:
    assert asking(BOTH_E).press("A", 101.0) == "5"
    assert asking(PICKED).press("Y", 101.0) == "y"


def test_an_unknown_key_is_ignored_and_stops_no_clock() -> None:
    entry = asking(DIGITS)
    for key in ("7", "x", "[", " ", "é", "\x07"):
        assert entry.press(key, 101.0) is None
    assert entry.text == ""
    assert entry.press("2", 102.0) == "2"
    assert entry.seconds == 2.0


def test_control_characters_are_not_typed() -> None:
    entry = asking()
    entry.press("\x1b", 101.0)
    entry.press("\n", 101.0)
    assert entry.text == ""


def test_an_endless_answer_is_cut() -> None:
    entry = asking()
    for _ in range(LONGEST + 20):
        entry.press("1", 101.0)
    assert entry.text == "1" * LONGEST


def test_a_key_from_before_the_question_answers_nothing() -> None:
    entry = asking(DIGITS, shown_at=100.0)
    entry.shown_at = 100.1
    assert entry.press("3", 99.9) is None
    assert entry.press("3", 100.05) == "3"
    assert entry.seconds == 0.0


Presses = list[tuple[str, float]]
presses: st.SearchStrategy[Presses] = st.lists(
    st.tuples(st.sampled_from([*"123yn[x", "erase"]), st.floats(0.0, 2.0)), max_size=12
)


def played(entry: Entry, done: Presses) -> list[str]:
    """Press keys so many seconds after one another; the answers that came."""
    at, answers = entry.shown_at, []
    for key, gap in done:
        at += gap
        if key == "erase":
            entry.erase()
        elif (answer := entry.press(key, at)) is not None:
            answers.append(answer)
            break
    return answers


@given(presses, st.integers(1, 4))
def test_an_answer_has_its_length_and_only_answers_of_options(done: Presses, length: int) -> None:
    entry = asking(DIGITS, length=length)
    for answer in played(entry, done):
        assert len(answer) == length
        assert set(answer) <= set("123456")


@given(presses)
def test_the_clock_never_stops_before_the_question_nor_after_the_last_key(done: Presses) -> None:
    entry = asking(DIGITS, length=3)
    played(entry, done)
    assert 0.0 <= entry.seconds <= sum(gap for _, gap in done) + 0.001


@given(presses)
def test_keys_that_answer_nothing_change_nothing(done: Presses) -> None:
    entry, clean = asking(DIGITS, length=3), asking(DIGITS, length=3)
    at = 100.0
    for key, gap in done:
        at += gap
        for each in (entry, clean):
            if key == "erase":
                each.erase()
            elif each is entry or key in "123":
                each.press(key, at)
    assert (entry.text, entry.seconds) == (clean.text, clean.seconds)


@given(st.text(string.printable, max_size=60))
def test_typing_never_fails(text: str) -> None:
    entry = asking()
    for sign in text:
        assert entry.press(sign, 101.0) is None
    assert entry.text.isprintable()
    assert len(entry.text) <= LONGEST
