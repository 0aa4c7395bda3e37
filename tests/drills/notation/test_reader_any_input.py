"""Any bytes give a reading, and twice the text takes at most 2.2 times the steps."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import FrameType
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.notation.reader import Reading, Severity, read_bytes, read_tab
from drills.notation.score import LINKING
from drills.notation.tuning import FRETS

if TYPE_CHECKING:
    from _typeshed import TraceFunction

TAB_SIGNS = "-----|||0123456789hpbrs/\\~vxXtTg^()<>[]{}=*.+:' \n\n\teBGDAEbcd#&—│♭½"
rows = st.lists(st.text("-----0123579hpb/\\~x|()<>^t=r ", max_size=40), min_size=3, max_size=9)


def holds(reading: Reading, text: str) -> None:
    """What is true of every reading."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    assert len(reading.bars) == len(reading.piece.bars) == len(reading.sources)
    for bar, places in zip(reading.piece.bars, reading.sources, strict=True):
        for onset, sources in zip(bar.onsets, places, strict=True):
            strings = [note.string for note in onset.notes]
            assert strings == sorted(set(strings))
            for note, source in zip(onset.notes, sources, strict=True):
                assert 1 <= note.string <= reading.piece.tuning.lines
                assert note.fret is None or 0 <= note.fret <= FRETS
                assert 1 <= source.line <= len(lines)
                assert 1 <= source.column <= len(lines[source.line - 1])
                reading.pitch(note)
    for mark in reading.marks:
        assert 0 <= mark.bar < len(reading.piece.bars)
        assert mark.onset is None or mark.onset < len(reading.piece.bars[mark.bar].onsets)
    for doubt in reading.doubts:
        assert 1 <= doubt.line <= len(lines)
        assert doubt.column >= 1
        assert doubt.message.isprintable()
        assert doubt.mend.isprintable()
    assert reading.systems or reading.errors
    assert reading.piece.title.isprintable()


@given(st.text())
def test_any_text_gives_a_reading(text: str) -> None:
    holds(read_tab(text), text.removeprefix("\ufeff"))


@given(st.text(TAB_SIGNS, max_size=300))
def test_any_signs_of_tab_give_a_reading(text: str) -> None:
    holds(read_tab(text), text)


LABELS = ["eBGDAE", "EADGBe", "GDAE", "      ", "DADGAD", "123456", "hHeEbB"]


@given(rows, st.sampled_from(LABELS), st.sampled_from("|: -"))
def test_any_rows_give_a_reading(bodies: list[str], labels: str, bar: str) -> None:
    text = "\n".join(label + bar + body for label, body in zip(labels * 2, bodies, strict=False))
    holds(read_tab(text), text)


@given(st.binary(max_size=400))
def test_any_bytes_give_a_reading(data: bytes) -> None:
    reading = read_bytes(data)
    assert all(doubt.message.isprintable() for doubt in reading.doubts)


@given(rows)
def test_a_linking_mark_leads_to_the_next_note_of_its_string(bodies: list[str]) -> None:
    reading = read_tab("\n".join("|" + body for body in bodies))
    for mark in reading.marks:
        if mark.kind in LINKING and mark.string is not None and mark.start is not None:
            notes = [
                (bar, index, note)
                for bar, index, onset in reading.piece.onsets()
                if (note := onset.on(mark.string)) is not None
            ]
            at = next(n for n, (bar, index, _) in enumerate(notes) if (bar, index) == (mark.bar, mark.onset))
            assert notes[at + 1][2].fret == mark.to


def test_no_text_is_an_error_that_says_how_to_mend_it() -> None:
    for text in ("", "\n\n", "a line of prose", "1999-12-31 - no tab\n", "-" * 50):
        reading = read_tab(text)
        assert [doubt.severity for doubt in reading.doubts] == [Severity.ERROR]
        assert "e|--0--3--|" in reading.doubts[0].mend
        assert reading.piece.bars == ()


def steps(text: str) -> int:
    """Lines of Python that reading a text executes."""
    count = 0

    def trace(frame: FrameType, event: str, arg: Any) -> TraceFunction | None:
        nonlocal count
        count += 1
        return trace

    before = sys.gettrace()
    sys.settrace(trace)
    try:
        read_tab(text)
    finally:
        sys.settrace(before)
    return count


SYSTEM = "\n".join(f"{label}|--0--2h3--|-5-7b9r7-x-|--12/14-|" for label in "eBGDAE") + "\n"
WIDE: dict[str, Callable[[int], str]] = {
    "systems": lambda n: (SYSTEM + "\nwords between\n") * n,
    "stacked systems": lambda n: SYSTEM * n,
    "one wide system": lambda n: "\n".join(label + "|" + "--0--2h3--|-5-7b9r7-" * n for label in "eBGDAE"),
    "side by side": lambda n: "\n".join(label + "|" + "-0-|   e|--" * n for label in "eBGDAE"),
    "letters without numbers": lambda n: "\n".join(label + "|--" + "h/~b" * n + "-" * 8 * n for label in "eBGDAE"),
    "digits": lambda n: "\n".join(label + "|--" + "9" * n + "-" * n for label in "eBGDAE"),
    "brackets": lambda n: "\n".join(label + "|--" + "(" * n + "-" * n for label in "eBGDAE"),
    "columns that drift": lambda n: "\n".join("-" * k + "10-" * 20 * n for k in range(6)),
    "rows alone": lambda n: "e|--\n" * 20 * n,
    "spaced rows": lambda n: "e|--5--|\n\n" * 6 * n,
    "a wide count line": lambda n: "1 2 3 4 " * 20 * n + "\n" + SYSTEM,
    "one wide counted bar": lambda n: "  " + "1 & 2 & 3 & 4 & " * 10 * n + "\n" + "\n".join(
        label + "|" + "5-3---2-" * 20 * n + "|" for label in "eBGDAE"
    ),
    "bars of two widths": lambda n: "\n".join(label + "|" + "--0-|-3-|" * 10 * n for label in "eBGDA")
    + "\nE|" + "-0-|--3-|" * 10 * n,
    "chords over many bars": lambda n: "Am  " * 10 * n + "\n" + "\n".join("|" + "-0-|" * 20 * n for _ in "eBGDAE"),
    "palm mutes": lambda n: "PM-- " * 20 * n + "\n" + "\n".join(label + "|" + "--0--" * 20 * n for label in "eBGDAE"),
    "lines over": lambda n: "Am\n" * 20 * n + SYSTEM,
    "prose": lambda n: "tuning drop capo half step down E A D G B\n" * 10 * n,
    "tags": lambda n: "<b><br>&lt;" * 20 * n,
}


@pytest.mark.parametrize("shape", WIDE)
def test_twice_the_text_takes_at_most_about_twice_the_steps(shape: str) -> None:
    once, twice = steps(WIDE[shape](40)), steps(WIDE[shape](80))
    assert twice <= 2.2 * once
