"""Naming signs, finding them, saying what the hands do: what is drawn, what is offered, what a wrong answer shows."""

from __future__ import annotations

import random
import re

import pytest

from drills.kinds.marks.table import APART, BY_KEY
from drills.notation.drawing import Role
from drills.notation.staff import Dialect, draw_staff
from drills.question import Item, Manner, Misreading, Question
from tests.drills.samples import answered, ask, of

TYPED = Manner(dialect=Dialect.TEXT)

# How each sign looks in print and as typed. Typed: h p / \ b r x ~ t and /7 7\ are H. Wright's, 1995; tr is in the
# encyclopedia article "ASCII tab"; everything printed, and the rest: common practice, no source.
LOOKS = {
    "hammer-on": ("H", r"\dh\d"), "pull-off": ("P", r"\dp\d"), "slide-up": ("╱", r"\d/\d"),
    "slide-down": ("╲", r"\d\\\d"), "slide-up-picked": ("╱", ""), "slide-down-picked": ("╲", ""),
    "half-bend": ("½", r"\db\d"), "full-bend": ("▲", r"\db\d"), "bend-one-and-half": ("1½", r"\db\d"),
    "bend-two": ("2", r"\db\d"), "bend-release": ("▼", r"\db\d+r\d"), "pre-bend": ("▲", r"\dpb\d"),
    "pre-bend-release": ("▼", r"\dpb\d+r\d"), "vibrato": ("~~", r"\d~"), "palm-mute": ("P.M.", r"PM-"),
    "mute": ("x", r"-x-"), "ghost": ("(", r"\(\d+\)"), "let-ring": ("let ring", r"let ring-"), "tie": ("╭", r"\(\d+\)"),
    "trill": ("tr", r"\dtr\d"), "tap": ("T", r"t\d"), "harmonic": ("N.H.", r"<12>"),
    "pinch-harmonic": ("P.H.", r"P\.H\."),
    "grace": ("⁰¹²³⁴⁵⁶⁷⁸⁹", r"g\d"), "accent": (">", r">"), "staccato": (".", r"(?m)^ *\. *$"),
    "slide-in-up": ("╱", r"-/\d"), "slide-in-down": ("╲", r"-\\\d"), "slide-out-up": ("╱", r"\d/-"),
    "slide-out-down": ("╲", r"\d\\-"), "repeat": ("•", r":\|"), "repeat-count": ("x3", r"x3"),
}  # fmt: skip
# Where typed tab says different things with one sign, so that only a legend tells (common practice, no source).
NEEDS_LEGEND = {"pre-bend", "pre-bend-release", "ghost", "tie", "pinch-harmonic", "grace", "accent", "staccato"}


def items(*drills: str) -> list[Item]:
    return [item for item in of().items if item.drill in drills]


def key_of(item: Item) -> str:
    return re.sub(r"-(engraved|text)$", "", item.subject)


def drawn(question: Question) -> str:
    view = question.picture.staff
    assert view is not None
    return "\n".join(draw_staff(view, double=True).text())


def test_the_sign_that_is_asked_about_is_drawn_in_its_dialect() -> None:
    for item in items("mark-name"):
        printed, typed = LOOKS[key_of(item)]
        for manner in (Manner(), TYPED):
            picture = drawn(ask(item.id, 2, manner))
            if item.subject.endswith("-text"):
                assert re.search(typed, picture), (item.id, picture)
            else:
                assert any(sign in picture for sign in (printed if key_of(item) == "grace" else [printed])), item.id


def test_a_slide_that_is_picked_again_is_printed_without_an_arc() -> None:
    for way in ("up", "down"):
        assert "╭" in drawn(ask(f"mark-name/slide-{way}-engraved"))
        assert "╭" not in drawn(ask(f"mark-name/slide-{way}-picked-engraved"))


def test_a_typed_bend_names_the_fret_that_it_sounds_like() -> None:
    # "7b9": bend fret 7 until it sounds as fret 9 (H. Wright, 1995).
    for key, rise in (("half-bend", 1), ("full-bend", 2), ("bend-one-and-half", 3), ("bend-two", 4)):
        for seed in range(20):
            (found,) = re.findall(r"(\d+)b(\d+)", drawn(ask(f"mark-name/{key}-text", seed)))
            assert int(found[1]) - int(found[0]) == rise


def test_a_sign_that_means_several_things_is_asked_only_with_its_legend() -> None:
    for item in items("mark-name", "name-to-mark", "mark-hand"):
        for manner in (Manner(), TYPED):
            view = ask(item.id, 1, manner).picture.staff
            assert view is not None
            key = key_of(item)
            needs = key == "ghost" or (view.dialect is Dialect.TEXT and (key in NEEDS_LEGEND or key.endswith("picked")))
            assert bool(view.legend) == needs, (item.id, view.legend)
            symbols = [row.partition(":")[0] for row in view.legend]
            assert len(set(symbols)) == len(symbols), (item.id, view.legend)


def test_the_legend_never_gives_what_is_asked() -> None:
    for item in items("mark-name", "name-to-mark", "mark-hand"):
        for seed in range(8):
            question = ask(item.id, seed, TYPED)
            view = question.picture.staff
            assert view is not None
            said = question.answers[0] if item.drill != "name-to-mark" else BY_KEY[key_of(item)].name
            assert not [row for row in view.legend if said.partition(",")[0] in row], item.id
            if item.drill == "name-to-mark" and view.legend:
                # a legend of one row would point at the sign that is asked
                assert len(view.legend) >= 3, item.id


