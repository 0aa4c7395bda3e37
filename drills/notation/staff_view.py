"""What to draw of a piece, and what to point at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from drills.notation.drawing import Role
from drills.notation.score import At, Piece


class Dialect(StrEnum):
    """The two ways in which tab is written."""

    ENGRAVED = "engraved"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class StaffView:
    """What to draw of a piece, and what to point at.

    A key or a spot may name an onset that its bar does not have: room is made for it after the others.

    Attributes:
        piece: the tab; a piece of one empty bar is a bare staff.
        dialect: engraved or text.
        labels: a text for each line, line 1 first, written at its left; empty for none.
        colours: notes drawn in a role other than FRET (LIT, SAID, TRUE).
        lines: whole lines drawn in a role other than LINE, by line number.
        keys: a key under an onset, by (bar, onset), with the answer that it stands for.
        line_keys: a key at the right end of a line, by line number, with the answer that it stands for.
        count: whether the count line stands under the staff (beats of the onsets must be known); half beats
            are then evenly spaced.
        hidden_bar_lines: indices of bars whose closing bar line is left out, and the room for it too.
        spots: notes that are drawn though they are not in the piece (a wrong answer): place -> text and role;
            where a note stands already, the spot stands at its right.
        ticks: whether a tick stands under the staff on every beat instead of the count, which would give the bar
            lines away.
        stems: whether values are drawn (the length of every onset must be known).
        taps: marks under the count line where the learner tapped, in beats from the start of the piece; only where
            onsets are spaced in time (count, ticks or stems).
        fingering: a finger under an onset, by (bar, onset): ``1`` to ``4``, or ``p i m a``.
    """

    piece: Piece
    dialect: Dialect = Dialect.ENGRAVED
    labels: tuple[str, ...] = ()
    colours: Mapping[At, Role] = field(default_factory=dict)
    lines: Mapping[int, Role] = field(default_factory=dict)
    keys: Mapping[tuple[int, int], tuple[str, str]] = field(default_factory=dict)
    line_keys: Mapping[int, tuple[str, str]] = field(default_factory=dict)
    count: bool = False
    ticks: bool = False
    stems: bool = False
    taps: tuple[float, ...] = ()
    hidden_bar_lines: frozenset[int] = frozenset()
    spots: Mapping[At, tuple[str, Role]] = field(default_factory=dict)
    legend: tuple[str, ...] = ()
    fingering: Mapping[tuple[int, int], str] = field(default_factory=dict)
