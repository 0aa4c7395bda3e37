"""Signs of touch: released, wavering, muted, held."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from drills.kinds.marks.first_signs import RELEASE, bend
from drills.kinds.marks.sign import PRACTICE, WRIGHT, Certainty, Legend, Sign, Step
from drills.notation.score import Mark, MarkKind
from drills.notation.staff_view import Dialect
from drills.stages import Stage

PALM: Final = Mark(MarkKind.PALM_MUTE)
RING: Final = Mark(MarkKind.LET_RING)
TIE: Final = Mark(MarkKind.TIE)
GHOST: Final = Mark(MarkKind.GHOST)
MUTE: Final = Mark(MarkKind.MUTE)
VIBRATO: Final = Mark(MarkKind.VIBRATO)

TOUCH_SIGNS: Final = (
    Sign(
        "bend-release", "bend and release", (Step(7, (bend(Fraction(1)), RELEASE)),),
        "Pick once, push the string up to its bent pitch, then let it back to where it was, still pressed down",
        "push the string up, then let it back",
        "The pitch rises and falls again, all from one pick.",
        "an arrow up to the amount and another down again",
        "a b with its fret, then an r with the number again (7b9r7)",
        Stage.TOUCH, f"{WRIGHT} (typed); MusicXML 4.0, bend with release; {PRACTICE} (printed)",
        picking="a bend and its release have one pick", move="its release comes back to the number",
        near=("pre-bend-release", "pull-off"), strains=True,
    ),
    Sign(
        "vibrato", "vibrato", (Step(7, (VIBRATO,)),),
        "Pick the note, then rock the pressed string a little to and fro",
        "rock the string a little to and fro",
        "The pitch wavers round the note.",
        "a wavy line over the number", "a ~ or several after the number", Stage.TOUCH,
        f"{WRIGHT} (typed); MusicXML 4.0, wavy-line",
        picking="a vibrato is no second note, so nothing more is picked",
        move="a vibrato wavers and stays at its number",
        near=("trill", "half-bend"),
    ),
    Sign(
        "palm-mute", "palm mute", (Step(3, (PALM,)), Step(3, (PALM,))),
        "Rest the edge of the picking palm on the strings close to the bridge and pick through it",
        "rest the palm's edge on the strings",
        "The notes keep their pitch and sound short and dull.",
        "P.M. over the numbers, with dashes as far as it lasts", "PM over or under the lines, with dashes as far as it "
        "lasts",
        Stage.TOUCH, f"MusicXML 4.0, mute palm (meaning); {PRACTICE} (the letters)",
        picking="a palm mute changes the sound, not the picking", move="a palm mute keeps the pitch",
        near=("mute", "staccato"),
    ),
    Sign(
        "mute", "muted x", (Step(None, (MUTE,)),),
        "Lay the fretting fingers on the string without pressing it down, and pick it",
        "lay fingers on the string, not pressed down",
        "A dull click without a pitch. In a chord shape an x says the opposite: leave this string out.",
        "an x on the line", "an x on the line", Stage.TOUCH, f"{WRIGHT} (typed); MusicXML 4.0, notehead x",
        picking="a muted x is picked like any number", move="a muted x has no pitch",
        near=("palm-mute", "staccato"), movable=False,
    ),
    Sign(
        "ghost", "ghost note", (Step(5, (GHOST,)),),
        "Fret the note and pick it so softly that it is felt more than heard",
        "pick it very softly",
        "A faint note between the louder ones.",
        "parentheses round the number", "parentheses round the number", Stage.TOUCH,
        f"{PRACTICE}; MusicXML 4.0, notehead parentheses (printed)",
        picking="a ghost note is picked, only softly", move="a ghost note keeps its pitch",
        certainty=Certainty.LEGEND, legend=Legend("(n): hardly heard", "(n): ghost note"),
        legend_in_print=True, near=("tie", "accent"), found_in=(Dialect.TEXT,),
    ),
    Sign(
        "let-ring", "let ring", (Step(2, (RING,), 1), Step(1, (RING,))),
        "Leave the fingers down after each note, so that the strings sound on together",
        "leave the fingers down, strings sound on",
        "The notes run into one another like a chord.",
        "let ring over the numbers, with dashes as far as it lasts", "let ring over or under the lines, with dashes",
        Stage.TOUCH, "MusicXML 4.0, tied let-ring (meaning); " + PRACTICE + " (the words)",
        picking="letting strings ring changes nothing about the picking", move="strings that ring keep their pitch",
        certainty=Certainty.LIKELY, near=("palm-mute", "staccato"), says_its_name=True,
    ),
    Sign(
        "tie", "tie", (Step(5, (TIE,)), Step(5)),
        "Pick the first number and hold it through the second; do not pick again",
        "hold the note on, no second pick",
        "One note that lasts as long as both.",
        "an arc without a letter to the same fret, which stands in parentheses",
        "the same fret again in parentheses", Stage.TOUCH,
        f"MusicXML 4.0, tied (meaning); {PRACTICE} (typed)",
        picking="the number after a tie is held, not struck again",
        move="a note that is tied over does not begin again",
        certainty=Certainty.LEGEND, legend=Legend("(n): not struck again", "(n): tied over"),
        near=("hammer-on", "ghost"),
    ),
)  # fmt: skip
"""In the order in which beginners meet them."""
