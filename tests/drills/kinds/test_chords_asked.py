"""The drills of chords: what is drawn is what is asked, exactly one option fits, and every answer can be worked out."""

from __future__ import annotations

import random
import re

import pytest

from drills.kinds.chord_names import told_apart
from drills.kinds.chord_pictures import say_chord
from drills.notation.chords import chord_names, interval_spelled
from drills.notation.pitch import Naming
from drills.question import Item, Kind, Manner
from drills.stages import Stage
from tests.drills.kinds.theory import NAMES, OPEN, outside_class
from tests.drills.samples import EVERY, answered, ask, of

CORE = ("standard", "ukulele", "bass")
CHORDS = (
    "chord-tones", "chord-sounds", "chord-name", "chord-symbol", "chord-upper", "chord-interval", "chord-x",
    "diagram-to-tab", "tab-to-diagram", "name-to-diagram",
)  # fmt: skip


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


def heard(shape: str, tuning: str) -> list[int]:
    """What a shape sounds on a handbook's strings, low to high."""
    frets = shape.split("-") if "-" in shape else list(shape)
    strings = zip(range(len(frets), 0, -1), frets, strict=True)
    return sorted(OPEN[tuning][string - 1] + int(fret) for string, fret in strings if fret != "x")


def shape_of(item: Item) -> str:
    return item.subject.removeprefix("diagram-").removeprefix("staff-").partition("/")[0]


def test_there_are_chords_enough_of_many_kinds() -> None:
    counts = {drill: len(items(drill)) for drill in CHORDS}
    assert 120 <= sum(counts.values()) <= 260
    assert all(counts.values())
    # Enough to learn to read diagrams, no more: most shapes need no question of every kind.
    assert max(counts.values()) <= 70


@pytest.mark.parametrize("tuning", CORE)
def test_facts_say_what_sounds(tuning: str) -> None:
    for item in of(tuning).items:
        if item.drill not in CHORDS:
            continue
        facts = of(tuning).facts(item)
        sounding = heard(shape_of(item), tuning)
        if item.drill == "chord-upper":
            sounding = heard("x" * (len(shape_of(item)) - 3) + shape_of(item)[-3:], tuning)
        assert facts["pitches"] == sounding, item.id
        assert facts["chords"] == list(chord_names(sounding, bass=tuning != "ukulele"))


@pytest.mark.parametrize("tuning", CORE)
def test_notes_of_a_chord_are_right_in_any_order_and_by_either_name(tuning: str) -> None:
    for item in items("chord-tones", tuning):
        question = of(tuning).ask(item, random.Random(0), Manner())
        classes = list(dict.fromkeys(pitch % 12 for pitch in heard(item.subject, tuning)))
        for n in (0, -1):
            assert answered(question, " ".join(NAMES[number][n] for number in reversed(classes))).right, item.id
        assert {outside_class(name) for name in question.answers[0].split()} == set(classes)
        assert not answered(question, " ".join(NAMES[number][0] for number in classes[:-1])).right


def test_plain_letters_may_run_together() -> None:
    question = ask("chord-tones/standard/x32010")
    for said in ("ceg", "C,E,G", "g e c", "c e g c e", "B# E G"):
        assert answered(question, said).right, said
    assert answered(ask("chord-tones/standard/320003"), "gbd").right
    assert question.parse("see") is None
    german = ask("chord-tones/standard/320003", manner=Manner(Naming.GERMAN))
    assert answered(german, "G H D").right
    assert not answered(german, "G B D").right


@pytest.mark.parametrize("tuning", CORE)
def test_exactly_one_name_fits(tuning: str) -> None:
    for item in items("chord-name", tuning):
        for seed in range(5):
            question = of(tuning).ask(item, random.Random(seed), Manner())
            fitting = set(chord_names(heard(item.subject, tuning), bass=tuning != "ukulele"))
            assert len([option for option in question.options if option.answer in fitting]) == 1, item.id


@pytest.mark.parametrize("tuning", CORE)
def test_exactly_one_chord_has_all_of_an_upper_part(tuning: str) -> None:
    triads = {"": (0, 4, 7), "m": (0, 3, 7), "7": (0, 4, 7, 10), "m7": (0, 3, 7, 10), "6": (0, 4, 7, 9)}
    for item in items("chord-upper", tuning):
        part = {pitch % 12 for pitch in heard("x" * (len(shape_of(item)) - 3) + shape_of(item)[-3:], tuning)}
        question = of(tuning).ask(item, random.Random(1), Manner())
        for option in question.options:
            root = option.answer[:2] if option.answer[1:2] in ("#", "b") else option.answer[:1]
            tones = {(outside_class(root) + step) % 12 for step in triads[option.answer[len(root) :]]}
            assert (part <= tones) == (option.answer in question.answers), (item.id, option.answer)


