"""What the settings look like: a staff and a neck, and a few words, drawn anew with every change."""

from __future__ import annotations

from typing import Final

from drills.kinds.pictures import line_letters, neck_with
from drills.notation.drawing import Role
from drills.notation.pitch import spell
from drills.notation.score import At, Bar, Mark, MarkKind, Note, Onset, Piece
from drills.notation.staff import StaffView
from drills.notation.tuning import Tuning
from drills.question import Manner, Picture
from trainer.profile.settings import Settings
from trainer.screens.stage import SIGNS

STRING, FRET = 5, 3
"""The first note of the picture: C on a guitar."""
NEVER: Final = "never"


def preview(settings: Settings, tuning: Tuning, manner: Manner) -> Picture:
    """A few notes and signs in the learner's manner, and where they are on the neck."""
    first, other = min(STRING, tuning.lines), min(3, tuning.lines - 1)
    notes = (
        Note(first, FRET),
        Note(other, 0, (Mark(MarkKind.HAMMER_ON),)),
        Note(other, 2),
        Note(2, 3, (Mark(MarkKind.SLIDE_UP),)),
        Note(2, 5),
    )
    labels = line_letters(tuning, manner.naming) if settings.help != NEVER else ()
    piece = Piece(tuning, (Bar(tuple(Onset((note,)) for note in notes)),))
    places = {(note.string, note.fret): Role.FRET for note in notes if note.fret is not None}
    places[first, FRET] = Role.MARK
    return Picture(
        StaffView(piece, manner.dialect, labels, colours={At(0, 0, first): Role.MARK}),
        neck_with(tuning, places, manner.left_handed, labels),
    )


def preview_rows(settings: Settings, tuning: Tuning, manner: Manner, *, ascii_only: bool) -> list[str]:
    """The strings, what the first note sounds, and how an answer to it is spoken of."""
    strings = " ".join(pitch.spn(tuning.flats) for pitch in reversed(tuning.strings))
    first = min(STRING, tuning.lines)
    sounding = tuning.with_capo(settings.capo).sound(first, FRET)
    name = spell(sounding.names[-1] if tuning.flats else sounding.names[0], manner.naming)
    capo = f", with the capo on fret {settings.capo}" if settings.capo else ""
    sign = SIGNS[ascii_only][True]
    seconds = ", 1.2 s" if settings.talk_of_speed and not settings.short_words else ""
    return [
        f"{tuning.lines} to 1: {strings}",
        f"String {first}, fret {FRET} sounds {name}{capo}.",
        f"{sign} {'Yes' if settings.short_words else 'Right'}: {name}{seconds}.",
    ]
