"""What is explained of note values: how they are drawn, how long they last, how they fill a bar and are tapped."""

from __future__ import annotations

import random
from typing import Final

from drills.kinds import pictures
from drills.kinds.rhythm.written import METRES, written_bar
from drills.notation.score import Piece
from drills.notation.staff import Dialect, StaffView
from drills.question import Explanation, Item, Manner

_ENGRAVED: Final = {
    "values": "Under the staff stand the values. A whole note has no stem, a half note a short one, a quarter note a "
    "long one.",
    "short": "An eighth note has a long stem with one flag; eighths of one beat share a beam instead. A dot behind a "
    "stem makes the note half as long again.",
    "sixteenth": "A sixteenth note has two flags, or two beams. A dotted eighth and a sixteenth share a beat: the "
    "second beam is only a stub at the sixteenth.",
    "rests": "A rest stands on the middle line, with no number and no stem: ▄, which hangs from the line, is a whole "
    "rest, ▀, which sits on it, a half rest, } a quarter rest, y an eighth rest and ¥ a sixteenth rest.",
}
_TYPED: Final = {
    "values": "Under the staff stands a letter for the value of each number: w is a whole note, h a half note, "
    "q a quarter note.",
    "short": "The letter e is an eighth note. A dot behind a letter makes the note half as long again.",
    "sixteenth": "The letter s is a sixteenth note. A dotted eighth, written e and a dot, and a sixteenth share a "
    "beat.",
    "rests": "An r behind the letter is a rest: nothing is struck, and no number stands above. So qr is a quarter "
    "rest, hr a half rest, wr a whole rest.",
}
_SIGNS: Final = {"values": ("Values", "w", "h q q"), "short": ("Eighths and dots", "e e e q. q", "h. q"),
                 "sixteenth": ("Sixteenths", "s s s s e. s h",), "rests": ("Rests", "q qr hr", "q er e h")}  # fmt: skip
_HOW: Final = {
    "name": "Look at the sign of the marked number, and press the key of its name.",
    "find": "Look for the one number that has this value, and press the letter under it.",
    "length": "A whole note lasts four quarter notes, a half two, an eighth half of one; a dot adds half of the "
    "value. Press the key of the length in beats, where a quarter is one beat.",
}


def value_explanation(item: Item, manner: Manner) -> Explanation:
    """A lesson ``HOW-SIGNS``: how values are drawn, and what is to be done with them."""
    how, _, signs = item.lesson.partition("-")
    title, *texts = _SIGNS[signs]
    drawn = (_TYPED if manner.dialect == Dialect.TEXT else _ENGRAVED)[signs]
    said = _HOW[how].replace("the marked number", "the rest") if signs == "rests" else _HOW[how]
    lines = (drawn, said)
    titles = {"name": title, "find": f"{title}: which is it?", "length": f"{title}: how long?"}
    return _lesson(item, manner, titles[how], lines, "4-4", *texts)


def tie_explanation(item: Item, manner: Manner) -> Explanation:
    """Two notes tied to one."""
    lines = (
        "A tie joins two numbers of the same string and fret: only the first is struck, and it sounds on through the "
        "second.",
        "Its length is that of both together. Here a half and a quarter, 2 + 1, last 3 beats.",
    )
    return _lesson(item, manner, "Ties add up", lines, "4-4", "h~ q q")


def fill_explanation(item: Item, manner: Manner) -> Explanation:
    """The value that is left over."""
    lines = (
        "The values of a bar add up to its beats, rests counted too. What is still missing to the bar line is one "
        "more value.",
        "Here 1 + 1 beats are written and 4 are needed: a half note fills the bar. Press the key of the value.",
    )
    return _lesson(item, manner, "Filling up a bar", lines, "4-4", "q q")


def tap_explanation(item: Item, manner: Manner) -> Explanation:
    """Tapping what is written."""
    lines = (
        "On the screen, Space starts the pulse, which counts one bar in. Then tap with Space once for every number "
        "that is struck: not for a rest, and not for the second number of a tie.",
        "Only the distances between your taps count, and a steady tempo up to 8 % off the pulse is fine. A tap may be "
        "off by a quarter of the shortest value: at most 0.15 s, and 0.06 s in any case.",
        "Here you tap on 1, on 2, on the & after it and on 3. Say the count aloud while you tap.",
    )
    return _lesson(item, manner, "Tapping a bar", lines, "4-4", "q e e h", count=True)


def pick_up_explanation(item: Item, manner: Manner) -> Explanation:
    """A bar that is not full."""
    lines = (
        "Some pieces begin before the first full bar: with a pick-up, a bar at the very left that is too short.",
        "It ends where a full bar ends, so count backward from the bar line. Here one quarter stands before it in "
        "4/4: it falls on 4.",
    )
    view = StaffView(
        Piece(item.tuning, (
            written_bar("q", METRES["4-4"], item.tuning, random.Random(3), pick_up=True),
            written_bar("q q h", METRES["4-4"], item.tuning, random.Random(4)),
        )), manner.dialect, count=True, stems=True,
    )  # fmt: skip
    return Explanation("Pick-up bars", lines, pictures.with_neck(view, manner))


def _lesson(
    item: Item, manner: Manner, title: str, lines: tuple[str, ...], metre: str, *texts: str, count: bool = False
) -> Explanation:
    rng = random.Random(3)
    bars = tuple(written_bar(text, METRES[metre], item.tuning, rng) for text in texts)
    view = StaffView(Piece(item.tuning, bars), manner.dialect, stems=True, count=count)
    return Explanation(title, lines, pictures.with_neck(view, manner))
