"""Bars and beats, added up again with fractions and with music21's metres."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from music21.meter import TimeSignature

from drills.kinds.rhythm.bar_missing import MISSING
from drills.kinds.rhythm.bars import RHYTHMS
from drills.kinds.rhythm.written import METRES
from drills.notation.score import Bar, Piece
from drills.notation.spoken import say_staff
from drills.notation.staff import Dialect, draw_staff, note_columns
from drills.question import Item, Manner, Question
from drills.stages import Stage
from tests.drills.samples import EVERY, answered, ask, of


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


def piece_of(question: Question) -> Piece:
    assert question.picture.staff is not None
    return question.picture.staff.piece


def length_of(metre: str) -> Fraction:
    """A bar in beats of the metre's unit, by music21."""
    signature = TimeSignature(metre)
    return Fraction(signature.barDuration.quarterLength) * Fraction(signature.denominator, 4)


def fills(bar: Bar, metre: str) -> bool:
    """Whether the notes of a bar, each as long as the way to the next one, add up to the bar of that metre."""
    beats = [onset.beat for onset in bar.onsets if onset.beat is not None]
    length = length_of(metre)
    if bar.pick_up:
        return len(beats) == len(bar.onsets) and 1 < beats[0] < 1 + length
    ends = [*beats[1:], 1 + length]
    lengths = [end - beat for beat, end in zip(beats, ends, strict=True)]
    return len(beats) == len(bar.onsets) and beats[0] == 1 and all(n > 0 for n in lengths) and sum(lengths) == length


@pytest.mark.parametrize("tuning", EVERY)
def test_every_bar_adds_up_to_its_metre(tuning: str) -> None:
    for drill in ("bar-count", "bar-beat", "bar-missing"):
        for item in items(drill, tuning):
            metre = item.subject.split("/")[0].replace("-", "/")
            for seed in range(10):
                question = of(tuning).ask(item, random.Random(seed), Manner())
                for bar in piece_of(question).bars:
                    assert fills(bar, metre), (item.id, bar)
                    assert (str(bar.metre), bar.metre and bar.metre.beats) == (metre, TimeSignature(metre).numerator)


def test_the_metres_are_those_that_most_music_has() -> None:
    # Four beats a bar, then three (common practice, no source).
    assert [str(metre) for metre in METRES.values()] == ["4/4", "3/4", "2/4", "6/8"]


def test_beats_are_counted_to_the_end_of_the_metre() -> None:
    # In 6/8 it is eighths that are asked for.
    for metre, beats in (("4-4", "4"), ("3-4", "3"), ("2-4", "2"), ("6-8", "6")):
        for what in ("beats", "values"):
            question = ask(f"bar-count/standard/{metre}/{what}")
            assert question.answers == (beats,)
            assert ("eighths" in question.prompt) == (metre == "6-8")


def test_the_bars_that_are_counted_are_drawn() -> None:
    for item in items("bar-count"):
        question = ask(item.id, 5)
        assert question.picture.staff is not None
        bars = len(question.picture.staff.piece.bars)
        lines = question.picture.staff.piece.tuning.lines
        rows = draw_staff(question.picture.staff).text()[:lines]
        # One upright more than bars on the lowest line: the left edge opens the first bar.
        line = rows[-1]
        assert sum(line.count(sign) for sign in "│|├┤┼┴└┘") == bars + 1
        if "bars-" in item.subject:
            assert question.answers == (str(bars),) == (item.subject[-1],)


def test_notes_of_the_bar_that_is_named() -> None:
    for item in items("bar-count"):
        if "notes-" not in item.subject:
            continue
        named = set()
        for seed in range(20):
            question = ask(item.id, seed)
            which = ["first", "second"].index(next(word for word in ("first", "second") if word in question.prompt))
            named.add(which)
            assert question.answers == (str(len(piece_of(question).bars[which].onsets)),)
        assert len(named) == 1, "the point of an item never varies"


