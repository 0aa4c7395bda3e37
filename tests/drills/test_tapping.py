"""Taps against what is written, by figures worked out by hand. The windows are our own choice."""

from __future__ import annotations

import random
from statistics import median

import pytest

from drills import answers
from drills.kinds.rhythm.taps import TAPS
from drills.kinds.rhythm.written import METRES, written_bar
from drills.notation.score import Piece
from drills.notation.tuning import shipped
from drills.question import Kind, Misreading
from drills.tapping import Tapping, tapping_of
from drills.time_misreadings import of_taps
from tests.drills.samples import answered, ask, of

QUARTERS = Tapping(120, 4, (0.0, 0.5, 1.0, 1.5), 2.0, 0.125)
LONG_SHORT = Tapping(60, 4, (0.0, 2.0, 3.0), 4.0, 0.15)


def tapping(text: str, metre: str, tempo: int) -> Tapping:
    tuning = shipped()["standard"]
    bars = tuple(written_bar(part, METRES[metre], tuning, random.Random(1)) for part in text.split(" | "))
    return tapping_of(Piece(tuning, bars), tempo, METRES[metre].beats)


def test_moments_and_windows() -> None:
    found = tapping("q e e qr q", "4-4", 60)
    assert found == Tapping(60, 4, (0.0, 1.0, 1.5, 3.0), 4.0, 0.125)
    # A quarter of the shortest value, but never under 0.06 s nor over 0.15 s.
    assert tapping("s s e q", "2-4", 80).window == 0.06
    assert tapping("h h", "4-4", 60).window == 0.15
    # In 6/8 the pulse is an eighth.
    assert tapping("q. e e e", "6-8", 120).moments == (0.0, 1.5, 2.0, 2.5)
    assert tapping("h q | q q q", "3-4", 60).moments == (0.0, 2.0, 3.0, 4.0, 5.0)


@pytest.mark.parametrize(
    ("taps", "fits"),
    [
        ((0.0, 0.5, 1.0, 1.5), True),
        ((7.31, 7.81, 8.31, 8.81), True),  # the same a good while later: the delay of a terminal
        ((0.0, 0.54, 1.08, 1.62), True),  # 8 % slower, but steady
        ((0.0, 0.465, 0.93, 1.395), True),  # 7 % faster
        ((0.0, 0.65, 1.3, 1.95), False),  # 30 % slower
        ((0.0, 0.6, 0.9, 1.5), True),  # each within 0.125 s
        ((0.0, 0.85, 1.0, 1.5), False),
        ((0.0, 0.5, 1.0), False),
        ((0.0, 0.5, 1.0, 1.5, 2.0), False),
    ],
)
def test_what_fits(taps: tuple[float, ...], fits: bool) -> None:
    assert QUARTERS.fits(taps) == fits


def test_the_best_tempo_leaves_the_smallest_largest_error() -> None:
    rng = random.Random(4)
    for _ in range(50):
        taps = sorted(rng.uniform(0, 2) for _ in QUARTERS.moments)
        best = max(map(abs, QUARTERS.fit(taps).errors))
        for step in range(41):  # every tempo between the bounds, with its median offset
            rate = 1 / 1.08 + step / 40 * (1.08 - 1 / 1.08)
            off = [tap - rate * moment for tap, moment in zip(taps, QUARTERS.moments, strict=True)]
            assert best <= max(abs(each - median(off)) for each in off) + 0.01


def test_where_taps_fell_in_beats() -> None:
    assert LONG_SHORT.in_beats((5.0, 7.0, 8.0)) == pytest.approx((0, 2, 3))
    assert LONG_SHORT.in_beats((5.0, 6.0)) == (0.0, 1.0)


def test_misreadings_of_taps() -> None:
    assert of_taps((0.0, 2.0), LONG_SHORT) == (Misreading.TOO_FEW,)
    assert of_taps((0.0, 1.0, 2.0, 3.0), LONG_SHORT) == (Misreading.TOO_MANY,)
    assert of_taps((0.0, 1.0, 3.0), LONG_SHORT) == (Misreading.WRONG_ORDER,)
    assert of_taps((0.0, 1.5, 3.0), LONG_SHORT) == ()
    assert of_taps((0.0, 2.0, 3.0), LONG_SHORT) == ()


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("0.00 0.52 1.01", "0.00 0.52 1.01"), ("0,0.5, 1", "0.00 0.50 1.00"), (" 3 ", "3.00"), (".5", "0.50"), ("", None),
     ("0 0", None), ("1 0.5", None), ("-1 2", None), ("0 nan", None), ("0 1e2", None), ("tap", None),
     (" ".join(map(str, range(64))), " ".join(f"{n}.00" for n in range(64))), (" ".join(map(str, range(65))), None)],
)  # fmt: skip
def test_times_as_they_are_typed(typed: str, taken: str | None) -> None:
    assert answers.taps(typed) == taken


def test_every_rhythm_is_right_as_written_and_no_other_rhythm_passes_for_it() -> None:
    for item in of().items:
        if item.kind is not Kind.TAP:
            continue
        question = ask(item.id)
        taps = question.tapping
        assert taps is not None
        assert question.answers == ()
        assert answered(question, question.model).right
        # Somebody who plays a third of a beat late on every note, then 5 % slow, is still right.
        assert answered(question, " ".join(f"{0.3 + 1.05 * moment:.3f}" for moment in taps.moments)).right
        assert answered(question, "0.00").misreadings == (Misreading.TOO_FEW,)
        for other in TAPS:
            another = ask(f"value-tap/{other}").tapping
            assert another is not None
            in_time = [moment * another.tempo / taps.tempo for moment in another.moments]
            same = in_time == pytest.approx(list(taps.moments))
            if len(in_time) == len(taps.moments) and not same:
                assert not taps.fits(in_time), (item.id, other)


def test_a_wrong_tapping_says_where_it_went_wrong() -> None:
    verdict = answered(ask("value-tap/4-4/q-q-h"), "0.00 0.75 2.25")
    assert verdict.why is not None
    assert verdict.why.startswith("Tap 3 belongs on 3 and came 0.")
    assert verdict.why.endswith(" s late.")
    assert (verdict.answer, verdict.answers) == ("0.00 0.75 1.50", ())
    assert verdict.picture.staff is not None
    assert len(verdict.picture.staff.taps) == 3
    question = ask("value-tap/4-4/q-q-h")
    assert answered(question, "0 1").why == "There are 3 notes to tap, on 1, 2 and 3, and you tapped 2."
    assert question.show("0.00 0.75 1.50") == "taps on 1, 2 and 3"
    assert question.show("0 1") == "2 taps"
