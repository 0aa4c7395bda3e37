"""What people type, by kind and naming system: what is taken, as what, and that nothing typed breaks a reader."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills import answers
from drills.notation.pitch import Naming, class_of
from drills.notation.tuning import parse_tuning, shipped
from drills.question import Manner, Option
from tests.drills.samples import answered, ask

STANDARD = shipped()["standard"]
LETTERS, GERMAN, SOLFEGE = Naming.LETTERS, Naming.GERMAN, Naming.SOLFEGE

# Twelve keys by all names with at most one sharp or flat, from a keyboard chart (common practice, no source).
TWELVE = (
    "C B#", "C# Db", "D", "D# Eb", "E Fb", "F E#", "F# Gb", "G", "G# Ab", "A", "A# Bb", "B Cb",
)  # fmt: skip


@pytest.mark.parametrize("place", range(12))
def test_every_spelling_of_a_right_note_is_right(place: int) -> None:
    names = TWELVE[place].split()
    everyday = [n for n in names if n not in ("B#", "Cb", "E#", "Fb")]
    read = answers.note(everyday, LETTERS)
    for name in names:
        sign = name[:1] + name[1:].replace("#", "♯").replace("b", "♭")
        for typed in (name, name.lower(), name.upper(), sign, sign.lower(), f" {name} "):
            assert read(typed) in everyday, typed
    for wrong in (n for at, other in enumerate(TWELVE) if at != place for n in other.split()):
        assert read(wrong) not in everyday, wrong


@pytest.mark.parametrize(
    ("naming", "right", "typed", "taken"),
    [
        (LETTERS, "B", "b", "B"), (LETTERS, "Bb", "bb", "Bb"), (LETTERS, "Bb", "BB", "Bb"), (LETTERS, "Bb", "B♭", "Bb"),
        (LETTERS, "Bb", "b flat", "Bb"), (LETTERS, "F#", "F sharp", "F#"), (LETTERS, "C", "h", None),
        (LETTERS, "C", "do", None), (LETTERS, "C", "c", "C"), (LETTERS, "C", "x", None), (LETTERS, "C", "", None),
        (GERMAN, "B", "h", "B"), (GERMAN, "B", "H", "B"), (GERMAN, "Bb", "b", "Bb"), (GERMAN, "Bb", "B", "Bb"),
        (GERMAN, "B", "B", "Bb"), (GERMAN, "F#", "fis", "F#"), (GERMAN, "Eb", "es", "Eb"), (GERMAN, "Ab", "As", "Ab"),
        (GERMAN, "Db", "des", "Db"), (GERMAN, "F#", "f#", "F#"), (GERMAN, "C", "his", "C"), (GERMAN, "C", "do", None),
        (SOLFEGE, "C", "do", "C"), (SOLFEGE, "C", "ut", "C"), (SOLFEGE, "D", "ré", "D"), (SOLFEGE, "E", "MI", "E"),
        (SOLFEGE, "F#", "fa#", "F#"), (SOLFEGE, "F#", "fa ♯", "F#"), (SOLFEGE, "G", "sol", "G"),
        (SOLFEGE, "A", "la", "A"),
        (SOLFEGE, "B", "si", "B"), (SOLFEGE, "Bb", "sib", "Bb"), (SOLFEGE, "Bb", "si b", "Bb"),
        (SOLFEGE, "C", "si#", "C"),
    ],
)  # fmt: skip
def test_notes_in_the_learners_own_naming(naming: Naming, right: str, typed: str, taken: str | None) -> None:
    assert answers.note((right,), naming)(typed) == taken


@pytest.mark.parametrize(
    ("item", "typed", "usual"),
    [
        # String 5, fret 3 is C; string 2 open is B; string 1 open is E; string 1, fret 1 is F.
        ("fret-to-note/standard/5/3", "B#", "C"),
        ("fret-to-note/standard/2/0", "Cb", "B"),
        ("fret-to-note/standard/1/0", "Fb", "E"),
        ("fret-to-note/standard/1/1", "E#", "F"),
    ],
)
def test_an_unusual_name_is_right_and_gets_a_word(item: str, typed: str, usual: str) -> None:
    verdict = answered(ask(item), typed)
    assert (verdict.right, verdict.answer, verdict.misreadings) == (True, usual, ())
    assert verdict.why == f"{typed} sounds the same as {usual}, its usual name here."
    assert answered(ask(item), usual).why is None


def test_the_word_on_an_unusual_name_is_in_the_learners_naming() -> None:
    assert answered(ask("fret-to-note/standard/2/0", manner=Manner(GERMAN)), "Ces").why == (
        "Ces sounds the same as H, its usual name here."
    )
    assert answered(ask("fret-to-note/standard/2/0", manner=Manner(GERMAN)), "B").right is False
    assert answered(ask("fret-to-note/standard/5/3", manner=Manner(SOLFEGE)), "si#").why == (
        "si# sounds the same as do, its usual name here."
    )
    assert answered(ask("fret-to-note/standard/6/2"), "F#").why is None
    assert answered(ask("fret-to-note/standard/6/2"), "Gb").why is None


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("6", "6"), (" 1 ", "1"), ("06", "6"), ("0", None), ("7", None), ("-1", None), ("1.0", None), ("²", None),
     ("٣", None), ("", None), ("six", None), ("1 2", None)],
)  # fmt: skip
def test_numbers(typed: str, taken: str | None) -> None:
    assert answers.number(1, 6)(typed) == taken


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("low E", "6"), ("LOW  e", "6"), ("high E", "1"), ("high e", "1"), ("A", "5"), ("a", "5"), ("b", "2"), ("5", "5"),
     # A letter that two strings share proves neither of them.
     ("E", None), ("e", None), ("low A", None), ("c", None), ("7", None)],
)  # fmt: skip
def test_strings_by_name(typed: str, taken: str | None) -> None:
    assert answers.string(STANDARD, LETTERS, names=True)(typed) == taken


def test_strings_by_name_in_other_namings_and_tunings() -> None:
    german = answers.string(STANDARD, GERMAN, names=True)
    assert [german(typed) for typed in ("H", "h", "low E", "B")] == ["2", "2", "6", "2"]
    solfege = answers.string(STANDARD, SOLFEGE, names=True)
    assert [solfege(typed) for typed in ("si", "low mi", "high mi", "mi", "sol")] == ["2", "6", "1", None, "3"]
    drop_d = answers.string(shipped()["drop-d"], LETTERS, names=True)
    assert [drop_d(typed) for typed in ("low D", "high D", "D", "E")] == ["6", "4", None, "1"]
    three = answers.string(parse_tuning("own", {"strings": "D4 A3 F#3 D3 A2 D2"}), LETTERS, names=True)
    assert [three(typed) for typed in ("middle D", "d", "high a", "a", "f#")] == ["4", None, "2", None, "3"]


def test_a_string_asked_by_number_is_not_answered_by_name() -> None:
    assert answers.string(STANDARD, LETTERS, names=False)("A") is None
    assert answered(ask("line-to-string/standard/5"), "A").right is False
    assert answered(ask("line-to-string/standard/5-name"), "A").right is True


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("5/3", "5/3"), ("5 3", "5/3"), ("string 5, fret 3", "5/3"), ("5,3", "5/3"), ("05/03", "5/3"), ("6/0", "6/0"),
     ("1/24", "1/24"), ("1/25", None), ("7/3", None), ("0/3", None), ("53", None), ("5/", None), ("", None),
     ("5/3/1", None), ("٥/٣", None)],
)  # fmt: skip
def test_places(typed: str, taken: str | None) -> None:
    assert answers.place(6, 24)(typed) == taken


def test_choices_by_text_and_by_key() -> None:
    read = answers.choice([Option("1", "hammer-on", "hammer-on"), Option("2", "pull-off", "pull-off")])
    assert [read(typed) for typed in ("1", "2", "Pull-Off", " hammer-on ", "3", "hammer", "")] == [
        "hammer-on", "pull-off", "pull-off", "hammer-on", None, None, None,
    ]  # fmt: skip


def test_the_text_of_a_choice_wins_over_a_key() -> None:
    read = answers.choice([Option("1", "2", "2"), Option("2", "1", "1")])
    assert (read("1"), read("2")) == ("1", "2")


def test_choices_that_are_numbers_have_letters_for_keys() -> None:
    question = ask("mark-sounds/standard/h")
    assert [option.key for option in question.options] == ["a", "b", "c", "d"]
    assert [option.key for option in ask("mark-name/hammer-on-text").options] == ["1", "2", "3", "4"]
    halves = ask("bar-beat/standard/4-4/2-and").options
    assert [(option.key, option.answer) for option in halves[:3]] == [("a", "1"), ("b", "1&"), ("c", "2")]


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("ynn", "ynn"), ("YNN", "ynn"), ("y n n", "ynn"), ("y, n, n", "ynn"), ("100", "ynn"), ("1 0 0", "ynn"),
     ("yn", None),
     ("ynny", None), ("yes", None), ("", None), ("²nn", None)],
)  # fmt: skip
def test_picked_patterns(typed: str, taken: str | None) -> None:
    assert answers.picked(3)(typed) == taken


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("5 3 4", "5 3 4"), ("5,3,4", "5 3 4"), ("5, 3, 4", "5 3 4"), ("534", "5 3 4"), ("5 3", None), ("5 3 4 1", None),
     ("5 3 7", None), ("5 3 x", None), ("", None)],
)  # fmt: skip
def test_orders(typed: str, taken: str | None) -> None:
    assert answers.sequence(3, 6)(typed) == taken


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("1 3", "1 3"), ("3 1", "1 3"), ("3,1", "1 3"), ("31", "1 3"), ("1 3 3 1", "1 3"), ("2", "2"), ("7", None),
     ("", None),
     ("a b", None)],
)  # fmt: skip
def test_sets_in_any_order_doublings_ignored(typed: str, taken: str | None) -> None:
    assert answers.collection(6)(typed) == taken


@pytest.mark.parametrize(
    ("typed", "taken"),
    [("2", "2"), ("2&", "2&"), ("2and", "2&"), ("2 and", "2&"), ("2.5", "2&"), ("2+", "2&"), (" 2 & ", "2&"),
     ("4", None),
     ("2.25", "2e"), ("2.75", "2a"), ("2e", "2e"), ("2a", "2a"), ("2 a", "2a"),
     ("2.3", None), ("0", None), ("&", None), ("", None), ("2&&", None)],
)  # fmt: skip
def test_beats(typed: str, taken: str | None) -> None:
    assert answers.beat(3)(typed) == taken


READERS = [
    answers.number(1, 6), answers.place(6, 24), answers.picked(3), answers.sequence(3, 6), answers.collection(6),
    answers.beat(4), answers.choice([Option("a", "x", "x")]),
    *(answers.string(STANDARD, naming, names=True) for naming in Naming),
    *(answers.note(("A#", "Bb"), naming) for naming in Naming),
]  # fmt: skip


@given(st.sampled_from(READERS), st.text(max_size=30) | st.text("0123456789/&+. abh#♯b", max_size=12))
def test_nothing_that_is_typed_breaks_a_reader(read: answers.Reader, text: str) -> None:
    found = read(text)
    assert found is None or (found and found == found.strip() and len(found) <= 20)


@given(st.sampled_from(READERS), st.text("0123456789/&yn, ABCDEFG#b", min_size=1, max_size=8))
def test_a_normal_form_is_read_as_itself(read: answers.Reader, text: str) -> None:
    found = read(text)
    if found is None or read in READERS[-2:]:
        return  # other namings than letters say the normal form in their own words
    assert read(found) == found


@given(st.text("ABCDEFGabcdefgH#♯♭isedolrmfat ", max_size=6), st.sampled_from(Naming))
def test_a_note_that_is_read_has_a_pitch(text: str, naming: Naming) -> None:
    found = answers.note(("C",), naming)(text)
    assert found is None or 0 <= class_of(found) < 12
