"""Hammer-ons, pull-offs, slides and bends: the signs that a beginner meets first."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from drills.kinds.marks.sign import PRACTICE, WRIGHT, Certainty, Legend, Sign, Step
from drills.notation.score import Mark, MarkKind
from drills.notation.staff_view import Dialect
from drills.stages import Stage

HAMMER: Final = Mark(MarkKind.HAMMER_ON)
PULL: Final = Mark(MarkKind.PULL_OFF)
UP: Final = Mark(MarkKind.SLIDE_UP)
DOWN: Final = Mark(MarkKind.SLIDE_DOWN)
UP_AGAIN: Final = Mark(MarkKind.SLIDE_UP, slurred=False)
DOWN_AGAIN: Final = Mark(MarkKind.SLIDE_DOWN, slurred=False)
RELEASE: Final = Mark(MarkKind.RELEASE)

_SLIDE: Final = f"{WRIGHT} (typed); MusicXML 4.0, slide (pitch); {PRACTICE} (picked again or not)"
_BEND: Final = f"{WRIGHT} (typed); MusicXML 4.0, bend-alter, in semitones; {PRACTICE} (printed)"
_NO_SECOND_PICK: Final = "under an arc the second number is not picked"
_SECOND_PICK: Final = "a slide without an arc, or a shift slide, is picked again at the second number"
_ONE_PICK: Final = "a bend joins no two numbers, so each number is picked, and picked once"


def bend(amount: Fraction) -> Mark:
    """Pushed up by so many whole steps."""
    return Mark(MarkKind.BEND, amount)


FIRST_SIGNS: Final = (
    Sign(
        "hammer-on", "hammer-on", (Step(5, (HAMMER,)), Step(7)),
        "Pick the first note, then bring another finger down hard on the higher fret; do not pick again",
        "fret the higher note hard, no pick",
        "The pitch rises; the second note sounds without a pick.",
        "an arc over both numbers with an H", "an h between the numbers", Stage.NAMES,
        f"{WRIGHT} (typed); MusicXML 4.0, hammer-on; {PRACTICE} (printed)",
        picking="the number after a hammer-on is sounded by the fretting hand",
        move="a hammer-on steps up to the next number",
        near=("pull-off", "tie"),
    ),
    Sign(
        "pull-off", "pull-off", (Step(7, (PULL,)), Step(5)),
        "Hold both frets, pick the higher, then pluck the string with the finger that leaves it",
        "tug the string with the finger that leaves",
        "The pitch falls; the second note sounds without a pick.",
        "an arc over both numbers with a P", "a p between the numbers", Stage.NAMES,
        f"{WRIGHT} (typed); MusicXML 4.0, pull-off; {PRACTICE} (printed)",
        picking="the number after a pull-off is sounded by the fretting hand",
        move="a pull-off steps down to the next number",
        near=("hammer-on", "palm-mute"),
    ),
    Sign(
        "slide-up", "slide up", (Step(5, (UP,)), Step(8)),
        "Pick the first note and glide up to the higher fret, keeping the finger pressed down",
        "glide up, the finger kept down",
        "The pitch glides up; under an arc the second note is not picked.",
        "a rising line between the numbers, under an arc", "a / between the numbers", Stage.SLIDES, _SLIDE,
        picking=_NO_SECOND_PICK, move="a slide up glides to the higher number",
        legend=Legend("/: no second pick", "/: legato slide"), near=("slide-down",),
    ),
    Sign(
        "slide-down", "slide down", (Step(8, (DOWN,)), Step(5)),
        "Pick the first note and glide down to the lower fret, keeping the finger pressed down",
        "glide down, the finger kept down",
        "The pitch glides down; under an arc the second note is not picked.",
        "a falling line between the numbers, under an arc", "a \\ between the numbers", Stage.SLIDES, _SLIDE,
        picking=_NO_SECOND_PICK, move="a slide down glides to the lower number",
        legend=Legend("\\: no second pick", "\\: legato slide"), near=("slide-up",),
    ),
    Sign(
        "slide-up-picked", "slide up, picked again", (Step(5, (UP_AGAIN,)), Step(8)),
        "Pick the first note, glide up with the finger kept down, and pick again as you arrive",
        "glide up, then pick again",
        "The pitch glides up, and the second note has an attack of its own; players call it a shift slide.",
        "a rising line between the numbers, without an arc", "a / between the numbers",
        Stage.SLIDES, _SLIDE,
        picking=_SECOND_PICK, move="a slide up glides to the higher number",
        certainty=Certainty.LEGEND, legend=Legend("/: picked again", "/: shift slide"),
        near=("slide-up", "slide-down-picked"), named_in=(Dialect.ENGRAVED,), found_in=(Dialect.ENGRAVED,),
    ),
    Sign(
        "slide-down-picked", "slide down, picked again", (Step(8, (DOWN_AGAIN,)), Step(5)),
        "Pick the first note, glide down with the finger kept down, and pick again as you arrive",
        "glide down, then pick again",
        "The pitch glides down, and the second note has an attack of its own; players call it a shift slide.",
        "a falling line between the numbers, without an arc", "a \\ between the numbers",
        Stage.SLIDES, _SLIDE,
        picking=_SECOND_PICK, move="a slide down glides to the lower number",
        certainty=Certainty.LEGEND, legend=Legend("\\: picked again", "\\: shift slide"),
        near=("slide-down", "slide-up-picked"), named_in=(Dialect.ENGRAVED,), found_in=(Dialect.ENGRAVED,),
    ),
    Sign(
        "half-bend", "half bend", (Step(7, (bend(Fraction(1, 2)),)),),
        "Pick the note and push the string sideways until it sounds one fret higher",
        "push until it sounds one fret higher",
        "The pitch rises by a half step, one fret.",
        "an arrow up to ½", "a b and the fret that it sounds like, one higher (7b8)", Stage.SLIDES, _BEND,
        picking=_ONE_PICK, move="a half bend ends one fret higher than its number", near=("full-bend",), strains=True,
    ),
    Sign(
        "full-bend", "full bend", (Step(7, (bend(Fraction(1)),)),),
        "Pick the note and push the string sideways, other fingers helping behind, until it sounds two frets higher",
        "push until it sounds two frets higher",
        "The pitch rises by a whole step, two frets.",
        "an arrow up to 1 (or full)", "a b and the fret that it sounds like, two higher (7b9)", Stage.SLIDES, _BEND,
        picking=_ONE_PICK, move="a full bend ends two frets higher than its number", near=("half-bend",), strains=True,
    ),
)  # fmt: skip
"""In the order in which beginners meet them."""
