"""Every question over many seeds: one right answer, told by nothing but the tab, and a sentence on every wrong one."""

from __future__ import annotations

import random
import re
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.notation.drawing import Role
from drills.notation.staff import draw_staff
from drills.question import Feedback, Item, Kind, Manner, Misreading, Question
from tests.drills.samples import CORE, EVERY, MANNERS, answered, ask, of, one_of_each, typed, wrong_answers

SEEDS = 1000
RESERVED = set("q?")
"""Keys that leave and that explain, on every question."""

# Questions whose options differ from seed to seed; the others of a sort offer the same keys every time.
VARIED = [item for item in one_of_each() if item.kind in (Kind.CHOICE, Kind.PLACE) or item.drill == "bar-count"]


def one_right_option(question: Question, manner: Manner) -> None:
    """The options of a question, whatever the seed: keys that can be told apart, and just one right answer."""
    keys = [option.key for option in question.options]
    assert len(set(keys)) == len(keys), question.item.id
    assert all(len(key) == 1 and key.isascii() and key not in RESERVED for key in keys), question.item.id
    assert all(question.parse(typed(question, answer, manner)) == answer for answer in question.answers)
    given = [question.parse(option.answer) for option in question.options]
    if question.options and question.length == 1:
        assert len([answer for answer in given if answer in question.answers]) == 1, question.item.id
        assert len(set(given)) == len(given), question.item.id
    if question.length > 1:
        parts = {option.answer for option in question.options}
        (right,) = question.answers
        split = right.split(question.joiner) if question.joiner else list(right)
        assert len(split) == question.length
        assert set(split) <= parts, question.item.id
    assert not question.choices or question.choices == question.options


def of_one_sentence(why: str) -> bool:
    return bool(re.fullmatch(r"[A-Z0-9][^\n]*[.]", why)) and not re.search(r"[.!?] [A-Z]|  |\.\.|;\.|\{|None", why)


def explained(question: Question, feedback: Feedback) -> None:
    assert of_one_sentence(feedback.why), (question.item.id, feedback.why)
    assert len(feedback.why) < 200, (question.item.id, feedback.why)
    assert feedback.picture.staff is not None or feedback.picture.neck is not None
    drawn = feedback.picture.staff.piece.tuning if feedback.picture.staff is not None else question.item.tuning
    assert drawn == question.item.tuning


@pytest.mark.parametrize("tuning", EVERY)
def test_every_item_has_one_right_answer_whatever_the_seed(tuning: str) -> None:
    found = of(tuning)
    for n, item in enumerate(found.items):
        manner = MANNERS[n % len(MANNERS)]
        first = found.ask(item, random.Random(0), manner)
        for seed in range(3) if tuning in CORE else (n,):
            question = found.ask(item, random.Random(seed), manner)
            one_right_option(question, manner)
            assert question.answers == first.answers, item.id
            assert question.prompt
            assert (question.length, question.joiner) == (first.length, first.joiner)
            assert [step.names for step in question.helps] == [step.names for step in first.helps]
            assert found.ask(item, random.Random(seed), manner).picture == question.picture, item.id


@pytest.mark.parametrize("item", VARIED, ids=lambda item: item.id)
def test_a_thousand_seeds_leave_one_option_right(item: Item) -> None:
    orders = set()
    for seed in range(SEEDS):
        question = of().ask(item, random.Random(seed), Manner())
        one_right_option(question, Manner())
        orders.add(tuple(option.answer for option in question.options))
        if question.choices:
            assert len(question.choices) >= 3
    assert len(orders) > 1 or item.drill in ("bar-count", "bar-missing")


@pytest.mark.parametrize("item", [i for i in VARIED if not i.drill.startswith("bar-")], ids=lambda item: item.id)
def test_the_right_option_stands_in_every_place(item: Item) -> None:
    places = [
        next(n for n, option in enumerate(question.options) if option.answer in question.answers)
        for question in (of().ask(item, random.Random(seed), Manner()) for seed in range(400))
    ]
    options = max(places) + 1
    assert options >= 4
    # Chance alone gives each place 400 / 5 = 80 at least, with a spread of 8.
    assert all(places.count(place) > 40 for place in range(options))


@pytest.mark.parametrize("tuning", EVERY)
def test_right_is_right_and_everything_else_is_wrong_and_explained(tuning: str) -> None:
    found = of(tuning)
    for n, item in enumerate(found.items):
        manner = MANNERS[n % len(MANNERS)]
        rng = random.Random(n)
        question = found.ask(item, rng, manner)
        for answer in question.answers:
            verdict = answered(question, typed(question, answer, manner))
            assert verdict.right, item.id
            assert (verdict.why, verdict.misreadings) == (None, ())
            assert question.show(answer)
        for said in wrong_answers(question, rng):
            verdict = answered(question, said)
            assert not verdict.right, item.id
            assert verdict.answer in question.answers
            assert verdict.said == question.parse(said)
            explained(question, Feedback(verdict.why or "", verdict.picture))
            assert set(verdict.misreadings) <= set(Misreading)


