"""Only what is sure is drilled: how sure each thing is, and the doubt beside it, at its line and column."""

from __future__ import annotations

import pytest

from drills.notation.reader import Certainty, Reading, ReadMark, Severity, read_tab

SURE, LIKELY, GUESS = Certainty.SURE, Certainty.LIKELY, Certainty.GUESS


def read(top: str, over: str = "") -> Reading:
    """A system with this on its top row."""
    rows = [label + "|" + ("-" * len(top) if label != "e" else top) for label in "eBGDAE"]
    return read_tab("\n".join([over, *rows] if over else rows))


def marks(reading: Reading) -> list[tuple[str, Certainty]]:
    return [(mark.kind.value, mark.certainty) for mark in reading.marks]


@pytest.mark.parametrize(
    ("top", "kind", "certainty"),
    [
        ("--5h7--", "hammer-on", SURE),
        ("--7p5--", "pull-off", SURE),
        ("--5-h-7--", "hammer-on", SURE),
        ("--5/7--", "slide-up", SURE),
        ("--7\\5--", "slide-down", SURE),
        ("--5s7--", "slide-up", LIKELY),
        ("--9h7--", "hammer-on", LIKELY),
        ("--5\\7--", "slide-up", LIKELY),
        ("--5h5--", "hammer-on", GUESS),
        ("--5^7--", "hammer-on", GUESS),
        ("--7b9--", "bend", SURE),
        ("--7b(9)--", "bend", SURE),
        ("--7bfull--", "bend", LIKELY),
        ("--7b1--", "bend", LIKELY),
        ("--7b--", "bend", GUESS),
        ("--7pb9--", "pre-bend", LIKELY),
        ("--7~~--", "vibrato", SURE),
        ("--7v--", "vibrato", LIKELY),
        ("--5tr7--", "trill", LIKELY),
        ("--t12--", "tap", LIKELY),
        ("--(5)--", "ghost", GUESS),
        ("--5-(5)--", "tie", GUESS),
        ("--<12>--", "harmonic", LIKELY),
        ("--[12]--", "harmonic", GUESS),
        ("--12*--", "harmonic", LIKELY),
        ("--/7--", "slide-in-up", LIKELY),
        ("--7\\--", "slide-out-down", LIKELY),
        ("--x--", "mute", SURE),
        ("--g5h7--", "grace", LIKELY),
        ("-->5--", "accent", LIKELY),
        ("--5.--", "staccato", GUESS),
    ],
)
def test_how_sure_a_mark_is(top: str, kind: str, certainty: Certainty) -> None:
    """The certainty of each sign follows how widely its meaning is shared: common practice, no source."""
    assert marks(read(top))[0] == (kind, certainty)


@pytest.mark.parametrize(
    ("top", "certainties"),
    [
        ("--5--10--24--", [SURE, SURE, SURE]),
        ("--25--7--", [GUESS, GUESS, SURE]),
        ("--1312--", [GUESS] * 4),
        ("--020--", [GUESS] * 3),
        ("--o--7--", [GUESS, SURE]),
        ("--9r7--", [GUESS]),
        ("--b7--", [GUESS]),
    ],
)
def test_how_sure_a_note_is(top: str, certainties: list[Certainty]) -> None:
    reading = read(top)
    assert [source.certainty for bar in reading.sources for onset in bar for source in onset] == certainties


def test_a_chord_off_by_a_column_is_likely_and_said_so() -> None:
    reading = read_tab("e|-10-12-|\nB|--8-10-|\nG|-------|\nD|-------|\nA|-------|\nE|-------|")
    assert [[s.certainty for s in onset] for onset in reading.sources[0]] == [[SURE, LIKELY], [SURE, SURE]]
    assert [(d.line, d.column) for d in reading.doubts if "one column off" in d.message] == [(2, 5)]


def test_two_digits_over_two_notes_are_likely_one_and_said_so() -> None:
    reading = read_tab("e|--12--|\nB|--33--|\nG|--5---|\nD|------|\nA|------|\nE|------|")
    assert [[s.certainty for s in onset] for onset in reading.sources[0]] == [[LIKELY, GUESS, SURE], [GUESS]]
    assert [(d.line, d.column) for d in reading.doubts if "may be two notes" in d.message] == [(1, 5)]


def test_a_note_alone_on_a_row_whose_bar_has_another_width_is_likely() -> None:
    reading = read_tab("e|--0--1--|\nB|---3---|\nG|--------|\nD|--------|\nA|--------|\nE|--2-----|")
    assert [[s.certainty for s in onset] for onset in reading.sources[0]] == [[SURE, SURE], [LIKELY], [SURE]]


