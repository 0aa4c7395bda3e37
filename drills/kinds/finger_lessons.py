"""What is explained of fingering, and how numbers are written under the staff."""

from __future__ import annotations

from typing import Final

from drills.kinds import pictures
from drills.kinds.caution import CAUTION
from drills.notation.score import Bar, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Explanation, Item, Manner

FRETTING: Final = {"1": "index finger", "2": "middle finger", "3": "ring finger", "4": "little finger"}
"""Numbers of the fretting hand's fingers (common practice, no source)."""
PICKING: Final = {"p": "thumb", "i": "index finger", "m": "middle finger", "a": "ring finger"}
"""Letters of the picking hand's fingers, from Spanish: pulgar, indice, medio, anular (common practice)."""


def row_view(tuning: Tuning, manner: Manner, frets: list[int], fingers: list[int]) -> StaffView:
    """A phrase on the second of the full strings from the top of the page, with its fingering under the staff."""
    string = tuning.full[-2]
    onsets = tuple(Onset((Note(string, fret),)) for fret in frets)
    return StaffView(
        Piece(tuning, (Bar(onsets),)),
        manner.dialect,
        fingering={(0, n): str(finger) for n, finger in enumerate(fingers)},
    )


def finger_explanation(item: Item, manner: Manner) -> Explanation:
    """The fingers' numbers and letters, one finger a fret, and where fingering is written."""
    tuning = item.tuning
    if item.lesson == "picking":
        strings = (tuning.full[0], *tuning.full[-3:])
        onsets = tuple(Onset((Note(string, 0),)) for string in strings)
        view = StaffView(
            Piece(tuning, (Bar(onsets),)), manner.dialect, fingering={(0, n): sign for n, sign in enumerate(PICKING)}
        )
        return Explanation(
            "Letters for the picking hand",
            (
                "Without a pick, letters say which finger of the picking hand plucks: p is the thumb, i the index "
                "finger, m the middle finger, a the ring finger. They are Spanish: pulgar, indice, medio, anular.",
                "Often the thumb has the low strings, and i, m and a have the three at the top of the page, as here. "
                "Press the key beside your answer.",
            ),
            pictures.with_neck(view, manner),
        )
    view = row_view(tuning, manner, [5, 6, 7, 8], [1, 2, 3, 4])
    title, lines = _LESSONS[item.lesson]
    return Explanation(title, lines, pictures.with_neck(view, manner))


_LESSONS: Final = {
    "fretting": (
        "Numbers for the fretting hand",
        (
            "The fingers of the fretting hand have numbers: 1 is the index finger, 2 the middle finger, 3 the ring "
            "finger, 4 the little finger. The thumb is not counted, as it is on a piano; where it frets it is a T.",
            "0 is no finger: the open string. Press the key beside the name, or the number of the finger.",
        ),
    ),
    "position": (
        "One finger a fret",
        (
            "A position is named by the fret of the first finger. The other fingers lie over the next three frets, one "
            "each: with finger 1 at fret 5, finger 4 is at fret 8. Fingers stand under the staff, frets on its lines.",
            f"Low on the neck the frets are wide: let the hand move rather than stretch. {CAUTION}",
            "Press the number of the finger, 1 to 4.",
        ),
    ),
    "row": (
        "Fingers under the staff, frets on it",
        (
            "Where a staff has a row of single numbers under it, those are fingers of the fretting hand; the numbers "
            "on the lines are frets. Here frets 5, 6, 7, 8 are played with fingers 1, 2, 3, 4.",
            "Not to be mixed up: the number on the line says where, the one under the staff says with which finger. "
            "Press the number of the finger.",
        ),
    ),
}
"""Title and lines by lesson."""
