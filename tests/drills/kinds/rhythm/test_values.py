"""The drills of note values, by music21's lengths and bars."""

from __future__ import annotations

from fractions import Fraction

import pytest
from music21.duration import Duration
from music21.meter import TimeSignature

from drills.kinds.rhythm.value_signs import BEATS, SIGNS, TIES
from drills.notation.score import Piece
from drills.notation.staff import Dialect
from drills.notation.values import Value
from drills.question import Item, Kind, Manner, Misreading, Question
from drills.stages import Stage
from drills.time_misreadings import of_length, of_value
from tests.drills.samples import answered, ask, of

BEFORE = 28
"""Items of bars that were there before values were."""


def items(*drills: str) -> list[Item]:
    return [item for item in of().items if item.drill in drills]


def quarters(words: str) -> Fraction:
    """The length of ``dotted quarter note`` by music21."""
    name = words.removesuffix(" note").removesuffix(" rest").removeprefix("dotted ").replace("sixteenth", "16th")
    return Fraction(Duration(type=name, dots=int(words.startswith("dotted"))).quarterLength)


def piece_of(question: Question) -> Piece:
    assert question.picture.staff is not None
    return question.picture.staff.piece


def written(piece: Piece) -> Fraction:
    """What stands in a piece, in quarters."""
    return sum(
        ((onset.length or Fraction(0)) * Fraction(4, bar.metre.unit if bar.metre else 4)
         for bar in piece.bars for onset in bar.onsets), Fraction(0),
    )  # fmt: skip


def test_there_is_enough_to_learn_of_time() -> None:
    time = [item for item in of().items if item.drill.startswith(("bar-", "value-"))]
    assert len(time) - BEFORE >= 60
    assert len({item.drill for item in time}) >= 5
    assert {Stage.BARS, Stage.STACKS, Stage.HALF_BEATS, Stage.TWELVE_FRETS, Stage.FAST_BEATS} <= {
        item.stage for item in time
    }


def test_names_and_lengths() -> None:
    for item in items("value-name", "value-find"):
        sign = SIGNS[item.subject]
        assert of().facts(item)["length"] == float(quarters(sign.name))
        question = ask(item.id, 2)
        right = sign.name if item.drill == "value-name" else next(
            text for text, length in BEATS.items() if length == quarters(sign.name)
        )
        assert question.answers == (right,)
    for sign in SIGNS.values():
        (answer,) = ask(f"value-length/{sign.key}").answers
        assert BEATS[answer] == quarters(sign.name)


@pytest.mark.parametrize("seed", range(6))
def test_what_is_pointed_at_has_the_value_that_is_asked_about(seed: int) -> None:
    for item in items("value-name", "value-length", "value-find"):
        if item.subject.startswith("tie/"):
            continue
        question = ask(item.id, seed)
        view, sign = question.picture.staff, SIGNS[item.subject]
        assert view is not None
        found = [(bar, n) for bar, n, onset in view.piece.onsets() if onset.length == quarters(sign.name)
                 and bool(onset.notes) == (sign.noun == "note")]  # fmt: skip
        if item.drill == "value-find":
            keyed = [at for at, (_, answer) in view.keys.items() if answer in question.answers]
            assert len(keyed) == 1
            assert keyed[0] in found
            lengths = [view.piece.bars[bar].onsets[n].length for bar, n in view.keys]
            assert len(set(lengths)) == len(lengths) >= 4
        elif sign.noun == "rest":
            assert len(found) == 1
            assert not view.colours
        else:
            assert {(at.bar, at.onset) for at in view.colours} <= set(found)
            assert view.colours
        for bar in view.piece.bars:
            metre = TimeSignature(str(bar.metre))
            assert written(Piece(item.tuning, (bar,))) == Fraction(metre.barDuration.quarterLength)


def test_ties_add_up() -> None:
    for key in TIES:
        names = key.replace("dotted-", "dotted ").split("-")
        question = ask(f"value-length/tie/{key}")
        assert BEATS[question.answers[0]] == sum(map(quarters, names))
        view = question.picture.staff
        assert view is not None
        first, second = [view.piece.bars[at.bar].onsets[at.onset] for at in sorted(view.colours)]
        assert (first.notes[0].string, first.notes[0].fret) == (second.notes[0].string, second.notes[0].fret)


def test_what_fills_the_bar_up() -> None:
    for item in items("value-fill"):
        question = ask(item.id)
        metre = TimeSignature(item.subject.split("/")[0].replace("-", "/"))
        assert written(piece_of(question)) + quarters(question.answers[0]) == Fraction(metre.barDuration.quarterLength)
        assert question.traps.keys() <= {Misreading.TOO_MANY, Misreading.TOO_FEW}
        wrong = next(option.answer for option in question.options if option.answer not in question.answers)
        shown = answered(question, wrong).picture.staff
        assert shown is not None
        assert written(shown.piece) == Fraction(metre.barDuration.quarterLength)


