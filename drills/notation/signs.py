"""What a staff has to write: each note's token, the marks that join two notes, and the signs over the staff."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from drills.notation.score import LINKING, At, Mark, MarkKind, Note, Piece
from drills.notation.spacing import OnsetAt
from drills.notation.staff_view import Dialect, StaffView
from drills.notation.tokens import BENDING, Token, bends, token


class Link(NamedTuple):
    """A mark that leads from one note to the next on its string (to None where there is no next one)."""

    mark: Mark
    source: At
    target: At | None


class Over(NamedTuple):
    """A sign over the staff.

    Attributes:
        text: a sign or a word.
        runs: whether it is written once for a run of onsets, with dashes to the last of them.
    """

    text: str
    runs: bool = False


class Run(NamedTuple):
    """A sign over one onset, or over a run of them from ``onsets[0]`` to ``onsets[-1]``."""

    kind: MarkKind
    text: str
    onsets: list[OnsetAt]


class Signs(NamedTuple):
    """All that is written of a piece besides lines and bar lines.

    Attributes:
        tokens: of every note, in time and from the top line down.
        links: in time.
        runs: by sign, from the staff upwards, and in time.
        bent: whether any note is bent.
        graces: onsets of grace notes, which stand close to the next one.
    """

    tokens: dict[At, Token]
    links: list[Link]
    runs: list[Run]
    bent: bool
    graces: frozenset[OnsetAt]

    def offset(self, at: At) -> int:
        """How far right of its onset's column a spot stands, so as not to cover a note."""
        return self.tokens[at].width + 1 if at in self.tokens else 0


_ENGRAVED: Final = {
    MarkKind.STACCATO: Over("."),
    MarkKind.ACCENT: Over(">"),
    MarkKind.TAP: Over("T"),
    MarkKind.TRILL: Over("tr~~~"),
    MarkKind.VIBRATO: Over("~~~~"),
    MarkKind.HARMONIC: Over("N.H.", runs=True),
    MarkKind.PINCH_HARMONIC: Over("P.H.", runs=True),
    MarkKind.PALM_MUTE: Over("P.M.", runs=True),
    MarkKind.LET_RING: Over("let ring", runs=True),
}
"""From the staff upwards. MusicXML 4.0 prints accents, taps and trill marks over the staff; the rest is common
practice, no source."""
_TEXT: Final = {
    MarkKind.STACCATO: Over("."),
    MarkKind.ACCENT: Over(">"),
    MarkKind.PINCH_HARMONIC: Over("P.H.", runs=True),
    MarkKind.PALM_MUTE: Over("PM", runs=True),
    MarkKind.LET_RING: Over("let ring", runs=True),
}
"""From the staff upwards: common practice, no source."""


def notes(piece: Piece) -> Iterator[tuple[At, Note]]:
    """Every note with its place, in time and from the top line down."""
    for bar, index, onset in piece.onsets():
        for note in sorted(onset.notes, key=lambda note: note.string):
            yield At(bar, index, note.string), note


def links(piece: Piece) -> list[Link]:
    """Every mark that joins two notes, in time."""
    return _links(list(notes(piece)))


def _links(found: list[tuple[At, Note]]) -> list[Link]:
    joined = []
    following: dict[int, At] = {}
    for at, note in reversed(found):
        joined += [Link(mark, at, following.get(at.string)) for mark in note.marks if mark.kind in LINKING]
        following[at.string] = at
    return joined[::-1]


def tied(joined: list[Link]) -> set[At]:
    """The notes that a tie leads to."""
    return {link.target for link in joined if link.target is not None and link.mark.kind is MarkKind.TIE}


def signs_of(view: StaffView) -> Signs:
    """All that is written of a piece in the view's dialect."""
    found = list(notes(view.piece))
    kinds = {mark.kind for _, note in found for mark in note.marks}
    joined = _links(found) if kinds & LINKING else []
    held = tied(joined)
    tokens = {at: token(note, view.dialect, at in held) for at, note in found}
    over = _TEXT if view.dialect == Dialect.TEXT else _ENGRAVED
    runs = [run for kind in over if kind in kinds for run in _runs(view.piece, kind, over)]
    graces = _onsets_with(MarkKind.GRACE, found) if MarkKind.GRACE in kinds else frozenset[OnsetAt]()
    return Signs(tokens, joined, runs, bool(kinds & BENDING), graces)


def _onsets_with(kind: MarkKind, found: list[tuple[At, Note]]) -> frozenset[OnsetAt]:
    return frozenset((at.bar, at.onset) for at, note in found for mark in note.marks if mark.kind is kind)


def _runs(piece: Piece, kind: MarkKind, over: Mapping[MarkKind, Over]) -> Iterator[Run]:
    """One sign's places in time; rests neither begin nor end a run."""
    open_run: list[OnsetAt] = []
    for bar, index, onset in piece.onsets():
        has = any(mark.kind is kind and not _beside_arrow(mark, note) for note in onset.notes for mark in note.marks)
        if open_run and not (has and over[kind].runs) and onset.notes:
            yield Run(kind, over[kind].text, open_run)
            open_run = []
        if has:
            open_run.append((bar, index))
    if open_run:
        yield Run(kind, over[kind].text, open_run)


def _beside_arrow(mark: Mark, note: Note) -> bool:
    """Whether a sign stands at the point of its note's arrow instead: the wave of a bend that is shaken."""
    return mark.kind is MarkKind.VIBRATO and bool(bends(note))
