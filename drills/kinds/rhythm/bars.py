"""What the drills of bars and beats share: the bars they draw, and what they explain."""

from __future__ import annotations

import random
from typing import Final

from drills.kinds import pictures
from drills.kinds.rhythm.written import struck_bar, written_bar
from drills.notation.score import Metre, Piece
from drills.notation.staff import StaffView
from drills.question import Explanation, Item, Manner

RHYTHMS: Final = {
    "4-4": ("1 2 3 4", "1 2 3", "1 3 4", "1 1& 2 3", "1 2 2& 3 4", "1 3", "1 2& 3 4", "1 2 3 3& 4", "1 3& 4",
            "1 3 4 4&", "1 2 4&"),
    "3-4": ("1 2 3", "1 2 2& 3", "1 3", "1 1& 2 3", "1 2", "1 2 3 3&", "1 3&"),
    "2-4": ("1 2", "1 1& 2", "1 2 2&", "1 2&", "1 1& 2 2&"),
    "6-8": ("1 4", "1 3 4 6", "1 2 3 4", "1 4 5 6", "1 3 4 5 6", "1 2 3 4 5"),
}  # fmt: skip
"""Beats of the notes of one bar; ``2&`` is half a beat after the second. In 6/8 a beat is an eighth."""

LESSONS: Final = {
    "bars": (
        "Bars and beats",
        "Upright lines through the staff are bar lines; what stands between two of them is a bar. The line at "
        "the very left opens the first bar, the one at the very right closes the last.",
        "Every bar of a piece has the same number of beats: mostly four, often three. Under these bars stands "
        "the count: say it aloud, evenly, and tap your foot.",
        "A bar can hold fewer numbers on its lines than it has beats, or more: a note may last, or two may share "
        "a beat. Press the number that is asked for.",
    ),
    "beats": (
        "Which beat?",
        "Look straight down from a number to the count under the staff: that is its beat. The & (say “and”) is "
        "half a beat later; 2& is the half after beat 2.",
        "Here the second bar has numbers on 1, on 2& and on 3. Press the key of the beat.",
    ),
    "missing": (
        "Where the bar ends",
        "A bar line stands before beat 1: where the count starts again, a new bar begins. When a bar line is "
        "missing, only a tick stands under each beat.",
        "Count the ticks up to the last beat of the bar; the next number on the lines opens the next bar. Press the "
        "letter under it.",
    ),
    "six-eight": (
        "Six eighths",
        "In 6/8 a bar is six eighths long, and it is the eighths that are counted: 1 2 3 4 5 6, with a little weight "
        "on 1 and on 4.",
        "A quarter takes two of these counts, a dotted quarter three, so two dotted quarters fill the bar.",
    ),
    "sixteenths": (
        "Four to a beat",
        "Sixteenths share a beat between four: say 1 e & a, 2 e & a, evenly. The e comes a quarter of a beat after "
        "the number, the a a quarter before the next one.",
        "Type the beat as it is counted: 2 and Enter for the beat itself, 2e, 2& or 2a for its parts.",
    ),
    "summed": (
        "Beats without the count",
        "Printed tab seldom has a count under it. Then the values tell the beat: add up how long what stands before "
        "a number lasts, from 1 on.",
        "A quarter takes one beat, a half two, an eighth half a beat. In the first bar here the numbers fall on 1, 2 "
        "and 3. Press the key of the beat.",
    ),
    "sums": (
        "How many beats are in a bar?",
        "Every bar is filled to the end: the values in it add up to its beats. A quarter is one beat, a half two, "
        "a dotted half three, a whole four.",
        "The first bar here holds 1 + 1 + 2 = 4 beats. Press the number that is asked for.",
    ),
}
"""Title and paragraphs of each lesson."""

_WRITTEN: Final = {"six-eight": ("6-8", "q. q e", "e e e q."), "sixteenths": ("4-4", "s s s s q h"),
                   "summed": ("4-4", "q q h", "h e e q"), "sums": ("4-4", "q q h", "h. q")}  # fmt: skip


def bar_explanation(item: Item, manner: Manner) -> Explanation:
    """Bars, beats, and how they are counted."""
    title, *lines = LESSONS[item.lesson]
    return Explanation(title, tuple(lines), pictures.with_neck(_lesson_staff(item, manner), manner))


def _lesson_staff(item: Item, manner: Manner) -> StaffView:
    tuning, rng = item.tuning, random.Random(3)
    if item.lesson in _WRITTEN:
        name, *texts = _WRITTEN[item.lesson]
        metre = Metre(6, 8) if name == "6-8" else Metre(4)
        bars = tuple(written_bar(text, metre, tuning, rng) for text in texts)
    else:
        bars = tuple(struck_bar(rhythm, Metre(4), tuning, rng) for rhythm in ("1 2 3 4", "1 2& 3"))
    return StaffView(Piece(tuning, bars), manner.dialect, count=True, stems=item.lesson in _WRITTEN)
