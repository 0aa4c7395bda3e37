"""The notes of one staff in words, in time."""

from __future__ import annotations

from collections.abc import Iterator

from drills.notation.drawing import Role
from drills.notation.mark_words import closing_words, hanging_words, link_words, note_words, opening_words
from drills.notation.score import At, Bar, MarkKind, Note, Onset
from drills.notation.signs import links
from drills.notation.spoken_time import count_word, say_value
from drills.notation.staff_view import StaffView
from drills.notation.values import count_words, parts_of


def say_place(string: int, fret: int | None) -> str:
    """``string 5, fret 3``, ``string 3, open``."""
    return f"string {string}, {say_fret(fret)}"


def say_fret(fret: int | None) -> str:
    """``fret 3``, ``open``, ``muted``."""
    if fret is None:
        return "muted"
    return f"fret {fret}" if fret else "open"


class Speaker:
    """Says the onsets of one staff in time."""

    def __init__(self, view: StaffView, spell: bool) -> None:
        self.view = view
        self.spell = spell
        self.links = links(view.piece)
        self.reached = {link.target: link for link in self.links if link.target is not None}
        self.parts = parts_of(view.piece) if view.count or view.ticks else 0

    def all(self) -> str:
        """Everything, bar after bar."""
        bars = self.view.piece.bars
        text = ""
        for index, bar in enumerate(bars):
            text += opening_words(bar, self.view.dialect, self.spell)
            text += "; ".join(self._counted(index, bar)) if self.parts else self._in_order(index, bar)
            hidden = index in self.view.hidden_bar_lines
            closed = "" if hidden else closing_words(bar, self.view.dialect, self.spell)
            if index + 1 < len(bars):
                text += "; " if hidden else f"; {closed or 'bar line'}; "
            elif closed:
                text += f"; {closed}"
        return text

    def _in_order(self, index: int, bar: Bar) -> str:
        """One after another: ``string 5, fret 3, then together ...``; what a sign leads to follows without "then"."""
        text = ""
        for n, onset in enumerate(bar.onsets):
            slurred = len(onset.notes) == 1 and At(index, n, onset.notes[0].string) in self.reached
            text += ("" if not text else ", " if slurred else ", then ") + self._onset(index, n, onset)
        return text or "an empty bar"

    def _counted(self, index: int, bar: Bar) -> Iterator[str]:
        """Every word of the count with what falls on it."""
        struck = {onset.beat: (n, onset) for n, onset in enumerate(bar.onsets)}
        for beat, sign in count_words(bar, self.parts):
            word = count_word(sign, ticks=self.view.ticks)
            found = struck.get(beat)
            yield f"{word}: {self._onset(index, *found)}" if found else word

    def _onset(self, bar: int, n: int, onset: Onset) -> str:
        found = sorted(onset.notes, key=lambda note: note.string)
        said = [self._note(At(bar, n, note.string), note, alone=len(found) == 1) for note in found] or ["a rest"]
        if self.view.stems:
            said[-1] += ", " + say_value(self.view, onset, self.view.piece.bars[bar], spell=self.spell)
        key = self.view.keys.get((bar, n))
        return (f"{key[0]}: " if key else "") + ("together " if len(said) > 1 else "") + " and ".join(said)

    def _note(self, at: At, note: Note, alone: bool) -> str:
        dialect, link = self.view.dialect, self.reached.get(at)
        fret = "an x" if self.spell and note.fret is None else say_fret(note.fret)
        text = f"string {note.string}, {fret}"
        if link is not None:
            near = alone and at.onset - link.source.onset == 1 and at.bar == link.source.bar
            text = f"{link_words(link.mark, dialect, self.spell)} {fret if near else text}"
        held = link is not None and link.mark.kind is MarkKind.TIE
        text += note_words(note, dialect, self.spell, held)
        for each in self.links:
            if each.source == at and each.target is None:
                text += f", {hanging_words(each.mark, dialect, self.spell)}"
        role = self.view.colours.get(at)
        return text + {Role.LIT: " (marked)", Role.TRUE: " (right)", Role.SAID: " (your answer)"}.get(
            role or Role.FRET, ""
        )
