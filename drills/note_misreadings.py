"""Misreadings of where a note is, of what a capo does to it, and of the finger that plays it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

from drills.misreadings import SPELLINGS, Traps, traps
from drills.notation.pitch import Pitch, class_of
from drills.notation.tuning import Tuning
from drills.question import Misreading


def of_elsewhere(
    place: tuple[int, int], shift: int, right: Sequence[tuple[int, int]], tuning: Tuning, on: int | None = None
) -> Traps:
    """The same note in another place: at another height, the other way, beside the right place.

    Args:
        place: the one that is shown.
        shift: 0 where its very pitch is sought, 12 or -12 for an octave higher or lower.
        right: every right place.
        tuning: the strings.
        on: the one string on which a fret is sought; answers are then frets.
    """
    shown = tuning.sound(*place)
    lines = tuning.lines
    everywhere = [(string, fret) for string in range(1, lines + 1) for fret in tuning.frets(string)]

    def text(places: Iterable[tuple[int, int]]) -> list[str]:
        return [f"{s}/{f}" for s, f in places] if on is None else [str(f) for s, f in places if s == on]

    back = [at for at in everywhere if shift and tuning.sound(*at) == shown.up(-shift)]
    alike = [at for at in everywhere if tuning.sound(*at).pitch_class == shown.pitch_class and at not in back]
    return traps(
        {
            Misreading.OCTAVE: text(at for at in alike if tuning.sound(*at) != shown.up(shift)),
            Misreading.WRONG_DIRECTION: text(back),
            Misreading.OFF_BY_ONE_FRET: text((s, f + by) for s, f in right for by in (-1, 1) if f + by >= 0),
            Misreading.MIRRORED_LINE: text((lines + 1 - s, f) for s, f in right) if on is None else [],
            Misreading.NEIGHBOUR_LINE: text((n, f) for s, f in right for n in (s - 1, s + 1) if 1 <= n <= lines),
            Misreading.SWAPPED: text((f, s) for s, f in right) if on is None else [],
        },
        text(right),
    )


@cache
def of_raised(number: int, by: int) -> Traps:
    """The name of a pitch class that a capo has raised (or, with a negative number, that it was raised from)."""
    right = (number + by) % 12
    letters = {name[0] for name in Pitch(right).names}
    return traps(
        {
            Misreading.WRONG_DIRECTION: SPELLINGS[(number - by) % 12],
            Misreading.OFF_BY_ONE_FRET: SPELLINGS[(right - 1) % 12] | SPELLINGS[(right + 1) % 12],
            Misreading.SHARP_FLAT: {
                name for letter in letters for sign in ("", "#", "b") if class_of(name := letter + sign) != right
            },
        },
        SPELLINGS[right],
    )


@cache
def of_capo(fret: int, highest: int) -> Traps:
    """The fret of a capo: one off, or counted down instead of up."""
    return traps(
        {
            Misreading.OFF_BY_ONE_FRET: [str(f) for f in (fret - 1, fret + 1) if 1 <= f <= highest],
            Misreading.WRONG_DIRECTION: [str(12 - fret)] if 12 - fret <= highest else [],
        },
        [str(fret)],
    )


@cache
def of_finger(finger: int, fret: int, fingers: int = 4) -> Traps:
    """The number of a finger: the one beside it, or the fret taken for the finger."""
    return traps(
        {
            Misreading.OFF_BY_ONE_FRET: [str(n) for n in (finger - 1, finger + 1) if 1 <= n <= fingers],
            Misreading.SWAPPED: [str(fret)] if 1 <= fret <= fingers else [],
        },
        [str(finger)],
    )