@pytest.mark.parametrize("tuning", CORE)
def test_from_low_to_high_is_by_pitch(tuning: str) -> None:
    for item in items("chord-sounds", tuning):
        question = of(tuning).ask(item, random.Random(2), Manner())
        assert [outside_class(name) for name in question.answers[0].split()] == [
            pitch % 12 for pitch in heard(item.subject, tuning)
        ]


def test_an_x_is_struck_on_the_staff_and_left_out_over_a_diagram() -> None:
    # H. Wright, "The Guide to TAB Notation", 1995: an x on the staff is struck; in a shape string it is not played.
    assert ask("chord-x/standard/diagram-x32010").answers == ("5",)
    assert ask("chord-x/standard/staff-x32010").answers == ("6",)
    assert answered(ask("chord-x/standard/staff-x32010"), "5").why == (
        "On a staff an x is struck too, with the string damped: 6 strings, 1 of them damped."
    )


@pytest.mark.parametrize("tuning", ["standard", "bass", "8-string", "dadgad"])
def test_how_many_strings_are_struck_has_to_be_counted(tuning: str) -> None:
    # On the staff the strings beside the chord are struck, not always all of them.
    for where in ("diagram-", "staff-"):
        asked = [item for item in items("chord-x", tuning) if item.subject.startswith(where)]
        assert len({of(tuning).facts(item)["struck"] for item in asked}) > 1
        for item in asked:
            staff = of(tuning).ask(item, random.Random(0), Manner()).picture.staff
            if staff is not None:
                ((*_, onset),) = staff.piece.onsets()
                played = {note.string: note.fret for note in onset.notes}
                assert len(played) == of(tuning).facts(item)["struck"]
                lines = len(shape_of(item))
                assert {lines - n: int(fret) for n, fret in enumerate(shape_of(item)) if fret != "x"} == {
                    string: fret for string, fret in played.items() if fret is not None
                }


def test_no_name_stands_out() -> None:
    # Where a power chord or a slash is the answer, the others are of its kind too.
    for item in items("chord-name"):
        question = of().ask(item, random.Random(4), Manner())
        for sign in (r"[A-G][#b]?5", r".*/.*"):
            if re.fullmatch(sign, question.model):
                alike = [option for option in question.options if re.fullmatch(sign, option.answer)]
                assert len(alike) >= 3, item.id


def test_two_notes_are_spelled_as_their_distance_is_counted() -> None:
    # A third spans three letters, whatever its sharps and flats (common practice, no source).
    spans = (1, 2, 2, 3, 3, 4, 4, 5, 6, 6, 7, 7, 8)
    for low in range(60, 72):
        for semitones, span in enumerate(spans):
            one, other = interval_spelled(low, semitones)
            assert (outside_class(one) - low) % 12 == 0
            assert (outside_class(other) - low - semitones) % 12 == 0
            letters = 1 + ("CDEFGAB".index(other[0]) - "CDEFGAB".index(one[0])) % 7
            assert letters in ({4, 5} if semitones == 6 else {span, 1 if span == 8 else span}), (one, other)
    with pytest.raises(ValueError, match="13 semitones"):
        interval_spelled(60, 13)


@pytest.mark.parametrize("tuning", CORE)
def test_two_notes_lie_under_one_hand(tuning: str) -> None:
    for item in items("chord-interval", tuning):
        signs = item.subject.split("-") if "-" in item.subject else list(item.subject)
        frets = [int(sign) for sign in signs if sign != "x"]
        assert len(frets) == 2
        assert abs(frets[0] - frets[1]) <= 4, item.id


def test_the_first_diagrams_come_as_soon_as_columns_are_read() -> None:
    first = [item for item in items("diagram-to-tab") if item.stage == Stage.BARS]
    assert [item.subject for item in first] == ["022000", "x02210", "x32010"]
    assert all("order/standard/set-1.3" in item.needs for item in first)


@pytest.mark.parametrize("tuning", EVERY)
def test_lessons_of_a_drill_have_titles_of_their_own(tuning: str) -> None:
    titles: dict[tuple[str, str], str] = {}
    for item in of(tuning).items:
        if item.drill in (*CHORDS, "capo", "octave", "same-pitch", "finger"):
            key = (item.drill, of(tuning).explain(item, Manner()).title)
            assert titles.setdefault(key, item.lesson) == item.lesson, key