def test_no_legend_says_two_things_of_one_sign() -> None:
    for item in items("mark-name", "name-to-mark", "mark-hand"):
        for seed in range(30):
            for dialect in Dialect:
                question = ask(item.id, seed, Manner(dialect=dialect))
                wrong = next(each.answer for each in question.options if each.answer not in question.answers)
                for view in (question.picture.staff, answered(question, wrong).picture.staff):
                    assert view is not None
                    symbols = [row.partition(":")[0] for row in view.legend]
                    assert len(set(symbols)) == len(symbols), item.id


def test_no_two_signs_are_offered_that_could_both_be_right() -> None:
    # One word for two signs, or one sign that holds the other (common practice, no source).
    assert {"ghost", "mute"} <= APART["ghost"]
    for asked, other in (
        ("full-bend", "bend and release"), ("bend-release", "full bend"), ("slide-up", "slide up, picked again"),
        ("slide-up", "slide in from below"), ("ghost", "muted x"), ("mute", "ghost note"),
        ("repeat-count", "repeat signs"),
    ):  # fmt: skip
        for seed in range(60):
            for drill, dialect in (("mark-name", "engraved"), ("mark-name", "text")):
                names = {option.text for option in ask(f"{drill}/{asked}-{dialect}", seed).options}
                assert other not in names, asked


@pytest.mark.parametrize(
    ("item", "other"),
    [
        ("hammer-on", "pull-off"), ("slide-up", "slide down"), ("full-bend", "half bend"), ("palm-mute", "muted x"),
        ("tie", "hammer-on"), ("tie", "ghost note"),
        ("ghost", "tie"), ("harmonic", "pinch harmonic"), ("staccato", "accent"), ("repeat", "repeat count"),
        ("slide-in-up", "slide in from above"), ("slide-up-picked", "slide up, not picked again"),
    ],
)  # fmt: skip
def test_what_a_sign_is_most_easily_taken_for_is_always_offered(item: str, other: str) -> None:
    for seed in range(30):
        assert other in {option.text for option in ask(f"mark-name/{item}-engraved", seed).options}


@pytest.mark.parametrize(
    ("item", "said", "kind"),
    [
        ("mark-name/hammer-on-engraved", "pull-off", Misreading.WRONG_DIRECTION),
        ("mark-name/slide-in-up-text", "slide in from above", Misreading.WRONG_DIRECTION),
        ("mark-name/slide-up-picked-engraved", "slide up, not picked again", Misreading.SLURRED_FOR_PICKED),
        ("mark-name/palm-mute-engraved", "muted x", Misreading.MARK_CONFUSED),
        ("mark-hand/pull-off", "fret the higher note hard, no pick", Misreading.WRONG_DIRECTION),
        ("mark-hand/slide-up-picked", "glide up, and do not pick again", Misreading.SLURRED_FOR_PICKED),
        ("name-to-mark/slide-out-up-engraved", "a short falling line after the number", Misreading.WRONG_DIRECTION),
    ],
)
def test_which_misreading_a_wrong_answer_is(item: str, said: str, kind: Misreading) -> None:
    assert answered(ask(item), said).misreadings == (kind,)


@pytest.mark.parametrize(
    ("item", "said", "why"),
    [
        ("mark-name/hammer-on-engraved", "pull-off",
         "This is a hammer-on: an arc over both numbers with an H; a pull-off is an arc over both numbers with a P."),
        ("mark-name/repeat-text", "repeat count",
         "These are repeat signs: |: before the part and :| after it; a repeat count is x and a number at the closing "
         "repeat sign (x3)."),
        ("mark-name/slide-up-picked-engraved", "slide down, picked again",
         "This is a slide up, picked again: a rising line between the numbers, without an arc; a slide down, picked "
         "again, is a falling line between the numbers, without an arc."),
        ("name-to-mark/hammer-on-text", "a p between the numbers",
         "A hammer-on is an h between the numbers; what you chose is a pull-off."),
        ("mark-hand/hammer-on", "tug the string with the finger that leaves",
         "This is a hammer-on: fret the higher note hard, no pick; what you chose is done at a pull-off."),
    ],
)  # fmt: skip
def test_why_it_is_wrong(item: str, said: str, why: str) -> None:
    assert answered(ask(item), said).why == why


def test_a_wrong_answer_draws_both_signs() -> None:
    for item in items("mark-name", "name-to-mark", "mark-hand"):
        question = ask(item.id, 3)
        for option in question.options:
            if option.answer in question.answers:
                continue
            staff = answered(question, option.answer).picture.staff
            assert staff is not None
            assert set(staff.colours.values()) == {Role.TRUE, Role.SAID}, item.id
            drawn_at = {(bar, n, note.string) for bar, n, onset in staff.piece.onsets() for note in onset.notes}
            assert {tuple(at) for at in staff.colours} <= drawn_at, item.id


def test_signs_are_offered_in_all_their_variety() -> None:
    offered = {
        option.text
        for item in items("mark-name")
        for seed in range(5)
        for option in of().ask(item, random.Random(seed), Manner()).options
    }
    assert {sign.name for sign in BY_KEY.values() if not sign.says_its_name} <= offered


def test_no_sign_is_offered_that_nobody_would_choose() -> None:
    again = {"repeat signs", "repeat count"}
    for item in items("mark-name", "mark-hand"):
        for seed in range(20):
            texts = {option.text for option in ask(item.id, seed).options}
            assert item.drill != "mark-name" or "let ring" not in texts, "it is written out"
            if not item.subject.startswith("repeat"):
                acts = {BY_KEY[key].act for key in ("repeat", "repeat-count")}
                assert not texts & (again | acts), item.id
