"""The fragments whose picking and sound are asked."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from drills.kinds.marks.first_signs import DOWN, DOWN_AGAIN, HAMMER, PULL, RELEASE, UP, UP_AGAIN, bend
from drills.kinds.marks.phrase import Phrase
from drills.kinds.marks.rare_signs import GRACE, HARMONIC, IN_UP, OUT_DOWN, TAP, pre_bend, trill
from drills.kinds.marks.sign import Step
from drills.kinds.marks.touch_signs import GHOST, MUTE, PALM, RING, TIE, VIBRATO
from drills.notation.score import Mark
from drills.stages import Stage

HALF: Final = Fraction(1, 2)
FULL: Final = Fraction(1)


def _on(*notes: int | tuple[int | None, *tuple[Mark, ...]] | None) -> tuple[Step, ...]:
    """Notes one after another on one string: a fret, or a fret and its marks."""
    return tuple(Step(note[0], note[1:]) if isinstance(note, tuple) else Step(note) for note in notes)


_X: Final = (None, MUTE)

FIRST_PHRASES: Final = (
    Phrase("plain", "two notes, no sign", 2, _on(5, 7), Stage.NAMES, (), sounds=False),
    Phrase("h", "one hammer-on", 3, _on((5, HAMMER), 7), Stage.NAMES, ("hammer-on",)),
    Phrase("p", "one pull-off", 2, _on((3, PULL), 1), Stage.NAMES, ("pull-off",)),
    Phrase("h-open", "a hammer-on from the open string", 4, _on((0, HAMMER), 2), Stage.NAMES, ("hammer-on",)),
    Phrase("p-open", "a pull-off to the open string", 1, _on((3, PULL), 0), Stage.NAMES, ("pull-off",)),
    Phrase("h-then", "a hammer-on, then one more note", 3, _on((2, HAMMER), 4, 2), Stage.NAMES, ("hammer-on",)),
    Phrase("then-p", "a note, then a pull-off", 2, _on(3, (3, PULL), 1), Stage.NAMES, ("pull-off",)),
    Phrase(
        "h-p", "a hammer-on and straight back", 3, _on((5, HAMMER), (7, PULL), 5), Stage.SLIDES,
        ("hammer-on", "pull-off"),
    ),
    Phrase(
        "p-h", "a pull-off and back up", 2, _on((7, PULL), (5, HAMMER), 7), Stage.SLIDES, ("hammer-on", "pull-off"),
    ),
    Phrase("h-h", "two hammer-ons", 1, _on((0, HAMMER), (1, HAMMER), 3), Stage.SLIDES, ("hammer-on",)),
    Phrase("p-p", "two pull-offs", 1, _on((7, PULL), (5, PULL), 3), Stage.SLIDES, ("pull-off",)),
    Phrase("up", "a slide up", 3, _on((5, UP), 8), Stage.SLIDES, ("slide-up",)),
    Phrase("down", "a slide down", 4, _on((7, DOWN), 4), Stage.SLIDES, ("slide-down",)),
    Phrase("up-then", "a slide up, then one more note", 2, _on((3, UP), 5, 3), Stage.SLIDES, ("slide-up",)),
    Phrase(
        "up-again", "a shift slide up", 3, _on((4, UP_AGAIN), 7), Stage.SLIDES, ("slide-up-picked",), sounds=False,
    ),
    Phrase(
        "down-again-then", "a shift slide down, then one more note", 4, _on((9, DOWN_AGAIN), 7, 9), Stage.SLIDES,
        ("slide-down-picked",), sounds=False,
    ),
    Phrase("full", "a full bend, then a note", 3, _on((7, bend(FULL)), 5), Stage.SLIDES, ("full-bend",)),
    Phrase("half", "a half bend, then a note", 3, _on((8, bend(HALF)), 5), Stage.SLIDES, ("half-bend",)),
)  # fmt: skip

TOUCH_PHRASES: Final = (
    Phrase(
        "release", "a full bend and its release", 3, _on((7, bend(FULL), RELEASE)), Stage.TOUCH,
        ("full-bend", "bend-release"), picked=False,
    ),
    Phrase(
        "half-release", "a half bend and its release", 3, _on((8, bend(HALF), RELEASE)), Stage.TOUCH,
        ("half-bend", "bend-release"), picked=False,
    ),
    Phrase(
        "release-then", "a full bend, its release, then a note", 3, _on((7, bend(FULL), RELEASE), 5), Stage.TOUCH,
        ("full-bend", "bend-release"),
    ),
    Phrase(
        "up-down", "a slide up and back", 4, _on((4, UP), (7, DOWN), 4), Stage.TOUCH, ("slide-up", "slide-down"),
    ),
    Phrase(
        "h-vibrato", "a hammer-on to a note with vibrato", 3, _on((5, HAMMER), (7, VIBRATO)), Stage.TOUCH,
        ("hammer-on", "vibrato"), sounds=False,
    ),
    Phrase(
        "palm", "three notes under a palm mute", 4, _on((5, PALM), (5, PALM), (7, PALM)), Stage.TOUCH, ("palm-mute",),
    ),
    Phrase("x-between", "a muted x between two notes", 4, _on(5, _X, 7), Stage.TOUCH, ("mute",)),
    Phrase("x-x-h", "two muted x, then a hammer-on", 3, _on(_X, _X, (5, HAMMER), 7), Stage.TOUCH,
           ("mute", "hammer-on"), sounds=False),
    Phrase("ghost", "a ghost note between two others", 3, _on(7, (5, GHOST), 7), Stage.TOUCH, ("ghost",), sounds=False),
    Phrase(
        "ring", "three strings that ring", 1, (Step(0, (RING,), 2), Step(1, (RING,), 1), Step(0, (RING,))), Stage.TOUCH,
        ("let-ring",), sounds=False,
    ),
    Phrase("tie", "a note that is tied over", 2, _on((5, TIE), 5), Stage.TOUCH, ("tie",)),
    Phrase("tie-then", "a tied note, then another", 3, _on((4, TIE), 4, 7), Stage.TOUCH, ("tie",)),
    Phrase("then-tie-h", "a note, a tie, a hammer-on", 3, _on((5, TIE), (5, HAMMER), 7), Stage.TOUCH,
           ("tie", "hammer-on"), sounds=False),
)  # fmt: skip

RARE_PHRASES: Final = (
    Phrase("one-and-half", "a bend of one and a half steps", 3, _on((9, bend(Fraction(3, 2)))), Stage.RARE_SIGNS,
           ("bend-one-and-half",), picked=False),
    Phrase(
        "two", "a bend of two steps", 2, _on((12, bend(Fraction(2)))), Stage.RARE_SIGNS, ("bend-two",), picked=False,
    ),
    Phrase("pre-bend", "a full pre-bend", 2, _on((8, pre_bend(FULL))), Stage.RARE_SIGNS, ("pre-bend",), picked=False),
    Phrase(
        "pre-bend-then", "a half pre-bend, then a note", 2, _on((8, pre_bend(HALF)), 5), Stage.RARE_SIGNS,
        ("pre-bend",),
    ),
    Phrase("pre-bend-release", "a full pre-bend and its release", 3, _on((7, pre_bend(FULL), RELEASE)),
           Stage.RARE_SIGNS, ("pre-bend-release", "bend-release"), picked=False),
    Phrase("half-pre-bend-release", "a half pre-bend and its release", 3, _on((8, pre_bend(HALF), RELEASE)),
           Stage.RARE_SIGNS, ("pre-bend-release", "bend-release"), picked=False),
    Phrase("trill", "a trill of a whole step", 3, _on((5, trill(7))), Stage.RARE_SIGNS, ("trill",), picked=False),
    Phrase("trill-half", "a trill of a half step", 2, _on((8, trill(9))), Stage.RARE_SIGNS, ("trill",), picked=False),
    Phrase(
        "trill-then", "a trill, then one more note", 3, _on((4, trill(5)), 7), Stage.RARE_SIGNS, ("trill",),
        sounds=False,
    ),
    Phrase("t-p", "a tap and a pull-off", 2, _on((12, TAP, PULL), 5), Stage.RARE_SIGNS, ("tap", "pull-off")),
    Phrase("t-p-h", "a tap, a pull-off, a hammer-on", 1, _on((12, TAP, PULL), (5, HAMMER), 8), Stage.RARE_SIGNS,
           ("tap", "pull-off", "hammer-on")),
    Phrase("then-t", "a note, then a tap", 2, _on(5, (12, TAP)), Stage.RARE_SIGNS, ("tap",), sounds=False),
    Phrase(
        "harmonic-12", "a harmonic at fret 12", 4, _on((12, HARMONIC)), Stage.RARE_SIGNS, ("harmonic",), picked=False,
    ),
    Phrase("harmonic-7", "a harmonic at fret 7", 3, _on((7, HARMONIC)), Stage.RARE_SIGNS, ("harmonic",), picked=False),
    Phrase("harmonic-5", "a harmonic at fret 5", 2, _on((5, HARMONIC)), Stage.RARE_SIGNS, ("harmonic",), picked=False),
    Phrase("harmonic-9", "a harmonic at fret 9", 4, _on((9, HARMONIC)), Stage.RARE_SIGNS, ("harmonic",), picked=False),
    Phrase(
        "harmonic-19", "a harmonic at fret 19", 4, _on((19, HARMONIC)), Stage.RARE_SIGNS, ("harmonic",), picked=False,
    ),
    Phrase(
        "harmonics", "two harmonics", 4, _on((12, HARMONIC), (7, HARMONIC)), Stage.RARE_SIGNS, ("harmonic",),
        sounds=False,
    ),
    Phrase(
        "into-then", "a slide in, then a note", 3, _on((7, IN_UP), 5), Stage.RARE_SIGNS, ("slide-in-up",), sounds=False,
    ),
    Phrase(
        "h-out", "a hammer-on, then a slide out", 3, _on((5, HAMMER), (7, OUT_DOWN)), Stage.RARE_SIGNS,
        ("hammer-on", "slide-out-down"), sounds=False,
    ),
    Phrase("grace", "a grace note", 3, _on((5, GRACE), 7), Stage.RARE_SIGNS, ("grace",), picked=False),
    Phrase(
        "repeat", "a part between repeat signs", 3, _on(5, 7), Stage.RARE_SIGNS, ("repeat",), times=2, picked=False,
    ),
    Phrase(
        "repeat-count", "a part with a repeat count", 4, _on(3, 5), Stage.RARE_SIGNS, ("repeat-count",), times=3,
        picked=False,
    ),
)  # fmt: skip

PHRASES: Final = (*FIRST_PHRASES, *TOUCH_PHRASES, *RARE_PHRASES)
PHRASE_BY_KEY: Final = {phrase.key: phrase for phrase in PHRASES}
