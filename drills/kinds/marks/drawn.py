"""Signs as they are drawn: an example on some strings, several side by side, and the legend under them."""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from zlib import crc32

from drills.kinds.marks.sign import Sign, Step
from drills.notation.score import Bar, Mark, MarkKind, Note, Onset, Piece, picked, sounds
from drills.notation.staff_view import Dialect
from drills.notation.tuning import Tuning

USUAL_STRING = 3
"""Where an example stands that nothing moves elsewhere."""

_STRINGS = 12
"""Places to choose a string from: as many for each string, whether one, two, three or four may be chosen."""


def notes_at(steps: Sequence[Step], string: int, shift: int = 0) -> list[Note]:
    """The notes of an example whose top line is ``string``, ``shift`` frets higher."""
    return [
        Note(
            string + step.line,
            None if step.fret is None else step.fret + shift,
            tuple(moved(mark, shift) for mark in step.marks) if shift else step.marks,
        )
        for step in steps
    ]


def moved(mark: Mark, shift: int) -> Mark:
    """A mark so many frets higher: the other fret of a trill moves along."""
    return mark if mark.to is None else mark._replace(to=mark.to + shift)


def deepest(steps: Sequence[Step]) -> int:
    """How many lines below its top line an example reaches."""
    return max(step.line for step in steps)


def usual(steps: Sequence[Step], tuning: Tuning, string: int = USUAL_STRING) -> list[Note]:
    """An example whose top line is ``string``, or as near to it as the tuning has lines for."""
    return notes_at(steps, min(string, tuning.lines - deepest(steps)))


def varied(sign: Sign, tuning: Tuning, rng: random.Random) -> list[Note]:
    """The sign somewhere else on the neck: same shape, other string and position."""
    return _moved_to(sign, tuning, rng.randrange(-3, 4), rng.randrange(_STRINGS))


def at_home(sign: Sign, tuning: Tuning, id: str) -> list[Note]:
    """The sign where this item draws it, always: its facts tell what sounds there. Other items draw it elsewhere."""
    place = crc32(id.encode())
    return _moved_to(sign, tuning, place % 7 - 3, place // 7 % _STRINGS)


def _moved_to(sign: Sign, tuning: Tuning, shift: int, string: int) -> list[Note]:
    """The sign so many frets higher, on the string of that number, counted from 0 and round again."""
    # a grace note or a tie at fret 2 is no better than one at fret 5: only what is above the nut has to stay there
    lowest = min((step.fret for step in sign.steps if step.fret is not None), default=1)
    shift = max(shift, 1 - lowest) if sign.movable else 0
    return notes_at(sign.steps, 1 + string % (min(4, tuning.lines) - deepest(sign.steps)), shift)


def one_bar(notes: Iterable[Note], tuning: Tuning, times: int = 1) -> Piece:
    """A piece of one bar with one note after another, between repeat signs where it is played more than once."""
    return Piece(tuning, (bar_of(notes, times),))


def bar_of(notes: Iterable[Note], times: int = 1) -> Bar:
    """One note after another, between repeat signs where they are played more than once."""
    return Bar(tuple(Onset((note,)) for note in notes), opens_repeat=times > 1, times=times)


def side_by_side(
    fragments: Sequence[tuple[Sequence[Note], int]], tuning: Tuning
) -> tuple[Piece, tuple[tuple[int, int], ...]]:
    """Several fragments in one staff, and the bar and onset at which each of them begins.

    Args:
        fragments: notes, and how often they are played; where one is repeated, each gets a bar of its own.
        tuning: of the staff.
    """
    if any(times > 1 for _, times in fragments):
        bars = tuple(bar_of(notes, times) for notes, times in fragments)
        return Piece(tuning, bars), tuple((index, 0) for index in range(len(bars)))
    starts: list[tuple[int, int]] = []
    row: list[Note] = []
    for notes, _ in fragments:
        starts.append((0, len(row)))
        row += notes
    return one_bar(row, tuning), tuple(starts)


def legend_of(
    signs: Iterable[Sign], dialect: Dialect, *, named: bool, picking: bool = False
) -> tuple[str, ...]:
    """The rows of a legend for those signs that need one, each once.

    Args:
        signs: those that are drawn.
        dialect: in which they are drawn.
        named: whether it gives their names, else their meaning: it never gives what is asked.
        picking: whether it has to tell what is picked too: typed tab does not tell if a slide is picked again
            (common practice, no source).
    """
    rows = [
        sign.legend.name if named else sign.legend.meaning
        for sign in signs
        if sign.legend is not None and (sign.needs_legend(dialect) or (picking and dialect is Dialect.TEXT))
    ]
    return tuple(dict.fromkeys(rows))


def struck(notes: Sequence[Note]) -> list[bool]:
    """Which notes are picked, string by string."""
    found: dict[int, tuple[bool, ...]] = {
        string: picked([note for note in notes if note.string == string]) for string in {n.string for n in notes}
    }
    seen: dict[int, int] = dict.fromkeys(found, 0)
    out = []
    for note in notes:
        out.append(found[note.string][seen[note.string]])
        seen[note.string] += 1
    return out


def heard(notes: Sequence[Note], tuning: Tuning, times: int = 1) -> list[int] | None:
    """The successive pitches as MIDI numbers, as often as they are played; None where no fret tells the pitch."""
    if any(mark.kind is MarkKind.PINCH_HARMONIC for note in notes for mark in note.marks):
        return None
    if len({note.string for note in notes}) == 1:
        return list(sounds(list(notes), tuning)) * times
    return [pitch for note in notes for pitch in sounds([note], tuning)] * times
