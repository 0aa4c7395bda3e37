"""The signs: what is picked and what sounds, worked out again from definitions, and every fact with its source."""

from __future__ import annotations

import random
import re
from itertools import pairwise

import pytest

from drills.kinds.signs import PHRASES, SIGNS, Phrase, Sign
from drills.notation.score import Mark, MarkKind, Note, Onset
from drills.notation.staff import Dialect, draw_staff
from drills.question import Item, Manner
from tests.drills.kinds.theory import midi_of
from tests.drills.samples import EVERY, MANNERS, answered, ask, of

# The second note of these is sounded by the fretting hand (H. Wright, "The Guide to TAB Notation", 1995); of a slide
# it is where the slide is slurred, and our slides are (common practice, no source).
UNPICKED = {"hammer-on", "pull-off", "slide-up", "slide-down"}
# Which way each sign moves the pitch from a note to the next (H. Wright, 1995; slides by their diagonal: common
# practice, no source).
MOVES = {"hammer-on": 1, "pull-off": -1, "slide-up": 1, "slide-down": -1}
# MusicXML 4.0, ``bend-alter``: semitones. A half bend is one, a full bend two; a fret is a semitone.
BEND_ALTER = {0.5: 1, 1.0: 2}


def items(drill: str, tuning: str = "standard") -> list[Item]:
    return [item for item in of(tuning).items if item.drill == drill]


def amount(mark: Mark) -> float:
    assert mark.amount is not None
    return float(mark.amount)


def picked_of(notes: list[Note]) -> list[bool]:
    """A note is picked unless the one before it leads to it."""
    led = [bool({mark.kind.value for mark in before.marks} & UNPICKED) for before, _ in pairwise(notes)]
    return [True, *(not leads for leads in led)]


def sounds_of(notes: list[Note], tuning: str) -> list[int]:
    """Every pitch that is heard on one string."""
    heard: list[int] = []
    for note in notes:
        assert note.fret is not None
        base = midi_of(tuning, note.string, note.fret)
        heard.append(base)
        for mark in note.marks:
            if mark.kind.value == "bend":
                heard.append(base + BEND_ALTER[amount(mark)])
            elif mark.kind.value == "release":
                heard.append(base)
    return heard


def notes_of(onsets: tuple[Onset, ...]) -> list[Note]:
    return [note for onset in onsets for note in onset.notes]


def drawn_notes(item: Item, tuning: str, seed: int = 0) -> list[Note]:
    view = of(tuning).ask(item, random.Random(seed), Manner()).picture.staff
    assert view is not None
    return notes_of(view.piece.bars[0].onsets)


@pytest.mark.parametrize("sign", SIGNS, ids=lambda sign: sign.key)
def test_every_sign_has_its_source(sign: Sign) -> None:
    assert "Wright" in sign.source or "MusicXML" in sign.source or "common practice" in sign.source
    assert "MusicXML" in sign.source or "bend" not in sign.key


@pytest.mark.parametrize("tuning", EVERY)
def test_what_is_picked_and_what_sounds(tuning: str) -> None:
    for item in [*items("mark-picked", tuning), *items("mark-sounds", tuning)]:
        notes = drawn_notes(item, tuning)
        facts = of(tuning).facts(item)
        assert facts["picked"] == picked_of(notes), item.id
        assert facts["sounds"] == sounds_of(notes, tuning), item.id
        assert facts["frets"] == [note.fret for note in notes]
        question = of(tuning).ask(item, random.Random(1), Manner())
        if item.drill == "mark-picked":
            assert question.answers == ("".join("y" if struck else "n" for struck in picked_of(notes)),)
            assert len(notes) > 1
        else:
            opened = midi_of(tuning, notes[0].string, 0)
            frets = [midi - opened for midi in sounds_of(notes, tuning)]
            assert question.answers == (", then ".join("open" if f == 0 else str(f) for f in frets),)


@pytest.mark.parametrize("tuning", EVERY)
def test_what_a_sign_is(tuning: str) -> None:
    for item in [*items("mark-name", tuning), *items("mark-hand", tuning), *items("name-to-mark", tuning)]:
        facts = of(tuning).facts(item)
        if facts["mark"] == "bend":
            first, second = facts["sounds"]
            assert second - first == BEND_ALTER[facts["amount"]]
            assert facts["picked"] == [True]
        else:
            first, second = facts["sounds"]
            assert (second - first) * MOVES[facts["mark"]] > 0
            assert facts["picked"] == [True, False]
            assert facts["amount"] is None
        assert facts["source"]


def test_a_bend_and_its_release_on_the_third_string() -> None:
    # D4, up a whole step to E4, and back.
    assert of().facts(of().by_id["mark-sounds/standard/release"])["sounds"] == [62, 64, 62]
    assert ask("mark-sounds/standard/release").answers == ("7, then 9, then 7",)
    assert ask("mark-sounds/standard/half-release").answers == ("8, then 9, then 8",)


@pytest.mark.parametrize("phrase", PHRASES, ids=lambda phrase: phrase.key)
def test_every_phrase_can_be_played(phrase: Phrase) -> None:
    notes = phrase.notes
    for (fret, marks), (following, _) in pairwise(notes):
        for mark in marks:
            if mark.kind.value in MOVES:
                # A hammer-on rises and a pull-off falls, a slide goes where its diagonal does; no wider than a hand.
                assert (following - fret) * MOVES[mark.kind.value] > 0
                assert abs(following - fret) <= 3
    assert not {mark.kind.value for mark in notes[-1][1]} & set(MOVES)
    assert all(fret > 0 for fret, marks in notes if any(mark.kind is MarkKind.BEND for mark in marks))
    used = {mark.kind.value for _, marks in notes for mark in marks} - {"release"}
    assert used == {"bend" if key.endswith("bend") else key for key in phrase.signs}