def test_pick_ups() -> None:
    for item in items("bar-pick-up"):
        question = ask(item.id, 1)
        name, which = item.subject.split("/")[:2]
        first, second = piece_of(question).bars
        full = Fraction(TimeSignature(name.replace("-", "/")).barDuration.quarterLength)
        there = written(Piece(item.tuning, (first,)))
        assert there == {"full": full, "half": Fraction(1, 2)}.get(which, Fraction(which) if which.isdigit() else 0)
        assert written(Piece(item.tuning, (second,))) == full
        assert first.pick_up == (there < full) == of().facts(item)["pick_up"]
        assert of().facts(item)["beat"] == float(1 + full - there)
        if item.kind is Kind.BEAT:
            beat = 1 + full - there
            assert question.answers == (f"{int(beat)}{'&' if beat % 1 else ''}",)


def test_bars_that_are_played() -> None:
    for item in items("bar-repeat"):
        bars = piece_of(ask(item.id)).bars
        played: list[int] = []
        opened = 0
        for n, bar in enumerate(bars):  # as a player goes through them
            opened = n if bar.opens_repeat else opened
            played.append(n)
            for _ in range(bar.times - 1):
                played += range(opened, n + 1)
        assert ask(item.id).answers == (str(len(played)),)
        facts = of().facts(item)
        assert (facts["played"], facts["bars"], facts["times"]) == (len(played), len(bars), max(b.times for b in bars))


def test_misreadings_of_values_and_lengths() -> None:
    assert of_value(Value("quarter")) == {
        Misreading.MARK_CONFUSED: {"half note", "eighth note", "dotted quarter note"}
    }
    assert of_value(Value("whole"), "rest")[Misreading.MARK_CONFUSED] == {"half rest", "dotted whole rest"}
    offered = {"4 beats": Fraction(4), "2 beats": Fraction(2), "1 beat": Fraction(1)}
    assert of_length(Fraction(2), offered) == {Misreading.TOO_MANY: {"4 beats"}, Misreading.TOO_FEW: {"1 beat"}}


@pytest.mark.parametrize(
    ("item", "dialect", "said", "why"),
    [
        ("value-name/half", Dialect.ENGRAVED, "quarter note",
         "A half note is written with a short stem and lasts 2 beats, as the count under it shows."),
        ("value-name/dotted-quarter", Dialect.TEXT, "quarter note",
         "A dotted quarter note is written as q. and lasts 1 1/2 beats, as the count under it shows."),
        ("value-name/half-rest", Dialect.ENGRAVED, "whole rest",
         "A half rest is written as ▀ and lasts 2 beats, as the count under it shows."),
        ("value-length/eighth", Dialect.ENGRAVED, "1 beat",
         "An eighth note is written with one flag or beam and lasts 1/2 of a beat."),
        ("value-fill/4-4/h-q-e", Dialect.ENGRAVED, "quarter note",
         "The bar has 4 beats and 3 1/2 of them are written, so the eighth note fills it up."),
    ],
)  # fmt: skip
def test_why_it_is_wrong(item: str, dialect: Dialect, said: str, why: str) -> None:
    assert answered(ask(item, 0, Manner(dialect=dialect)), said).why == why


def test_nothing_is_offered_before_it_is_taught() -> None:
    # but a bare eighth, so that four values are there to choose from, and quarters of a beat with the sixteenths
    for item in items("value-fill", "value-length"):
        if item.stage >= Stage.FAST_BEATS:
            continue
        for seed in range(30):
            texts = {option.text for option in ask(item.id, seed).options}
            assert not [text for text in texts if "sixteenth" in text or "dotted eighth" in text or "/4" in text]
            assert item.stage >= Stage.HALF_BEATS or not [text for text in texts if "dotted" in text]


def test_what_a_value_is_most_easily_taken_for_is_offered() -> None:
    for item in items("value-name"):
        taught = {sign.name for sign in SIGNS.values() if sign.stage <= item.stage}
        for seed in range(20):
            question = ask(item.id, seed)
            near = question.traps[Misreading.MARK_CONFUSED]
            assert len(near & {option.text for option in question.options}) >= min(2, len(near & taught)), item.id


def test_the_tapping_lesson_says_what_to_press() -> None:
    lesson = of().explain(items("value-tap")[0], Manner())
    assert "Space starts the pulse, which counts one bar in" in lesson.lines[0]
    for item in items("value-tap"):
        tapping = ask(item.id).tapping
        assert tapping is not None
        assert tapping.lead_in == of().facts(item)["beats"], "one bar"
