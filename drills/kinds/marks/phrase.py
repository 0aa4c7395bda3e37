"""A few notes with signs, whose picking and sound are asked."""

from __future__ import annotations

from typing import NamedTuple

from drills.kinds.marks import drawn
from drills.kinds.marks.sign import Sign, Step
from drills.kinds.marks.table import BY_KEY
from drills.notation.score import Note
from drills.notation.staff import Dialect, StaffView
from drills.notation.tuning import Tuning
from drills.question import Facts


class Phrase(NamedTuple):
    """A few notes, most often on one string.

    Attributes:
        key: as it stands in item ids.
        title: for people; it tells no answer.
        string: of its top line, at most the number of strings.
        steps: the notes.
        stage: when it is taught.
        signs: keys of the signs in it.
        times: how often it is played.
        picked, sounds: whether its picking and its sound are asked.
    """

    key: str
    title: str
    string: int
    steps: tuple[Step, ...]
    stage: int
    signs: tuple[str, ...]
    times: int = 1
    picked: bool = True
    sounds: bool = True

    def in_it(self) -> list[Sign]:
        """The signs in it."""
        return [BY_KEY[key] for key in self.signs]

    def needs(self) -> tuple[str, ...]:
        """The items that come before it: the names of its signs."""
        return tuple(sign.first_item() for sign in self.in_it())

    def notes(self, tuning: Tuning) -> list[Note]:
        """Its notes, on strings that the tuning has."""
        return drawn.usual(self.steps, tuning, self.string)

    def view(self, tuning: Tuning, dialect: Dialect, *, picking: bool) -> StaffView:
        """It drawn, with a legend for what the dialect alone does not tell.

        Args:
            tuning: of the staff.
            dialect: of the staff.
            picking: whether its picking is asked.
        """
        rows = drawn.legend_of(self.in_it(), dialect, named=True, picking=picking)
        return StaffView(drawn.one_bar(self.notes(tuning), tuning, self.times), dialect, legend=rows)

    def facts(self, tuning: Tuning) -> Facts:
        """Every mark, which notes are picked, what sounds, where that is known from and how sure it is."""
        notes = self.notes(tuning)
        kinds = [mark.kind.value for note in notes for mark in note.marks] or (["repeat"] if self.times > 1 else [])
        certainties = [sign.certainty.value for sign in self.in_it()]
        return {
            "mark": kinds[0] if kinds else None,
            "marks": kinds,
            "string": notes[0].string,
            "frets": [note.fret for note in notes],
            "picked": drawn.struck(notes),
            "sounds": drawn.heard(notes, tuning, self.times),
            "times": self.times,
            "source": "; ".join(dict.fromkeys(sign.source for sign in self.in_it())) or "common practice, no source",
            "certainty": max(certainties, key=("sure", "likely", "needs a legend").index, default="sure"),
        }