@pytest.mark.parametrize("tuning", ["standard", "ukulele"])
def test_the_count_under_the_marked_number_is_the_answer(tuning: str) -> None:
    for item in items("bar-beat", tuning):
        seen = set()
        for seed in range(12):
            question = of(tuning).ask(item, random.Random(seed), Manner())
            view = question.picture.staff
            assert view is not None
            (at,) = view.colours
            beat = view.piece.bars[0].onsets[at.onset].beat
            assert beat is not None
            whole = int(beat)
            part = {0: "", 1: "e", 2: "&", 3: "a"}[int((beat - whole) * 4)]
            assert question.answers == (f"{whole}{part}",)
            # And it is what stands straight below it on the count line, drawn with the question or after it.
            shown = replace(view, count=True)
            _, column = note_columns(shown)[at]
            assert draw_staff(shown).text()[-1][column] == (part or str(whole))
            assert view.count or all(onset.length for onset in view.piece.bars[0].onsets)
            seen.add(view.piece.bars[0].onsets)
        assert len(seen) > 1


@pytest.mark.parametrize("metre", ["3-4", "4-4"])
def test_every_half_beat_of_the_metre_can_be_answered_by_one_key(metre: str) -> None:
    beats = int(metre[0])
    for beat in range(1, beats + 1):
        question = ask(f"bar-beat/standard/{metre}/{beat}-and")
        assert question.answers == (f"{beat}&",)
        assert [option.answer for option in question.options] == [
            f"{n}{half}" for n in range(1, beats + 1) for half in ("", "&")
        ]
        assert all(option.key.isalpha() and option.text == option.answer for option in question.options)
        assert len(RHYTHMS[metre]) >= 5
        # A whole beat is answered by its own digit, at a stage that knows no half beats.
        assert [o.key for o in ask(f"bar-beat/standard/{metre}/{beat}").options] == list("1234"[:beats])


def test_no_part_of_a_beat_is_known_before_the_tab_is_read() -> None:
    # Whoever knows the stage and the lesson knows no more than the parts that the lesson is about.
    parts: dict[tuple[str, int], list[str]] = {}
    for item in items("bar-beat"):
        (answer,) = ask(item.id).answers
        parts.setdefault((item.lesson, item.stage), []).append(answer[1:])
    for (lesson, stage), found in parts.items():
        if lesson == "sixteenths":
            assert set(found) == {"", "e", "&", "a"}
        elif lesson == "six-eight" or stage == Stage.BARS:
            assert set(found) == {""}
        else:
            assert set(found) == {"", "&"}, lesson
        assert max(map(found.count, found)) <= 0.7 * len(found) or set(found) == {""}


def test_sixteenths_stand_on_other_beats_than_the_one_that_is_asked_for() -> None:
    for item in items("bar-beat"):
        if item.lesson != "sixteenths":
            continue
        (answer,) = ask(item.id).answers
        busy = set()
        for seed in range(40):
            beats = [onset.beat for onset in piece_of(ask(item.id, seed)).bars[0].onsets if onset.beat is not None]
            fine = {int(beat) for beat in beats if beat.denominator == 4}
            assert fine, "a bar of sixteenths has some"
            busy |= fine
        assert busy - {int(answer[0])}, item.id


def test_four_bars_have_room_in_forty_columns() -> None:
    for item in items("bar-count"):
        if "/bars-" in item.subject:
            for seed in range(5):
                view = ask(item.id, seed).picture.staff
                assert view is not None
                assert draw_staff(view, width=40).width <= 40


def test_every_rhythm_starts_its_bar_and_rises() -> None:
    for metre, rhythms in RHYTHMS.items():
        assert len(set(rhythms)) == len(rhythms)
        for rhythm in [*rhythms, *MISSING[metre]]:
            times = [Fraction(word.replace("&", "")) + Fraction("&" in word, 2) for word in rhythm.split()]
            assert times[0] == 1
            assert times == sorted(set(times))
            assert times[-1] < length_of(metre.replace("-", "/")) + 1


