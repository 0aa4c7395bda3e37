"""What is explained of lines and strings: their order, their names, the neck and the page."""

from __future__ import annotations

from drills.kinds import pictures
from drills.kinds.wording import SENTENCES, initials_upward
from drills.notation.drawing import Role
from drills.notation.tuning import sentence_fits
from drills.question import Explanation, Item, Manner, Picture


def line_explanation(item: Item, manner: Manner) -> Explanation:
    """Lines and strings: the top line is the thinnest string."""
    tuning = item.tuning
    last = tuning.lines
    thin, thick = (", the thinnest", ", the thickest") if tuning.gauge_ordered else ("", "")
    return Explanation(
        "One line, one string",
        (
            f"Tab draws a line for each string, {last} in all. The top line, line 1, is string 1{thin}: it is "
            f"nearest the floor as you play. The bottom line, line {last}, is string {last}{thick}.",
            "So the page shows the strings the other way round from what you see looking down at the neck.",
            f"Press the number of the line or string that is asked for, 1 to {last}.",
        ),
        Picture(
            pictures.bare_staff(tuning, manner.dialect, labels=pictures.line_numbers(tuning)),
            pictures.neck_strings(tuning, {}, manner.left_handed, pictures.line_numbers(tuning)),
        ),
    )


def name_explanation(item: Item, manner: Manner) -> Explanation:
    """Names of the strings, with a sentence to keep them by."""
    tuning = item.tuning
    strings = range(1, tuning.lines + 1)
    names = ", ".join(tuning.string_name(n, manner.naming) for n in reversed(strings))
    lines = [
        f"Each string is called by the note that it sounds open, with no finger on it. From the bottom line to "
        f"the top: {names}."
    ]
    if any(" " in tuning.string_name(n, manner.naming) for n in strings):
        lines.append(
            "Where two strings share a letter, say low or high: the low one sounds deeper. In typed tab the "
            "high one often has a small letter."
        )
    fits = sentence_fits(manner.sentence, tuning, manner.naming)
    if fits is not None:
        way = "bottom line up" if fits == "up" else "top line down"
        lines.append(f"Your sentence, from the {way}: {manner.sentence}")
    elif ours := SENTENCES.get(initials_upward(tuning, manner.naming)):
        lines.append(f"To keep them, from the bottom line up: {ours[0]}. Your own is better (see Setup).")
    if tuning.remark:
        lines.append(tuning.remark)
    lines.append("Asked for a name, press the key beside it; asked for a line, press its number.")
    return Explanation(
        "The strings by name",
        tuple(lines),
        Picture(
            pictures.bare_staff(tuning, manner.dialect, labels=pictures.line_letters(tuning, manner.naming)),
            pictures.neck_strings(
                tuning, {}, manner.left_handed, pictures.line_letters(tuning, manner.naming)
            ),
        ),
    )


def neck_explanation(item: Item, manner: Manner) -> Explanation:
    """The reversal between the neck and the staff."""
    last = item.tuning.lines
    gauge = "the thickest string" if item.tuning.gauge_ordered else f"string {last}"
    numbers = pictures.line_numbers(item.tuning)
    return Explanation(
        "From the neck to the page",
        (
            f"Look down at the neck as you play: {gauge} is nearest your face, so it is drawn at the top of the "
            "neck here.",
            f"On the page it is the bottom line, line {last}. Page and neck are each other's mirror: what is at "
            "the bottom of the one is at the top of the other.",
            f"Press the number of the line, 1 to {last}.",
        ),
        Picture(
            pictures.bare_staff(item.tuning, manner.dialect, {last: Role.LIT}, numbers),
            pictures.neck_strings(item.tuning, {last: Role.LIT}, manner.left_handed, numbers),
        ),
    )
