"""What follows from the record: the same however it was reached, and nothing damaged is believed."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from tests.trainer.fakes import TODAY, make_event
from trainer.schedule.event import Event
from trainer.schedule.ledger import Ledger
from trainer.schedule.pairs import Confusion

MIRRORED = ("mirrored-line",)

events = st.lists(
    st.builds(
        make_event,
        item=st.sampled_from(["line/1/0", "line/2/0", "fret-to-note/standard/5/3", "a#b.c"]),
        day=st.integers(TODAY - 10, TODAY + 60),
        right=st.booleans(),
        seconds=st.one_of(st.none(), st.floats(0.15, 40.0)),
        said=st.sampled_from(["1", "6", "C#"]),
        misreadings=st.sampled_from([(), MIRRORED, ("octave", "mirrored-line"), ("octave",)]),
        helps=st.sampled_from([(), ("letters",)]),
    ),
    max_size=40,
)


def replay(record: list[Event]) -> Ledger:
    """A ledger from the first answer on."""
    ledger = Ledger(seed=3)
    for one in record:
        ledger.apply(one)
    return ledger


def through_files(ledger: Ledger) -> Ledger:
    """Written as TOML and read again."""
    memory, history = ledger.as_data()
    return Ledger.from_data(tomllib.loads(tomli_w.dumps(memory)), tomllib.loads(tomli_w.dumps(history)))


@given(events, st.integers(0, 40))
def test_a_rest_in_the_files_changes_nothing(record: list[Event], at: int) -> None:
    resumed = through_files(replay(record[:at]))
    for one in record[at:]:
        resumed.apply(one)
    straight = replay(record)
    assert resumed.as_data() == straight.as_data()
    assert resumed.states == straight.states
    assert resumed.last_day == straight.last_day
    assert [resumed.days[day].median_seconds for day in resumed.days] == [
        straight.days[day].median_seconds for day in straight.days
    ]


def test_days_are_tallied() -> None:
    ledger = replay(
        [
            make_event(seconds=1.0),
            make_event(seconds=2.0, right=False),
            make_event(seconds=4.0),
            make_event(seconds=None),
            make_event(day=TODAY + 1, seconds=59.0),
        ]
    )
    first, second = ledger.days[TODAY], ledger.days[TODAY + 1]
    assert (first.answers, first.right, first.median_seconds) == (4, 3, 2.0)
    assert first.spent == 1000 + 2000 + 4000 + 3000 + 4 * 1000
    assert second.spent == 31_000
    assert ledger.last_day == TODAY + 1
    assert ledger.events == 5


def test_a_misreading_counts_when_it_alone_fits() -> None:
    ledger = replay(
        [
            make_event(right=False, misreadings=MIRRORED),
            make_event(right=False, misreadings=MIRRORED, day=TODAY + 1),
            make_event("line/2/0", right=False, misreadings=MIRRORED),
            make_event(right=False, misreadings=("octave", "mirrored-line")),
            make_event(right=True),
        ]
    )
    assert ledger.misreadings == {"mirrored-line": {"line/1/0": 2, "line/2/0": 1}}
    assert ledger.misread_on == {"mirrored-line": TODAY + 1}


def test_good_cold_answers_make_up_for_a_confusion() -> None:
    ledger = replay([make_event(right=False, said="6", misreadings=MIRRORED) for _ in range(2)])
    assert ledger.confusions == {"line/1/0": {"6": Confusion("mirrored-line", 2, TODAY)}}
    ledger.apply(make_event(day=TODAY + 1))
    ledger.apply(make_event(day=TODAY + 1))
    assert ledger.confusions == {"line/1/0": {"6": Confusion("mirrored-line", 1, TODAY)}}
    ledger.apply(make_event(day=TODAY + 2))
    assert ledger.confusions == {}


def test_the_last_thirty_cold_answers_are_kept() -> None:
    ledger = replay([make_event(day=TODAY + day, right=day > 20) for day in range(41)])
    assert list(ledger.recent) == [False] * 10 + [True] * 20


def test_predictions_are_compared_with_cold_timed_answers_alone() -> None:
    answers = [
        make_event(),
        make_event(day=TODAY + 1, seconds=4.0),
        make_event(day=TODAY + 1, seconds=1.0),
        make_event(day=TODAY + 2, seconds=None),
        make_event(day=TODAY + 3, helps=("neck",)),
        make_event(day=TODAY + 4, right=False),
        make_event(day=TODAY + 5),
    ]
    ledger = replay(answers)
    assert ledger.predictions.n == 3
    assert sum(b.observed for b in ledger.predictions.bins) == 1
    chances = [replay(answers[:n]).states["line/1/0"].chance(answers[n].day) for n in (1, 5, 6)]
    assert chances[0] == 0.5
    assert sum(b.predicted for b in ledger.predictions.bins) == pytest.approx(sum(chances))
    assert ledger.predictions.log_loss is not None
    assert ledger.predictions.log_loss > 0
    assert Ledger().predictions.log_loss is None
    assert Ledger().predictions.constant_log_loss is None


def sample() -> tuple[dict[str, Any], dict[str, Any]]:
    """Tables of a ledger with a bit of everything."""
    return replay(
        [
            make_event(),
            make_event("line/2/0", right=False, said="5", misreadings=MIRRORED),
            make_event(day=TODAY + 1),
        ]
    ).as_data()


MET = f"{TODAY} {TODAY} {TODAY + 1} - - 0 0 0 0 0 0 0 1 1 1 0 1 1 3 1.0"


def test_the_sample_line_is_sound() -> None:
    memory, history = sample()
    memory["items"]["line/1/0"] = MET
    assert Ledger.from_data(memory, history).states["line/1/0"].pace == 1.0


@pytest.mark.parametrize(
    "line",
    [
        "",
        5,
        MET + " 7",
        MET.replace("- -", "3.0 5.0"),
        MET.replace("- - 0", "- - 1"),
        MET.replace("- - 0", "-1.0 5.0 1"),
        MET.replace("- - 0", "nan 5.0 1"),
        MET.replace("- - 0", "3.0 50.0 1"),
        MET.replace("1.0", "inf"),
        MET.replace("1.0", "fast"),
        MET.replace(f"{TODAY + 1}", f"{TODAY - 1}"),
        MET.replace(f"{TODAY + 1}", "99999999"),
        MET.replace(" 1 1 1 0 1 1", " 1 2 1 0 1 1"),
        MET.replace(" 1 1 1 0 1 1", " 1 1 1 5 1 1"),
        MET.replace(" 0 0 0 0 0 0 0 ", " 0 -1 0 0 0 0 0 "),
        MET.replace(" 3 1.0", " 4 1.0"),
    ],
)
def test_a_damaged_item_is_refused_by_name(line: object) -> None:
    memory, history = sample()
    memory["items"]["line/1/0"] = line
    with pytest.raises(ValueError, match="line/1/0"):
        Ledger.from_data(memory, history)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("seed", "x"),
        ("seed", True),
        ("events", -1),
        ("events", 1.5),
        ("recent", "+x"),
        ("recent", 3),
        ("columns", "met last"),
        ("items", []),
        ("confusions", {"line/1/0": {"6": 1}}),
        ("confusions", {"line/1/0": {"6": "0 20782 octave"}}),
        ("confusions", {"line/1/0": {"6": "1 tomorrow octave"}}),
        ("confusions", {"line/1/0": 3}),
    ],
)
def test_a_damaged_memory_is_refused(name: str, value: object) -> None:
    memory, history = sample()
    memory[name] = value
    with pytest.raises(ValueError, match=name if name != "confusions" else "line/1/0"):
        Ledger.from_data(memory, history)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("days", {"yesterday": "1 1 1000 1.0"}),
        ("days", {"2026-11-25": "1 2 1000 1.0"}),
        ("days", {"2026-11-25": "1 1"}),
        ("days", {"2026-11-25": "1 1 0 1.0"}),
        ("days", {"2026-11-25": "0 0 1000 1.0"}),
        ("days", {"2026-11-25": "1 1 1000 - nan"}),
        ("days", {"2026-11-25": 4}),
        ("misreadings", {"octave": 1}),
        ("misreadings", {"octave": {"line/1/0": -1}}),
        ("misread_on", {"octave": "soon"}),
        ("habits", {"octave": 3}),
        ("habits", {"octave": "1 1 2 0 -"}),
        ("habits", {"octave": "-1 -1 2 3 0 0 -"}),
        ("habits", {"octave": "1 2 2 3 0 0 -"}),
        ("habits", {"octave": "1 1 3 2 0 0 -"}),
        ("habits", {"octave": "1 1 2 3 0 0 -4"}),
        ("habits", {"octave": "1 1 2 3 -1 0 -"}),
        ("habits", {"octave": "1 1 2 3 0 -1 -"}),
        ("habits", {"octave": "1 1 2 3 0 0 -"}),
        ("unproved", {"mirrored-line": {"line/1/0": -1}}),
        ("predicted", {"loss": "much", "bins": []}),
        ("predicted", {"loss": 0.0, "bins": ["0 0.0 0"]}),
        ("predicted", {"loss": 0.0, "bins": ["0 0.0 1"] * 10}),
    ],
)
def test_a_damaged_history_is_refused(name: str, value: object) -> None:
    memory, history = sample()
    history[name] = value
    with pytest.raises(ValueError, match=r".+ (is|has) .+"):
        Ledger.from_data(memory, history)


def test_every_part_must_be_there() -> None:
    for at, table in enumerate(sample()):
        for name in table:
            damaged = deepcopy(sample())
            del damaged[at][name]
            with pytest.raises(ValueError, match=r"is|are|has"):
                Ledger.from_data(*damaged)
