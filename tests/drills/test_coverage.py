"""What a piece needs of the catalogue, held against what its text says by eye."""

from __future__ import annotations

import pytest

from drills.coverage import share, shares_by_bar, to_learn
from drills.needs import Needs, catalogue_for, needs_of
from drills.notation.reader import read_tab
from drills.notation.reading.shapes import Certainty, Reading
from drills.notation.tuning import shipped


def staff(**rows: str) -> str:
    """Six labelled rows, those that are not given without notes; ``e`` is the top one, ``E`` the bottom one."""
    longest = max(rows.values(), key=len)
    bare = "".join("|" if sign == "|" else "-" for sign in longest)
    return "\n".join(f"{label}|{(row := rows.get(label, '')) + bare[len(row):]}|" for label in "eBGDAE") + "\n"


def needs(text: str) -> Needs:
    reading = read_tab(text)
    return needs_of(reading, catalogue_for(reading))


def items_at(found: Needs, bar: int, onset: int, string: int) -> set[str]:
    (note,) = [note for note in found.notes if (note.bar, note.onset, note.string) == (bar, onset, string)]
    return set(note.items)


def test_a_number_needs_its_place_and_its_note() -> None:
    found = needs(staff(A="--3----8--"))
    assert items_at(found, 0, 0, 5) == {"tab-to-place/standard/5/3", "fret-to-note/standard/5/3"}
    assert items_at(found, 0, 1, 5) == {"fret-to-note/standard/5/8"}  # no place is asked between the landmarks
    assert (found.left_out, found.signs_left_out) == (0, 0)


@pytest.mark.parametrize(
    ("row", "phrase", "signs"),
    [
        ("--5h7--", "h", {"hammer-on"}),
        ("--0h2--", "h-open", {"hammer-on"}),
        ("--5h7p5--", "h-p", {"hammer-on", "pull-off"}),
        ("--7p5--", "p", {"pull-off"}),
        ("--5/7--", "up", {"slide-up"}),
        ("--7b9--", "full", {"full-bend"}),
        ("--7b8--", "half", {"half-bend"}),
    ],
)
def test_signs_need_their_names_hands_picking_and_sound(row: str, phrase: str, signs: set[str]) -> None:
    found = needs(staff(G=row))
    expected = {f"mark-{what}" for sign in signs for what in (f"name/{sign}-text", f"hand/{sign}")}
    expected |= {f"mark-picked/{phrase}", f"mark-sounds/standard/{phrase}"}
    for note in found.notes:  # whoever does not know the sign reads none of the notes that it joins
        assert {id for id in note.items if id.startswith("mark-")} == expected


def test_a_chain_that_no_phrase_shows_needs_those_of_its_parts() -> None:
    found = needs(staff(G="--5h7h9p7--"))
    assert {"mark-picked/h", "mark-picked/p"} <= items_at(found, 0, 0, 3)


def test_a_muted_x_needs_its_sign_and_no_place() -> None:
    found = needs(staff(D="--x--x--5--"))
    assert "mark-name/mute-text" in items_at(found, 0, 0, 4)
    assert not any(id.startswith(("tab-to-place", "fret-to-note")) for id in items_at(found, 0, 0, 4))


def test_a_stack_needs_its_shape_and_its_name() -> None:
    found = needs(staff(e="--0--", B="--1--", G="--0--", D="--2--", A="--3--"))
    for string in range(1, 6):
        assert {"tab-to-diagram/standard/x32010", "chord-name/standard/x32010"} <= items_at(found, 0, 0, string)
    pair = needs(staff(D="--2--", G="--1--"))
    assert "chord-interval/standard/xx21xx" in items_at(pair, 0, 0, 4)


def test_the_count_line_needs_the_metre_and_the_beats() -> None:
    text = "   1 & 2 & 3 & 4 &\n" + staff(G="-0---2-4---5---", e="")
    assert needs(text).whole == (
        "bar-count/standard/4-4/beats", "bar-beat/standard/4-4/1", "bar-beat/standard/4-4/halves/2",
        "bar-beat/standard/4-4/2-and", "bar-beat/standard/4-4/3-and",
    )  # fmt: skip


def test_without_a_count_nothing_is_needed_of_time() -> None:
    assert needs(staff(G="--0--2--")).whole == ()


