"""Tab in words, for ears instead of eyes: what is drawn, said from left to right."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from drills.notation.diagram import Box, DiagramView
from drills.notation.drawing import Role
from drills.notation.neck import NeckView
from drills.notation.score import At, Bar, Mark, MarkKind, Note, Onset
from drills.notation.signs import amount_text, bends, links, token
from drills.notation.staff_view import Dialect, StaffView

ORDINALS: Final = ("", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
            "tenth", "eleventh", "twelfth")  # fmt: skip

_NAMES: Final = {
    MarkKind.HAMMER_ON: "hammer-on",
    MarkKind.PULL_OFF: "pull-off",
    MarkKind.SLIDE_UP: "slide up",
    MarkKind.SLIDE_DOWN: "slide down",
}
_ENGRAVED: Final = {
    MarkKind.HAMMER_ON: "an arc with the letter H",
    MarkKind.PULL_OFF: "an arc with the letter P",
    MarkKind.SLIDE_UP: "a rising line under an arc",
    MarkKind.SLIDE_DOWN: "a falling line under an arc",
}
_TYPED: Final = {
    MarkKind.HAMMER_ON: "the letter h",
    MarkKind.PULL_OFF: "the letter p",
    MarkKind.SLIDE_UP: "a slash",
    MarkKind.SLIDE_DOWN: "a backslash",
}
_STEPS: Final = {
    Fraction(1, 4): "a quarter step",
    Fraction(1, 2): "a half step",
    Fraction(1): "a whole step",
    Fraction(3, 2): "one and a half steps",
    Fraction(2): "two whole steps",
}
_ROLES: Final = {Role.LIT: "is marked", Role.TRUE: "is the right one", Role.SAID: "is what you answered"}


def from_edge(place: int, count: int, noun: str) -> str:
    """The ``place``-th of ``count`` from the top: ``the top line``, ``the second line from the bottom``."""
    if place == 1:
        return f"the top {noun}"
    if place == count:
        return f"the bottom {noun}"
    if place <= (count + 1) // 2:
        return f"the {ORDINALS[place]} {noun} from the top"
    return f"the {ORDINALS[count + 1 - place]} {noun} from the bottom"


def say_place(string: int, fret: int | None) -> str:
    """``string 5, fret 3``, ``string 3, open``."""
    return f"string {string}, {_fret(fret)}"


def say_staff(view: StaffView, *, spell: bool = False) -> list[str]:
    """A staff in sentences without their full stops: labels, whole lines that are marked, then all that is played.

    Args:
        view: the staff.
        spell: say how a sign is written instead of its name, where its name is what is asked.
    """
    lines = view.piece.tuning.lines
    said = _labels(view.labels, lines)
    said += [
        f"{from_edge(line, lines, 'line')} {_ROLES[role]}" for line, role in view.lines.items() if role in _ROLES
    ]
    if any(bar.onsets for bar in view.piece.bars):
        said.append(_Speaker(view, spell).all())
    elif not said:
        said.append(f"an empty staff of {lines} lines")
    return said


def say_neck(view: NeckView) -> list[str]:
    """A neck in sentences without their full stops, as the player looks down at it: strings from the top of the
    picture, frets from the nut."""
    said = []
    if view.labels:
        said.append(f"the strings from the top of the neck are labelled {', '.join(reversed(view.labels))}")
    for string, role in view.lit_strings.items():
        if role in _ROLES:
            said.append(f"on the neck, {_neck_string(view, string)} {_ROLES[role]}")
    for (string, fret), (_, role) in view.dots.items():
        told = "" if role in (Role.LIT, Role.FRET) else f" {_ROLES[role]}" if role in _ROLES else ""
        place = f"{_neck_string(view, string)}, {_fret(fret)}"
        said.append(f"on the neck, the dot at {place},{told}" if told else f"on the neck, a dot at {place}")
    if view.keys:
        keyed = (f"{key}: {_neck_string(view, string)}, {_fret(fret)}" for (string, fret), (key, _) in _by_key(view))
        said.append(f"on the neck, {'; '.join(keyed)}")
    return said


def say_diagram(view: DiagramView) -> list[str]:
    """Chord diagrams in sentences without their full stops, each from its last string to string 1."""
    return [_box(box) for box in view.boxes]


def _box(box: Box) -> str:
    lines = box.shape.lines
    held = (
        f"string {lines - n} not played" if fret is None else say_place(lines - n, fret)
        for n, fret in enumerate(box.shape.frets)
    )
    return f"{box.key or box.caption or 'a chord diagram'}: {'; '.join(held)}"


def _by_key(view: NeckView) -> list[tuple[tuple[int, int], tuple[str, str]]]:
    return sorted(view.keys.items(), key=lambda entry: entry[1])


def _neck_string(view: NeckView, string: int) -> str:
    return from_edge(view.strings + 1 - string, view.strings, "string")


def _fret(fret: int | None) -> str:
    if fret is None:
        return "muted"
    return f"fret {fret}" if fret else "open"


def _labels(labels: tuple[str, ...], lines: int) -> list[str]:
    if not labels:
        return []
    if all(labels):
        return [f"the lines from the top are labelled {', '.join(labels)}"]
    return [f"{from_edge(n, lines, 'line')} is labelled {label}" for n, label in enumerate(labels, start=1) if label]


class _Speaker:
    """Says the onsets of one staff in time."""

    def __init__(self, view: StaffView, spell: bool) -> None:
        self.view = view
        self.spell = spell
        self.reached = {link.target: link.mark for link in links(view.piece) if link.target is not None}

    def all(self) -> str:
        bars = self.view.piece.bars
        text = ""
        for index, bar in enumerate(bars):
            text += "; ".join(self.counted(index, bar)) if self.view.count else self.in_order(index, bar)
            if index + 1 < len(bars):
                text += "; " if index in self.view.hidden_bar_lines else "; bar line; "
        return text

    def in_order(self, index: int, bar: Bar) -> str:
        """One after another: ``string 5, fret 3, then together ...``; what a sign leads to follows without "then"."""
        text = ""
        for n, onset in enumerate(bar.onsets):
            slurred = len(onset.notes) == 1 and At(index, n, onset.notes[0].string) in self.reached
            text += ("" if not text else ", " if slurred else ", then ") + self.onset(index, n, onset)
        return text or "an empty bar"

    def counted(self, index: int, bar: Bar) -> Iterator[str]:
        """Every word of the count with what falls on it."""
        beats = bar.metre.beats if bar.metre else 4
        struck = {onset.beat: (n, onset) for n, onset in enumerate(bar.onsets)}
        for half in range(2 * beats):
            word = "and" if half % 2 else str(half // 2 + 1)
            found = struck.get(1 + Fraction(half, 2))
            yield f"{word}: {self.onset(index, *found)}" if found else word

    def onset(self, bar: int, n: int, onset: Onset) -> str:
        said = [self.note(At(bar, n, note.string), note) for note in sorted(onset.notes, key=lambda each: each.string)]
        key = self.view.keys.get((bar, n))
        return (f"{key[0]}: " if key else "") + ("together " if len(said) > 1 else "") + " and ".join(said)

    def note(self, at: At, note: Note) -> str:
        mark = self.reached.get(at)
        text = say_place(note.string, note.fret) if mark is None else f"{self.link(mark)} to {_fret(note.fret)}"
        role = self.view.colours.get(at)
        told = {Role.LIT: " (marked)", Role.TRUE: " (right)", Role.SAID: " (your answer)"}.get(role or Role.FRET, "")
        return text + self.bends(note) + told

    def link(self, mark: Mark) -> str:
        if not self.spell:
            return _NAMES[mark.kind]
        return (_TYPED if self.view.dialect == Dialect.TEXT else _ENGRAVED)[mark.kind]

    def bends(self, note: Note) -> str:
        found = bends(note)
        if not found:
            return ""
        if self.spell and self.view.dialect == Dialect.TEXT:
            return f", written {token(note)}"
        return "".join(self.bend(mark) for mark in found)

    def bend(self, mark: Mark) -> str:
        if mark.kind is MarkKind.RELEASE:
            return ", then an arrow down again" if self.spell else " and released"
        if self.spell:
            return f", an arrow up to {_amount(mark)}".rstrip()
        step = "" if mark.amount is None else f" {_STEPS.get(mark.amount, amount_text(mark.amount) + ' steps')}"
        return f", bent up{step}" + (" before it is picked" if mark.kind is MarkKind.PRE_BEND else "")


def _amount(mark: Mark) -> str:
    return {Fraction(1, 2): "one half", Fraction(1): "1"}.get(mark.amount or Fraction(0), amount_text(mark.amount))
