"""Staves and necks that several drills draw."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.notation.drawing import Role
from drills.notation.neck import CAPO, WRONG_CAPO, NeckView
from drills.notation.pitch import Naming
from drills.notation.score import At, Bar, Note, Onset, Piece
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import Manner, Picture

DOT = "●"
CROSS = "×"
"""Stands where the learner said a place is, so that it differs from what was true by more than its colour."""

Places = Mapping[tuple[int, int], Role]
"""String and fret -> how it is drawn."""


def bare_staff(
    tuning: Tuning,
    dialect: Dialect,
    lines: Mapping[int, Role] | None = None,
    labels: tuple[str, ...] = (),
    line_keys: Mapping[int, tuple[str, str]] | None = None,
) -> StaffView:
    """The empty lines, some of them pointed at."""
    piece = Piece(tuning, (Bar(()),))
    return StaffView(piece, dialect, labels, lines=lines or {}, line_keys=line_keys or {})


def row_of_notes(
    tuning: Tuning,
    dialect: Dialect,
    places: Sequence[tuple[int, int, Role]],
    labels: tuple[str, ...] = (),
    keys: Sequence[tuple[str, str]] = (),
) -> StaffView:
    """Single notes one after another, each (string, fret, role), with keys under them if there are any."""
    onsets = tuple([Onset((Note(string, fret),)) for string, fret, _ in places])
    return StaffView(
        Piece(tuning, (Bar(onsets),)),
        dialect,
        labels,
        colours={At(0, i, string): role for i, (string, _, role) in enumerate(places)},
        keys={(0, i): key for i, key in enumerate(keys)},
    )


def neck_with(
    tuning: Tuning,
    places: Places,
    left_handed: bool,
    labels: tuple[str, ...] = (),
    keys: Mapping[tuple[int, int], tuple[str, str]] | None = None,
    highest: int = 5,
) -> NeckView:
    """The neck in playing position with dots; as many frets as are needed, at least up to ``highest``."""
    frets = [fret for _, fret in places] + [fret for _, fret in keys or {}]
    top = max([highest, *frets])
    first = 0 if top <= 13 else min(frets) - 2
    return NeckView(
        tuning.lines,
        first=max(first, 0),
        last=max(top, first + 5),
        left_handed=left_handed,
        dots={place: (CROSS if role is Role.SAID else DOT, role) for place, role in places.items()},
        keys=keys or {},
        labels=labels,
    )


def with_neck(view: StaffView, manner: Manner) -> Picture:
    """A staff, and the neck with a dot wherever a note of it is played, as the lessons show them together."""
    places = {
        (note.string, note.fret): Role.FRET
        for _, _, onset in view.piece.onsets()
        for note in onset.notes
        if note.fret is not None
    }
    return Picture(view, neck_with(view.piece.tuning, places, manner.left_handed))


def capo_neck(
    tuning: Tuning,
    manner: Manner,
    capos: Mapping[int, Role],
    dots: Places,
    labels: tuple[str, ...] = (),
) -> NeckView:
    """The neck with a capo across its full strings, or two to tell apart, and dots."""
    across = {
        (string, fret): (WRONG_CAPO if role is Role.SAID else CAPO, role)
        for fret, role in capos.items()
        for string in tuning.full
    }
    view = neck_with(tuning, dots, manner.left_handed, labels, highest=max([5, *capos]))
    return view._replace(dots=across | dict(view.dots))


def capo_picture(tuning: Tuning, manner: Manner, fret: int | None) -> Picture:
    """The neck with a capo, or without one."""
    capos = {} if fret is None else {fret: Role.FRET}
    return Picture(neck=capo_neck(tuning, manner, capos, {}))


def neck_strings(
    tuning: Tuning, strings: Mapping[int, Role], left_handed: bool, labels: tuple[str, ...] = (), highest: int = 5
) -> NeckView:
    """The neck with whole strings pointed at; at least five frets of it."""
    return NeckView(tuning.lines, last=max(highest, 5), left_handed=left_handed, lit_strings=strings, labels=labels)


def line_numbers(tuning: Tuning) -> tuple[str, ...]:
    """``1`` to the number of lines, for the left of a staff or a neck."""
    return tuple(map(str, range(1, tuning.lines + 1)))


def line_letters(tuning: Tuning, naming: Naming) -> tuple[str, ...]:
    """The letters of the open strings as typed tab has them at its left."""
    return tuple(tuning.label(n, naming) for n in range(1, tuning.lines + 1))


def coloured(view: StaffView, role: Role, which: Sequence[bool] | None = None) -> dict[At, Role]:
    """The single notes of the first bar in a role, or those of them for which ``which`` is true."""
    onsets = view.piece.bars[0].onsets
    return {
        At(0, i, onset.notes[0].string): role for i, onset in enumerate(onsets) if which is None or which[i]
    }