@pytest.mark.parametrize("tuning", EVERY)
def test_no_trap_holds_a_right_answer(tuning: str) -> None:
    for n, item in enumerate(of(tuning).items):
        question = of(tuning).ask(item, random.Random(n), MANNERS[n % len(MANNERS)])
        for kind, wrong in question.traps.items():
            assert isinstance(kind, Misreading)
            assert wrong
            assert not wrong & set(question.answers), item.id


def words(text: str) -> set[str]:
    return set(re.findall(r"[\w#♯♭&]+", text))


def test_no_prompt_tells_the_answer() -> None:
    for item in of().items:
        question = of().ask(item, random.Random(2), Manner())
        # A string that is named, and the range to look in, are what is asked about.
        prompt = re.sub(r"on string \d+|from \d+ to \d+|each bar has \d (?:beats|eigh)|in \d/\d", "", question.prompt)
        for answer in question.answers:
            said = answer.split() if item.kind in (Kind.ORDER, Kind.SET) else [answer]
            assert not words(prompt) >= set(said), item.id
            assert answer.casefold() not in prompt.casefold() or len(answer) == 1, item.id
            assert item.kind is not Kind.NOTE or answer not in words(prompt)


def test_the_lines_bear_no_names_while_they_are_asked_about() -> None:
    for tuning in EVERY:
        for item in of(tuning).items:
            if item.drill not in ("line-to-string", "neck-to-line", "string-to-line", "fret-to-note", "order"):
                continue
            picture = of(tuning).ask(item, random.Random(1), Manner()).picture
            assert picture.staff is not None
            assert not any(picture.staff.labels), item.id
            assert picture.neck is None or not any(picture.neck.labels)
            drawn = " ".join(draw_staff(picture.staff).text())
            if item.drill == "line-to-string":
                assert not re.search(r"\w", drawn), item.id
            if item.kind is Kind.NOTE:
                assert words(drawn) == {item.subject.split("/")[1]}, item.id


def test_a_picture_points_at_what_is_asked_and_never_at_the_answer() -> None:
    for item in of().items:
        picture = of().ask(item, random.Random(4), Manner()).picture
        roles = set()
        if picture.staff is not None:
            roles |= {*picture.staff.colours.values(), *picture.staff.lines.values()}
        if picture.neck is not None:
            roles |= {role for _, role in picture.neck.dots.values()} | set(picture.neck.lit_strings.values())
        assert not roles & {Role.TRUE, Role.SAID}, item.id


@pytest.mark.parametrize("turn", range(len(MANNERS)))
def test_wrong_answers_of_many_kinds_are_explained(turn: int) -> None:
    manner = MANNERS[turn]
    texts = ["", "banana", "6/3", "99", "²", "٣", "2&", "c#", "H", "y n", "5 3", "é", "[b]", "a" * 300, "0", "-1", "\n"]
    texts += ["1/20", "1/0", "12"]
    for tuning in ("standard", "ukulele"):
        for item in one_of_each(tuning):
            question = of(tuning).ask(item, random.Random(3), manner)
            for text in texts:
                verdict = answered(question, text)
                assert question.show(verdict.said) is not None
                if not verdict.right:
                    explained(question, Feedback(verdict.why or "", verdict.picture))


@settings(max_examples=300)
@given(st.sampled_from(one_of_each()), st.text(max_size=12), st.integers(0, 11))
def test_no_text_breaks_a_question(item: Item, text: str, turn: int) -> None:
    manner = MANNERS[turn]
    question = of().ask(item, random.Random(7), manner)
    verdict = answered(question, text)
    assert verdict.right == (question.parse(text) in question.answers)
    assert isinstance(question.show(verdict.said), str)
    assert isinstance(question.ends(text), bool)


def test_options_stand_in_an_order_that_tells_nothing() -> None:
    # In the order of the lines, the third name would be the third line's. Names stand by the alphabet instead.
    options = ask("line-to-string/standard/3-name").options
    assert [option.text for option in options] == ["A", "B", "D", "low E", "high E", "G"]
    assert [option.key for option in options] == ["A", "B", "D", "E", "e", "G"]
    for manner in MANNERS:
        for tuning in EVERY:
            item = of(tuning).by_id[f"line-to-string/{tuning}/1-name"]
            strings = [int(option.answer) for option in of(tuning).ask(item, random.Random(0), manner).options]
            steps = {later - earlier for earlier, later in pairwise(strings)}
            assert steps not in ({1}, {-1}), (tuning, manner.naming)