@pytest.mark.parametrize(
    ("top", "column", "severity", "words"),
    [
        ("--9h7--", 6, Severity.WARNING, "a hammer-on that goes down"),
        ("--5\\7--", 6, Severity.WARNING, "a slide down that goes up"),
        ("--5h--", 6, Severity.WARNING, "leads to no note"),
        ("--h5--", 5, Severity.NOTE, "without a note before it"),
        ("--5k--", 6, Severity.ERROR, "is not known"),
        ("--(5--", 5, Severity.WARNING, "opened and not closed"),
        ("--5)--", 6, Severity.WARNING, "closed that was not opened"),
        ("--31--", 5, Severity.WARNING, "beyond 24"),
        ("--7b5--", 6, Severity.WARNING, "cannot be to 5"),
        ("--7^--", 6, Severity.WARNING, "the sign ^"),
        ("--~b--", 6, Severity.WARNING, "has no number before it"),
        ("--<13>--", 6, Severity.NOTE, "no natural harmonic"),
    ],
)
def test_a_doubt_stands_at_its_column(top: str, column: int, severity: Severity, words: str) -> None:
    found = [doubt for doubt in read(top).doubts if words in doubt.message]
    assert [(d.line, d.column, d.severity) for d in found] == [(1, column, severity)]
    assert all(doubt.mend for doubt in found)


def test_columns_count_before_tabs_are_expanded() -> None:
    rows = ["\te|--5k7--|", *("\t" + label + "|-------|" for label in "BGDAE")]
    reading = read_tab("\n".join(rows))
    assert [(d.line, d.column) for d in reading.doubts if d.severity is Severity.ERROR] == [(1, 7)]
    assert [source.column for onset in reading.sources[0] for source in onset] == [6, 8]


def test_a_hammer_on_from_nowhere_is_told_though_no_note_bears_it() -> None:
    reading = read("--h5--")
    assert [(mark.kind.value, mark.start, mark.to, mark.certainty) for mark in reading.marks] == [
        ("hammer-on", None, 5, LIKELY)
    ]
    assert reading.piece.bars[0].onsets[0].notes[0].marks == ()


def test_bends_and_releases_are_one_note_and_a_chain_is_three() -> None:
    assert [len(reading.piece.bars[0].onsets) for reading in (read("--7b9r7--"), read("--5h7p5--"))] == [1, 3]
    assert [mark.to for mark in read("--7b9r7--").marks] == [None, None]
    assert [(mark.start, mark.to) for mark in read("--5h7p5--").marks] == [(5, 7), (7, 5)]


@pytest.mark.parametrize(
    ("over", "kind"), [("  PM-----|", "palm-mute"), ("  let ring|", "let-ring"), ("  P.M. . .", "palm-mute")]
)
def test_a_span_is_one_mark_and_every_note_under_it_bears_it(over: str, kind: str) -> None:
    reading = read("0-0-0-0--0--", over)
    assert [(mark.kind.value, mark.onset, mark.string) for mark in reading.marks] == [(kind, 0, None)]
    under = [[mark.kind.value for mark in onset.notes[0].marks] for onset in reading.piece.bars[0].onsets]
    assert under == [[kind]] * 4 + [[]]


@pytest.mark.parametrize(
    ("legend", "top", "kind"),
    [
        ("^ = bend", "--7^--", "bend"),
        ("^ : hammer on", "--5^7--", "hammer-on"),
        ("() - ghost note", "--5-(5)--", "ghost"),
        ("[n] - artificial harmonic", "--[12]--", "pinch-harmonic"),
        ("* - pinch harmonic", "--12*--", "pinch-harmonic"),
        ("( ) = tied", "--5-(5)--", "tie"),
    ],
)
def test_a_legend_says_what_a_sign_means(legend: str, top: str, kind: str) -> None:
    rows = [label + "|" + ("-" * len(top) if label != "e" else top) for label in "eBGDAE"]
    found = read_tab("\n".join(rows) + "\n\n" + legend + "\n").marks
    assert [mark.kind.value for mark in found] == [kind]


def test_with_shift_slides_in_the_legend_a_capital_s_is_picked_again() -> None:
    rows = [label + "|" + ("--5S7--5s7--" if label == "e" else "-" * 12) for label in "eBGDAE"]
    reading = read_tab("\n".join(rows) + "\n\ns - legato slide\nS - shift slide\n")
    assert [onset.notes[0].marks[0].slurred for onset in reading.piece.bars[0].onsets[::2]] == [False, True]


def test_a_repeat_is_one_mark_where_it_closes() -> None:
    rows = [label + "|:" + ("--5--|--7--" if label == "e" else "-----|-----") + ":|" for label in "eBGDAE"]
    found = read_tab("\n".join(rows)).marks
    assert [(mark.kind.value, mark.bar, mark.onset, mark.times, mark.certainty) for mark in found] == [
        ("repeat", 1, None, 2, SURE)
    ]


def test_a_remark_says_how_often_a_system_is_played() -> None:
    rows = [label + "|" + ("--5--" if label == "e" else "-----") + "|" for label in "eBGDAE"]
    found: list[ReadMark] = []
    for remark in ("x3", "(x3)", "3x", "play 3 times", "[3x]", "repeat 3 times"):
        reading = read_tab("\n".join(row + ("  " + remark if n == 2 else "") for n, row in enumerate(rows)))
        found += reading.marks
        assert [(bar.opens_repeat, bar.times) for bar in reading.piece.bars] == [(True, 3)]
    assert [mark.certainty for mark in found] == [LIKELY] * 6