def test_the_missing_bar_line_belongs_where_the_beats_of_a_bar_are_full() -> None:
    for item in items("bar-missing"):
        metre = item.subject.split("/")[0].replace("-", "/")
        for seed in range(20):
            question = ask(item.id, seed)
            view = question.picture.staff
            assert view is not None
            pick_up = view.piece.bars[0].pick_up
            assert view.hidden_bar_lines == {int(pick_up)}
            # All the notes after the pick-up in one row, counted until their beats fill a bar.
            lengths: list[Fraction] = []
            for bar in view.piece.bars[int(pick_up) :]:
                beats = [onset.beat or Fraction(0) for onset in bar.onsets]
                end = Fraction(bar.metre.beats + 1 if bar.metre else 0)
                lengths += [later - beat for beat, later in zip(beats, [*beats[1:], end], strict=True)]
            before = next(n for n in range(len(lengths)) if sum(lengths[:n]) == length_of(metre))
            before += len(view.piece.bars[0].onsets) if pick_up else 0
            assert question.answers == (str(before + 1),)
            assert of().facts(item)["before"] == before + 1
            # One key under every number but the first, and the right one under the number that opens the bar.
            first = len(view.piece.bars[0].onsets) if pick_up else 0
            assert [option.answer for option in question.options] == [
                str(first + n + 1) for n in range(1, len(lengths))
            ]
            assert view.keys[len(view.piece.bars) - 1, 0][1] == question.answers[0]


@pytest.mark.parametrize("dialect", Dialect)
def test_the_count_does_not_give_the_missing_bar_line_away(dialect: Dialect) -> None:
    for item in items("bar-missing"):
        question = ask(item.id, 3, Manner(dialect=dialect))
        view = question.picture.staff
        assert view is not None
        metre = view.piece.bars[-1].metre
        assert metre is not None
        rows = draw_staff(replace(view, keys={})).text()
        ticks = rows[-1]
        assert set(ticks) == {" ", "·" if dialect == Dialect.ENGRAVED else "."}
        # One tick on every beat, the same way apart across the missing line.
        pick_up = view.piece.bars[0].pick_up
        beats = [column for column, sign in enumerate(ticks) if sign != " "][int(pick_up) :]
        assert len(beats) == 2 * metre.beats
        assert len({later - earlier for earlier, later in pairwise(beats)}) == 1
        # In words, no number of a beat is said, and nothing where the line is missing.
        (said,) = say_staff(replace(view, keys={}))
        assert not re.search(r"(^|; )\d", said)
        assert said.count("bar line") == int(pick_up)
        assert said.count("beat") == 2 * metre.beats + int(pick_up)
        # The answer to a wrong one shows the numbers.
        shown = answered(question, "?").picture.staff
        assert shown is not None
        assert (shown.count, shown.ticks, shown.hidden_bar_lines) == (True, False, frozenset())


@pytest.mark.parametrize("metre", ["3-4", "4-4"])
def test_sixteenths_are_typed_as_they_are_counted(metre: str) -> None:
    for beat in range(1, int(metre[0]) + 1):
        for part in "ea":
            question = ask(f"bar-beat/standard/{metre}/{beat}-{part}")
            assert question.answers == (f"{beat}{part}",)
            assert question.options == ()
            assert question.ends(f"{beat}{part}")
            assert not question.ends(str(beat)), "a whole beat ends with Enter"
            assert answered(question, f"{beat}.{'25' if part == 'e' else '75'}").right


@pytest.mark.parametrize(
    ("item", "said", "why"),
    [
        ("bar-count/standard/4-4/bars-1", "2", "Count the spaces between the bar lines, not the lines: there is 1."),
        ("bar-count/standard/4-4/bars-3", "4", "Count the spaces between the bar lines, not the lines: there are 3."),
        ("bar-count/standard/3-4/beats", "4",
         "The count under the staff runs from 1 to 3 and begins again after the bar line."),
        ("bar-count/standard/6-8/values", "3",
         "The values of each bar add up to 6 eighths, as the count under them shows."),
        ("bar-beat/standard/4-4/2-and", "4&", "Straight below the marked number the count says 2&."),
        ("bar-missing/standard/3-4/1", "3",
         "Each bar has 3 beats: the bar line stands where the count begins again at 1, and the number you chose falls "
         "on 3 of the bar before it."),
        ("bar-missing/standard/3-4/1", "before the second number",
         "Each bar has 3 beats: the bar line stands where the count begins again at 1."),
        ("bar-repeat/1-2-2-0", "3", "The part between the repeat signs is played twice: 1 + 2 + 2 = 5 bars."),
        ("bar-repeat/0-1-3-0", "1", "The part between the repeat signs is played 3 times: 1 + 1 + 1 = 3 bars."),
    ],
)  # fmt: skip
def test_why_it_is_wrong(item: str, said: str, why: str) -> None:
    assert answered(ask(item), said).why == why
