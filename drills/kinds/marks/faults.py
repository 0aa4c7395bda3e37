"""Signs that are written wrongly, and others beside them that are written well."""

from __future__ import annotations

from fractions import Fraction
from typing import Final, NamedTuple

from drills.kinds.marks.first_signs import DOWN, HAMMER, PULL, UP, bend
from drills.kinds.marks.rare_signs import HARMONIC, IN_UP, TAP, trill
from drills.kinds.marks.sign import Step
from drills.kinds.marks.touch_signs import MUTE, PALM, VIBRATO
from drills.stages import Stage


class Fragment(NamedTuple):
    """A sign on one to three notes.

    Attributes:
        key: as it stands in item ids, where it is a fault.
        said: what is drawn, without a word on whether it is right: the answer of the option.
        steps: the notes.
        sign: key of the sign.
        stage: from when on it is drawn.
        movable: whether it may stand at other frets.
        why: what is wrong with it, as a clause; empty where it is right.
        like: the well written fragment that it is most like.
        turned: whether the two differ only in which way they go.
    """

    key: str
    said: str
    steps: tuple[Step, ...]
    sign: str
    stage: int
    movable: bool = True
    why: str = ""
    like: str = ""
    turned: bool = False

    @property
    def crosses(self) -> bool:
        """Whether it goes from one line to another."""
        return any(step.line for step in self.steps)


FULL: Final = bend(Fraction(1))
_HALF: Final = bend(Fraction(1, 2))

WELL: Final = (
    Fragment(
        "hammer", "a hammer-on from a lower to a higher fret", (Step(5, (HAMMER,)), Step(7)), "hammer-on", Stage.NAMES,
    ),
    Fragment("pull", "a pull-off from a higher to a lower fret", (Step(7, (PULL,)), Step(5)), "pull-off", Stage.NAMES),
    Fragment(
        "hammer-from-open", "a hammer-on from the open string", (Step(0, (HAMMER,)), Step(2)), "hammer-on", Stage.NAMES,
        movable=False,
    ),
    Fragment(
        "pull-to-open", "a pull-off to the open string", (Step(3, (PULL,)), Step(0)), "pull-off", Stage.NAMES,
        movable=False,
    ),
    Fragment(
        "hammer-near", "a hammer-on to the next fret", (Step(5, (HAMMER,)), Step(6)), "hammer-on", Stage.NAMES,
    ),
    Fragment(
        "pull-near", "a pull-off to the fret below it", (Step(6, (PULL,)), Step(5)), "pull-off", Stage.NAMES,
    ),
    Fragment("up-near", "a rising line to the next fret", (Step(5, (UP,)), Step(6)), "slide-up", Stage.SLIDES),
    Fragment(
        "down-near", "a falling line to the fret below it", (Step(6, (DOWN,)), Step(5)), "slide-down", Stage.SLIDES,
    ),
    Fragment("up", "a rising line from a lower to a higher fret", (Step(5, (UP,)), Step(8)), "slide-up", Stage.SLIDES),
    Fragment("down", "a falling line from a higher to a lower fret", (Step(8, (DOWN,)), Step(5)), "slide-down",
             Stage.SLIDES),
    Fragment("full", "a full bend of a fretted note", (Step(7, (FULL,)),), "full-bend", Stage.SLIDES),
    Fragment("half", "a half bend of a fretted note", (Step(7, (_HALF,)),), "half-bend", Stage.SLIDES),
    Fragment("wavers", "a vibrato of a fretted note", (Step(7, (VIBRATO,)),), "vibrato", Stage.TOUCH),
    Fragment("x", "a muted x", (Step(None, (MUTE,)),), "mute", Stage.TOUCH, movable=False),
    Fragment("palm", "a palm mute", (Step(3, (PALM,)), Step(3, (PALM,))), "palm-mute", Stage.TOUCH),
    Fragment("bell", "a natural harmonic at fret 12", (Step(12, (HARMONIC,)),), "harmonic", Stage.RARE_SIGNS,
             movable=False),
    Fragment("bell-near", "a natural harmonic at fret 7", (Step(7, (HARMONIC,)),), "harmonic", Stage.RARE_SIGNS,
             movable=False),
    Fragment("tapped", "a tap on a fret", (Step(12, (TAP,)),), "tap", Stage.RARE_SIGNS),
    Fragment("turns", "a trill between two frets", (Step(5, (trill(7),)),), "trill", Stage.RARE_SIGNS),
    Fragment("into", "a slide from below into a fretted note", (Step(7, (IN_UP,)),), "slide-in-up", Stage.RARE_SIGNS),
)  # fmt: skip
"""Written as they should be, in the order in which they are met."""