@pytest.mark.parametrize("drill", ["diagram-to-tab", "tab-to-diagram", "name-to-diagram"])
def test_what_is_drawn_is_what_is_asked(drill: str) -> None:
    for item in items(drill):
        question = of().ask(item, random.Random(3), Manner())
        assert item.kind is Kind.CHOICE
        assert question.answers == (item.subject,)
        assert len({option.answer for option in question.options}) == 4
        view, staff = question.picture.diagram, question.picture.staff
        assert view is not None
        shown = [box.shape.text for box in view.boxes]
        if drill == "diagram-to-tab":
            assert shown == [item.subject]
            assert staff is not None
            columns = [{n.string: n.fret for n in onset.notes} for _, _, onset in staff.piece.onsets()]
            for option, column in zip(question.options, columns, strict=True):
                frets = zip(range(6, 0, -1), option.answer, strict=True)
                assert column == {string: int(fret) for string, fret in frets if fret != "x"}
        else:
            assert shown == [option.answer for option in question.options]


def test_typed_names_come_long_after_they_were_chosen_from_a_few() -> None:
    asked = items("chord-symbol")
    assert 20 <= len(asked) <= 30
    for item in asked:
        (need,) = item.needs
        assert need == f"chord-name/standard/{item.subject}"
        assert of().by_id[need].stage < item.stage
        picture = of().ask(item, random.Random(0), Manner()).picture
        assert (picture.staff is None) == (picture.diagram is not None) == (item.stage == Stage.RARE_SIGNS)
    # The time that is allowed depends on what is seen, never on the name.
    for stage in {item.stage for item in asked}:
        strings: dict[int, float] = {}
        for item in asked:
            if item.stage == stage:
                assert strings.setdefault(len(heard(item.subject, "standard")), item.think) == item.think


@pytest.mark.parametrize("tuning", EVERY)
def test_every_name_that_fits_may_be_typed(tuning: str) -> None:
    asked = items("chord-symbol", tuning)
    assert len(asked) >= 5
    for item in asked:
        for naming in Naming:
            question = of(tuning).ask(item, random.Random(0), Manner(naming))
            assert list(question.answers) == of(tuning).facts(item)["chords"]
            for name in question.answers:
                assert answered(question, say_chord(name, naming)).right, (item.id, name)
        for said in ("Ebm(maj9)/A", "G#m7b5", "C5", "G13", "nothing", ""):
            verdict = answered(question, said)
            assert not verdict.right
            assert verdict.why
            assert verdict.why.count(": that is ") == 1


def test_a_typed_name_may_be_an_unusual_one() -> None:
    def said(shape: str, text: str, naming: Naming = Naming.LETTERS) -> tuple[bool, str, str | None]:
        verdict = answered(ask(f"chord-symbol/standard/{shape}", manner=Manner(naming)), text)
        return verdict.right, verdict.said, verdict.why

    assert said("x02010", "am7") == (True, "Am7", None)
    assert said("x02010", "C6/A") == (True, "C6/A", None)
    assert said("x32010", "B#") == (True, "C", "B# sounds the same as C, its usual name here.")
    assert said("2x0232", "D") == (True, "D/F#", "The lowest note is F#, so the whole name is D/F#.")
    assert said("2x0232", "D", Naming.GERMAN)[2] == "The lowest note is Fis, so the whole name is D/Fis."
    assert said("2x0232", "re/solb", Naming.SOLFEGE) == (True, "D/F#", None)
    assert said("x21202", "h7", Naming.GERMAN) == (True, "B7", None)
    assert said("x21202", "b7", Naming.GERMAN)[:2] == (False, "Bb7")
    assert said("xx0233", "Gsus2") == (
        False, "Gsus2", "Gsus2 has these notes too, but the lowest one here is D: that is Dsus4.",
    )  # fmt: skip
    assert said("x02210", "A") == (False, "A", "The notes are A, C, E: that is Am; A has A, C#, E.")


def test_names_that_a_naming_would_confuse_are_not_offered_together() -> None:
    assert told_apart(["B5", "Bb5", "A5"], say_chord) == ["B5", "A5"]
    assert [say_chord("B7", naming) for naming in Naming] == ["B7", "H7", "Si7"]
    assert say_chord("Bb/D", Naming.GERMAN) == "B/D"
