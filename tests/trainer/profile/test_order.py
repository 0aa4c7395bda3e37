"""The order in which lines count, whatever the order in which they are read."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.trainer.profile.faults import DAY, START, answer
from trainer.profile.lines import Entry, make_key, new_entry, to_milliseconds
from trainer.profile.order import settle


def _line(number: int, day: int, device: str = "aaaaaa") -> Entry:
    moment = to_milliseconds(START) + (day - DAY) * 86_400_000 + number
    return new_entry(make_key(moment, device, number), day, answer(number)._replace(day=day))


LINES = st.lists(
    st.tuples(st.integers(DAY, DAY + 40), st.sampled_from(["aaaaaa", "bbbbbb"])), min_size=1, max_size=12
).map(lambda days: [_line(number, day, device) for number, (day, device) in enumerate(days, 1)])


@given(LINES)
def test_the_order_of_reading_does_not_matter(lines: list[Entry]) -> None:
    expected, _ = settle(lines)
    assert settle(reversed(lines))[0] == expected
    assert settle([*lines, *lines])[0] == expected
    assert [(entry.day, entry.key) for entry in expected] == sorted((entry.day, entry.key) for entry in expected)


def test_lines_before_a_jump_back_get_no_later_day() -> None:
    days = [DAY, DAY + 700, DAY + 701, DAY + 1, DAY + 2]
    settled, _ = settle(_line(number, day) for number, day in enumerate(days, 1))
    assert [(entry.number, entry.day) for entry in settled] == [
        (1, DAY),
        (4, DAY + 1),
        (2, DAY + 1),
        (3, DAY + 1),
        (5, DAY + 2),
    ]
    assert all(entry.event is not None and entry.event.day == entry.day for entry in settled)


def test_another_device_is_not_touched_by_a_jump() -> None:
    lines = [_line(1, DAY + 700), _line(2, DAY), _line(1, DAY + 650, "bbbbbb")]
    settled, _ = settle(lines)
    assert [(entry.device, entry.day) for entry in settled] == [
        ("aaaaaa", DAY),
        ("aaaaaa", DAY),
        ("bbbbbb", DAY + 650),
    ]


def test_a_jump_that_is_about_to_be_written_counts_already() -> None:
    settled, _ = settle([_line(1, DAY + 700)], ("aaaaaa", DAY))
    assert [entry.day for entry in settled] == [DAY]
    settled, _ = settle([_line(1, DAY + 700)], ("bbbbbb", DAY))
    assert [entry.day for entry in settled] == [DAY + 700]
