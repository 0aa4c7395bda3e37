"""What of a piece plain text can tell, so that a piece and what was read of it can be compared."""

from __future__ import annotations

from fractions import Fraction

from drills.notation.score import MarkKind, Note, Piece

Told = list[list[tuple[Fraction | None, list[tuple[int, int | None, list[tuple[str, Fraction | None, int | None]]]]]]]


def told(piece: Piece) -> Told:
    """Bars of onsets: the beat, and string, fret and marks of each note. Text writes a slide that is picked again like
    a slurred one, and a muted string as x without more."""
    return [[(onset.beat, sorted(map(_note, onset.notes), key=lambda note: note[0])) for onset in bar.onsets]
            for bar in piece.bars]


def _note(note: Note) -> tuple[int, int | None, list[tuple[str, Fraction | None, int | None]]]:
    marks = [(mark.kind.value, mark.amount, mark.to) for mark in note.marks if mark.kind is not MarkKind.MUTE]
    return note.string, note.fret, sorted(marks, key=lambda mark: mark[0])
