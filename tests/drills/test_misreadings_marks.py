"""Which misreadings fit a wrong answer about marks: cases worked out by hand, and what holds of every one."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given
from hypothesis import strategies as st

from drills import misreadings
from drills.misreadings import Traps
from drills.question import Misreading

DIRECTION, CONFUSED = Misreading.WRONG_DIRECTION, Misreading.MARK_CONFUSED
SLURRED, OFF = Misreading.SLURRED_FOR_PICKED, Misreading.OFF_BY_ONE_FRET
FEW, MANY = Misreading.TOO_FEW, Misreading.TOO_MANY


def fits(traps: Traps, said: str) -> set[Misreading]:
    return {kind for kind, wrong in traps.items() if said in wrong}


def say(frets: Sequence[int]) -> str:
    return " ".join(map(str, frets))


def test_a_sign_for_its_opposite_for_its_twin_or_for_any_other() -> None:
    answers = {"up": "rises", "down": "falls", "slurred": "no second pick", "bend": "arrow"}
    traps = misreadings.of_sign("up", answers, {DIRECTION: ["down"], SLURRED: ["slurred"]})
    assert fits(traps, "falls") == {DIRECTION}
    assert fits(traps, "no second pick") == {SLURRED}
    assert fits(traps, "arrow") == {CONFUSED}
    assert fits(traps, "rises") == fits(traps, "") == fits(traps, "banana") == set()


def test_a_sign_without_an_opposite_among_the_offered_ones_is_only_confused() -> None:
    traps = misreadings.of_sign("bend", {"bend": "arrow", "up": "rises"}, {DIRECTION: ["down"], SLURRED: [""]})
    assert traps == {CONFUSED: {"rises"}}


def test_what_is_heard_turned_round_a_fret_off_cut_short_or_begun_again() -> None:
    # A full bend at fret 7 and back: 7 9 7; heard as a half bend it is 7 8 7.
    traps = misreadings.of_heard([7, 9, 7], say)
    assert fits(traps, "7 8 7") == {OFF}
    assert fits(traps, "7 9") == fits(traps, "7") == {FEW}
    assert fits(traps, "7 9 7 7") == {MANY}
    assert DIRECTION not in traps  # it is the same both ways
    assert fits(traps, "7 11 7") == set()
    assert fits(misreadings.of_heard([5, 7], say), "7 5") == {DIRECTION}


def test_one_fret_apart_turned_round_is_no_fret_off() -> None:
    # 8 9 turned round is 9 8: two places are a fret off, not one.
    assert fits(misreadings.of_heard([8, 9], say), "9 8") == {DIRECTION}


def test_a_part_played_too_often_or_not_often_enough() -> None:
    # x3 is three times in all (MusicXML 4.0, ``repeat``, its ``times``).
    traps = misreadings.of_times(3, str, 4)
    assert traps == {MANY: {"4"}, FEW: {"1", "2"}}
    assert misreadings.of_times(1, str, 2) == {MANY: {"2"}}


@given(st.lists(st.integers(0, 24), min_size=1, max_size=5), st.integers(1, 4))
def test_no_trap_holds_what_is_right(heard: list[int], times: int) -> None:
    played = misreadings.of_times(times, str, 4)
    for traps, right in ((misreadings.of_heard(heard, say), say(heard)), (played, str(times))):
        assert all(wrong and right not in wrong for wrong in traps.values())
