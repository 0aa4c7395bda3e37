"""Any marks on any notes: no sign is lost, none stands on another, and none leaves the staff's width."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from drills.notation.drawing import Role
from drills.notation.score import SPANS, At, Bar, Mark, MarkKind, Note, Onset, Piece
from drills.notation.signs import signs_of
from drills.notation.staff import Dialect, StaffView, draw_staff, note_columns
from drills.notation.tokens import BENDING
from tests.drills.notation.pieces import strung

JOINED = frozenset({MarkKind.HARMONIC, MarkKind.PINCH_HARMONIC, *SPANS})
"""Written once for a run of onsets."""
WORDS = {
    Dialect.ENGRAVED: {
        MarkKind.ACCENT: ">", MarkKind.TAP: "T", MarkKind.TRILL: "tr~~~", MarkKind.HARMONIC: "N.H.",
        MarkKind.PINCH_HARMONIC: "P.H.", MarkKind.PALM_MUTE: "P.M.", MarkKind.LET_RING: "let ring",
    },
    Dialect.TEXT: {
        MarkKind.ACCENT: ">", MarkKind.PINCH_HARMONIC: "P.H.", MarkKind.PALM_MUTE: "PM", MarkKind.LET_RING: "let ring",
    },
}  # fmt: skip
BENDS = [
    (), (), (Mark(MarkKind.BEND, Fraction(3, 2)),), (Mark(MarkKind.BEND, Fraction(1)), Mark(MarkKind.RELEASE)),
    (Mark(MarkKind.PRE_BEND, Fraction(1, 2)),),
]  # fmt: skip
PLAIN: list[MarkKind] = sorted({*MarkKind} - {*BENDING, MarkKind.REPEAT})


@st.composite
def ornamented(draw: st.DrawFn) -> Piece:
    """Random pieces with random marks, senseless ones too: they are drawn as they are written."""
    lines = draw(st.integers(4, 8))
    kinds = st.lists(st.sampled_from(PLAIN), max_size=3, unique=True)
    bars = []
    for _ in range(draw(st.integers(1, 3))):
        onsets = []
        for _ in range(draw(st.integers(0, 4))):
            strings = draw(st.lists(st.integers(1, lines), min_size=1, max_size=3, unique=True))
            onsets.append(Onset(tuple(Note(s, draw(st.integers(0, 24)), _marks(draw, kinds)) for s in strings)))
        bars.append(Bar(tuple(onsets), opens_repeat=draw(st.booleans()), times=draw(st.integers(1, 12))))
    return Piece(strung(lines), tuple(bars))


def _marks(draw: st.DrawFn, kinds: st.SearchStrategy[list[MarkKind]]) -> tuple[Mark, ...]:
    found = draw(kinds)
    moving = draw(st.sampled_from(BENDS)) if MarkKind.MUTE not in found else ()
    return (*moving, *(Mark(kind, to=12 if kind is MarkKind.TRILL else None) for kind in found))


def times_written(tab: Piece, kind: MarkKind) -> int:
    """How often a sign must stand over the staff."""
    having = [any(m.kind is kind for n in onset.notes for m in n.marks) for _, _, onset in tab.onsets()]
    if kind not in JOINED:
        return sum(having)
    return sum(now and not before for before, now in zip([False, *having], having, strict=False))


@given(ornamented(), st.sampled_from(Dialect), st.booleans(), st.sampled_from([0, 1, 40, 50, 80]))
def test_no_sign_over_the_staff_is_lost(tab: Piece, dialect: Dialect, double: bool, width: int) -> None:
    view = StaffView(tab, dialect)
    drawing = draw_staff(view, double=double, width=width)
    height = drawing.height - ((tab.tuning.lines - 1) * (1 + (double and dialect is Dialect.ENGRAVED)) + 1)
    above = "\n".join(drawing.text()[:height])
    for kind, word in WORDS[dialect].items():
        assert above.count(word) == times_written(tab, kind), kind
    counts = [f"x{bar.times}" for bar in tab.bars if bar.times > 2]
    assert sorted(row for row in above.split() if row in counts) == sorted(counts)


@given(ornamented(), st.sampled_from(Dialect), st.booleans(), st.sampled_from([0, 1, 40, 50, 80]))
def test_numbers_and_the_signs_beside_them_stay_whole(
    tab: Piece, dialect: Dialect, double: bool, width: int
) -> None:
    view = StaffView(tab, dialect)
    rows = draw_staff(view, double=double, width=width).text()
    columns = note_columns(view, double=double, width=width)
    for at, (before, number, after) in signs_of(view).tokens.items():
        row, column = columns[at]
        whole = before + number + after
        assert rows[row][column - len(before) :][: len(whole)] == whole


@given(ornamented(), st.sampled_from(Dialect), st.booleans(), st.sampled_from([0, 1, 40, 50, 80]))
def test_nothing_leaves_the_staff(tab: Piece, dialect: Dialect, double: bool, width: int) -> None:
    drawing = draw_staff(StaffView(tab, dialect), double=double, width=width)
    staff = max(sum(len(s.text) for s in row) for row in drawing.rows if any(s.role is Role.LINE for s in row))
    assert drawing.width == staff
    assert all(row.isascii() for row in drawing.ascii().text())


@given(ornamented(), st.sampled_from(Dialect), st.integers(0, 120))
def test_keys_stay_apart_and_hit_their_numbers(tab: Piece, dialect: Dialect, width: int) -> None:
    keys = {(bar, index): ("a", f"{bar} {index}") for bar, index, _ in tab.onsets()}
    view = StaffView(tab, dialect, keys=keys)
    targets = {target.answer: target for target in draw_staff(view, width=width).targets}
    for at, (row, column) in note_columns(view, width=width).items():
        hit = [
            answer
            for answer, t in targets.items()
            if t.row <= row < t.row + t.height and t.column <= column < t.column + t.width
        ]
        assert hit == [f"{at.bar} {at.onset}"]


def test_a_shaft_does_not_cross_what_stands_on_a_higher_line() -> None:
    trill = Note(1, 12, (Mark(MarkKind.TRILL, to=14),))
    view = StaffView(Piece(strung(6), (Bar((Onset((trill, Note(3, 7, (Mark(MarkKind.BEND, Fraction(1)),)))),)),)))
    rows = draw_staff(view).text()
    row, column = note_columns(view)[At(0, 0, 1)]
    assert rows[row][column:].startswith("12(14)│")
