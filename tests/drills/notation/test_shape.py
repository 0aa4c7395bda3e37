"""Chord shapes: how they are written, what they ask of the hand, and which are taught in which tuning."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.kinds.chord_shapes import readings, taught
from drills.notation.shape import WIDEST_MM, Shape, parse_shape, scale_of
from drills.notation.tuning import parse_tuning, shipped

frets = st.one_of(st.none(), st.integers(0, 24))


@given(st.lists(frets, min_size=4, max_size=8).filter(any))
def test_a_shape_is_read_as_it_is_written(held: list[int | None]) -> None:
    shape = Shape(tuple(held))
    assert parse_shape(shape.text) == shape
    assert shape.mirrored().mirrored() == shape
    assert {shape.on(string) for string, _ in shape.places} == {fret for fret in held if fret is not None}


@pytest.mark.parametrize("text", ["", "x3", "xxxxxx", "x3201y", "x-30-1-1", "123456789", "٣32010", "x3 2010"])
def test_what_is_no_shape_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is no shape|plays no string|is no fret"):
        parse_shape(text)


def test_two_digits_are_kept_apart() -> None:
    assert parse_shape("x-10-12-12-x-x").frets == (None, 10, 12, 12, None, None)
    assert parse_shape("x-10-12-12-x-x").text == "x-10-12-12-x-x"


def test_a_stretch_is_measured_along_the_neck() -> None:
    # Frets 1 to 5 of a 650 mm string span 126 mm, 8 to 12 span 85 mm (twelfth root of two, arithmetic).
    assert round(parse_shape("1xxxx5").stretch(650)) == 127
    assert round(parse_shape("x-8-x-x-x-12").stretch(650)) == 84
    assert parse_shape("000000").stretch(650) == 0


@pytest.mark.parametrize("name", sorted(shipped()))
def test_no_taught_shape_stretches_the_hand_too_far(name: str) -> None:
    tuning = shipped()[name]
    assert taught(tuning)
    for entry in taught(tuning):
        assert entry.shape.lines == tuning.lines
        assert entry.shape.stretch(scale_of(tuning)) <= WIDEST_MM
        assert not entry.fingers or [bool(f) for f in entry.fingers] == [bool(f) for f in entry.shape.frets]
        assert not entry.shape.barre or entry.hard


def test_the_first_shapes_of_a_guitar_are_the_usual_ones() -> None:
    # Common practice, no source.
    first = [entry.shape.text for entry in taught(shipped()["standard"])][:7]
    assert first == ["022000", "x02210", "x32010", "320003", "xx0232", "022100", "x02220"]


@pytest.mark.parametrize(
    ("name", "roots"),
    [
        ("drop-d", ["D", "Em", "Am", "C", "A", "E", "G"]),
        ("dadgad", ["D", "Dm", "Em", "C", "G", "A", "Am"]),
        ("open-g", ["G", "Em", "G7", "C/G", "D", "A7", "F"]),
        ("open-a", ["A", "F#m", "A7", "D/A", "E", "B7", "G"]),
        ("open-d", ["D", "Bm", "D7", "G/D", "Em", "A", "Dm"]),
        ("bass", ["Em", "G", "C", "D/F#", "E", "Cm", "Gm"]),
    ],
)
def test_the_first_chords_of_a_tuning_are_those_of_its_key(name: str, roots: list[str]) -> None:
    # By hand, common practice, no source; the names are computed.
    tuning = shipped()[name]
    first = [entry for entry in taught(tuning) if entry.family == "first"]
    assert [readings(entry.shape, tuning)[0].name for entry in first] == roots
    # The very first ones leave no finger far from the nut.
    assert all(max(entry.shape.pressed, default=0) <= 4 for entry in first[:3])


@pytest.mark.parametrize("name", ["drop-d", "dadgad", "open-g", "open-d", "bass"])
def test_a_finger_holds_one_string_or_lies_across_several_at_one_fret(name: str) -> None:
    for entry in taught(shipped()[name]):
        held = sorted({pair for pair in zip(entry.fingers, entry.shape.frets, strict=True) if pair[0]})
        # One fret a finger, and fingers in the order of the frets: the index finger nearest to the nut.
        assert len({finger for finger, _ in held}) == len(held), entry.shape.text
        frets = [fret or 0 for _, fret in held]
        assert frets == sorted(frets), entry.shape.text


def test_a_string_more_leaves_the_shapes_where_they_are() -> None:
    seven = parse_tuning("own-35-40-45-50-55-59-64", {"strings": "E4 B3 G3 D3 A2 E2 B1"})
    texts = [entry.shape.text for entry in taught(seven)]
    assert texts[:3] == ["x022000", "xx02210", "xx32010"]
    assert len(set(texts)) == len(texts)


def test_a_short_drone_string_is_open_or_left_out() -> None:
    banjo = parse_tuning("own-67-50-55-59-62", {"strings": "D4 B3 G3 D3 G4"})
    shapes = [entry.shape for entry in taught(banjo)]
    assert {shape.on(5) for shape in shapes} == {0, None}
    assert parse_shape("00000") in shapes
    assert parse_shape("02012") in shapes  # G and C as banjo books print them (common practice, no source)
