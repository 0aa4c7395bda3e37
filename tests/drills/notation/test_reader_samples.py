"""Tab in three families, tidy, usual and awful. What stands in each was written down by eye, not by the reader.

The phrases are our own. Where they say what a sign means, it is by H. Wright, "The Guide to TAB Notation", 1995, or by
common practice without a source.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from drills.notation.reader import Reading, Severity, read_tab
from drills.notation.score import Mark, Note, Piece

FAMILIES: Final = ("tidy", "usual", "awful")
SIGNS: Final = {
    "hammer-on": "h", "pull-off": "p", "slide-up": "u", "slide-down": "d", "slide-in-up": "iu", "slide-in-down": "id",
    "slide-out-up": "ou", "slide-out-down": "od", "bend": "b", "pre-bend": "pb", "release": "r", "vibrato": "~",
    "palm-mute": "pm", "let-ring": "lr", "ghost": "g", "harmonic": "H", "pinch-harmonic": "PH", "tap": "t",
    "trill": "tr", "tie": "tie", "grace": "gr", "accent": ">", "staccato": ".",
}  # fmt: skip
"""Short names for the marks of a note."""

Sample = tuple[str, dict[str, str]]


def samples() -> dict[str, Sample]:
    """Name -> the tab, and what stands in it."""
    found: dict[str, Sample] = {}
    for family in FAMILIES:
        text = Path(__file__).with_name("tabs").joinpath(f"{family}.txt").read_text(encoding="utf-8")
        for entry in text.removeprefix("== ").split("\n== "):
            name, _, rest = entry.partition("\n")
            tab, _, told = rest.partition("\n--\n")
            facts = dict(line.split(": ", 1) for line in told.splitlines() if line)
            found[f"{family}: {name}"] = (tab, facts)
    return found


SAMPLES: Final = samples()


def _sign(mark: Mark) -> str:
    sign = SIGNS[mark.kind.value]
    if sign in ("b", "pb"):
        return sign + ("?" if mark.amount is None else str(mark.amount))
    return sign + (str(mark.to) if mark.to is not None else "")


def _note(note: Note) -> str:
    signs = ",".join(_sign(mark) for mark in note.marks)
    return f"{note.string}:{'x' if note.fret is None else note.fret}" + (f"({signs})" if signs else "")


def seen(piece: Piece) -> str:
    """Bars, onsets, notes and marks in one line."""
    bars = (" ".join("+".join(map(_note, onset.notes)) for onset in bar.onsets) for bar in piece.bars)
    return " | ".join(bars)


def repeats(reading: Reading) -> str:
    """``1-2x4``: bars 1 to 2 four times."""
    found, opened = [], 1
    for number, bar in enumerate(reading.piece.bars, start=1):
        opened = number if bar.opens_repeat else opened
        if bar.times > 1:
            found.append(f"{opened}-{number}x{bar.times}")
            opened = number + 1
    return " ".join(found)


def fact(reading: Reading, key: str) -> str:
    """What the reading says of a key of the samples."""
    onsets = [onset for _, _, onset in reading.piece.onsets()]
    return {
        "bars": seen(reading.piece),
        "tuning": f"{reading.piece.tuning.name} {reading.tuning_from.value}",
        "capo": str(reading.piece.tuning.capo),
        "title": reading.piece.title,
        "systems": str(reading.systems),
        "repeats": repeats(reading),
        "beats": " ".join(str(onset.beat) for onset in onsets),
        "metre": str(reading.piece.bars[0].metre if reading.piece.bars else None),
        "numbers": " ".join(str(bar.number) for bar in reading.bars),
        "chords": " ".join(name for bar in reading.bars for _, name in bar.chords),
    }[key]


@pytest.mark.parametrize("name", SAMPLES)
def test_what_stands_in_a_sample_is_read(name: str) -> None:
    tab, facts = SAMPLES[name]
    reading = read_tab(tab)
    for key, told in facts.items():
        if key in ("warns", "errors"):
            severity = Severity.WARNING if key == "warns" else Severity.ERROR
            messages = [doubt.message for doubt in reading.doubts if doubt.severity is severity]
            for words in told.split(", "):
                assert any(words in message for message in messages), (words, messages)
        else:
            assert fact(reading, key) == told
    assert reading.errors == ("errors" in facts)


@pytest.mark.parametrize("name", [name for name in SAMPLES if name.startswith("tidy")])
def test_tidy_tab_gives_no_warning(name: str) -> None:
    assert [doubt for doubt in read_tab(SAMPLES[name][0]).doubts if doubt.severity is not Severity.NOTE] == []


@pytest.mark.parametrize("name", SAMPLES)
def test_every_note_is_where_its_source_says(name: str) -> None:
    tab, _ = SAMPLES[name]
    lines = tab.split("\n")
    reading = read_tab(tab)
    for bar, places in zip(reading.piece.bars, reading.sources, strict=True):
        for onset, sources in zip(bar.onsets, places, strict=True):
            for note, source in zip(onset.notes, sources, strict=True):
                there = lines[source.line - 1][source.column - 1 :]
                assert there.startswith(("x", "X") if note.fret is None else (str(note.fret), "o"))


def test_there_are_sixty_samples_and_more() -> None:
    assert len(SAMPLES) >= 60
