"""Values, bars and beats from what is told of them: lengths and bar sums by music21, columns by our own reader."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from music21.duration import Duration

from tests.outside.rows import bar_length, bar_lines, beats_of, columns, marked, numbers, per_bar, quarters, values
from tests.outside.strings import EVERY
from tests.outside.told import Told, items, of

TIME = (
    "bar-count", "bar-beat", "bar-missing", "bar-repeat", "bar-pick-up", "value-name", "value-find", "value-length",
    "value-fill", "value-tap",
)  # fmt: skip
TYPES = {"whole": "whole", "half": "half", "quarter": "quarter", "eighth": "eighth", "sixteenth": "16th"}
# What a quarter is divided into where it is counted aloud: 1 e & a (common practice, no source).
WORDS = {"": Fraction(0), "e": Fraction(1, 4), "&": Fraction(1, 2), "a": Fraction(3, 4)}

every_tuning = pytest.mark.parametrize("tuning", EVERY)


def length_of(name: str) -> Fraction:
    """Quarters of a value by its name, by music21."""
    plain = name.removeprefix("dotted ")
    return Fraction(Duration(TYPES[plain], dots=name != plain).quarterLength)


def beat_of(said: str) -> Fraction:
    match = re.fullmatch(r"(\d+)([e&a]?)", said)
    assert match, said
    return int(match[1]) + WORDS[match[2]]


def of_a_beat(item: Told) -> Fraction:
    """A quarter in what is counted: one where quarters are, two where eighths are."""
    return Fraction(1, 1) if item["facts"]["metre"].endswith("/4") else Fraction(2, 1)


def bars_of(item: Told) -> list[list[Fraction]]:
    """The lengths that are written in each bar."""
    ends = bar_lines(item["staff"])
    found: list[list[Fraction]] = [[] for _ in ends]
    for value in values(item["staff"]):
        found[next(n for n, end in enumerate(ends) if value.column < end)].append(value.quarters)
    return found


@every_tuning
def test_every_metre_has_the_beats_of_its_upper_number(tuning: str) -> None:
    metred = [item for item in of(tuning, TIME) if "metre" in item["facts"]]
    assert {item["facts"]["metre"] for item in metred} == {"4/4", "3/4", "2/4", "6/8"}
    for item in metred:
        assert item["facts"]["beats"] == beats_of(item["facts"]["metre"]), item["id"]
        assert item["facts"]["bars"] == len(bar_lines(item["staff"])) + (item["drill"] == "bar-missing"), item["id"]
        written = bars_of(item)
        # A pick-up bar is short, and so is one that is to be filled; every other is full.
        short = item["drill"] == "value-fill", item["facts"].get("pick_up")
        for n, lengths in enumerate(written):
            if lengths and not short[0] and not (short[1] and n == 0):
                assert sum(lengths) == bar_length(item["facts"]["metre"]), item["id"]


@every_tuning
def test_lengths_of_values(tuning: str) -> None:
    counted = {"note", "rest"}
    for item in of(tuning, ["value-name", "value-find", "value-length"]):
        facts = item["facts"]
        names = facts["value"] if isinstance(facts["value"], list) else [facts["value"]]
        assert facts["length"] == sum(length_of(name) for name in names), item["id"]
        drawn = values(item["staff"])
        if len(names) == 1:
            held = [value for value in drawn if value.quarters == facts["length"] and value.rest == facts["rest"]]
            assert held, item["id"]
            assert facts["rest"] == ("rest" in f"{item['prompt']} {item['title']}"), item["id"]
            if item["drill"] == "value-find":
                assert len(held) == 1
        else:
            tied = [number.column for number in numbers(item["staff"])]
            parts = [value.quarters for value in drawn]
            assert len(tied) == len(parts)
            assert [length_of(name) for name in names] in [parts[n : n + 2] for n in range(len(parts))]
        if item["drill"] == "value-name":
            assert item["answers"] == [f"{facts['value']} {'rest' if facts['rest'] else 'note'}"]
            assert item["answers"][0].split()[-1] in counted
        else:
            assert item["answers"] == [in_beats(Fraction(facts["length"]))], item["id"]


def in_beats(length: Fraction) -> str:
    whole, rest = divmod(length, 1)
    if not whole:
        return f"{rest} of a beat"
    return f"{whole}{f' {rest}' if rest else ''} beat{'' if length == 1 else 's'}"


@every_tuning
def test_what_fills_a_bar(tuning: str) -> None:
    for item in of(tuning, ["value-fill"]):
        facts = item["facts"]
        written = sum(value.quarters for value in values(item["staff"]))
        lacking = bar_length(facts["metre"]) - written
        assert facts["length"] == lacking == length_of(facts["value"]), item["id"]
        assert item["answers"] == [f"{facts['value']} note"]
        subject = item["id"].split("/")[-1]
        assert [quarters(word) for word in subject.split("-")] == [value.quarters for value in values(item["staff"])]


@every_tuning
def test_taps_fall_where_the_values_begin(tuning: str) -> None:
    for item in of(tuning, ["value-tap"]):
        onsets, at = [], Fraction(0)
        # A number in parentheses is tied over, as its legend or the question's words say: it is not struck again.
        tied = {match.start() + 1 for row in item["staff"] for match in re.finditer(r"\(\d+\)", row)}
        for value in values(item["staff"]):
            if not value.rest and value.column not in tied:
                onsets.append(float(at * of_a_beat(item)))
            at += value.quarters
        assert item["facts"]["onsets"] == onsets, item["id"]
        assert f"at {item['facts']['tempo']} " in item["prompt"]
        assert ("eighths a minute" in item["prompt"]) == (item["facts"]["metre"] == "6/8")


@every_tuning
def test_bars_beats_and_notes_are_counted(tuning: str) -> None:
    for item in of(tuning, ["bar-count"]):
        facts = item["facts"]
        bars = per_bar(item["staff"], sorted({number.column for number in numbers(item["staff"])}))
        assert len(bars) == facts["bars"]
        if "notes are struck" in item["prompt"]:
            nth = {"first": 0, "second": 1}[re.findall(r"in the (\w+) bar", item["prompt"])[0]]
            expected = len(bars[nth])
            assert facts["notes"] == expected, item["id"]
        else:
            expected = facts["bars"] if "How many bars" in item["prompt"] else facts["beats"]
            words = [word for _, word in marked(item["staff"], r"\d|[e&a]")]
            if words:
                assert [int(word) for word in words if word.isdigit()] == [*range(1, facts["beats"] + 1)] * len(bars)
        assert item["answers"] == [str(expected)], item["id"]


@every_tuning
def test_a_number_stands_on_the_beat_that_is_asked(tuning: str) -> None:
    for item in of(tuning, ["bar-beat"]):
        facts = item["facts"]
        (said,) = item["answers"]
        assert facts["beat"] == beat_of(said), item["id"]
        assert 1 <= facts["beat"] < facts["beats"] + 1
        struck = {number.column for number in numbers(item["staff"])}
        words = marked(item["staff"], r"\d|[e&a]")
        if words:
            beat, there = 0, {}
            for column, word in words:
                beat = int(word) if word.isdigit() else beat
                there[beat + WORDS["" if word.isdigit() else word]] = column
            assert there[beat_of(said)] in struck, item["id"]
        else:
            at, there = Fraction(1), {}
            for value in values(item["staff"]):
                there[at] = value.column
                at += value.quarters * of_a_beat(item)
            assert there[beat_of(said)] in struck, item["id"]


@every_tuning
def test_the_bar_line_belongs_after_a_full_bar(tuning: str) -> None:
    for item in of(tuning, ["bar-missing"]):
        facts = item["facts"]
        dots = [column for column, _ in marked(item["staff"], r"\.")]
        drawn = bar_lines(item["staff"])
        first = 0 if len(drawn) == 1 else len([dot for dot in dots if dot < drawn[0]])  # a pick-up bar
        assert len(dots) - first == 2 * facts["beats"], item["id"]
        struck = sorted({number.column for number in numbers(item["staff"])})
        right = next(n for n, column in enumerate(struck, start=1) if column >= dots[first + facts["beats"]])
        assert facts["before"] == right, item["id"]
        assert item["answers"] == [str(right)]


@every_tuning
def test_a_pick_up_begins_late_in_a_bar(tuning: str) -> None:
    for item in of(tuning, ["bar-pick-up"]):
        facts = item["facts"]
        lengths = sum(bars_of(item)[0], Fraction(0))
        full = bar_length(facts["metre"])
        assert facts["pick_up"] == (lengths < full)
        assert facts["beat"] == 1 + (full - lengths) * of_a_beat(item), item["id"]
        if item["kind"] == "beat":
            assert beat_of(item["answers"][0]) == facts["beat"]
        elif not facts["pick_up"]:
            assert item["answers"] == ["with a full bar"]
        else:
            of_it = "half a beat" if lengths < 1 else in_beats(lengths)
            assert item["answers"] == [f"with a pick-up of {of_it}"]


@every_tuning
def test_repeat_signs_are_played_out(tuning: str) -> None:
    # From |: to :| twice in all, or as often as x3 over the closing sign says (MusicXML 4.0, ``repeat``, ``times``).
    for item in of(tuning, ["bar-repeat"]):
        facts = item["facts"]
        row = next(row for row in item["staff"] if row.startswith("|"))
        bars = re.findall(r"\|(:?)[-\d]+(:?)(?=\|)", row)
        counts = [int(match[1]) for line in item["staff"] if (match := re.fullmatch(r"\s*x(\d+)\s*", line))]
        times = counts[0] if counts else 2
        inside, played = False, 0
        for opened, closed in bars:
            inside = inside or bool(opened)
            played += times if inside else 1
            inside = inside and not closed
        assert (facts["bars"], facts["times"], facts["played"]) == (len(bars), times, played), item["id"]
        assert item["answers"] == [str(played)]


def test_forty_questions_of_time_and_all_of_them_asked_here() -> None:
    told = [item for item in items() if item["drill"].startswith(("bar-", "value-"))]
    assert {item["drill"] for item in told} == set(TIME)
    assert len(told) >= 40
    assert all(columns(item["staff"]) for item in told if item["drill"] != "value-name" and "rest" not in item["id"])
