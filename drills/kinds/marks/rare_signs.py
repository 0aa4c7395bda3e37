"""Signs that a beginner meets late: wide bends, taps, harmonics, accents, slides from and to nowhere, repeats."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from drills.kinds.marks.first_signs import RELEASE, bend
from drills.kinds.marks.sign import PRACTICE, WRIGHT, Certainty, Legend, Sign, Step
from drills.notation.score import Mark, MarkKind
from drills.stages import Stage

TAP: Final = Mark(MarkKind.TAP)
HARMONIC: Final = Mark(MarkKind.HARMONIC)
GRACE: Final = Mark(MarkKind.GRACE)
IN_UP: Final = Mark(MarkKind.SLIDE_IN_UP)
IN_DOWN: Final = Mark(MarkKind.SLIDE_IN_DOWN)
OUT_UP: Final = Mark(MarkKind.SLIDE_OUT_UP)
OUT_DOWN: Final = Mark(MarkKind.SLIDE_OUT_DOWN)

_BEND: Final = f"{WRIGHT} (typed); MusicXML 4.0, bend-alter, in semitones; {PRACTICE} (printed)"
_PRE_BEND: Final = f"MusicXML 4.0, pre-bend; {PRACTICE} (typed)"
_INTO: Final = f"{WRIGHT} (typed); MusicXML 4.0, scoop (printed, from memory)"
_OUT: Final = f"{WRIGHT} (typed); MusicXML 4.0, falloff (printed, from memory)"
_ONE_PICK: Final = "a bend joins no two numbers, so each number is picked, and picked once"
_BENT_FIRST: Final = "a pre-bend is picked once, after the push"
_NOWHERE: Final = "a slide from or to nowhere has one number and one pick"


def pre_bend(amount: Fraction) -> Mark:
    """Pushed up by so many whole steps before it is picked."""
    return Mark(MarkKind.PRE_BEND, amount)


def trill(to: int) -> Mark:
    """A trill with another fret."""
    return Mark(MarkKind.TRILL, to=to)


BENDS: Final = (
    Sign(
        "bend-one-and-half", "bend of one and a half steps", (Step(7, (bend(Fraction(3, 2)),)),),
        "Pick the note and push the string, with more than one finger, until it sounds three frets higher",
        "push until it sounds three frets higher",
        "The pitch rises by one and a half steps, three frets.",
        "an arrow up to 1½", "a b and the fret that it sounds like, three higher (7b10)", Stage.RARE_SIGNS, _BEND,
        picking=_ONE_PICK, move="a bend of one and a half steps ends three frets higher than its number",
        near=("bend-two", "full-bend", "half-bend"), strains=True,
    ),
    Sign(
        "bend-two", "bend of two steps", (Step(7, (bend(Fraction(2)),)),),
        "Pick the note and push the string, with more than one finger, until it sounds four frets higher",
        "push until it sounds four frets higher",
        "The pitch rises by two whole steps, four frets.",
        "an arrow up to 2", "a b and the fret that it sounds like, four higher (7b11)", Stage.RARE_SIGNS, _BEND,
        picking=_ONE_PICK, move="a bend of two steps ends four frets higher than its number",
        near=("bend-one-and-half", "full-bend", "half-bend"), strains=True,
    ),
    Sign(
        "pre-bend", "pre-bend", (Step(7, (pre_bend(Fraction(1)),)),),
        "Push the string to its bent pitch in silence, and only then pick it",
        "push the string first, then pick it",
        "The bent pitch sounds from the start; the written fret is not heard.",
        "a straight arrow up to the amount", "pb and the fret that it sounds like",
        Stage.RARE_SIGNS, _PRE_BEND,
        picking=_BENT_FIRST, move="a pre-bend sounds bent from the start",
        certainty=Certainty.LEGEND, legend=Legend("pb: pushed, then picked", "pb: pre-bend"),
        near=("bend-release", "half-bend"), strains=True,
    ),
    Sign(
        "pre-bend-release", "pre-bend and release", (Step(7, (pre_bend(Fraction(1)), RELEASE)),),
        "Push the string to its bent pitch in silence, pick it, and let it back to its fret",
        "push first, pick, then let it back",
        "The sound begins at the bent pitch and falls to the written fret.",
        "a straight arrow up to the amount, and an arrow down again",
        "pb with its fret, then an r with the number (7pb9r7)",
        Stage.RARE_SIGNS, _PRE_BEND,
        picking=_BENT_FIRST, move="a pre-bend sounds bent from the start",
        certainty=Certainty.LEGEND, legend=Legend("pb: pushed, then picked", "pb: pre-bend"),
        near=("bend-release", "pull-off"), strains=True,
    ),
)  # fmt: skip

FINGERS: Final = (
    Sign(
        "trill", "trill", (Step(5, (trill(7),)),),
        "Pick once, then hammer on and pull off between the two frets as fast and as long as the note lasts",
        "hammer and pull between two frets, fast",
        "Two pitches in quick turns, all from one pick.",
        "tr and a wavy line over the number, the other fret in parentheses", "tr between the two frets (5tr7)",
        Stage.RARE_SIGNS, 'MusicXML 4.0, trill-mark; typed: an encyclopedia article, "ASCII tab"',
        picking="a trill is picked once, at its start", move="a trill goes to and fro between its two frets",
        certainty=Certainty.LIKELY, near=("vibrato", "slide-up"), strains=True,
    ),
    Sign(
        "tap", "tap", (Step(12, (TAP,)),),
        "Bring a finger of the picking hand down on the fret; the pick stays off the string",
        "bring a picking-hand finger down on the fret",
        "The note sounds from the finger alone, often far above the fretting hand.",
        "a T over the number", "a t before the number (t12)", Stage.RARE_SIGNS,
        f"{WRIGHT} (typed); MusicXML 4.0, tap (printed)",
        picking="a tapped number is sounded by a finger, without a pick", move="a tap sounds its own fret",
        certainty=Certainty.LIKELY, near=("trill", "pinch-harmonic"), strains=True,
    ),
    Sign(
        "harmonic", "natural harmonic", (Step(12, (HARMONIC,)),),
        "Touch the string lightly right over the fret wire, pick, and lift the finger away",
        "touch the string over the wire, do not press",
        "A clear bell tone: at fret 12 an octave over the open string, at 7 an octave and a fifth, at 5 two octaves.",
        "N.H. over a number in angle brackets", "angle brackets round the number (<12>)", Stage.RARE_SIGNS,
        f"MusicXML 4.0, natural harmonic; overtone arithmetic (pitch); {PRACTICE} (typed)",
        picking="a harmonic is picked like any note", move="a harmonic sounds a part of the open string, not its fret",
        certainty=Certainty.LIKELY, near=("pinch-harmonic", "ghost"), movable=False,
    ),
    Sign(
        "pinch-harmonic", "pinch harmonic", (Step(5, (Mark(MarkKind.PINCH_HARMONIC),)),),
        "Fret the note and pick it with the pick held short, so that the thumb grazes the string at once",
        "let the thumb graze the string as you pick",
        "A squealing overtone; which one depends on where the thumb touches.",
        "P.H. over a number in angle brackets", "P.H. over a number in angle brackets", Stage.RARE_SIGNS,
        PRACTICE,
        picking="a pinch harmonic is picked, with pick and thumb", move="a pinch harmonic squeals above its fret",
        certainty=Certainty.LEGEND, legend=Legend("P.H.: thumb touches too", "P.H.: pinch harmonic"),
        near=("harmonic", "tap"),
    ),
    Sign(
        "grace", "grace note", (Step(5, (GRACE,)), Step(7)),
        "Play the small note as short as you can and go straight on to the next one",
        "play it as short as can be, then the next",
        "A flick before the main note.",
        "a small number before the main one", "a g before the number", Stage.RARE_SIGNS,
        f"MusicXML 4.0, grace; {PRACTICE} (typed)",
        picking="without an arc a grace note and the next one are picked each",
        move="a grace note leads to the next number",
        certainty=Certainty.LEGEND, legend=Legend("g: as short as can be", "g: grace note"),
        near=("staccato", "ghost"),
    ),
    Sign(
        "accent", "accent", (Step(5, (Mark(MarkKind.ACCENT),)),),
        "Pick this note harder than its neighbours",
        "pick it harder than the others",
        "The note stands out.",
        "a > over the number", "a > over the number", Stage.RARE_SIGNS,
        f"MusicXML 4.0, accent (printed, from memory); {PRACTICE} (typed)",
        picking="an accent is picked, only harder", move="an accent keeps the pitch",
        certainty=Certainty.LEGEND, legend=Legend(">: struck harder", ">: accent"), near=("staccato", "ghost"),
    ),
    Sign(
        "staccato", "staccato", (Step(5, (Mark(MarkKind.STACCATO),)),),
        "Pick the note and stop it at once, by lifting the finger just off the fret",
        "stop the note at once after the pick",
        "The note is short, with silence after it.",
        "a dot over the number", "a dot over the number", Stage.RARE_SIGNS,
        f"MusicXML 4.0, staccato (printed, from memory); {PRACTICE} (typed)",
        picking="a staccato note is picked, and cut short", move="a staccato note keeps its pitch",
        certainty=Certainty.LEGEND, legend=Legend(".: cut short", ".: staccato"), near=("accent", "grace"),
    ),
)  # fmt: skip

NOWHERE: Final = (
    Sign(
        "slide-in-up", "slide in from below", (Step(7, (IN_UP,)),),
        "Start a few frets below, pick, and glide up to the number at once",
        "start below and glide up to the number",
        "A quick scoop up to the note; where it begins is left to you.",
        "a short rising line before the number", "a / before the number, with no number before it",
        Stage.RARE_SIGNS, _INTO,
        picking=_NOWHERE, move="a slide in arrives at its number", certainty=Certainty.LIKELY,
        near=("slide-in-down", "slide-out-up"),
    ),
    Sign(
        "slide-in-down", "slide in from above", (Step(7, (IN_DOWN,)),),
        "Start a few frets above, pick, and glide down to the number at once",
        "start above and glide down to the number",
        "A quick drop to the note; where it begins is left to you.",
        "a short falling line before the number", "a \\ before the number, with no number before it",
        Stage.RARE_SIGNS, _INTO,
        picking=_NOWHERE, move="a slide in arrives at its number", certainty=Certainty.LIKELY,
        near=("slide-in-up", "slide-out-down"),
    ),
    Sign(
        "slide-out-up", "slide out upwards", (Step(7, (OUT_UP,)),),
        "Pick the number, then glide up a few frets and let go",
        "pick, then glide up and let go",
        "The note runs away upwards; where it ends is left to you.",
        "a short rising line after the number", "a / after the number, with no number after it", Stage.RARE_SIGNS, _OUT,
        picking=_NOWHERE, move="a slide out begins at its number", certainty=Certainty.LIKELY,
        near=("slide-out-down", "slide-in-up"),
    ),
    Sign(
        "slide-out-down", "slide out downwards", (Step(7, (OUT_DOWN,)),),
        "Pick the number, then glide down a few frets and let go",
        "pick, then glide down and let go",
        "The note falls away; where it ends is left to you.",
        "a short falling line after the number", "a \\ after the number, with no number after it",
        Stage.RARE_SIGNS, _OUT,
        picking=_NOWHERE, move="a slide out begins at its number", certainty=Certainty.LIKELY,
        near=("slide-out-up", "slide-in-down"),
    ),
)  # fmt: skip

REPEATS: Final = (
    Sign(
        "repeat", "repeat signs", (Step(3), Step(5)),
        "Play to the sign that closes, go back to the sign that opens, and play the part once more",
        "go back to the opening sign, play it again",
        "The part between the signs is heard twice.",
        "a double bar line with two dots at each end of the part", "|: before the part and :| after it",
        Stage.RARE_SIGNS, f"MusicXML 4.0, repeat; {PRACTICE} (typed)",
        picking="a repeat sign changes nothing about the picking", move="repeat signs have the part played twice",
        near=("repeat-count", "staccato"), times=2,
    ),
    Sign(
        "repeat-count", "repeat count", (Step(3), Step(5)),
        "Play the part between the signs as many times in all as the number beside the x says",
        "play the part as often as the number says",
        "With x3 the part is heard three times in all, the first time counted.",
        "x and a number at the closing repeat sign (x3)", "x and a number at the closing repeat sign (x3)",
        Stage.RARE_SIGNS, f"MusicXML 4.0, repeat times; {PRACTICE} (typed)",
        picking="a repeat count changes nothing about the picking", move="a repeat count says how often in all",
        certainty=Certainty.LIKELY, near=("mute", "bend-two"), times=3,
    ),
)  # fmt: skip

RARE_SIGNS: Final = (*BENDS, *FINGERS, *NOWHERE, *REPEATS)
"""In the order in which beginners meet them."""