FAULTS: Final = (
    Fragment(
        "hammer-down", "a hammer-on from a higher to a lower fret", (Step(7, (HAMMER,)), Step(5)), "hammer-on",
        Stage.NAMES, why="a hammer-on brings a finger down on a higher fret", like="hammer", turned=True,
    ),
    Fragment(
        "pull-up", "a pull-off from a lower to a higher fret", (Step(5, (PULL,)), Step(7)), "pull-off", Stage.NAMES,
        why="a pull-off uncovers a lower fret", like="pull", turned=True,
    ),
    Fragment(
        "hammer-same", "a hammer-on to the same fret", (Step(5, (HAMMER,)), Step(5)), "hammer-on", Stage.NAMES,
        why="a finger cannot come down where one is pressed already", like="hammer",
    ),
    Fragment(
        "pull-same", "a pull-off to the same fret", (Step(5, (PULL,)), Step(5)), "pull-off", Stage.NAMES,
        why="a finger that leaves uncovers another fret", like="pull",
    ),
    Fragment(
        "hammer-open", "a hammer-on to the open string", (Step(3, (HAMMER,)), Step(0)), "hammer-on", Stage.NAMES,
        movable=False, why="no finger comes down on an open string", like="hammer-from-open",
    ),
    Fragment(
        "pull-open", "a pull-off from the open string", (Step(0, (PULL,)), Step(2)), "pull-off", Stage.NAMES,
        movable=False, why="at an open string there is no finger to pull off", like="pull-to-open",
    ),
    Fragment(
        "hammer-lines", "a hammer-on from one string to another", (Step(5, (HAMMER,)), Step(7, (), 1)), "hammer-on",
        Stage.SLIDES, why="a hammer-on stays on its string", like="hammer",
    ),
    Fragment(
        "pull-lines", "a pull-off from one string to another", (Step(7, (PULL,)), Step(5, (), 1)), "pull-off",
        Stage.SLIDES, why="a pull-off stays on its string", like="pull",
    ),
    Fragment(
        "up-falls", "a rising line from a higher to a lower fret", (Step(8, (UP,)), Step(5)), "slide-up", Stage.SLIDES,
        why="a rising line is a slide up, and here the frets fall", like="up", turned=True,
    ),
    Fragment(
        "down-rises", "a falling line from a lower to a higher fret", (Step(5, (DOWN,)), Step(8)), "slide-down",
        Stage.SLIDES, why="a falling line is a slide down, and here the frets rise", like="down", turned=True,
    ),
    Fragment(
        "slide-same", "a rising line to the same fret", (Step(7, (UP,)), Step(7)), "slide-up", Stage.SLIDES,
        why="a slide has to arrive at another fret", like="up",
    ),
    Fragment(
        "slide-down-same", "a falling line to the same fret", (Step(7, (DOWN,)), Step(7)), "slide-down", Stage.TOUCH,
        why="a slide has to arrive at another fret", like="down",
    ),
    Fragment(
        "bend-open", "a full bend of the open string", (Step(0, (FULL,)),), "full-bend", Stage.SLIDES, movable=False,
        why="no finger is on an open string to push it", like="full",
    ),
    Fragment(
        "half-bend-open", "a half bend of the open string", (Step(0, (_HALF,)),), "half-bend", Stage.TOUCH,
        movable=False, why="no finger is on an open string to push it", like="half",
    ),
    Fragment(
        "harmonic-nowhere", "a natural harmonic at fret 11", (Step(11, (HARMONIC,)),), "harmonic", Stage.RARE_SIGNS,
        movable=False, why="at fret 11 the string has no overtone that can be heard", like="bell",
    ),
    Fragment(
        "tap-open", "a tap on the open string", (Step(0, (TAP,)),), "tap", Stage.RARE_SIGNS, movable=False,
        why="a tap brings a finger down on a fret", like="tapped",
    ),
    Fragment(
        "trill-same", "a trill between a fret and itself", (Step(5, (trill(5),)),), "trill", Stage.RARE_SIGNS,
        why="a trill needs two frets", like="turns",
    ),
    Fragment(
        "into-open", "a slide from below into the open string", (Step(0, (IN_UP,)),), "slide-in-up", Stage.RARE_SIGNS,
        movable=False, why="below the open string there is no fret to slide from", like="into",
    ),
)  # fmt: skip
"""Each written wrongly in one way (that it is wrong follows from what the sign means: H. Wright 1995 for hammer-ons,
pull-offs, slides, bends and taps; overtone arithmetic for harmonics; the rest common practice, no source). A slide
to another string is none of them: a line that leads to no number on its string may be a slide out."""

WELL_BY_KEY: Final = {fragment.key: fragment for fragment in WELL}
FAULT_BY_KEY: Final = {fragment.key: fragment for fragment in FAULTS}
