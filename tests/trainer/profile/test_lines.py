"""One answer <-> one line, read back with tomllib."""

from __future__ import annotations

import tomllib
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.trainer.profile.faults import START, answer
from trainer.profile import lines
from trainer.profile.keys import next_key
from trainer.profile.lines import answer_line, baseline_line, clean, make_key, parse_line, to_milliseconds
from trainer.schedule.event import Event

KEY = make_key(to_milliseconds(datetime(2026, 11, 25, 8, 0, 0, 123_999, tzinfo=UTC)), "k3f9w2", 412)
TEXT = st.text(alphabet=st.characters(codec=None, exclude_categories=()), max_size=250)
SECONDS = st.floats(0, 1e8, allow_nan=False)
EVENTS = st.builds(
    Event,
    day=st.integers(0, 999_999),
    item=TEXT,
    right=st.booleans(),
    said=TEXT,
    seconds=st.none() | st.floats(),
    base=SECONDS,
    limit=SECONDS,
    timed=st.booleans(),
    misreadings=st.lists(TEXT, max_size=3).map(tuple),
    help=st.lists(TEXT, max_size=3).map(tuple),
)


def test_a_line_is_exactly_as_it_was_agreed() -> None:
    event = Event(20782, "fret-to-note/standard/5/3", True, "C", 1.4, 0.62, 1.82)
    assert answer_line(KEY, event) == (
        '"2026-11-25T08:00:00.123Z k3f9w2 000412" = { day = 20782, item = "fret-to-note/standard/5/3", right = true, '
        'said = "C", seconds = 1.40, base = 0.62, limit = 1.82 }'
    )
    assert baseline_line(KEY, 20782, 0.61) == f'"{KEY}" = {{ day = 20782, baseline = 0.61 }}'


def test_what_is_optional_stands_only_where_it_says_something() -> None:
    event = Event(1, "a", False, "D", None, 0.5, 1.7, False, ("octave", "sharp-flat"), ("letters",))
    fields = tomllib.loads(answer_line(KEY, event))[KEY]
    assert fields == {
        "day": 1,
        "item": "a",
        "right": False,
        "said": "D",
        "base": 0.5,
        "limit": 1.7,
        "timed": False,
        "misreadings": ["octave", "sharp-flat"],
        "help": ["letters"],
    }


@given(EVENTS)
def test_any_answer_comes_back_from_a_line_that_tomllib_reads(event: Event) -> None:
    kept = clean(event)
    line = answer_line(KEY, kept)
    assert line.isprintable()
    line.encode()
    fields = tomllib.loads(line)[KEY]
    assert fields["said"] == kept.said
    assert len(fields["said"]) <= 200
    assert parse_line(line).event == kept


@given(EVENTS)
def test_the_fast_reading_agrees_with_tomllib(event: Event) -> None:
    line = answer_line(KEY, clean(event))
    assert parse_line(line) == lines._parse_any(line)


@given(st.text(max_size=40), st.integers(0, 200), st.integers(0, 3))
def test_both_readings_refuse_the_same_lines(noise: str, place: int, cut: int) -> None:
    line = answer_line(KEY, answer(3, right=False))
    line = line[:place] + noise + line[place + cut :]

    def outcome(read: object) -> object:
        try:
            return lines._parse_any(line) if read == "any" else parse_line(line)
        except ValueError:
            return None

    assert outcome("own") == outcome("any")


def test_what_is_ordinary_takes_the_fast_path() -> None:
    for event in (answer(1), answer(2, right=False), answer(3)._replace(seconds=None, timed=False, help=("neck", "a"))):
        assert lines._OWN.fullmatch(answer_line(KEY, event))


def test_lone_surrogates_are_replaced_and_long_texts_cut() -> None:
    kept = clean(answer(said="\ud800x" + "y" * 300))
    assert kept.said == "\ufffdx" + "y" * 198


@pytest.mark.parametrize("seconds", [float("nan"), float("inf"), -1.0, 1e300])
def test_seconds_that_are_no_time_make_an_untimed_answer(seconds: float) -> None:
    kept = clean(answer()._replace(seconds=seconds))
    assert kept.seconds is None
    assert not kept.timed


@pytest.mark.parametrize(
    "wrong",
    [
        answer()._replace(base=float("nan")),
        answer()._replace(limit=-1.0),
        answer()._replace(day=-1),
        answer()._replace(day=10**6),
    ],
)
def test_an_answer_without_day_base_or_limit_is_refused(wrong: Event) -> None:
    with pytest.raises(ValueError, match="numbers"):
        clean(wrong)


@pytest.mark.parametrize(
    "line",
    [
        "",
        "nonsense",
        "format = 1",
        '"2026-11-25T08:00:00.123Z k3f9w2 000412" = 3',
        '"2026-02-30T08:00:00.123Z k3f9w2 000412" = { day = 1, baseline = 0.5 }',
        '"2026-11-25T25:00:00.123Z k3f9w2 000412" = { day = 1, baseline = 0.5 }',
        '"2026-11-25T08:00:00.123Z K3F9W2 000412" = { day = 1, baseline = 0.5 }',
        f'"{KEY}" = {{ day = 1, baseline = "x" }}',
        f'"{KEY}" = {{ day = true, item = "a", right = true, said = "C", base = 0.5, limit = 1.5 }}',
        f'"{KEY}" = {{ day = 1, item = 3, right = true, said = "C", base = 0.5, limit = 1.5 }}',
        f'"{KEY}" = {{ day = 1, item = "a", right = 1, said = "C", base = 0.5, limit = 1.5 }}',
        f'"{KEY}" = {{ day = 1, item = "a", right = true, said = "C", base = inf, limit = 1.5 }}',
        f'"{KEY}" = {{ day = 1, item = "a", right = true, said = "C", base = 0.5 }}',
        f'"{KEY}" = {{ day = 1, item = "a", right = true, said = "C", base = 0.5, limit = 1.5, help = "x" }}',
    ],
)
def test_what_is_no_answer_is_refused(line: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        parse_line(line)


def test_a_field_of_a_later_version_does_no_harm() -> None:
    line = answer_line(KEY, answer()).replace(" }", ", mood = 3 }")
    assert parse_line(line).event == answer()


def test_a_baseline_comes_back() -> None:
    entry = parse_line(baseline_line(KEY, 20782, 0.61))
    assert (entry.day, entry.event, entry.baseline) == (20782, None, 0.61)
    dayless = parse_line(f'"{KEY}" = {{ baseline = 0.61 }}')
    assert dayless.day == 20782


def test_a_key_says_device_and_number() -> None:
    entry = parse_line(answer_line(KEY, answer()))
    assert (entry.device, entry.number) == ("k3f9w2", 412)
    assert lines.key_time(entry.key) == to_milliseconds(START) + 123


def test_keys_rise_while_the_clock_stands_still() -> None:
    keys = [""]
    for number in range(1, 1200):
        keys.append(next_key(START, "k3f9w2", number, keys[-1]))
    assert keys == sorted(set(keys))


def test_keys_rise_after_a_small_step_back_and_after_another_device() -> None:
    last = next_key(START, "zzzzzz", 7, "")
    for back in (timedelta(), timedelta(hours=1), timedelta(days=7)):
        assert next_key(START - back, "aaaaaa", 1, last) > last


def test_after_a_large_jump_back_the_clock_is_believed() -> None:
    last = next_key(START, "k3f9w2", 7, "")
    key = next_key(START - timedelta(days=30), "k3f9w2", 8, last)
    assert key.startswith("2026-10-26T08:00:00.000Z")
