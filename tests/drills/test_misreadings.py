"""Which misreadings fit a wrong answer: cases worked out by hand, and what holds of every one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21.interval import Interval
from music21.pitch import Pitch as Outside

from drills import misreadings
from drills.misreadings import Traps
from drills.notation.tuning import Tuning, shipped
from drills.question import Misreading
from tests.drills.samples import EVERY, answered, ask

STANDARD = shipped()["standard"]
MIRRORED, NEIGHBOUR = Misreading.MIRRORED_LINE, Misreading.NEIGHBOUR_LINE
OFF, SWAPPED, OCTAVE = Misreading.OFF_BY_ONE_FRET, Misreading.SWAPPED, Misreading.OCTAVE


def fits(traps: Traps, said: str) -> set[Misreading]:
    return {kind for kind, wrong in traps.items() if said in wrong}


@pytest.mark.parametrize(
    ("line", "said", "kinds"),
    [
        (6, "1", {MIRRORED}),
        (1, "6", {MIRRORED}),
        (2, "5", {MIRRORED}),
        (3, "4", {MIRRORED, NEIGHBOUR}),
        (4, "3", {MIRRORED, NEIGHBOUR}),
        (1, "2", {NEIGHBOUR}),
        (5, "6", {NEIGHBOUR}),
        (5, "3", set()),
        (6, "7", set()),
    ],
)
def test_lines(line: int, said: str, kinds: set[Misreading]) -> None:
    assert fits(misreadings.of_line(line, 6), said) == kinds


def test_the_middle_line_of_five_mirrors_itself() -> None:
    assert misreadings.of_line(3, 5) == {NEIGHBOUR: {"2", "4"}}


@pytest.mark.parametrize(
    ("said", "kinds"),
    [
        ("2/3", {MIRRORED}),
        ("4/3", {NEIGHBOUR}),
        ("6/3", {NEIGHBOUR}),
        ("5/2", {OFF}),
        ("5/4", {OFF}),
        ("3/5", {SWAPPED}),
        ("5/15", {OCTAVE}),
        ("2/4", set()),
        ("1/3", set()),
    ],
)
def test_places(said: str, kinds: set[Misreading]) -> None:
    assert fits(misreadings.of_place(5, 3, 6), said) == kinds


def test_places_at_the_edges() -> None:
    assert fits(misreadings.of_place(1, 0, 6), "0/1") == {SWAPPED}  # no such place, but that is how it was misread
    assert fits(misreadings.of_place(2, 9, 6), "9/2") == {SWAPPED}
    assert fits(misreadings.of_place(3, 3, 6), "3/3") == set()
    assert fits(misreadings.of_place(3, 2, 6), "4/2") == {MIRRORED, NEIGHBOUR}
    assert fits(misreadings.of_place(1, 13, 6), "1/1") == {OCTAVE}
    assert all("-" not in said for wrong in misreadings.of_place(1, 0, 4).values() for said in wrong)


@pytest.mark.parametrize(
    ("string", "fret", "said", "kinds"),
    [
        # String 5, fret 3 is C (A B C). String 2, fret 3 is D; string 4, fret 3 is F; string 6, fret 3 is G.
        (5, 3, "D", {MIRRORED}),
        (5, 3, "F", {NEIGHBOUR}),
        (5, 3, "E#", {NEIGHBOUR}),
        (5, 3, "G", {NEIGHBOUR}),
        (5, 3, "C#", {OFF, Misreading.SHARP_FLAT}),
        (5, 3, "Db", {OFF}),
        (5, 3, "B", {OFF}),
        (5, 3, "Cb", {OFF, Misreading.SHARP_FLAT}),
        # String 3, fret 5 is C as well: no misreading can be told from the right answer.
        (5, 3, "C", set()),
        (5, 3, "E", set()),
        # String 1 mirrors string 6 on the same letter: E on two strings is never a mirrored line.
        (1, 3, "E", set()),
        (6, 3, "G#", {OFF, Misreading.SHARP_FLAT}),
        # String 6, fret 6 is A# or Bb. The natural letter alone has lost its sharp or flat.
        (6, 6, "A", {OFF, Misreading.SHARP_FLAT}),
        (6, 6, "B", {OFF, Misreading.SHARP_FLAT}),
        (6, 6, "Ab", {Misreading.SHARP_FLAT}),
        (6, 6, "B#", {Misreading.SHARP_FLAT}),
        # String 4, fret 2 is E; string 2, fret 4 is D#; string 3, fret 2 (the mirrored one and a neighbour) is A.
        (4, 2, "D#", {OFF, SWAPPED}),
        (4, 2, "A", {MIRRORED, NEIGHBOUR}),
        (4, 2, "B", {NEIGHBOUR}),
    ],
)
def test_notes(string: int, fret: int, said: str, kinds: set[Misreading]) -> None:
    assert fits(misreadings.of_note(string, fret, STANDARD), said) == kinds


def test_both_open_e_strings_are_e() -> None:
    # The top line read as the bottom one gives the right letter: nothing wrong can come of it.
    for string in (1, 6):
        assert MIRRORED not in misreadings.of_note(string, 0, STANDARD)
        assert MIRRORED not in misreadings.of_note(string, 7, STANDARD)


@pytest.mark.parametrize(
    ("name", "string", "frets", "said", "kinds"),
    [
        # C: string 5 fret 3, string 2 fret 1, string 4 fret 10, string 6 fret 8.
        ("C", 5, range(5), "1", {MIRRORED}),
        ("C", 5, range(5), "2", {OFF}),
        ("C", 5, range(5), "4", {OFF}),
        ("C", 5, range(13), "10", {NEIGHBOUR}),
        ("C", 5, range(13), "8", {NEIGHBOUR}),
        ("C", 5, range(13), "3", set()),
        # E on string 6 from 0 to 12 is right at 0 and at 12; string 1 mirrors it there.
        ("E", 6, range(13), "0", set()),
        ("E", 6, range(13), "12", set()),
        ("E", 6, range(13), "11", {OFF}),
        ("E", 6, range(13), "7", {NEIGHBOUR}),
    ],
)
def test_frets(name: str, string: int, frets: range, said: str, kinds: set[Misreading]) -> None:
    assert fits(misreadings.of_fret(name, string, frets, STANDARD), said) == kinds


def test_counts() -> None:
    traps = misreadings.of_count(3, 9)
    assert fits(traps, "4") == fits(traps, "9") == {Misreading.TOO_MANY}
    assert fits(traps, "2") == fits(traps, "0") == {Misreading.TOO_FEW}
    assert fits(traps, "3") == fits(traps, "10") == set()


def test_picked_patterns() -> None:
    # 2h4 2: the second note is not picked.
    traps = misreadings.of_picked([True, False, True])
    assert fits(traps, "yyy") == {Misreading.PICKED_FOR_SLURRED}
    assert fits(traps, "ynn") == fits(traps, "nny") == fits(traps, "nnn") == {Misreading.SLURRED_FOR_PICKED}
    assert fits(traps, "yyn") == fits(traps, "nyn") == set()  # both kinds of slip: neither explains it
    assert fits(traps, "yny") == set()
    assert misreadings.of_picked([True, True]).keys() == {Misreading.SLURRED_FOR_PICKED}


def test_orders() -> None:
    traps = misreadings.of_order([4, 2], 6)
    assert fits(traps, "2 4") == {Misreading.WRONG_ORDER}
    assert fits(traps, "3 5") == {MIRRORED}
    assert fits(traps, "4 3") == set()
    both = misreadings.of_order([3, 4], 6)
    assert fits(both, "4 3") == {Misreading.WRONG_ORDER, MIRRORED}
    assert fits(misreadings.of_order([1, 2, 1], 6), "1 1 2") == {Misreading.WRONG_ORDER}


def test_sets() -> None:
    traps = misreadings.of_set([2, 1, 4], 6)
    assert fits(traps, "1 2") == fits(traps, "4") == {Misreading.TOO_FEW}
    assert fits(traps, "1 2 3 4") == fits(traps, "1 2 3 4 5 6") == {Misreading.TOO_MANY}
    assert fits(traps, "3 5 6") == {MIRRORED}
    assert fits(traps, "1 2 5") == fits(traps, "1 2 4") == set()
    assert MIRRORED not in misreadings.of_set([3, 4], 6)


def test_signs() -> None:
    for sign, opposite, other in (
        ("hammer-on", "pull-off", "full bend"),
        ("slide-up", "slide down", "hammer-on"),
        ("full-bend", "", "half bend"),
    ):
        for seed in range(40):
            question = ask(f"mark-name/{sign}-engraved", seed)
            if opposite:
                assert answered(question, opposite).misreadings == (Misreading.WRONG_DIRECTION,)
            if other in {option.text for option in question.options}:
                assert answered(question, other).misreadings == (Misreading.MARK_CONFUSED,)


def test_what_is_heard_backwards_goes_the_other_way() -> None:
    question = ask("mark-sounds/standard/h")
    assert question.answers == ("5, then 7",)
    assert answered(question, "7, then 5").misreadings == (Misreading.WRONG_DIRECTION,)
    assert answered(question, "5, then 6").misreadings == (OFF,)
    assert answered(question, "5").misreadings == (Misreading.TOO_FEW,)
    # A full bend that is heard as a half one is a fret too low.
    kinds = [answered(ask("mark-sounds/standard/full", seed), "7, then 8, then 5").misreadings for seed in range(40)]
    assert set(kinds) <= {(OFF,), ()}
    assert (OFF,) in kinds


tunings = st.sampled_from([shipped()[name] for name in EVERY])


@given(tunings, st.data())
def test_no_trap_holds_what_is_right(tuning: Tuning, data: st.DataObject) -> None:
    string, fret = data.draw(st.integers(1, tuning.lines)), data.draw(st.integers(0, 24))
    strings = data.draw(st.lists(st.integers(1, tuning.lines), min_size=1, max_size=5))
    marks = data.draw(st.lists(st.booleans(), min_size=1, max_size=6))
    count = data.draw(st.integers(1, 9))
    pitch = tuning.sound(string, fret)
    cases: list[tuple[Traps, set[str]]] = [
        (misreadings.of_line(string, tuning.lines), {str(string)}),
        (misreadings.of_place(string, fret, tuning.lines), {f"{string}/{fret}"}),
        (misreadings.of_note(string, fret, tuning), set(pitch.names)),
        (misreadings.of_fret(pitch.names[0], string, range(25), tuning), {str(fret)}),
        (misreadings.of_count(count, 9), {str(count)}),
        (misreadings.of_picked(marks), {"".join("ny"[mark] for mark in marks)}),
        (misreadings.of_order(strings, tuning.lines), {" ".join(map(str, strings))}),
        (misreadings.of_set(strings, tuning.lines), {" ".join(map(str, sorted(set(strings))))}),
    ]
    for traps, right in cases:
        assert set(traps) <= set(Misreading)
        assert all(wrong and not wrong & right for wrong in traps.values())


@given(tunings, st.data())
def test_a_wrong_note_by_any_of_its_names_is_the_same_misreading(tuning: Tuning, data: st.DataObject) -> None:
    traps = misreadings.of_note(data.draw(st.integers(1, tuning.lines)), data.draw(st.integers(0, 24)), tuning)
    alike = data.draw(st.sampled_from([("C", "B#"), ("B", "Cb"), ("E", "Fb"), ("F", "E#"), ("C#", "Db"), ("G#", "Ab")]))
    # A lost sharp or flat is a matter of the letter, every other misreading of the pitch.
    one, other = (fits(traps, name) - {Misreading.SHARP_FLAT} for name in alike)
    assert one == other


@pytest.mark.parametrize(("line", "semitones"), [(1, 24), (2, 14), (3, 5)])
def test_a_mirrored_line_sounds_so_far_away(line: int, semitones: int) -> None:
    # Standard tuning, open strings as guitar books print them (common practice, no source), measured by music21.
    printed = ["E4", "B3", "G3", "D3", "A2", "E2"]
    assert Interval(Outside(printed[6 - line]), Outside(printed[line - 1])).semitones == semitones
    (mirrored,) = misreadings.of_place(line, 3, 6)[MIRRORED]
    string, fret = map(int, mirrored.split("/"))
    assert STANDARD.sound(line, 3).midi - STANDARD.sound(string, fret).midi == semitones


def test_every_misreading_is_spoken_of_in_one_sentence() -> None:
    assert set(misreadings.SPOKEN) == set(Misreading)
    assert all(said.count(".") == 1 and said.endswith(".") for said in misreadings.SPOKEN.values())