def test_a_repeat_and_a_name_over_the_staff_are_needed_by_the_piece() -> None:
    rows = "\n".join(f"{label}||:--{0 if label == 'e' else '-'}----:||" for label in "eBGDAE")
    assert {"mark-name/repeat-text", "mark-hand/repeat"} <= set(needs(rows).whole)
    assert "name-to-diagram/standard/x02210" in needs("    Am\n" + staff(e="--0-----")).whole


def test_only_what_is_sure_counts() -> None:
    reading = read_tab(staff(G="--5--7--", D="--3--5--"))
    places = reading.sources[0]
    doubted = (places[0][0]._replace(certainty=Certainty.LIKELY), *places[0][1:])
    found = needs_of(reading._replace(sources=((doubted, *places[1:]),)), catalogue_for(reading))
    assert found.left_out == 1
    assert [(note.onset, note.string) for note in found.notes] == [(0, 4), (1, 3), (1, 4)]
    assert not any("chord" in id for id in items_at(found, 0, 0, 4))  # half a stack is no chord


def test_a_sign_that_is_not_sure_is_left_out_and_its_note_is_not() -> None:
    reading = read_tab(staff(G="--5h7--"))
    doubted = tuple(mark._replace(certainty=Certainty.GUESS) for mark in reading.marks)
    found = needs_of(reading._replace(marks=doubted), catalogue_for(reading))
    assert (found.left_out, found.signs_left_out, len(found.notes)) == (0, 1, 2)
    assert not any(id.startswith("mark-") for id in found.items)


def test_without_a_tuning_every_note_is_left_out() -> None:
    reading = read_tab("G|--0--2--|\nD|--------|\nA|--3-----|\nE|--------|\n")  # a bass, or a guitar's lower strings
    assert catalogue_for(reading) is None
    found = needs_of(reading, None)
    assert (found.notes, found.items, found.left_out) == ((), (), 3)
    assert share(found, lambda id: True) is None
    assert to_learn(found, None, fluent=lambda id: False, known=lambda id: False) == ()


def test_the_capo_changes_no_item() -> None:
    text = staff(A="--3----8--")
    assert needs("Capo 3\n\n" + text).items == needs(text).items


def test_a_note_is_read_once_all_that_it_needs_is() -> None:
    found = needs(staff(A="--3--3--0--|--2--"))
    three = {"tab-to-place/standard/5/3", "fret-to-note/standard/5/3"}
    assert share(found, three.__contains__) == 0.5
    assert share(found, {"tab-to-place/standard/5/3"}.__contains__) == 0
    assert shares_by_bar(found, three.__contains__) == {0: (2, 3), 1: (0, 1)}
    assert share(found, lambda id: True) == 1


@pytest.fixture
def read() -> Reading:
    return read_tab(staff(G="--5h7--", A="--------3--2--"))


def test_what_is_to_be_learned_stands_in_teaching_order_with_what_it_needs(read: Reading) -> None:
    catalogue = catalogue_for(read)
    assert catalogue is not None
    found = needs_of(read, catalogue)
    order = {item.id: n for n, item in enumerate(catalogue.items)}
    ids = to_learn(found, catalogue, fluent=lambda id: False, known=lambda id: False)
    assert set(found.items) < set(ids)
    assert [order[id] for id in ids] == sorted(order[id] for id in ids)
    for id in ids:
        assert set(catalogue.by_id[id].needs) <= set(ids)


def test_what_is_fluent_or_known_before_is_not_learned_again(read: Reading) -> None:
    catalogue = catalogue_for(read)
    found = needs_of(read, catalogue)
    one = "fret-to-note/standard/5/2"
    assert to_learn(found, catalogue, fluent=lambda id: id != one, known=lambda id: True) == (one,)
    with_needs = to_learn(found, catalogue, fluent=lambda id: id != one, known=lambda id: False)
    assert with_needs[-1] == one
    assert len(with_needs) > 1
    assert to_learn(found, catalogue, fluent=lambda id: True, known=lambda id: True) == ()


def test_other_strings_have_items_of_their_own() -> None:
    reading = read_tab("A|--3--|\nE|-----|\nC|--0--|\nG|-----|\n", tuning=shipped()["ukulele"])
    found = needs_of(reading, catalogue_for(reading))
    assert "fret-to-note/ukulele/1/3" in found.items