@pytest.mark.parametrize("drill", ["mark-name", "mark-hand", "name-to-mark"])
def test_a_sign_that_is_drawn_goes_the_way_it_should(drill: str) -> None:
    for item in items(drill):
        for seed in range(15):
            view = ask(item.id, seed).picture.staff
            assert view is not None
            notes = notes_of(view.piece.bars[0].onsets)
            for n, note in enumerate(notes):
                for mark in note.marks:
                    if mark.kind.value in MOVES:
                        assert notes[n + 1].string == note.string
                        assert ((notes[n + 1].fret or 0) - (note.fret or 0)) * MOVES[mark.kind.value] > 0
                assert note.fret is not None
                assert 1 <= note.fret <= 15


@pytest.mark.parametrize(
    ("item", "sign"),
    [
        ("mark-name/hammer-on-engraved", "H"), ("mark-name/pull-off-engraved", "P"),
        ("mark-name/slide-up-engraved", "╱"),
        ("mark-name/slide-down-engraved", "╲"), ("mark-name/half-bend-engraved", "½"),
        ("mark-name/full-bend-engraved", "▲"),
        ("mark-name/hammer-on-text", "h"), ("mark-name/pull-off-text", "p"), ("mark-name/slide-up-text", "/"),
        ("mark-name/slide-down-text", "\\"), ("mark-name/half-bend-text", "b"), ("mark-name/full-bend-text", "b"),
    ],
)  # fmt: skip
def test_the_sign_that_is_asked_about_is_drawn_in_its_dialect(item: str, sign: str) -> None:
    for manner in MANNERS:
        view = ask(item, 2, manner).picture.staff
        assert view is not None
        drawn = "\n".join(draw_staff(view, double=True).text())
        assert drawn.count(sign) == 1
        if item.endswith("-text"):
            assert view.dialect is Dialect.TEXT


def test_a_typed_bend_names_the_fret_that_it_sounds_like() -> None:
    # "7b9": bend fret 7 until it sounds as fret 9 (H. Wright, 1995).
    for item, rise in (("mark-name/half-bend-text", 1), ("mark-name/full-bend-text", 2)):
        for seed in range(20):
            view = ask(item, seed).picture.staff
            assert view is not None
            (found,) = re.findall(r"(\d+)b(\d+)", "\n".join(draw_staff(view).text()))
            assert int(found[1]) - int(found[0]) == rise


def test_whether_a_slide_is_picked_is_asked_only_where_the_tab_tells() -> None:
    # In typed tab only a legend tells (common practice, no source): the printed arc does.
    for item in items("mark-picked"):
        slides = "slide" in " ".join(of().facts(item)["marks"])
        view = ask(item.id, manner=Manner(dialect=Dialect.TEXT)).picture.staff
        assert view is not None
        assert view.dialect is (Dialect.ENGRAVED if slides else Dialect.TEXT)


def test_every_offered_sound_can_be_told_from_the_right_one() -> None:
    for item in items("mark-sounds"):
        for seed in range(30):
            texts = [option.text for option in ask(item.id, seed).options]
            assert len(set(texts)) == 4
            for text in texts:
                assert re.fullmatch(r"(open|\d+)(, then (open|\d+))*", text)


def test_the_opposite_or_the_twin_of_a_sign_is_always_offered() -> None:
    for one, other in (("hammer-on", "pull-off"), ("slide-up", "slide down"), ("full-bend", "half bend")):
        for seed in range(30):
            assert other in {option.text for option in ask(f"mark-name/{one}-engraved", seed).options}


@pytest.mark.parametrize(
    ("item", "said", "why"),
    [
        ("mark-name/hammer-on-engraved", "pull-off",
         "This is a hammer-on: an arc over both numbers with an H; what you chose is a pull-off: an arc over both "
         "numbers with a P."),
        ("name-to-mark/hammer-on-text", "a p between the numbers",
         "A hammer-on is an h between the numbers; the one you chose is a pull-off."),
        ("mark-picked/plain", "yn", "No sign joins these notes, so the hand picks every one: y y."),
        ("mark-picked/h-then", "yyy",
         "The number after a hammer-on is sounded by the fretting hand, so it is not picked: y n y."),
        ("mark-picked/full", "yn", "A bend joins no two numbers, so each number is picked, and picked once: y y."),
        ("mark-sounds/standard/h", "7, then 5", "A hammer-on steps up to the next number: what is heard is 5, then 7."),
        ("mark-sounds/standard/release", "7",
         "A full bend ends two frets higher than its number, and its release comes back to the number: what is heard "
         "is 7, then 9, then 7."),
    ],
)  # fmt: skip
def test_why_it_is_wrong(item: str, said: str, why: str) -> None:
    assert answered(ask(item), said).why == why


def test_a_sign_that_strains_the_hand_comes_with_a_word_of_care() -> None:
    for item in items("mark-hand"):
        assert any("hurts" in line for line in of().explain(item, Manner()).lines)
