"""Every mark in one short piece each, on the top line; ``every_mark.txt`` holds how both dialects draw it."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from drills.notation.score import Bar, Mark, MarkKind, Note, Onset, Piece
from tests.drills.notation.pieces import HAMMER, PULL, RELEASE, STANDARD, UP, UP_PICKED, bend, note, pre_bend


def mark(kind: str, to: int | None = None) -> Mark:
    return Mark(MarkKind(kind), to=to)


PALM, RING, TIE, ACCENT, SHORT = map(mark, ("palm-mute", "let-ring", "tie", "accent", "staccato"))
VIBRATO, TAP, GHOST, GRACE = map(mark, ("vibrato", "tap", "ghost", "grace"))
HARMONIC, PINCH = mark("harmonic"), mark("pinch-harmonic")
IN_UP, IN_DOWN = mark("slide-in-up"), mark("slide-in-down")
OUT_UP, OUT_DOWN = mark("slide-out-up"), mark("slide-out-down")
CHORD: Final = Onset((Note(1, 5, (TIE,)), Note(2, 6, (TIE,))))

_ONE_BAR: Final[dict[str, tuple[Onset, ...]]] = {
    "a hammer-on": (note(1, 5, HAMMER), note(1, 7)),
    "a pull-off": (note(1, 7, PULL), note(1, 5)),
    "a slide": (note(1, 5, UP), note(1, 7)),
    "a slide that is picked again": (note(1, 5, UP_PICKED), note(1, 7)),
    "slides from nowhere": (note(1, 7, IN_UP), note(1, 12, IN_DOWN)),
    "slides to nowhere": (note(1, 7, OUT_UP), note(1, 12, OUT_DOWN)),
    "bends of a half and one": (note(1, 7, bend(0.5)), note(1, 7, bend(1))),
    "bends of one and a half and two": (note(1, 7, bend(1.5)), note(1, 7, bend(2))),
    "a pre-bend": (note(1, 7, pre_bend(1)), note(1, 5)),
    "a bend and its release": (note(1, 7, bend(1), RELEASE), note(1, 5)),
    "vibrato": (note(1, 7, VIBRATO), note(1, 5)),
    "a bend that is shaken": (note(1, 7, bend(1), VIBRATO), note(1, 5)),
    "a trill": (note(1, 5, mark("trill", 7)), note(1, 5)),
    "a trill with an unknown note": (note(1, 5, mark("trill")), note(1, 5)),
    "a tap": (note(1, 12, TAP, PULL), note(1, 5)),
    "natural harmonics": (note(1, 12, HARMONIC), note(1, 5), note(1, 7, HARMONIC), note(1, 5, HARMONIC)),
    "a pinch harmonic": (note(1, 7, PINCH), note(1, 5)),
    "palm mutes": (note(1, 0, PALM), note(1, 0, PALM), note(1, 3, PALM), note(1, 5), note(1, 0, PALM)),
    "a muted string": (note(1, None), note(1, 5)),
    "a ghost note": (note(1, 5, GHOST), note(1, 5)),
    "let ring": (note(1, 3, RING), note(2, 2, RING), note(1, 0, RING)),
    "let ring on one note": (note(1, 3, RING), note(1, 0)),
    "a tie": (note(1, 5, TIE), note(1, 5)),
    "ties of a chord": (CHORD, Onset((Note(1, 5), Note(2, 6)))),
    "a grace note": (note(1, 5, GRACE, HAMMER), note(1, 7)),
    "a grace note of two digits": (note(1, 10, GRACE, UP), note(1, 12)),
    "a grace note that is picked again": (note(1, 5, GRACE), note(1, 7), note(1, 9)),
    "accents and dots": (note(1, 5, ACCENT), note(1, 5, SHORT), note(1, 5, ACCENT, SHORT)),
    "a bracketed bend": (note(1, 7, GHOST, bend(1)), note(1, 5)),
    "signs in layers": (
        note(1, 5, HAMMER, PALM), note(1, 7, PALM, ACCENT), note(1, 7, PALM, bend(1)), note(1, 3, ACCENT)
    ),
    "a hammer-on that goes down": (note(1, 7, HAMMER), note(1, 5)),
    "a rising diagonal between falling frets": (note(1, 7, UP), note(1, 5)),
    "a hammer-on to another string": (note(1, 5, HAMMER), note(2, 7)),
    "a bend on an open string": (note(1, 0, bend(1)), note(1, 5)),
}
_REPEATS: Final = (
    Bar((note(1, 5), note(1, 7)), opens_repeat=True, times=2),
    Bar((note(1, 5), note(1, 3)), opens_repeat=True),
    Bar((note(1, 5),), times=3),
)
SAMPLES: Final = {name: Piece(STANDARD, (Bar(onsets),)) for name, onsets in _ONE_BAR.items()} | {
    "repeats": Piece(STANDARD, _REPEATS)
}


def golden() -> dict[str, tuple[list[str], list[str]]]:
    """Rows of each sample in text and engraved, from the top one down as far as they tell anything."""
    found = {}
    for entry in Path(__file__).with_name("every_mark.txt").read_text(encoding="utf-8").split("== ")[1:]:
        name, *rows = entry.rstrip("\n").split("\n")
        gap = rows.index("")
        found[name] = (rows[:gap], rows[gap + 1 :])
    return found
